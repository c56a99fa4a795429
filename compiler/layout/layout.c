/* layout.c - a guide in the order of the printed page. */
#include "layout/layout.h"

#include "base/arena.h"
#include "layout/annex.h"
#include "layout/datasheet.h"
#include "layout/fingerprint.h"
#include "layout/foot.h"
#include "layout/front.h"
#include "layout/paginate.h"
#include "layout/partlist.h"
#include "layout/prepare.h"
#include "layout/prose.h"
#include "layout/refer.h"
#include "layout/safety.h"
#include "layout/shape.h"
#include "layout/signoff.h"

#include <ctype.h>

/* The page in order. A part prints the author's section of that title, then
 * what is made for it; sections with other titles stand behind the one that
 * they follow in the source. */
struct part {
    const char *title;
    bool (*any)(const struct leaf *l); /* something is made; NULL: always */
    void (*make)(struct leaf *l);      /* NULL: the author's text only */
};

static const struct part parts[] = {
    {"Purpose", NULL, NULL},
    {"Safety summary", NULL, safety_set},
    {"Before you start", NULL, prepare_set},
    {"Parts", partlist_any, partlist_set},
    {"Electrical data", datasheet_any_electrical, datasheet_set_electrical},
    {"Torque", datasheet_any_torque, datasheet_set_torque},
    {"As found", NULL, NULL},
    {"Procedure", NULL, NULL},
    {"Limits", datasheet_any_limits, datasheet_set_limits},
    {"Test", NULL, NULL},
    {"Close-up", NULL, NULL},
    {"Faults", NULL, NULL},
    {"For the owner", NULL, NULL},
    {"Records and sign-off", NULL, signoff_set},
    {"Calculations", annex_any, annex_set},
};

enum { PARTS = sizeof parts / sizeof parts[0], OWNER_PART = 12 };

static bool is_title(struct text a, const char *b) {
    struct text t = text_of(b);
    if (a.len != t.len)
        return false;
    for (size_t i = 0; i < t.len; i++)
        if (tolower((unsigned char)a.start[i]) !=
            tolower((unsigned char)t.start[i]))
            return false;
    return true;
}

/* Index of the part that a section belongs to, or PARTS. */
static size_t part_of(struct leaf *l, const struct node *section) {
    struct text title = tree_plain(l->composer.arena, section->text);
    for (size_t i = 0; i < PARTS; i++)
        if (is_title(title, parts[i].title))
            return i;
    return PARTS;
}

static bool prints(const struct node *n) {
    if (n->kind != NODE_BLOCK)
        return true;
    enum kind_id id = n->block->kind->id;
    return (n->block->kind->flags & KIND_PRINTS_TABLE) != 0 ||
           id == KIND_FIGURE || id == KIND_DANGER || id == KIND_WARNING ||
           id == KIND_CAUTION || id == KIND_NOTICE;
}

static bool has_content(const struct node *section) {
    for (const struct node *n = section->first; n != NULL; n = n->next)
        if (prints(n))
            return true;
    return false;
}

static void set_section(struct leaf *l, const struct node *section,
                        bool heading) {
    struct spot spot = prose_body(l, l->applies);
    variant_set inner = prose_variants(l, section, l->applies);
    if (prose_hidden(l, section) || inner == 0)
        return;
    if (heading)
        leaf_heading(l, tree_plain(l->composer.arena, section->text), refer_node(l, section),
                     section->at);
    struct rich lead = {0};
    prose_add_lead(l, &lead, section, &spot, inner);
    flow_paragraph(&l->flow, &lead, spot.x, spot.width, spot.type, section->at);
    spot.variants = inner;
    prose_nodes(l, section->first, &spot);
}

/* Sections of other titles that follow `after` (NULL: that stand first). */
static void set_others(struct leaf *l, const struct node *after) {
    const struct node *n = after == NULL ? l->guide->root->first : after->next;
    for (; n != NULL; n = n->next) {
        if (n->kind != NODE_SECTION)
            continue;
        if (part_of(l, n) < PARTS)
            return;
        set_section(l, n, true);
    }
}

