/* electrical.c - what wire and fuse blocks share: supply, load, wire. */
#include "values/electrical.h"

#include "base/arena.h"
#include "base/diag.h"
#include "values/range.h"

#include <math.h>
#include <string.h>

static struct quantity *quantity_of(struct values *v, const struct block *b,
                                    const char *setting, size_t variant) {
    const struct value *value = block_setting(v, b, setting, variant);
    return value->type == VALUE_QUANTITY ? value->quantity : NULL;
}

void electrical_split(struct text supply, struct text *name,
                      struct text *state) {
    size_t end = 0;
    while (end < supply.len && supply.start[end] != ' ')
        end++;
    *name = text_part(supply, 0, end);
    *state = text_trim(text_part(supply, end, supply.len));
}

/* Inner resistance of a battery whose author gives none: a figure to warn with,
 * never to relax with. */
static const struct quantity *assumed_resistance(struct values *v,
                                                 const struct block *b,
                                                 const struct block *supply,
                                                 size_t variant) {
    const struct value *c =
        supply == NULL ? NULL : block_setting(v, supply, "chemistry", variant);
    bool flooded =
        c != NULL && c->type == VALUE_TEXT && text_is(c->text, "flooded");
    double ohm = flooded ? 0.005 : 0.001;
    return block_assumed(v, b, variant, "inner resistance of the supply", ohm,
                         (struct ends){ohm, ohm}, "mohm",
                         "common practice, no source");
}

static void feed_of_block(struct values *v, const struct block *supply,
                          struct text state, size_t variant, struct feed *out) {
    struct quantity *resting = quantity_of(v, supply, "resting", variant);
    struct quantity *charging = quantity_of(v, supply, "charging", variant);
    struct quantity *low = resting != NULL ? resting : charging;
    struct quantity *high = charging != NULL ? charging : resting;
    out->base = text_is(state, "charging") ? high : low;
    out->strongest = high;
    out->weakest = low;
}

static void take_supply(struct values *v, const struct block *supply,
                        struct text state, size_t variant, struct feed *out) {
    static const char *const stated[] = {"resting", "charging", "resistance"};
    for (size_t i = 0; i < 3; i++)
        out->bad = out->bad || block_is_bad(v, supply, stated[i], variant);
    if (!out->bad)
        feed_of_block(v, supply, state, variant, out);
}

/* The supply block of a block; *out.bad: something of it has a message. */
static const struct block *read_supply(struct values *v, const struct block *b,
                                       size_t variant, struct feed *out) {
    const struct value *value = block_setting(v, b, "supply", variant);
    *out = (struct feed){.drops = b->kind->id == KIND_WIRE};
    if (out->drops)
        out->limit = drop_limit_stated(v, b, variant);
    if (value->type == VALUE_QUANTITY)
        out->base = out->strongest = out->weakest = value->quantity;
    if (value->type != VALUE_TEXT)
        return NULL;
    struct text name, state;
    electrical_split(value->text, &name, &state);
    const struct block *supply = values_block(v, b->scope, name, "supply");
    if (supply == NULL)
        return NULL;
    take_supply(v, supply, state, variant, out);
    return supply;
}

bool electrical_voltages(struct values *v, const struct block *b,
                         size_t variant, struct feed *out) {
    read_supply(v, b, variant, out);
    return out->base != NULL;
}

/* False: no voltage is known. */
static bool take_resistance(struct values *v, const struct block *b,
                            const struct block *supply, size_t variant,
                            struct feed *out) {
    if (out->base == NULL)
        return false;
    if (supply != NULL)
        out->resistance = quantity_of(v, supply, "resistance", variant);
    if (out->resistance == NULL)
        out->resistance = assumed_resistance(v, b, supply, variant);
    return true;
}

bool electrical_feed(struct values *v, const struct block *b, size_t variant,
                     struct feed *out) {
    const struct block *supply = read_supply(v, b, variant, out);
    return take_resistance(v, b, supply, variant, out);
}

bool electrical_feed_of(struct values *v, const struct block *b,
                        const struct block *supply, size_t variant,
                        struct feed *out) {
    *out = (struct feed){.base = NULL};
    take_supply(v, supply, (struct text){NULL, 0}, variant, out);
    return take_resistance(v, b, supply, variant, out);
}

