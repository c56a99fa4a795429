/* circuit_sheet.c - tables that a circuit gives by itself.
 *
 * A row stands for an element. Readings go with the current: what a sound
 * segment loses at the worst end of all ranges is what a meter may show, and
 * what is above that tells where the fault is. */
#include "values/circuit_sheet.h"

#include "base/arena.h"
#include "base/diag.h"
#include "values/circuit_block.h"
#include "values/circuit_shown.h"
#include "values/circuit_solve.h"
#include "values/circuit_starved.h"
#include "values/circuit_trace.h"
#include "values/circuit_volts.h"
#include "values/range.h"

#include <math.h>
#include <stdint.h>
#include <string.h>

enum { COLUMNS_MAX = 6 };

/* Less than this no meter in a shop shows, V. */
#define UNSEEN 0.0005
#define UNKNOWN "not known"

struct build {
    struct values *v;
    const struct block *sheet;
    struct circuit_work *w; /* in the state, in one variant */
    size_t state, variant;
    const char **cell; /* of the row */
    bool source;       /* for an author: figures as marks */
};

struct view {
    const char *name;
    const char *head[COLUMNS_MAX];
    bool figure[COLUMNS_MAX];
    /* false: the element has no row */
    bool (*row)(struct build *b, size_t part);
};

/* "W1", "K1 coil". */
static const char *name_of(const struct build *b, size_t part) {
    const struct circuit_element *e = &b->w->c->element[part];
    if (e->part != CIRCUIT_COIL)
        return b->w->part[part].name;
    return arena_printf(b->v->c->arena, "%.*s coil", (int)e->name.len,
                        e->name.start);
}

/* "K1-87", "F1", "bus": what stands at an end of an element. */
static const char *end_name(const struct build *b, size_t part, bool behind) {
    struct arena *a = b->v->c->arena;
    const struct circuit *c = b->w->c;
    const struct circuit_branch *branch = &c->branch[c->element[part].branch];
    size_t i = part, last = branch->first + branch->count;
    while (behind ? ++i < last : i-- > branch->first) {
        const struct circuit_element *e = &c->element[i];
        if (b->w->part[i].law == LAWS)
            continue;
        struct text t = e->terminal[behind ? 0 : 1];
        return t.len == 0 ? text_cstr(a, e->name)
                          : arena_printf(a, "%.*s-%.*s", (int)e->name.len,
                                         e->name.start, (int)t.len, t.start);
    }
    return circuit_shown_point(a,
                               &c->point[behind ? branch->to : branch->from]);
}

static const char *between(const struct build *b, size_t part) {
    const struct circuit_element *e = &b->w->c->element[part];
    struct arena *a = b->v->c->arena;
    if (e->terminal[0].len > 0)
        return arena_printf(a, "%.*s to %.*s", (int)e->terminal[0].len,
                            e->terminal[0].start, (int)e->terminal[1].len,
                            e->terminal[1].start);
    return arena_printf(a, "%s to %s", end_name(b, part, false),
                        end_name(b, part, true));
}

/* The load of a block by both names: "M1 pump". */
static const char *load_name(const struct build *b, size_t part) {
    const struct circuit_element *e = &b->w->c->element[part];
    bool block = e->part == CIRCUIT_LOAD && e->word_count > 0 &&
                 values_block(b->v, b->w->b->scope, e->word[0], "load") != NULL;
    return block ? arena_printf(b->v->c->arena, "%s %s", name_of(b, part),
                                circuit_shown_load(b->v->c->arena, e->word[0]))
                 : name_of(b, part);
}

/* Names of the loads and coils that hang on an element. */
static const char *loads_at(const struct build *b, size_t part) {
    size_t n = b->w->c->element_count;
    bool *load = arena_alloc(b->v->c->arena, n, sizeof *load);
    struct buf names = buf_in(b->v->c->arena);
    circuit_trace_served(b->w, part, load);
    for (size_t i = 0; i < n; i++)
        if (load[i])
            buf_printf(&names, "%s%s", names.len > 0 ? ", " : "",
                       name_of(b, i));
    return buf_cstr(&names);
}

