/* sheet.c - the template of a guide's pages. */
#include "layout/sheet.h"

#include "base/arena.h"
#include "base/diag.h"
#include "source/file.h"
#include "source/gallery.h"
#include "source/kind.h"
#include "source/read.h"
#include "source/suggest.h"
#include "values/literal.h"

#include <string.h>

/* sheets.S */
extern const char sheet_shop[], sheet_shop_end[];
extern const char sheet_bench[], sheet_bench_end[];
extern const char sheet_owner[], sheet_owner_end[];

static const struct {
    const char *name, *start, *end;
} shipped[] = {
    {"shop", sheet_shop, sheet_shop_end},
    {"bench", sheet_bench, sheet_bench_end},
    {"owner", sheet_owner, sheet_owner_end},
};

enum { SHIPPED = sizeof shipped / sizeof shipped[0] };

static const double points = 72 / 0.0254; /* to the metre */

/* --- which file --- */

static const struct guide *report_unknown(struct compile *c, const char *name) {
    struct nearest near = nearest_to(text_of(name));
    for (size_t i = 0; i < SHIPPED; i++)
        nearest_offer(&near, text_of(shipped[i].name));
    const char *hint = suggest(c->arena, text_of(name),
                               (struct text){near.best, near.best_len});
    diag_add(c->diags, DIAG_TEMPLATE_UNKNOWN, (struct span){0}, "'%s'%s", name,
             hint[0] != '\0' ? hint
                             : "; write templates/NAME.md, or leave it out");
    return NULL;
}

static const struct guide *read_source(struct compile *c, const char *name) {
    const char *file = arena_printf(c->arena, "templates/%s.md", name);
    const char *own = c->library == NULL || strcmp(c->library, ".") == 0
                          ? file
                          : arena_printf(c->arena, "%s/%s", c->library, file);
    /* One part of a path, not hidden: it cannot leave its folder. */
    bool plain = name[0] != '.' && strchr(name, '/') == NULL;
    if (plain && file_is_there(c, own))
        return source_read_template(c, own);
    for (size_t i = 0; i < SHIPPED; i++)
        if (strcmp(shipped[i].name, name) == 0)
            return source_read_template_text(
                c, file,
                (struct text){shipped[i].start,
                              (size_t)(shipped[i].end - shipped[i].start)});
    return report_unknown(c, name);
}

/* --- the `page` block --- */

static const struct entry *entry_of(const struct sheet *s, const char *name) {
    for (; s != NULL; s = s->like) {
        const struct entry *e =
            s->page == NULL ? NULL : tree_setting(s->page, name);
        if (e != NULL && !e->bad && e->choice_count > 0)
            return e;
    }
    return NULL;
}

struct text sheet_setting(const struct sheet *s, const char *name) {
    const struct entry *e = entry_of(s, name);
    struct text t = e == NULL ? (struct text){NULL, 0} : e->choices[0].text;
    t = text_trim(t);
    bool quoted = t.len >= 2 && t.start[0] == '"' && t.start[t.len - 1] == '"';
    return quoted ? text_part(t, 1, t.len - 1) : t;
}

/* A length in points, in [least, most]; `usual` where nothing is written. */
static double length_of(struct compile *c, const struct sheet *sheet,
                        const char *name, double usual, double least,
                        double most) {
    const struct entry *e = entry_of(sheet, name);
    struct text t = sheet_setting(sheet, name);
    if (t.len == 0)
        return usual;
    struct scan s = {
        .text = t, .src = e->at.src, .diags = c->diags, .arena = c->arena};
    struct quantity_maker maker = {.arena = c->arena};
    const struct quantity *q =
        scan_at_number(&s) ? literal_read(&s, &maker) : NULL;
    if (s.failed)
        return usual;
    const struct unit *metre = unit_find("m", 1);
    if (q == NULL || !scan_end(&s) || !dim_equal(q->dim, metre->dim))
        scan_fail(&s, DIAG_VALUE_TYPE, 0, t.len, "a length: 19 mm, 3/4 in");
    else if (q->nominal * points < least - 0.01 ||
             q->nominal * points > most + 0.01)
        scan_fail(&s, DIAG_SETTING_VALUE, 0, t.len, "%.0f mm to %.0f mm",
                  least / points * 1000, most / points * 1000);
    else
        return q->nominal * points;
    return usual;
}

