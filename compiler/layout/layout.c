/* layout.c - a guide in the order of the printed page. */
#include "layout/layout.h"

#include "base/arena.h"
#include "base/diag.h"
#include "layout/annex.h"
#include "layout/apart.h"
#include "layout/bind.h"
#include "layout/datasheet.h"
#include "layout/drift.h"
#include "layout/front.h"
#include "layout/owner.h"
#include "layout/paginate.h"
#include "layout/partlist.h"
#include "layout/prepare.h"
#include "layout/prose.h"
#include "layout/refer.h"
#include "layout/revise.h"
#include "layout/safety.h"
#include "layout/sheet.h"
#include "layout/signoff.h"
#include "layout/watch.h"
#include "values/plain.h"

#include <string.h>

/* What is made for a part, behind the author's sections of its title. */
struct maker {
    bool (*any)(const struct leaf *l); /* something is made; NULL: always */
    void (*make)(struct leaf *l);      /* NULL: the author's text only */
};

static const struct maker makers[PART_COUNT] = {
    [PART_TITLE] = {NULL, front_set_title},
    [PART_PARTICULARS] = {NULL, front_set_particulars},
    [PART_APPLICABILITY] = {front_any_applicability, front_set_applicability},
    [PART_CHANGES] = {NULL, front_set_changes},
    [PART_SAFETY] = {NULL, safety_set},
    [PART_PRELIMINARY] = {NULL, prepare_set},
    [PART_PARTS] = {partlist_any, partlist_set},
    [PART_ELECTRICAL] = {datasheet_any_electrical, datasheet_set_electrical},
    [PART_TORQUE] = {datasheet_any_torque, datasheet_set_torque},
    [PART_LIMITS] = {datasheet_any_limits, datasheet_set_limits},
    [PART_RECORDS] = {NULL, signoff_set},
    [PART_CALCULATIONS] = {annex_any, annex_set},
    [PART_JOB] = {NULL, owner_set_job},
    [PART_COMPLAINT] = {owner_any_complaint, owner_set_complaint},
    [PART_WORK] = {NULL, owner_set_work},
    [PART_READINGS] = {owner_any_readings, owner_set_readings},
    [PART_MEASURED] = {owner_any_measured, owner_set_measured},
    [PART_FITTED] = {owner_any_fitted, owner_set_fitted},
    [PART_RATINGS] = {datasheet_any_ratings, datasheet_set_ratings},
    [PART_WATCH] = {NULL, watch_set},
    [PART_NEXT_CHECK] = {owner_any_next, owner_set_next},
    [PART_SIGNED] = {NULL, owner_set_signed},
};

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

/* An author's section, without its heading. */
static void set_section(struct leaf *l, const struct node *section) {
    struct spot spot = prose_body(l, l->applies);
    variant_set inner = prose_variants(l, section, l->applies);
    struct rich lead = {0};
    prose_add_lead(l, &lead, section, &spot, inner);
    flow_paragraph(&l->flow, &lead, spot.x, spot.width, spot.type, section->at);
    spot.variants = inner;
    prose_nodes(l, section->first, &spot);
}

static bool is_for_us(struct leaf *l, const struct node *section) {
    return prose_variants(l, section, l->applies) != 0;
}

/* "Proceedure" is printed where it stands, and is no procedure. */
static void question_heading(struct leaf *l, const struct node *section) {
    struct text title = tree_plain(l->composer.arena, section->text);
    const char *near = part_near(title);
    if (near != NULL)
        diag_add(l->composer.diags, DIAG_HEADING_NEAR, section->at,
                 "'%.*s' (did you mean '%s'?)", (int)title.len, title.start,
                 near);
}

/* Sections of other titles that follow one of the part, or another one that is
 * not printed; of PART_OPENING, those that stand first. */
static void set_others(struct leaf *l, enum part_id part) {
    enum part_id follows = PART_OPENING;
    for (const struct node *n = l->guide->root->first; n != NULL; n = n->next) {
        if (n->kind != NODE_SECTION)
            continue;
        enum part_id own = part_of_section(l->composer.arena, n);
        if (own != PART_COUNT) {
            if (l->sheet->insert[own] != NULL)
                follows = own;
        } else if (follows == part && is_for_us(l, n)) {
            question_heading(l, n);
            drift_end(&l->flow);
            leaf_heading(
                l,
                values_plain(l->values, l->composer.arena, n->text, l->applies),
                refer_node(l, n), n->at);
            set_section(l, n);
        }
    }
}

static bool is_made(const struct leaf *l, enum part_id part) {
    const struct maker *m = &makers[part];
    return m->make != NULL && (m->any == NULL || m->any(l));
}