static bool is_on(const struct build *b, size_t part) {
    return fabs(circuit_trace_current(b->w, part)) > 1e-3;
}

static bool is_starved(const struct build *b, size_t part) {
    const bool *starved = circuit_starved_parts(b->w);
    return starved != NULL && starved[part];
}

/* A result of the element; NULL: none. A loss is that from the supply that
 * feeds it; a result that is `held` is one at the nominal voltages of the
 * supplies that move it. The state is solved again behind it. */
static const struct quantity *result(const struct build *b, size_t part,
                                     enum circuit_result kind, const char *unit,
                                     struct circuit_held *held) {
    size_t first = b->w->c->element_count;
    size_t supply =
        kind == RESULT_LOSS ? circuit_trace_supply(b->w, part) : first;
    if (supply == SIZE_MAX)
        return NULL;
    const struct circuit_output o = {
        kind, b->state, part, false, {"", unit, ""}, supply - first, held};
    struct value value = circuit_block_result(
        b->v, b->w->b, &o, b->w->c->element[part].id, b->variant, NULL);
    circuit_solve_state(b->w, b->state, NULL);
    return value.type == VALUE_QUANTITY ? value.quantity : NULL;
}

static double largest(const struct quantity *q) {
    struct ends e = range_ends(q);
    return fmax(fabs(e.low), fabs(e.high));
}

static bool wire_row(struct build *b, size_t part) {
    struct arena *a = b->v->c->arena;
    const struct circuit_piece *p = &b->w->part[part];
    const struct circuit_element *e = p->element;
    if (p->law != LAW_WIRE)
        return false;
    struct buf colour = buf_in(a);
    buf_text(&colour, e->colour[0]);
    if (e->colour[1].len > 0) {
        buf_puts(&colour, "/");
        buf_text(&colour, e->colour[1]);
    }
    b->cell[0] = p->name;
    b->cell[1] = p->run->ampacity.use.size->label;
    b->cell[2] = buf_cstr(&colour);
    b->cell[3] = figure_both(a, p->figure[0], FIGURE_HIGH);
    b->cell[4] = end_name(b, part, false);
    b->cell[5] = end_name(b, part, true);
    return true;
}

/* Another pole of the same breaker is. */
static bool is_listed(const struct build *b, size_t part, const bool *fuse) {
    const struct circuit_element *e = b->w->c->element;
    for (size_t i = 0; i < part; i++)
        if (fuse[i] && text_equal(e[i].name, e[part].name))
            return true;
    return false;
}

static bool load_row(struct build *b, size_t part) {
    struct arena *a = b->v->c->arena;
    enum circuit_part kind = b->w->c->element[part].part;
    size_t n = b->w->c->element_count;
    if ((kind != CIRCUIT_LOAD && kind != CIRCUIT_COIL) || !is_on(b, part))
        return false;
    bool *fuse = arena_alloc(a, n, sizeof *fuse);
    struct buf fuses = buf_in(a);
    circuit_trace_all_fuses(b->w, part, fuse);
    for (size_t i = 0; i < n; i++)
        if (fuse[i] && !is_listed(b, i, fuse))
            buf_printf(&fuses, "%s%.*s %s", fuses.len > 0 ? ", " : "",
                       (int)b->w->c->element[i].name.len,
                       b->w->c->element[i].name.start,
                       figure_of(a, b->w->part[i].rating, FIGURE_PLAIN));
    const struct quantity *current = result(b, part, RESULT_CURRENT, "A", NULL);
    const struct quantity *loss = result(b, part, RESULT_LOSS, "V", NULL);
    if (current == NULL || loss == NULL)
        return false;
    const struct quantity *peak = b->w->part[part].starting;
    const char *ohm = circuit_shown_resistance(a, &b->w->part[part]);
    b->cell[0] = load_name(b, part);
    if (ohm != NULL) /* the current follows from it */
        b->cell[0] = arena_printf(a, "%s %s", b->cell[0], ohm);
    b->cell[1] = fuses.len == 0 ? "none" : buf_cstr(&fuses);
    bool starved = is_starved(b, part);
    b->cell[2] = starved ? UNKNOWN : figure_of(a, current, FIGURE_RANGE);
    b->cell[3] = peak == NULL ? "" : figure_of(a, peak, FIGURE_HIGH);
    double lost = range_ends(loss).high;
    b->cell[4] = starved    ? UNKNOWN
                 : lost > 0 ? circuit_volts(a, lost, ROUND_UP)
                            : "";
    return true;
}

