/* electrical.c - what wire and fuse blocks share: supply, load, wire. */
#include "values/electrical.h"

#include "base/arena.h"
#include "base/diag.h"
#include "values/range.h"

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

static void feed_of_block(struct values *v, const struct block *b,
                          const struct block *supply, struct text state,
                          size_t variant, struct feed *out) {
    struct quantity *resting = quantity_of(v, supply, "resting", variant);
    struct quantity *charging = quantity_of(v, supply, "charging", variant);
    struct quantity *low = resting != NULL ? resting : charging;
    struct quantity *high = charging != NULL ? charging : resting;
    out->base = text_is(state, "charging") ? high : low;
    out->strongest = high;
    out->weakest = low;
    out->resistance = quantity_of(v, supply, "resistance", variant);
    if (out->resistance == NULL)
        out->resistance = assumed_resistance(v, b, supply, variant);
}

bool electrical_feed(struct values *v, const struct block *b, size_t variant,
                     struct feed *out) {
    *out = (struct feed){0};
    const struct value *value = block_setting(v, b, "supply", variant);
    if (value->type == VALUE_QUANTITY) {
        out->base = out->strongest = out->weakest = value->quantity;
        out->resistance = assumed_resistance(v, b, NULL, variant);
        return true;
    }
    if (value->type != VALUE_TEXT)
        return false;
    struct text name, state;
    electrical_split(value->text, &name, &state);
    const struct block *supply = values_block(v, b->scope, name, "supply");
    if (supply == NULL)
        return false;
    static const char *const stated[] = {"resting", "charging", "resistance"};
    for (size_t i = 0; i < 3; i++)
        out->bad = out->bad || block_is_bad(v, supply, stated[i], variant);
    if (out->bad)
        return false;
    feed_of_block(v, b, supply, state, variant, out);
    return out->base != NULL;
}

struct quantity *electrical_current(struct values *v, const struct block *b,
                                    size_t variant) {
    const struct value *value = block_setting(v, b, "load", variant);
    if (value->type == VALUE_QUANTITY)
        return value->quantity;
    if (value->type != VALUE_TEXT)
        return NULL;
    const struct block *load = values_block(v, b->scope, value->text, "load");
    if (load == NULL)
        return NULL;
    struct quantity *highest = quantity_of(v, load, "highest", variant);
    return highest != NULL ? highest : quantity_of(v, load, "current", variant);
}