static double step_size(struct compile *c, const struct sheet *s) {
    struct text t = sheet_setting(s, "step size");
    double size = 0;
    if (t.len == 0)
        return 12;
    for (size_t i = 0; i < t.len && size < 1000; i++)
        size = size * 10 + (t.start[i] - '0');
    if (size >= 11 && size <= 18)
        return size;
    diag_add(c->diags, DIAG_SETTING_VALUE, entry_of(s, "step size")->at,
             "11 to 18 points: smaller ones cannot be read at arm's length");
    return 12;
}

static const struct {
    const char *name;
    double width, height; /* points */
} papers[] = {
    {"Letter", 612, 792}, {"A4", 595, 842},       {"Legal", 612, 1008},
    {"A3", 842, 1191},    {"Tabloid", 792, 1224}, {"A5", 420, 595},
};

enum { LETTER, A4, PAPERS = sizeof papers / sizeof papers[0] };

/* What the caller wants, else what the template says, else by the units. */
static size_t paper_index(struct text wanted, enum paper paper, bool si) {
    if (paper != PAPER_BY_GUIDE)
        return paper == PAPER_A4 ? A4 : LETTER;
    for (size_t i = 0; i < PAPERS; i++)
        if (text_is(wanted, papers[i].name))
            return i;
    return si ? A4 : LETTER;
}

/* `by units`: pages are broken in what Letter and A4 have in common, so that
 * "page 3" is page 3 on both. */
static void choose_paper(struct sheet *s, enum paper paper, bool si) {
    struct text wanted = sheet_setting(s, "paper");
    size_t i = paper_index(wanted, paper, si);
    bool common = wanted.len == 0 || text_is(wanted, "by units");
    s->width = papers[i].width;
    s->height = papers[i].height;
    s->style.width = common ? papers[A4].width : s->width;
    s->style.height = common ? papers[LETTER].height : s->height;
    s->down = (s->height - s->style.height) / 2;
}

/* Between the margins: numbers of steps and signs stand in 72 pt of it. */
static const double NARROWEST = 0.08 / 0.0254 * 72;

static void choose_frame(struct compile *c, struct sheet *s) {
    struct style *style = &s->style;
    const double least = 5 * points / 1000, most = 60 * points / 1000;
    style->left = length_of(c, s, "binding margin", style->left, least, most);
    style->right =
        style->width - length_of(c, s, "outer margin", 37, least, most);
    style->top = length_of(c, s, "top margin", style->top, least, most);
    style->bottom =
        style->height - length_of(c, s, "bottom margin", 37, least, most);
    if (style->right - style->left < NARROWEST - 0.01) {
        const struct entry *e = entry_of(s, "binding margin");
        e = e == NULL ? entry_of(s, "outer margin") : e;
        diag_add(c->diags, DIAG_SETTING_VALUE, e->at,
                 "the margins leave %.0f mm for the text, it needs %.0f mm",
                 (style->right - style->left) / points * 1000,
                 NARROWEST / points * 1000);
    }
    double body = style->right - style->left - style->rail;
    if (style->measure > body)
        style->measure = body;
    s->logo_height = length_of(c, s, "logo height", 28, 5 * points / 1000,
                               30 * points / 1000);
}

/* --- the parts --- */

enum part_id sheet_part(const struct block *insert) {
    return part_by_word(insert->name);
}

static void add_insert(struct compile *c, struct sheet *s,
                       const struct block *b) {
    enum part_id part = sheet_part(b);
    struct span at = place_of(b->scope->src, b->name);
    struct nearest near = nearest_to(b->name);
    if (part < PART_COUNT && s->insert[part] == NULL) {
        s->insert[part] = b;
        return;
    }
    if (part < PART_COUNT) {
        diag_add(c->diags, DIAG_BLOCK_TWICE, at, "'%s' prints once",
                 part_word(part));
        return;
    }
    for (int i = 0; i < PART_COUNT; i++)
        nearest_offer(&near, text_of(part_word((enum part_id)i)));
    diag_add(
        c->diags, DIAG_PART_UNKNOWN, at, "'%.*s'%s", (int)b->name.len,
        b->name.start,
        suggest(c->arena, b->name, (struct text){near.best, near.best_len}));
}