/* What a reading above its limit means. */
static const char *meaning(enum circuit_part part) {
    switch (part) {
    case CIRCUIT_FUSE:
    case CIRCUIT_BREAKER:
        return "loose or burnt fuse holder; full supply volts: blown fuse";
    case CIRCUIT_WIRE:
        return "crimp at either end, or broken strands";
    case CIRCUIT_SWITCH:
        return "burnt switch contact";
    case CIRCUIT_CONTACT:
        return "burnt contact, or a loose terminal in the socket";
    case CIRCUIT_CONNECTOR:
        return "corroded or spread cavity";
    case CIRCUIT_SPLICE:
        return "bad crimp of the splice";
    case CIRCUIT_JOINT:
        return "loose ring, or paint or rust under it";
    case CIRCUIT_DIODE:
        return "open diode";
    case CIRCUIT_COIL:
    case CIRCUIT_LOAD:
    case CIRCUIT_PARTS:
        break;
    }
    return "";
}

static const char *remedy(const struct build *b, size_t part) {
    struct arena *a = b->v->c->arena;
    const char *name = name_of(b, part);
    switch (b->w->c->element[part].part) {
    case CIRCUIT_FUSE:
    case CIRCUIT_BREAKER:
        return arena_printf(a,
                            "open: find the short, then renew %s; else "
                            "renew the holder",
                            name);
    case CIRCUIT_WIRE:
        return arena_printf(a, "crimp %s again, or renew it", name);
    case CIRCUIT_JOINT:
        return arena_printf(a, "clean %s to bare metal, tighten it", name);
    case CIRCUIT_SPLICE:
        return arena_printf(a, "cut %s out, crimp a new one", name);
    case CIRCUIT_CONNECTOR:
        return arena_printf(a, "renew the terminals of %s", name);
    case CIRCUIT_SWITCH:
    case CIRCUIT_CONTACT:
    case CIRCUIT_DIODE:
    case CIRCUIT_COIL:
    case CIRCUIT_LOAD:
    case CIRCUIT_PARTS:
        break;
    }
    return arena_printf(a, "renew %s", name);
}

/* What a sound segment loses at the most; false: no meter shows it. */
static bool loses(const struct build *b, size_t part, double *most,
                  const struct quantity **drop) {
    enum circuit_part kind = b->w->c->element[part].part;
    if (kind == CIRCUIT_LOAD || kind == CIRCUIT_COIL || !is_on(b, part))
        return false;
    *drop = result(b, part, RESULT_DROP, "V", NULL);
    *most = *drop == NULL ? 0 : largest(*drop);
    return *most >= UNSEEN;
}

/* "lower at 12.60 V and upper at 12.70 V". */
static const char *at_volts(const struct build *b,
                            const struct circuit_held *held) {
    struct arena *a = b->v->c->arena;
    struct buf names = buf_in(a);
    for (size_t i = 0; i < held->count; i++) {
        const struct circuit_piece *p = &b->w->part[held->supply[i]];
        buf_printf(&names, "%s%s at %s",
                   i == 0                 ? ""
                   : i + 1 == held->count ? " and "
                                          : ", ",
                   p->name,
                   circuit_volts(a, p->figure[0]->nominal, ROUND_HALF_EVEN));
    }
    return buf_cstr(&names);
}

/* A voltage at a load holds for certain voltages of the supplies, which are
 * named. */
