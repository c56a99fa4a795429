/* schematic_words.c - what an element of a circuit is called and drawn as. */
#include "layout/schematic_words.h"

#include "base/arena.h"
#include "values/circuit_shown.h"
#include "values/figure.h"
#include "values/quantity.h"

#include <math.h>
#include <stdint.h>
#include <string.h>

static variant_set set_of(const struct leaf *l, const struct tags *t) {
    variant_set s = values_tagged(l->values, t);
    return s & l->applies;
}

/* The text of a block's setting in the first variant that applies. */
static struct text setting_text(const struct leaf *l, const struct block *b,
                                const char *name) {
    const struct named *n = values_of(l->values, b, name);
    for (size_t k = 0; n != NULL && k < 64; k++)
        if ((l->applies >> k & 1) != 0 && n->by_variant[k].type == VALUE_TEXT)
            return n->by_variant[k].text;
    return (struct text){NULL, 0};
}

/* A load's kind: of its block, or the word itself. */
static struct text load_kind(const struct leaf *l, const struct block *b,
                             const struct circuit_element *e) {
    if (e->word_count == 0)
        return (struct text){NULL, 0};
    const struct block *load =
        values_block(l->values, b->scope, e->word[0], "load");
    return load == NULL ? e->word[0] : setting_text(l, load, "kind");
}

static enum schematic_symbol load_symbol(struct text kind) {
    static const struct {
        const char *kind;
        enum schematic_symbol symbol;
    } kinds[] = {{"lamp", SYMBOL_LAMP},
                 {"motor", SYMBOL_MOTOR},
                 {"heater", SYMBOL_HEATER},
                 {"resistive", SYMBOL_RESISTOR}};
    for (size_t i = 0; i < sizeof kinds / sizeof kinds[0]; i++)
        if (text_is(kind, kinds[i].kind))
            return kinds[i].symbol;
    return SYMBOL_LOAD;
}

static enum schematic_symbol symbol_of(const struct leaf *l,
                                       const struct block *b,
                                       const struct circuit_element *e,
                                       bool moved) {
    switch (e->part) {
    case CIRCUIT_FUSE:
        return SYMBOL_FUSE;
    case CIRCUIT_BREAKER:
        return SYMBOL_BREAKER;
    case CIRCUIT_SWITCH:
        return moved ? SYMBOL_SWITCH_CLOSED : SYMBOL_SWITCH;
    case CIRCUIT_COIL:
        return SYMBOL_COIL;
    case CIRCUIT_CONTACT:
        if (text_is(e->terminal[0], "87a") || text_is(e->terminal[1], "87a"))
            return moved ? SYMBOL_REST_CONTACT_OPEN : SYMBOL_REST_CONTACT;
        return moved ? SYMBOL_CONTACT_CLOSED : SYMBOL_CONTACT;
    case CIRCUIT_DIODE:
        return SYMBOL_DIODE;
    case CIRCUIT_CONNECTOR:
        return SYMBOL_CONNECTOR;
    case CIRCUIT_SPLICE:
        return SYMBOL_SPLICE;
    case CIRCUIT_JOINT:
        return SYMBOL_JOINT;
    case CIRCUIT_LOAD:
        return load_symbol(load_kind(l, b, e));
    case CIRCUIT_WIRE:
    case CIRCUIT_PARTS:
        break;
    }
    return SYMBOL_SPLICE;
}

static void add(struct buf *b, const char *words) {
    if (words != NULL && words[0] != '\0')
        buf_printf(b, "%s%s", b->len > 0 ? " " : "", words);
}

static const char *colour_words(struct arena *a,
                                const struct circuit_element *e) {
    if (e->colour[0].len == 0)
        return NULL;
    return e->colour[1].len == 0
               ? text_cstr(a, e->colour[0])
               : arena_printf(a, "%.*s/%.*s", (int)e->colour[0].len,
                              e->colour[0].start, (int)e->colour[1].len,
                              e->colour[1].start);
}

/* "7-pin", but no figure and no cavity. */
static bool is_plain(struct text word) {
    bool digit = word.start[0] >= '0' && word.start[0] <= '9';
    return !digit || (memchr(word.start, '-', word.len) != NULL &&
                      memchr(word.start, ' ', word.len) == NULL);
}

/* What a joint or a connector is: its first word, when that is no figure. */
static const char *sort_words(struct leaf *l, const struct block *b,
                              const struct circuit_element *e) {
    struct arena *a = l->composer.arena;
    switch (e->part) {
    case CIRCUIT_LOAD: {
        const struct block *load =
            e->word_count == 0
                ? NULL
                : values_block(l->values, b->scope, e->word[0], "load");
        return load == NULL ? NULL : circuit_shown_load(a, load->name);
    }
    case CIRCUIT_JOINT:
    case CIRCUIT_CONNECTOR:
    case CIRCUIT_SPLICE:
    case CIRCUIT_SWITCH:
        return e->word_count > 0 && is_plain(e->word[0])
                   ? text_cstr(a, e->word[0])
                   : NULL;
    case CIRCUIT_FUSE:
    case CIRCUIT_BREAKER:
    case CIRCUIT_WIRE:
    case CIRCUIT_COIL:
    case CIRCUIT_CONTACT:
    case CIRCUIT_DIODE:
    case CIRCUIT_PARTS:
        break;
    }
    return NULL;
}

