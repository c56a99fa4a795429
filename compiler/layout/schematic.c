/* schematic.c - the diagram of a circuit. */
#include "layout/schematic.h"

#include "base/arena.h"
#include "layout/drift.h"
#include "layout/paragraph.h"
#include "layout/refer.h"
#include "layout/revise.h"
#include "layout/schematic_cut.h"
#include "layout/schematic_draw.h"
#include "layout/schematic_plan.h"
#include "layout/schematic_words.h"

#include <math.h>
#include <string.h>

/* Words into lines as wide as the column allows; what has no room at all is
 * shrunk when it is drawn. */
static void break_label(struct diagram *d, struct item *it) {
    struct label *b = &it->label;
    double most = d->column - WORDS_AT - 4;
    struct text rest = text_of(it->element.words), word;
    if (it->element.name.len > 0) {
        b->line[b->count] = it->element.name;
        b->bold[b->count++] = true;
    }
    struct buf line = buf_in(d->l->composer.arena);
    double used = 0, blank = schematic_width(d, FACE_REGULAR, text_of(" "));
    while (text_next_part(&rest, ' ', &word)) {
        if (word.len == 0)
            continue;
        double wide = schematic_width(d, FACE_REGULAR, word);
        if (line.len > 0 && used + blank + wide > most &&
            b->count + 1 < LINES_MAX) {
            b->line[b->count++] = buf_as_text(&line);
            line = buf_in(d->l->composer.arena);
        }
        used = line.len > 0 ? used + blank + wide : wide;
        buf_puts(&line, line.len > 0 ? " " : "");
        buf_text(&line, word);
    }
    if (line.len > 0)
        b->line[b->count++] = buf_as_text(&line);
}

static void note_symbol(struct diagram *d, const struct item *it) {
    if (!it->element.is_wire)
        d->used[it->element.symbol] = true;
}

static double item_height(const struct diagram *d, const struct item *it) {
    double words = d->leading * (double)it->label.count + 2 * d->pad;
    return fmax(words, SIDE + 2 * d->pad - 2);
}

/* The rungs: chains of branches as they are written, then the supplies. */
static size_t chain_length(const struct circuit *c, size_t first) {
    size_t n = 1;
    while (first + n < c->branch_count && !c->branch[first + n].begins)
        n++;
    return n;
}

static void read_span(struct diagram *d, struct plan_span *s,
                      const struct circuit_branch *r) {
    struct arena *a = d->l->composer.arena;
    double *height = arena_alloc(a, r->count + 1, sizeof *height);
    *s = (struct plan_span){
        .from = r->from, .to = r->to, .first = d->item_count, .height = height};
    s->y = arena_alloc(a, r->count + 1, sizeof *s->y);
    for (size_t k = 0; k < r->count; k++) {
        size_t i = r->first + k;
        if (schematic_variants(d->l, d->block, i) == 0)
            continue;
        struct item *it = &d->item[d->item_count++];
        it->element = schematic_element(d->l, d->block, i);
        note_symbol(d, it);
        break_label(d, it);
        height[s->count++] = item_height(d, it);
    }
}

static int post(const struct circuit *c, int supply, bool minus) {
    for (size_t i = 0; i < c->point_count; i++)
        if (c->point[i].supply == supply && c->point[i].minus == minus)
            return (int)i;
    return CIRCUIT_NONE;
}

static void add_supplies(struct diagram *d) {
    const struct circuit *c = d->block->circuit;
    struct arena *a = d->l->composer.arena;
    for (size_t i = 0; i < c->supply_count; i++) {
        int plus = post(c, (int)i, false), minus = post(c, (int)i, true);
        if (plus == CIRCUIT_NONE || minus == CIRCUIT_NONE)
            continue;
        struct item *it = &d->item[d->item_count];
        struct plan_span *s = arena_alloc(a, 1, sizeof *s);
        double *height = arena_alloc(a, 1, sizeof *height);
        it->element = schematic_supply(d->l, d->block, i);
        note_symbol(d, it);
        break_label(d, it);
        *height = item_height(d, it);
        *s = (struct plan_span){.from = (size_t)plus,
                                .to = (size_t)minus,
                                .first = d->item_count++,
                                .height = height,
                                .count = 1,
                                .y = arena_alloc(a, 1, sizeof *s->y)};
        d->plan.rung[d->plan.rung_count++] =
            (struct plan_rung){.span = s, .count = 1};
    }
}

/* A chain, or what is left of it in several where a branch between has nothing
 * that is drawn for these variants: its ends are not joined. */