static void set_part(struct leaf *l, size_t index) {
    const struct part *part = &parts[index];
    bool made = part->make != NULL && (part->any == NULL || part->any(l));
    bool heading = false;
    const struct node *last = NULL;
    l->owner = index == OWNER_PART;
    for (const struct node *n = l->guide->root->first; n; n = n->next) {
        if (n->kind != NODE_SECTION || part_of(l, n) != index)
            continue;
        last = n;
        if (!has_content(n) && !made)
            continue;
        set_section(l, n, !heading);
        heading = true;
    }
    l->owner = false;
    if (made) {
        if (!heading)
            leaf_heading(l, text_of(part->title), NULL, l->guide->root->at);
        part->make(l);
    }
    if (last != NULL)
        set_others(l, last);
}

/* Text before the first section stands under the title block. */
static void set_opening(struct leaf *l) {
    struct spot spot = prose_body(l, l->applies);
    for (const struct node *n = l->guide->root->first; n; n = n->next) {
        if (n->kind == NODE_SECTION)
            break;
        struct node alone = *n;
        alone.next = NULL;
        flow_space(&l->flow, 12);
        prose_nodes(l, &alone, &spot);
    }
    set_others(l, NULL);
}

static void set_all(struct leaf *l) {
    l->flow = (struct flow){.c = &l->composer};
    l->warned = NULL;
    front_set(l);
    set_opening(l);
    for (size_t i = 0; i < PARTS; i++)
        set_part(l, i);
}

/* Once, or again until there is room for each "page 10". */
static size_t break_pages(struct leaf *l, const size_t **starts) {
    size_t count;
    refer_open(l);
    do {
        set_all(l);
        count = paginate_break(&l->flow, starts);
    } while (!refer_settle(l));
    return count;
}

static void describe(struct leaf *l, struct pages *out, const char *title) {
    struct arena *a = l->composer.arena;
    struct text id = leaf_setting(l, "id");
    out->title =
        text_of(arena_printf(a, "%.*s %s", (int)id.len, id.start, title));
    out->author = leaf_setting(l, "author");
    out->subject = text_of(arena_printf(
        a, "revision %s, %s", text_cstr(a, leaf_setting(l, "revision")),
        front_status(l)));
}

/* From the frame to the paper: A4 is taller, Letter is wider on the right. */
static void to_paper(struct pages *p, struct arena *a, bool a4) {
    double down = a4 ? 25 : 0;
    for (size_t i = 0; i < p->count; i++) {
        struct page *page = &p->page[i];
        page->width = a4 ? 595 : 612;
        page->height = a4 ? 842 : 792;
        for (size_t k = 0; down > 0 && k < page->op_count; k++) {
            page->ops[k] = slab_moved(a, &page->ops[k], 0, down);
            page->ops[k].target_y += down;
        }
    }
    for (size_t i = 0; i < p->outline_count; i++)
        p->outline[i].y += down;
}

struct pages *layout_pages_on(struct compile *c, const struct guide *g,
                              const struct values *v, const struct findings *f,
                              const struct layout_options *options) {
    struct leaf l = {
        .style = *style_standard(),
        .guide = g,
        .values = v,
        .findings = f,
        .applies = values_applies(v),
    };
    l.composer = (struct composer){.arena = c->arena,
                                   .diags = c->diags,
                                   .shaper = shape_new(c->arena),
                                   .style = &l.style};
    struct foot foot = front_foot(&l);
    struct foot_lines *foot_lines = foot_set(&l.composer, &foot);
    double sheet_bottom = l.style.bottom;
    l.style.bottom -= foot_height(foot_lines);
    const size_t *starts;
    size_t count = break_pages(&l, &starts);
    struct pages *out = arena_alloc(c->arena, 1, sizeof *out);
    paginate_place(&l.flow, starts, count, out);
    l.style.bottom = sheet_bottom;
    for (size_t i = 0; i < count; i++)
        foot_draw(&l.composer, foot_lines, &out->page[i], i + 1, count);
    fingerprint_make(out, out->code);
    for (size_t i = 0; i < count; i++)
        foot_draw_code(&l.composer, foot_lines, &out->page[i], out->code);
    front_draw_code(&l, &out->page[0], out->code);
    describe(&l, out, foot.title);
    bool a4 = options->paper == PAPER_A4 ||
              (options->paper == PAPER_BY_GUIDE &&
               text_is(leaf_setting(&l, "units"), "SI"));
    to_paper(out, c->arena, a4);
    shape_free(l.composer.shaper);
    return out;
}

struct pages *layout_pages(struct compile *c, const struct guide *g,
                           const struct values *v, const struct findings *f) {
    struct layout_options options = {.paper = PAPER_BY_GUIDE};
    return layout_pages_on(c, g, v, f, &options);
}