variant_set schematic_variants(const struct leaf *l, const struct block *b,
                               size_t i) {
    const struct circuit *c = b->circuit;
    variant_set set = 0;
    if (circuit_shown_first(c, i) != i)
        return 0;
    for (size_t k = i; k != SIZE_MAX; k = circuit_shown_next(c, i, k))
        set |= set_of(l, &c->element[k].tags);
    return set;
}

struct schematic_element schematic_element(struct leaf *l,
                                           const struct block *b, size_t i) {
    struct arena *a = l->composer.arena;
    const struct circuit_element *e = &b->circuit->element[i];
    variant_set set = schematic_variants(l, b, i);
    struct circuit_shown shown = circuit_shown(l->values, a, b, i, set);
    struct schematic_element out = {
        .is_wire = e->part == CIRCUIT_WIRE,
        .symbol = symbol_of(l, b, e, circuit_shown_moved(l->values, b, i, set)),
        .name = e->name,
        .terminal = {e->terminal[0], e->terminal[1]},
        .at = e->at};
    const char *colour = colour_words(a, e), *near;
    out.coloured =
        colour != NULL && swatch_find(text_of(colour), &out.colour, &near);
    struct buf words = buf_in(a);
    add(&words, sort_words(l, b, e));
    add(&words, shown.rating);
    add(&words, shown.size);
    add(&words, shown.takes);
    add(&words, colour);
    if (set != l->applies)
        add(&words,
            arena_printf(a, "(%s)", values_variant_names(l->values, a, set)));
    out.words = buf_cstr(&words);
    return out;
}

struct schematic_element schematic_supply(struct leaf *l, const struct block *b,
                                          size_t i) {
    const struct circuit_supply *s = &b->circuit->supply[i];
    const struct block *block =
        values_block(l->values, b->scope, s->name, "supply");
    struct schematic_element out = {
        .symbol = SYMBOL_BATTERY, .name = s->name, .at = s->at};
    out.words = s->state.len > 0 ? text_cstr(l->composer.arena, s->state) : "";
    if (block != NULL && text_is(setting_text(l, block, "chemistry"), "none"))
        out.symbol = text_starts(s->name, "alternator") ? SYMBOL_GENERATOR
                                                        : SYMBOL_CONVERTER;
    return out;
}

struct text schematic_point_name(struct leaf *l, const struct block *b,
                                 size_t point) {
    return text_of(
        circuit_shown_point(l->composer.arena, &b->circuit->point[point]));
}

const char *schematic_voltage(struct leaf *l, const struct block *b,
                              size_t point) {
    struct arena *a = l->composer.arena;
    const struct unit *volt = unit_find("V", 1);
    double low = INFINITY, high = -INFINITY;
    for (size_t k = 0; k < 64; k++) {
        double x = (l->applies >> k & 1) == 0
                       ? NAN
                       : circuit_shown_voltage(l->values, b, point, k);
        low = fmin(low, x);
        high = fmax(high, x);
    }
    if (!(low <= high))
        return NULL;
    const char *from = figure_text(a, low, volt, volt->dim, 2, ROUND_HALF_EVEN);
    const char *to = figure_text(a, high, volt, volt->dim, 2, ROUND_HALF_EVEN);
    if (strcmp(from, to) == 0)
        return to;
    /* The unit once, behind both. */
    size_t digits = strcspn(from, "\xC2 ");
    return arena_printf(a, "%.*s to %s", (int)digits, from, to);
}

struct text schematic_aloud(struct leaf *l, const struct block *b) {
    const struct circuit *c = b->circuit;
    struct buf out = buf_in(l->composer.arena);
    buf_printf(&out, "Diagram of the circuit %.*s", (int)b->name.len,
               b->name.start);
    for (size_t i = 0; i < c->branch_count; i++) {
        const struct circuit_branch *r = &c->branch[i];
        buf_puts(&out, i == 0 ? ": " : "; ");
        buf_text(&out, c->point[r->from].name);
        buf_puts(&out, " through ");
        for (size_t k = 0; k < r->count; k++) {
            if (circuit_shown_first(c, r->first + k) != r->first + k)
                continue;
            buf_puts(&out, k == 0 ? "" : ", ");
            buf_text(&out, c->element[r->first + k].name);
        }
        buf_puts(&out, " to ");
        buf_text(&out, c->point[r->to].name);
    }
    return buf_as_text(&out);
}