static void add_chain(struct diagram *d, const struct circuit_branch *branch,
                      size_t count) {
    struct arena *a = d->l->composer.arena;
    struct plan_span *span = arena_alloc(a, count, sizeof *span);
    bool joined = false;
    for (size_t i = 0; i < count; i++, span++) {
        read_span(d, span, &branch[i]);
        if (span->count > 0 && joined)
            d->plan.rung[d->plan.rung_count - 1].count++;
        else if (span->count > 0)
            d->plan.rung[d->plan.rung_count++] =
                (struct plan_rung){.span = span, .count = 1};
        joined = span->count > 0;
    }
}

static void read_circuit(struct diagram *d) {
    const struct circuit *c = d->block->circuit;
    struct arena *a = d->l->composer.arena;
    size_t room = c->branch_count + c->supply_count + 1;
    d->plan = (struct plan){.point_count = c->point_count};
    d->plan.rung = arena_alloc(a, room, sizeof *d->plan.rung);
    d->plan.point = arena_alloc(a, c->point_count + 1, sizeof *d->plan.point);
    d->item =
        arena_alloc(a, c->element_count + c->supply_count + 1, sizeof *d->item);
    for (size_t i = 0; i < c->point_count; i++)
        if (c->point[i].supply != CIRCUIT_NONE)
            d->plan.point[i].post = c->point[i].minus ? PLAN_MINUS : PLAN_PLUS;
    add_supplies(d); /* at the left, unless another order crosses less */
    for (size_t i = 0; i < c->branch_count;) {
        size_t n = chain_length(c, i);
        add_chain(d, &c->branch[i], n);
        i += n;
    }
}

/* The minus of the first supply is 0 V. */
static const char *zero_of(struct arena *a, const struct circuit *c) {
    return c->supply_count < 2 ? "the minus post"
                               : arena_printf(a, "%.*s\xC2\xA0\xE2\x88\x92",
                                              (int)c->supply[0].name.len,
                                              c->supply[0].name.start);
}

/* `cut`: some line or bar goes on elsewhere, on this sheet or on another. */
static void add_caption(struct leaf *l, struct rich *r, const struct block *b,
                        size_t sheet, size_t sheets, bool cut) {
    struct type type = l->style.note;
    struct text state = b->circuit->state[0].name;
    leaf_add(l, r, type, FACE_BOLD,
             arena_printf(l->composer.arena, "Circuit %.*s", (int)b->name.len,
                          b->name.start));
    if (circuit_as_found(b))
        leaf_add(l, r, type, FACE_REGULAR, ", as found");
    if (sheets > 1)
        leaf_add(l, r, type, FACE_REGULAR,
                 arena_printf(l->composer.arena, ", part %zu of %zu", sheet + 1,
                              sheets));
    leaf_add(l, r, type, FACE_REGULAR,
             ". Drawn as it stands; the volts are what a meter shows "
             "against ");
    leaf_add(l, r, type, FACE_REGULAR, zero_of(l->composer.arena, b->circuit));
    if (state.len > 0)
        leaf_add(l, r, type, FACE_REGULAR,
                 arena_printf(l->composer.arena, ", %.*s", (int)state.len,
                              state.start));
    leaf_add(l, r, type, FACE_REGULAR,
             cut ? ". What ends in an arrow goes on in another part: a "
                   "bar at its name, another line at its letter."
                 : ".");
}

static void add_key(struct diagram *d) {
    struct leaf *l = d->l;
    struct tagger *tags = l->composer.tags;
    d->s = slab_new(&l->composer, 0, d->block->at);
    size_t outer = tag_open(tags, TAG_FIGURE, text_of("Key to the symbols"));
    d->s->height = schematic_draw_key(d, 0, leaf_width(l)) + 2;
    tag_close(tags, outer);
    flow_bond(&l->flow, BOND_FAST);
    flow_space(&l->flow, 4);
    revise_add_slab(l, d->block->node, d->s);
    flow_space(&l->flow, 8);
}

static void add_drawing(struct diagram *d, struct anchor *anchor) {
    struct leaf *l = d->l;
    d->s->anchor = anchor;
    flow_space(&l->flow, 4);
    revise_add_slab(l, d->block->node, d->s);
}

enum {
    CAPTION_LINES = 3, /* at most, beside another drawing */
    LEAST_BANDS = 6,   /* of a sheet: a part between two bars */
};

static double diagram_height(const struct diagram *d) {
    return d->piece.bottom + schematic_overhang(d) - d->piece.top +
           2 * d->band + 2;
}

/* What a page has for a drawing between its caption and its key, also where
 * it stands right below the heading of its section. */