static bool load_reading(struct build *b, size_t part) {
    struct arena *a = b->v->c->arena;
    enum circuit_part kind = b->w->c->element[part].part;
    if ((kind != CIRCUIT_LOAD && kind != CIRCUIT_COIL) || !is_on(b, part))
        return false;
    struct circuit_held held = {NULL, 0};
    const struct quantity *volt = result(b, part, RESULT_VOLTAGE, "V", &held);
    if (volt == NULL ||
        (held.count == 0 && circuit_trace_limits(b->w, NULL) == NULL))
        return false;
    b->cell[0] = load_name(b, part);
    const char *at = held.count == 0 ? NULL : at_volts(b, &held);
    b->cell[1] = arena_printf(a, "its two terminals, %s",
                              circuit_trace_limits(b->w, at));
    const char *accepts;
    circuit_volts_expect(a, volt->nominal, range_ends(volt).low, &b->cell[2],
                         &accepts);
    b->cell[3] = arena_printf(a, "≥ %s", accepts);
    b->cell[4] = "if low: the segment above that reads high";
    return true;
}

static bool drop_reading(struct build *b, size_t part) {
    struct arena *a = b->v->c->arena;
    const struct quantity *drop;
    double most;
    if (!loses(b, part, &most, &drop))
        return false;
    b->cell[0] = arena_printf(a, "across %s", name_of(b, part));
    b->cell[1] = between(b, part);
    const char *accepts;
    circuit_volts_expect(a, fabs(drop->nominal), most, &b->cell[2], &accepts);
    b->cell[3] = arena_printf(a, "≤ %s", accepts);
    b->cell[4] = meaning(b->w->c->element[part].part);
    return true;
}

static bool reading_row(struct build *b, size_t part) {
    if (!load_reading(b, part) && !drop_reading(b, part))
        return false;
    if (is_starved(b, part)) {
        b->cell[2] = b->cell[3] = UNKNOWN;
        b->cell[4] = "a load gets less than half of its volts: what it "
                     "takes then is not known";
    }
    return true;
}

static bool fault_row(struct build *b, size_t part) {
    struct arena *a = b->v->c->arena;
    const struct quantity *drop;
    double most;
    if (!loses(b, part, &most, &drop))
        return false;
    const char *loads = loads_at(b, part);
    bool any = loads[0] != '\0';
    const char *expects, *accepts;
    circuit_volts_expect(a, fabs(drop->nominal), most, &expects, &accepts);
    b->cell[0] =
        any ? arena_printf(a, "%s dead or weak", loads) : "charging is slow";
    b->cell[1] = arena_printf(a, "%s: %s", name_of(b, part),
                              meaning(b->w->c->element[part].part));
    b->cell[2] = arena_printf(a, "%s%svolts %s", loads, any ? " on, " : "",
                              between(b, part));
    b->cell[3] =
        is_starved(b, part) ? UNKNOWN
        : b->source
            ? arena_printf(a, "{%.*s.%s.drop range}", (int)b->w->b->name.len,
                           b->w->b->name.start, name_of(b, part))
            : arena_printf(a, "≤ %s", accepts);
    b->cell[4] = remedy(b, part);
    return true;
}

static const struct view views[] = {
    {"wires",
     {"wire", "size", "colour", "longest", "from", "to"},
     {false, true, false, true, false, false},
     wire_row},
    {"loads",
     {"load", "fuse", "current", "starting", "loses at most"},
     {false, true, true, true, true},
     load_row},
    {"readings",
     {"measure", "between", "expect", "accept", "a high reading"},
     {false, false, true, true, false},
     reading_row},
    {"faults",
     {"symptom", "cause", "test", "normal", "remedy"},
     {false, false, false, true, false},
     fault_row},
};

static const struct view *view_of(struct text show) {
    for (size_t i = 0; i < sizeof views / sizeof views[0]; i++)
        if (text_is(show, views[i].name))
            return &views[i];
    return NULL;
}