static void find_blocks(struct compile *c, struct sheet *s) {
    for (size_t i = 0; i < s->source->block_count; i++) {
        const struct block *b = s->source->blocks[i];
        if (b->kind->id == KIND_INSERT)
            add_insert(c, s, b);
        else if (b->kind->id == KIND_PAGE && s->page != NULL)
            diag_add(c->diags, DIAG_BLOCK_TWICE, b->at,
                     "a template has one 'page'");
        else if (b->kind->id == KIND_PAGE)
            s->page = b;
    }
}

static bool has_parts(const struct sheet *s) {
    for (int i = 0; i < PART_COUNT; i++)
        if (s->insert[i] != NULL)
            return true;
    return false;
}

static void need(struct compile *c, const struct sheet *s, enum part_id part,
                 const char *why) {
    if (s->insert[part] == NULL)
        diag_add(c->diags, DIAG_PART_MISSING,
                 (struct span){s->source->src, 0, 0}, "'insert %s': %s",
                 part_word(part), why);
}

/* Nobody is to work by pages that do not say what they are, which vehicle they
 * are for and what can hurt. */
static void check_needed(struct compile *c, const struct sheet *s) {
    need(c, s, PART_TITLE, "a sheet says what it is");
    if (s->insert[PART_JOB] != NULL && c->job == NULL)
        diag_add(c->diags, DIAG_TEMPLATE_FORM, s->insert[PART_JOB]->at,
                 "'insert job': only `bayleaf sheet` prints a job");
    if (s->insert[PART_PROCEDURE] == NULL)
        return;
    need(c, s, PART_APPLICABILITY, "steps hold for the vehicles named");
    need(c, s, PART_SAFETY, "steps are read after what can hurt");
}

enum { LIKE_MAX = 4 }; /* templates that take from each other */

/* Its own settings and parts, and those of the one that it is like. */
static struct sheet *read_named(struct compile *c, const char *name,
                                int depth) {
    struct sheet *s = arena_alloc(c->arena, 1, sizeof *s);
    s->own = s->source = read_source(c, name);
    if (s->own == NULL)
        return NULL;
    find_blocks(c, s);
    const struct entry *e =
        s->page == NULL ? NULL : tree_setting(s->page, "like");
    if (e == NULL || e->choice_count == 0)
        return s;
    if (depth == LIKE_MAX) {
        diag_add(c->diags, DIAG_TEMPLATE_FORM, e->at,
                 "templates that are like each other in a circle");
        return NULL;
    }
    s->like =
        read_named(c, text_cstr(c->arena, sheet_setting(s, "like")), depth + 1);
    if (s->like != NULL && !has_parts(s)) {
        s->source = s->like->source;
        memcpy(s->insert, s->like->insert, sizeof s->insert);
    }
    return s->like == NULL ? NULL : s;
}

const struct sheet *sheet_read(struct compile *c,
                               const struct layout_options *options, bool si) {
    const char *name = options->template == NULL ? "shop" : options->template;
    struct sheet *s = read_named(c, name, 0);
    if (s == NULL)
        return NULL;
    check_needed(c, s);
    s->style = style_of(step_size(c, s));
    choose_paper(s, options->paper, si);
    choose_frame(c, s);
    return diag_status(c->diags) == 0 ? s : NULL;
}

const struct inlines *sheet_heading(const struct sheet *s, enum part_id part) {
    const struct block *b = part < PART_COUNT ? s->insert[part] : NULL;
    const struct node *section = b == NULL ? NULL : tree_section(b->node);
    return section == NULL ? NULL : section->text;
}

const struct image *sheet_logo(const struct sheet *s) {
    struct text path = sheet_setting(s, "logo");
    for (; path.len > 0 && s != NULL; s = s->like) {
        const struct image *im = gallery_find(s->own, path);
        if (im != NULL)
            return im;
    }
    return NULL;
}