static double sheet_room(const struct diagram *d) {
    const struct leaf *l = d->l;
    const struct style *style = &l->style;
    bool heads = l->flow.bond == BOND_FAST;
    double heading = heads ? style->section.leading + 2 * style->grid : 0;
    double caption = CAPTION_LINES * style->note.leading + style->grid;
    double key = schematic_key_height(d, leaf_width(l)) + 2 + style->grid;
    double room = style->bottom - style->top - heading - caption -
                  (3 * d->band + 2) - key;
    return fmax(room, LEAST_BANDS * d->band); /* the page is said to be short */
}

/* The parts of a drawing, so many beside each other on a sheet. */
struct cut {
    struct piece *piece;
    size_t count, beside;
};

static const double beside_gap = 12; /* between two of them */

static size_t sheets_of(const struct cut *c) {
    return (c->count + c->beside - 1) / c->beside;
}

static void set_sheet(struct diagram *d, const struct cut *cut, size_t sheet) {
    struct leaf *l = d->l;
    struct rich r = {0};
    size_t first = sheet * cut->beside, sheets = sheets_of(cut);
    add_caption(l, &r, d->block, sheet, sheets, cut->count > 1);
    flow_space(&l->flow, 8);
    revise_begin(l, d->block->node);
    flow_paragraph(&l->flow, &r, 0, leaf_width(l), l->style.note, d->block->at);
    flow_bond(&l->flow, BOND_FAST);
    d->s = slab_new(&l->composer, 0, d->block->at);
    d->y = d->band;
    for (size_t i = first; i < cut->count && i < first + cut->beside; i++) {
        d->piece = cut->piece[i];
        d->s->height = fmax(d->s->height, d->band + diagram_height(d));
        schematic_draw(d);
        d->x += d->column * (double)(d->piece.to - d->piece.from) + beside_gap;
    }
    d->x = 0;
    add_drawing(d, sheet == 0 ? refer_node(l, d->block->node) : NULL);
    revise_end(l);
    if (sheet + 1 == sheets)
        add_key(d);
}

static void lay_out(struct diagram *d) {
    d->plan.band = d->band;
    if (d->plan.rung_count > 0)
        plan_make(d->l->composer.arena, &d->plan);
    d->room = sheet_room(d);
    d->piece = (struct piece){.to = d->plan.columns, .bottom = d->plan.height};
}

/* How closely a drawing is set, against the least type of the page: the first
 * leaves air, the others are for one that would else be cut in two. */
static const struct spacing {
    double size, leading, pad, below; /* below: of a bar, beside its words */
} spacing[] = {{1, 1, 3, 6}, {1, 0.9, 1.5, 5}, {0.89, 0.8, 1.5, 5}};
enum { SPACINGS = sizeof spacing / sizeof spacing[0] };

static void space_out(struct diagram *d, const struct spacing *s) {
    const struct type *least = &d->l->style.least;
    d->size = least->size * s->size;
    d->leading = least->leading * s->leading;
    d->pad = s->pad;
    d->band = d->size + s->below;
}

static struct diagram diagram_of(struct leaf *l, const struct block *b,
                                 double column) {
    struct diagram d = {.l = l, .block = b, .column = column};
    space_out(&d, &spacing[0]);
    read_circuit(&d);
    lay_out(&d);
    return d;
}

/* The same circuit in columns of another width, of one that is drawn no more.
 */
static void widen(struct diagram *d, double column) {
    d->column = column;
    for (size_t r = 0; r < d->plan.rung_count; r++)
        for (size_t k = 0; k < d->plan.rung[r].count; k++) {
            struct plan_span *s = &d->plan.rung[r].span[k];
            for (size_t i = 0; i < s->count; i++) {
                struct item *it = &d->item[s->first + i];
                it->label.count = 0;
                break_label(d, it);
                s->height[i] = item_height(d, it);
            }
        }
    lay_out(d);
}

/* Set more closely, when that keeps it on one sheet from top to bottom. */
static void tighten(struct diagram *d) {
    for (size_t i = 1; i < SPACINGS && schematic_is_tall(d); i++) {
        space_out(d, &spacing[i]);
        widen(d, d->column);
    }
    if (!schematic_is_tall(d))
        return;
    space_out(d, &spacing[0]);
    widen(d, d->column);
}

static struct cut cut_one(const struct diagram *d, size_t each) {
    struct cut c = {.beside = 1};
    c.piece = schematic_cut(d, each, &c.count);
    return c;
}

/* A tall drawing of few columns, its parts beside each other where that takes
 * fewer sheets; the columns are no narrower than others are. */