/* The author's next section of a part that prints; `after` NULL: the first. */
static const struct node *next_section(struct leaf *l, enum part_id part,
                                       const struct node *after) {
    const struct node *n = after == NULL ? l->guide->root->first : after->next;
    for (; n != NULL; n = n->next)
        if (n->kind == NODE_SECTION &&
            part_of_section(l->composer.arena, n) == part && is_for_us(l, n) &&
            has_content(n))
            return n;
    return NULL;
}

/* Text before the first section. */
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
    set_others(l, PART_OPENING);
}

/* The others are made anew from these, or are to be filled in. */
static bool has_passages(enum part_id part) {
    return part >= PART_OPENING && part != PART_SAFETY &&
           part != PART_RECORDS && part != PART_CALCULATIONS;
}

/* Tables that drawings may stand before or behind. */
static bool is_data(enum part_id part) {
    return part == PART_PARTS || part == PART_ELECTRICAL ||
           part == PART_TORQUE || part == PART_LIMITS;
}

static void set_part(struct leaf *l, enum part_id part) {
    if (!is_data(part))
        drift_end(&l->flow);
    if (part == PART_OPENING) {
        set_opening(l);
        return;
    }
    l->flow.passages = has_passages(part);
    for (const struct node *n = next_section(l, part, NULL); n != NULL;
         n = next_section(l, part, n))
        set_section(l, n);
    if (is_made(l, part))
        makers[part].make(l);
    l->flow.passages = true;
    set_others(l, part);
}

static bool is_insert(const struct node *n) {
    return n->kind == NODE_BLOCK && n->block->kind->id == KIND_INSERT;
}

static bool begins_page(const struct node *insert) {
    const struct entry *e = tree_setting(insert->block, "new page");
    return e != NULL && e->choice_count > 0 &&
           text_is(text_trim(e->choices[0].text), "yes");
}

/* Words of the template part what may move: no drawing passes them. They lead
 * to the part below them. */
static void set_words(struct leaf *l, const struct node *n,
                      const struct spot *spot) {
    bool open = l->flow.drift_open;
    struct node alone = *n;
    alone.next = NULL;
    drift_end(&l->flow);
    prose_nodes(l, &alone, spot);
    if (open)
        drift_begin(&l->flow, false);
    if (n->next != NULL && is_insert(n->next))
        flow_bond(&l->flow, BOND_FIRM);
}

/* Text and parts of the template, in its order. For `begun`, a page was begun
 * already if it wants one. */
static void set_run(struct leaf *l, const struct node *first,
                    const struct node *begun) {
    struct spot spot = prose_body(l, l->applies);
    for (const struct node *n = first; n != NULL; n = n->next) {
        if (n->kind == NODE_SECTION)
            return;
        if (is_insert(n)) {
            l->flow.fresh |= n != begun && begins_page(n);
            set_part(l, sheet_part(n->block));
        } else if (n->kind != NODE_BLOCK) {
            set_words(l, n, &spot);
        }
    }
}

/* Whether what stands first below the heading need not be read first. */
static bool begins_with_table(const struct node *own) {
    const struct node *n = own == NULL ? NULL : own->first;
    while (n != NULL && !prints(n))
        n = n->next;
    return n == NULL || (n->kind == NODE_BLOCK &&
                         (n->block->kind->flags & KIND_PRINTS_TABLE) != 0);
}

/* A heading with nothing to print below it stays away. */
static void set_headed(struct leaf *l, const struct node *section) {
    const struct node *head = NULL, *own = NULL; /* first insert, section */
    bool any = false;
    for (const struct node *n = section->first; n != NULL; n = n->next) {
        if (!is_insert(n))
            continue;
        enum part_id part = sheet_part(n->block);
        head = head == NULL ? n : head;
        own = own == NULL ? next_section(l, part, NULL) : own;
        any |= own != NULL || is_made(l, part);
    }
    if (head != NULL && !any)
        return;
    l->flow.fresh |= head != NULL && begins_page(head);
    bool data = head != NULL && is_data(sheet_part(head->block));
    if (!data || l->flow.fresh)
        drift_end(&l->flow);
    leaf_heading(l, tree_plain(l->composer.arena, section->text),
                 own == NULL ? NULL : refer_node(l, own),
                 own == NULL ? l->guide->root->at : own->at);
    if (data && sheet_part(head->block) == PART_ELECTRICAL)
        drift_begin(&l->flow, begins_with_table(own));
    set_run(l, section->first, head);
}

/* What stands before its first block is for the reader of the template. */
static const struct node *beginning(const struct leaf *l) {
    const struct node *n = l->sheet->source->root->first;
    while (n != NULL && n->kind != NODE_BLOCK && n->kind != NODE_SECTION)
        n = n->next;
    return n;
}