struct load_amount electrical_amount(struct values *v, const struct block *load,
                                     size_t variant) {
    const struct value *current = block_setting(v, load, "highest", variant);
    struct text kind = block_text(v, load, "kind", variant);
    struct load_amount amount = {.kind = load_kind_find(kind.start, kind.len),
                                 .limit = drop_limit_usual(v, load, variant)};
    if (current->type != VALUE_QUANTITY)
        current = block_setting(v, load, "current", variant);
    if (current->type == VALUE_QUANTITY) {
        amount.current = current->quantity;
        amount.at = current->with;
    }
    return amount;
}

/* The voltage that the drop limit leaves, where it leaves one. */
static const struct quantity *left_of(struct values *v, const struct feed *feed,
                                      const struct load_amount *amount,
                                      const struct quantity *volt) {
    if (!feed->drops)
        return volt;
    const struct quantity *lost = drop_limit_volt(
        v, drop_limit_is_known(&feed->limit) ? &feed->limit : &amount->limit,
        volt);
    struct quantity *left =
        quantity_binary(&v->maker, QUANTITY_SUBTRACT, volt, lost);
    left->unit = volt->unit;
    left->name = text_of("left at the load");
    return range_ends(left).low > 0 ? left : volt;
}

static struct quantity *load_at(struct values *v,
                                const struct load_amount *amount,
                                const struct feed *feed,
                                const struct quantity *volt) {
    const struct calculation *c = load_calculation(amount->kind);
    if (amount->current == NULL || amount->at == NULL || volt == NULL ||
        c == NULL)
        return amount->current;
    if (amount->kind == LOAD_POWER)
        volt = left_of(v, feed, amount, volt);
    const struct quantity *of[] = {amount->current, amount->at, volt};
    struct quantity *q = quantity_call(&v->maker, c, NULL, of);
    q->unit = amount->current->unit;
    return q;
}

struct quantity *electrical_end(struct values *v, const struct quantity *volt,
                                bool high) {
    struct ends e = range_ends(volt);
    struct quantity *q =
        quantity_exact(&v->maker, high ? e.high : e.low, volt->dim, volt->unit);
    q->name = volt->name;
    return q;
}

struct load_current electrical_load(struct values *v,
                                    const struct load_amount *amount,
                                    const struct feed *feed) {
    struct load_current c = {.used = load_at(v, amount, feed, feed->base),
                             .most = load_at(v, amount, feed,
                                             amount->kind == LOAD_POWER
                                                 ? feed->weakest
                                                 : feed->strongest),
                             .stated = amount->current};
    if (c.used == amount->current) /* as much at any voltage */
        return c;
    c.low = load_at(v, amount, feed, electrical_end(v, feed->base, false));
    c.high = load_at(v, amount, feed, electrical_end(v, feed->base, true));
    return c;
}

struct load_current electrical_current(struct values *v, const struct block *b,
                                       size_t variant,
                                       const struct feed *feed) {
    const struct value *value = block_setting(v, b, "load", variant);
    if (value->type == VALUE_QUANTITY)
        return (struct load_current){
            .used = value->quantity,
            .most = value->with != NULL ? value->with : value->quantity,
            .stated = value->quantity,
            .low = value->low,
            .high = value->high};
    const struct block *load =
        value->type == VALUE_TEXT
            ? values_block(v, b->scope, value->text, "load")
            : NULL;
    if (load == NULL)
        return (struct load_current){.used = NULL};
    struct load_amount amount = electrical_amount(v, load, variant);
    return electrical_load(v, &amount, feed);
}

struct quantity *electrical_fault(struct quantity *q) {
    q->significant = 2;
    if (q->nominal >= 1000)
        q->unit = unit_find("kA", 2);
    return q;
}

const struct quantity *electrical_fault_beside(struct quantity *fault,
                                               const struct quantity *limit) {
    if (limit == NULL)
        return fault;
    double most = range_ends(fault).high, can = range_ends(limit).low;
    while (most <= can && fault->significant < 6 &&
           figure_shown(fault, most, ROUND_UP) > can)
        fault->significant++;
    return fault;
}

const char electrical_unstated[] = "only its maker states it";

const char *electrical_stated(struct values *v, struct text note) {
    return note.len > 0 ? text_cstr(v->c->arena, note)
                        : "stated without a source";
}

void electrical_in_kiloampere(struct quantity *rating) {
    if (rating->nominal < 1000)
        return;
    rating->unit = unit_find("kA", 2);
    rating->decimals = fmod(rating->nominal, 1000) == 0 ? 0 : 1;
}

bool electrical_cranks(struct values *v, const struct block *b,
                       size_t variant) {
    return b != NULL && text_is(block_text(v, b, "duty", variant), "cranking");
}
