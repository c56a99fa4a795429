/* circuit_agree.c - whether wire and fuse blocks say what their circuits say.
 */
#include "values/circuit_given.h"

#include "base/arena.h"
#include "base/diag.h"
#include "values/circuit_look.h"
#include "values/electrical.h"
#include "values/point.h"
#include "values/range.h"

#include <math.h>
#include <string.h>

static bool same(const struct quantity *a, const struct quantity *b) {
    struct ends p = range_ends(a), q = range_ends(b);
    return fabs(p.low - q.low) <= 1e-9 + 1e-6 * fabs(q.low) &&
           fabs(p.high - q.high) <= 1e-9 + 1e-6 * fabs(q.high);
}

static void conflict(struct look *k, const struct block *b, const char *setting,
                     const char *own, const char *given) {
    diag_add(k->v->c->diags, DIAG_SETTING_VALUE, block_place(k->v, b, setting),
             "%s %.*s says %s, circuit %.*s says %s; leave it to the circuit, "
             "or mend one of them",
             b->kind->name, (int)b->name.len, b->name.start, own,
             (int)k->circuit->name.len, k->circuit->name.start, given);
}

static void check_loop(struct values *v, const struct block *b,
                       size_t variant) {
    struct look by;
    struct slot *s = names_field(v, b, "loop");
    bool by_length = blocks_entry(v, b, "length") != NULL;
    if (s == NULL || (!by_length && blocks_entry(v, b, "loop") == NULL))
        return;
    const struct value *own = evaluate_slot(v, s, variant);
    struct value given = circuit_look_most(v, b, "loop", variant, &by);
    if (given.type != VALUE_QUANTITY || own->type != VALUE_QUANTITY ||
        same(own->quantity, given.quantity))
        return;
    conflict(&by, b, by_length ? "length" : "loop",
             arena_printf(v->c->arena, "a loop of %s",
                          figure_of(v->c->arena, own->quantity, FIGURE_RANGE)),
             figure_of(v->c->arena, given.quantity, FIGURE_RANGE));
}

/* The most that a circuit says its loads take; NULL: it does not say. */
static const struct quantity *given_most(struct values *v,
                                         const struct look *by,
                                         const struct value *given,
                                         const struct feed *feed) {
    if (given->type == VALUE_QUANTITY)
        return given->with != NULL ? given->with : given->quantity;
    const struct block *load =
        given->type == VALUE_TEXT
            ? values_block(v, by->circuit->scope, given->text, "load")
            : NULL;
    if (load == NULL)
        return NULL;
    struct load_amount amount = electrical_amount(v, load, by->variant);
    return electrical_load(v, &amount, feed).most;
}

/* A wire laid out for more than the circuit feeds is no slip; for less it is.
 * Two loads by their names are compared as words. */
static void check_load(struct values *v, const struct block *b,
                       size_t variant) {
    struct look by;
    struct feed feed;
    const struct value *own = block_setting(v, b, "load", variant);
    if (blocks_entry(v, b, "load") == NULL)
        return;
    struct value given = circuit_look_most(v, b, "load", variant, &by);
    if (given.type == VALUE_ABSENT ||
        (own->type == VALUE_TEXT && given.type == VALUE_TEXT))
        return;
    electrical_voltages(v, b, variant, &feed);
    const struct quantity *q = given_most(v, &by, &given, &feed);
    const struct quantity *p = electrical_current(v, b, variant, &feed).most;
    if (p == NULL || q == NULL ||
        range_ends(p).high >= range_ends(q).high * (1 - 1e-6))
        return;
    conflict(&by, b, "load", figure_of(v->c->arena, p, FIGURE_RANGE),
             figure_of(v->c->arena, q, FIGURE_RANGE));
}

static bool has_all(struct text list, struct text wanted) {
    struct text one, other;
    while (text_next_part(&wanted, ',', &one)) {
        struct text rest = list;
        bool found = false;
        while (!found && text_next_part(&rest, ',', &other))
            found = text_equal(text_trim(one), text_trim(other));
        if (!found)
            return false;
    }
    return true;
}

/* Whether the block may say `own` where the circuit says `given`. */
static bool agrees(const struct look *k, const char *setting, struct text own,
                   struct text given) {
    struct text p = own, q = given;
    if (strcmp(setting, "supply") == 0) { /* which voltage is its own affair */
        text_next_part(&own, ' ', &p);
        text_next_part(&given, ' ', &q);
        for (size_t i = 1; i < k->c->supply_count; i++)
            if (text_equal(p, k->c->supply[i].name))
                return true;
    }
    /* A fuse may protect wires of other circuits besides. */
    return has_all(p, q);
}