/* The state that the sheet names; the first where it names none. */
static bool find_state(struct build *b, const struct circuit *c) {
    const struct value *named =
        block_setting(b->v, b->sheet, "state", b->variant);
    b->state = 0;
    if (named->type != VALUE_TEXT)
        return named->type == VALUE_ABSENT;
    struct text wanted = text_squeezed(b->v->c->arena, named->text);
    for (size_t i = 0; i < c->state_count; i++)
        if (text_equal(text_squeezed(b->v->c->arena, c->state[i].name),
                       wanted)) {
            b->state = i;
            return true;
        }
    diag_add(b->v->c->diags, DIAG_CIRCUIT_STATE,
             block_place(b->v, b->sheet, "state"),
             "the circuit has no state '%.*s'", (int)wanted.len, wanted.start);
    return false;
}

static size_t column_count(const struct view *view) {
    size_t n = 0;
    while (n < COLUMNS_MAX && view->head[n] != NULL)
        n++;
    return n;
}

/* Rows of one circuit, an element each, filled variant by variant. */
static bool add_circuit(struct values *v, const struct block *sheet,
                        const struct block *circuit, const struct view *view,
                        struct circuit_table *out) {
    const struct circuit *c = circuit->circuit;
    size_t columns = out->column_count;
    for (size_t i = 0; i < c->element_count; i++) {
        struct circuit_row row = {0, NULL};
        row.text = arena_alloc(v->c->arena, columns * v->variant_count,
                               sizeof(*row.text));
        for (size_t k = 0; k < v->variant_count; k++) {
            const char *cell[COLUMNS_MAX] = {NULL};
            struct build b = {
                v,    sheet, v->of_block[circuit->index].circuit[k], 0, k,
                cell, false};
            if ((v->applies >> k & 1) == 0 || b.w == NULL ||
                b.w->part[i].law == LAWS)
                continue;
            if (!find_state(&b, c) || !circuit_solve_state(b.w, b.state, NULL))
                return false;
            if (!view->row(&b, i))
                continue;
            row.in |= (variant_set)1 << k;
            for (size_t n = 0; n < columns; n++)
                row.text[n * v->variant_count + k] = cell[n];
        }
        if (row.in != 0)
            out->row[out->count++] = row;
    }
    return true;
}

static void fill(struct values *v, const struct block *sheet) {
    const struct block *const *list;
    size_t first = values_first(v), rows = 0;
    const struct view *view = view_of(block_text(v, sheet, "show", first));
    struct text names = block_text(v, sheet, "of", first);
    size_t count = blocks_listed(v, sheet, names, "circuit", &list);
    if (view == NULL || count == 0)
        return;
    struct circuit_table *out = arena_alloc(v->c->arena, 1, sizeof *out);
    for (size_t i = 0; i < count; i++) {
        if (list[i]->circuit == NULL || list[i]->circuit->bad)
            return;
        rows += list[i]->circuit->element_count;
    }
    out->column_count = column_count(view);
    out->head = view->head;
    out->figure = view->figure;
    out->row = arena_alloc(v->c->arena, rows + 1, sizeof *out->row);
    for (size_t i = 0; i < count; i++)
        if (!add_circuit(v, sheet, list[i], view, out))
            return;
    v->of_block[sheet->index].table = out;
}

const char *circuit_sheet_faults(struct values *v,
                                 const struct block *circuit) {
    struct buf text = buf_in(v->c->arena);
    size_t k = values_first(v);
    const char *cell[COLUMNS_MAX] = {NULL};
    struct build b = {v,    NULL, v->of_block[circuit->index].circuit[k], 0, k,
                      cell, true};
    if (b.w == NULL || !circuit_solve_state(b.w, 0, NULL))
        return NULL;
    buf_puts(&text, "```faults\nsymptom | cause | test | normal | remedy\n");
    for (size_t i = 0; i < circuit->circuit->element_count; i++)
        if (b.w->part[i].law != LAWS && fault_row(&b, i))
            buf_printf(&text, "%s | %s | %s | %s | %s\n", cell[0], cell[1],
                       cell[2], cell[3], cell[4]);
    buf_puts(&text, "```\n");
    return buf_cstr(&text);
}

void circuit_sheet_fill(struct values *v) {
    for (size_t i = 0; i < v->guide->block_count; i++)
        if (v->guide->blocks[i]->kind->id == KIND_SHEET)
            fill(v, v->guide->blocks[i]);
}