static struct cut cut_beside(struct diagram *d, size_t each) {
    struct cut one = cut_one(d, each), many;
    double width = leaf_width(d->l), before = d->column;
    size_t fit =
        (size_t)((width + beside_gap) / ((double)each * NARROW + beside_gap));
    size_t beside = fit < one.count ? fit : one.count;
    if (d->plan.columns > each || beside < 2)
        return one;
    double gaps = beside_gap * (double)(beside - 1);
    widen(d, fmin(before, (width - gaps) / (double)(beside * each)));
    many = cut_one(d, each);
    many.beside = beside;
    if (sheets_of(&many) < one.count)
        return many;
    widen(d, before);
    return cut_one(d, each);
}

static void set_circuit(struct diagram *d) {
    struct leaf *l = d->l;
    double width = leaf_width(l);
    if (d->plan.rung_count == 0)
        return;
    d->room = sheet_room(d); /* it was read below another heading */
    size_t fit = width < NARROW ? 1 : (size_t)(width / NARROW);
    size_t across = (d->plan.columns + fit - 1) / fit;
    size_t each = (d->plan.columns + across - 1) / across;
    if (width / (double)each > NARROW) /* more room for words: fewer lines */
        widen(d, fmin(WIDE, width / (double)each));
    tighten(d);
    size_t first = l->flow.count;
    struct cut cut = cut_beside(d, each);
    for (size_t i = 0; i < sheets_of(&cut); i++)
        set_sheet(d, &cut, i);
    if (sheets_of(&cut) == 1)
        drift_add(&l->flow, first);
}

/* Before and after beside each other, where the page is wide enough; false:
 * they are set one below the other. */
static bool set_pair(struct diagram *before, struct diagram *after) {
    struct leaf *l = before->l;
    const struct composer *c = &l->composer;
    const double gap = 18;
    struct diagram d[2] = {*before, *after};
    size_t columns = d[0].plan.columns + d[1].plan.columns;
    double width = leaf_width(l) - gap;
    if (d[0].plan.rung_count == 0 || d[1].plan.rung_count == 0 ||
        (double)columns * NARROW > width)
        return false;
    for (int i = 0; i < SCHEMATIC_SYMBOLS; i++) /* one key for both */
        d[0].used[i] = d[1].used[i] |= d[0].used[i];
    d[0].room = d[1].room = sheet_room(&d[0]);
    if (schematic_is_tall(&d[0]) || schematic_is_tall(&d[1]))
        return false;
    double column = fmin(WIDE, width / (double)columns), top = 0;
    struct slab *s = slab_new(c, 0, before->block->at);
    const struct lines *lines[2];
    for (int i = 0; i < 2; i++) {
        struct rich r = {0};
        widen(&d[i], column);
        add_caption(l, &r, d[i].block, 0, 1, false);
        d[i].s = s;
        d[i].x = i == 0 ? 0 : d[0].column * (double)d[0].plan.columns + gap;
        double wide = column * (double)d[i].plan.columns;
        lines[i] = paragraph_break(c, words_of(c, &r), wide, l->style.note, 1);
        top = fmax(top, paragraph_height(lines[i]));
    }
    for (int i = 0; i < 2; i++) {
        paragraph_draw_all(c, s, lines[i], d[i].x, 0);
        d[i].y = top + d[i].band + 6;
        schematic_draw(&d[i]);
        s->height =
            fmax(s->height, top + 6 + d[i].band + diagram_height(&d[i]));
    }
    size_t from = l->flow.count;
    flow_space(&l->flow, 8);
    add_drawing(&d[0], refer_node(l, after->block->node));
    add_key(&d[1]);
    drift_add(&l->flow, from);
    return true;
}

static bool is_sound(const struct block *b) {
    return b->circuit != NULL && !b->circuit->bad;
}

static const struct block *next_sound(const struct leaf *l,
                                      const struct block *b) {
    do
        b = leaf_next(l, b, KIND_CIRCUIT);
    while (b != NULL && !is_sound(b));
    return b;
}

bool schematic_any(const struct leaf *l) {
    return next_sound(l, NULL) != NULL;
}

void schematic_set(struct leaf *l) {
    const struct block *b = next_sound(l, NULL);
    struct diagram d = {0}, after = {0};
    if (b != NULL)
        d = diagram_of(l, b, NARROW);
    while (b != NULL) {
        const struct block *next = next_sound(l, b);
        if (next != NULL)
            after = diagram_of(l, next, NARROW);
        if (next != NULL && circuit_as_found(b) && !circuit_as_found(next) &&
            set_pair(&d, &after)) {
            b = next_sound(l, next);
            if (b != NULL)
                d = diagram_of(l, b, NARROW);
            continue;
        }
        set_circuit(&d);
        d = after;
        b = next;
    }
}