static void set_all(struct leaf *l) {
    const struct node *first = beginning(l);
    l->flow = (struct flow){.c = &l->composer, .passages = true};
    l->warned = NULL;
    tag_begin(l->composer.tags, l->composer.arena);
    set_run(l, first, NULL);
    for (const struct node *n = first; n != NULL; n = n->next)
        if (n->kind == NODE_SECTION)
            set_headed(l, n);
}

/* Once, or again until there is room for each "page 10". */
static size_t break_pages(struct leaf *l, const struct layout_options *options,
                          const size_t **starts) {
    size_t count;
    struct passages passages = {0};
    refer_open(l);
    if (options->issued != NULL || options->passages != NULL) {
        set_all(l);
        passages = revise_passages(l);
        passages.revision = leaf_setting(l, "revision");
        refer_open(l);
    }
    if (options->issued != NULL)
        revise_compare(l, &passages, options->issued);
    if (options->passages != NULL)
        *options->passages = passages;
    do {
        set_all(l);
        revise_bars(l);
        drift_settle(&l->flow);
        count = paginate_break(&l->flow, starts);
    } while (!refer_settle(l));
    if (options->passages != NULL)
        revise_place(l, options->passages, *starts, count);
    return count;
}

/* "LT-012 Fit relays, mark 3, bench"; a job's number goes before it. */
static struct text title_of(struct leaf *l, const char *title,
                            const struct layout_options *options,
                            const char *only) {
    struct arena *a = l->composer.arena;
    struct text id = leaf_setting(l, "id");
    const struct block *job = l->guide->job;
    const char *template = options->template;
    struct buf b = buf_in(a);
    if (job != NULL)
        buf_printf(&b, "Owner's sheet %s: ",
                   text_cstr(a, leaf_block_setting(l, job, "number")));
    buf_printf(&b, "%.*s %s", (int)id.len, id.start, title);
    if (only != NULL)
        buf_printf(&b, ", %s", values_variant_names(l->values, a, l->applies));
    if (template != NULL && strcmp(template, "shop") != 0 && job == NULL)
        buf_printf(&b, ", %s", template);
    return buf_as_text(&b);
}

static void describe(struct leaf *l, struct pages *out, struct text title) {
    struct arena *a = l->composer.arena;
    out->title = title;
    out->author = leaf_setting(l, "author");
    const char *status = front_status(l);
    out->subject = text_of(arena_printf(
        a, "revision %s, %s", text_cstr(a, leaf_setting(l, "revision")),
        status == NULL ? "issued" : status));
    out->issued = status == NULL;
}

static struct pages *make_pages(struct leaf *l,
                                const struct layout_options *options,
                                const char *only) {
    struct foot foot = front_foot(l);
    const struct foot_lines *lines = bind_foot(l, &foot);
    const size_t *starts;
    size_t count = break_pages(l, options, &starts);
    struct pages *out = bind_pages(l, lines, starts, count);
    front_draw_code(l, out, out->code);
    describe(l, out, title_of(l, foot.title, options, only));
    bind_to_paper(out, l->composer.arena, l->sheet);
    return out;
}

static struct text kept(struct arena *a, struct text t) {
    return t.start == NULL
               ? t
               : (struct text){arena_copy(a, t.start, t.len), t.len};
}

const struct passages *layout_passages(struct arena *a,
                                       const struct passages *p) {
    struct passages *out = arena_same(a, p, 1, sizeof *out);
    struct passage *list = arena_same(a, p->list, p->count, sizeof *list);
    for (size_t i = 0; i < p->count; i++) {
        list[i].place = kept(a, list[i].place);
        list[i].words = kept(a, list[i].words);
        list[i].page = 0;
    }
    out->list = list;
    out->revision = kept(a, p->revision);
    return out;
}

bool layout_template(struct compile *c, const struct layout_options *options) {
    return sheet_read(c, options, true) != NULL;
}

struct pages *layout_pages_on(struct compile *c, const struct guide *g,
                              const struct values *v, const struct findings *f,
                              const struct layout_options *options) {
    struct tagger tags = {.arena = c->arena};
    struct leaf l = {
        .guide = g,
        .values = v,
        .findings = f,
        .applies = values_applies(v),
        .frozen = options->frozen,
    };
    l.composer.arena = c->arena; /* where its settings are read */
    if (!bind_open(&l, c, &tags, options,
                   text_is(leaf_setting(&l, "units"), "SI")))
        return NULL;
    apart_check(&l);
    struct pages *out = make_pages(&l, options, c->only);
    bind_close(&l);
    return out;
}

struct pages *layout_pages(struct compile *c, const struct guide *g,
                           const struct values *v, const struct findings *f) {
    struct layout_options options = {.paper = PAPER_BY_GUIDE};
    return layout_pages_on(c, g, v, f, &options);
}