/* One circuit that agrees is enough: the others ask less, or say which. */
static void check_text(struct values *v, const struct block *b,
                       const char *setting, size_t variant) {
    const struct value *own = block_setting(v, b, setting, variant);
    struct look wrong = {0};
    struct text said = {NULL, 0};
    if (blocks_entry(v, b, setting) == NULL || own->type != VALUE_TEXT)
        return;
    for (size_t i = 0; i < v->guide->block_count; i++) {
        struct look k;
        if (!circuit_look_at(v, v->guide->blocks[i], variant, &k))
            continue;
        struct value given = circuit_look_gives(&k, b, setting);
        if (given.type != VALUE_TEXT)
            continue;
        if (agrees(&k, setting, own->text, given.text))
            return;
        wrong = k;
        said = given.text;
    }
    if (said.len > 0)
        conflict(&wrong, b, setting,
                 arena_printf(v->c->arena, "%s %.*s", setting,
                              (int)own->text.len, own->text.start),
                 text_cstr(v->c->arena, said));
}

static bool holds_fuse(const struct look *k, const struct block *fuse) {
    for (size_t e = 0; e < k->c->element_count; e++) {
        const struct circuit_element *one = &k->c->element[e];
        if ((one->part == CIRCUIT_FUSE || one->part == CIRCUIT_BREAKER) &&
            text_equal(one->name, fuse->name) &&
            (values_tagged(k->v, &one->tags) >> k->variant & 1) != 0 &&
            values_block(k->v, k->circuit->scope, one->name, "fuse") == fuse)
            return true;
    }
    return false;
}

/* The supply that a place names, or any battery where it says only that. */
static bool has_supply(const struct look *k, struct text name,
                       const struct block *named) {
    for (size_t i = 0; i < k->c->supply_count; i++) {
        struct text one = k->c->supply[i].name;
        if (named != NULL
                ? text_equal(one, name)
                : point_find(k->v, k->circuit->scope, one) == POINT_BATTERY)
            return true;
    }
    return false;
}

/* A fuse is placed from a supply of the circuit in which it stands; other
 * sources, a busbar or a panel, need not be drawn. */
static void check_place(struct values *v, const struct block *b,
                        size_t variant) {
    const struct value *place = block_setting(v, b, "place", variant);
    struct look wrong = {0};
    if (place->type != VALUE_QUANTITY || place->text.len == 0)
        return;
    struct text rest = place->text, name;
    text_next_part(&rest, ' ', &name);
    const struct block *named = values_block(v, b->scope, name, "supply");
    if (named == NULL && !text_is(name, "battery"))
        return;
    for (size_t i = 0; i < v->guide->block_count; i++) {
        struct look k;
        if (!circuit_look_at(v, v->guide->blocks[i], variant, &k) ||
            !holds_fuse(&k, b))
            continue;
        if (has_supply(&k, name, named))
            return;
        wrong = k;
    }
    if (wrong.c != NULL)
        diag_add(v->c->diags, DIAG_SETTING_VALUE, block_place(v, b, "place"),
                 "fuse %.*s is placed from %.*s, and circuit %.*s, in which it "
                 "stands, has no such supply; it has %.*s",
                 (int)b->name.len, b->name.start, (int)name.len, name.start,
                 (int)wrong.circuit->name.len, wrong.circuit->name.start,
                 (int)wrong.c->supply[0].name.len,
                 wrong.c->supply[0].name.start);
}

/* In the first variant in which it differs. */
static void check_block(struct values *v, const struct block *b) {
    static const char *const texts[] = {"load", "supply", "protects"};
    size_t before = diag_count(v->c->diags, LEVEL_MISTAKE);
    for (size_t k = 0; k < v->variant_count; k++) {
        if ((v->applies >> k & 1) == 0)
            continue;
        if (b->kind->id == KIND_WIRE) {
            check_loop(v, b, k);
            check_load(v, b, k);
        } else {
            check_place(v, b, k);
        }
        for (size_t i = 0; i < 3; i++)
            if ((i < 2) == (b->kind->id == KIND_WIRE))
                check_text(v, b, texts[i], k);
        if (diag_count(v->c->diags, LEVEL_MISTAKE) > before)
            return;
    }
}

void circuit_given_check(struct values *v) {
    for (size_t k = 0; k < v->guide->block_count; k++) {
        const struct block *b = v->guide->blocks[k];
        if ((b->kind->id == KIND_WIRE || b->kind->id == KIND_FUSE) &&
            b->name.len > 0)
            check_block(v, b);
    }
}
