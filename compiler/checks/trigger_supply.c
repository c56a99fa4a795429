/* trigger_supply.c - what comes from the sources of a guide and from what hangs
 * on them. */
#include "checks/trigger_probe.h"

#include "base/arena.h"
#include "checks/wired.h"
#include "source/kind.h"
#include "values/range.h"

#include <math.h>

/* The voltage behind a wire; NAN when it is not known. */
static double volt_behind(const struct values *v, const struct block *wire) {
    const struct named *n = values_of(v, wire, "supply");
    const struct variant *list;
    size_t count = values_variants(v, &list);
    double most = values_highest(v, wire, "supply");
    for (size_t i = 0; n != NULL && i < count; i++) {
        const struct value *value = &n->by_variant[i];
        size_t end = 0; /* "house charging" names the block house */
        while (end < value->text.len && value->text.start[end] != ' ')
            end++;
        const struct block *supply =
            value->type != VALUE_TEXT
                ? NULL
                : values_block(v, wire->scope, text_part(value->text, 0, end),
                               "supply");
        if (supply != NULL)
            most = fmax(most, wired_supply_volt(v, supply));
    }
    return most;
}

/* A circuit that has a message has no supplies that can be asked. */
static double circuit_volt(const struct values *v, const struct block *b) {
    return b->circuit == NULL ? NAN : wired_volt(v, b);
}

static double volt_fed(const struct values *v, const struct block *b) {
    return b->kind->id == KIND_CIRCUIT ? circuit_volt(v, b) : volt_behind(v, b);
}

/* A wire or a circuit of the guide: what hangs on a source. */
static bool is_fed(const struct block *b) {
    return trigger_is_of_guide(b, KIND_WIRE) ||
           trigger_is_of_guide(b, KIND_CIRCUIT);
}

/* A source at that voltage; one of the facts where a step names it. A wire
 * behind it, too. */
void trigger_find_voltage(const struct probe *p) {
    for (size_t i = 0; i < p->guide->block_count; i++) {
        const struct block *b = p->guide->blocks[i];
        double volt = b->kind->id == KIND_SUPPLY
                          ? wired_supply_volt(p->values, b)
                      : is_fed(b) ? volt_fed(p->values, b)
                                  : NAN;
        if (!condition_met(p->condition, volt))
            continue;
        p->trigger->by[i] = true;
        p->trigger->fires = p->trigger->fires || !trigger_is_facts(b);
    }
}

/* A wire whose source is not stated may well hang on the battery. */
void trigger_find_battery(const struct probe *p) {
    for (size_t i = 0; i < p->guide->block_count; i++) {
        const struct block *b = p->guide->blocks[i];
        if (is_fed(b) && !(volt_fed(p->values, b) >= LINE_VOLT))
            trigger_fire(p->trigger, b);
    }
}

static bool is_lithium(const struct values *v, const struct block *b) {
    const struct named *n = values_of(v, b, "chemistry");
    const struct variant *list;
    size_t count = values_variants(v, &list);
    for (size_t i = 0; n != NULL && i < count; i++)
        if (n->by_variant[i].type == VALUE_TEXT &&
            text_is(n->by_variant[i].text, "lithium"))
            return true;
    return false;
}

/* A supply of the facts counts where a step names it or a wire hangs on it. */
static bool is_wired(const struct probe *p, const struct block *supply) {
    for (size_t i = 0; i < p->guide->block_count; i++) {
        const struct block *b = p->guide->blocks[i];
        if (b->circuit != NULL && wired_names_supply(b, supply->name))
            return true;
        const struct entry *e = is_fed(b) ? tree_setting(b, "supply") : NULL;
        for (size_t k = 0; e != NULL && k < e->choice_count; k++) {
            struct text rest = text_trim(e->choices[k].text), word;
            if (text_next_part(&rest, ' ', &word) &&
                text_equal(word, supply->name))
                return true;
        }
    }
    return false;
}

static void fire_supply(const struct probe *p, const struct block *b) {
    p->trigger->by[b->index] = true;
    p->trigger->fires =
        p->trigger->fires || !trigger_is_facts(b) || is_wired(p, b);
}

void trigger_find_lithium(const struct probe *p) {
    for (size_t i = 0; i < p->guide->block_count; i++) {
        const struct block *b = p->guide->blocks[i];
        if (b->kind->id == KIND_SUPPLY && is_lithium(p->values, b))
            fire_supply(p, b);
    }
}

/* The upper end of a supply's `limits`; NAN when none is stated. */
static double upper_limit(const struct values *v, const struct block *b) {
    const struct named *n = values_of(v, b, "limits");
    const struct variant *list;
    size_t count = values_variants(v, &list);
    double least = NAN;
    for (size_t i = 0; n != NULL && i < count; i++) {
        const struct value *value = &n->by_variant[i];
        if (value->type == VALUE_LIMIT && value->high != NULL)
            least = fmin(least, range_ends(value->high).low);
        else if (value->type == VALUE_QUANTITY)
            least = fmin(least, range_ends(value->quantity).high);
    }
    return least;
}

/* A lithium battery without a limit, or charged above the one that it has. What
 * is not stated counts as too much, and is told as what it is. */
void trigger_find_overcharge(const struct probe *p) {
    bool above = false;
    for (size_t i = 0; i < p->guide->block_count; i++) {
        const struct block *b = p->guide->blocks[i];
        if (b->kind->id != KIND_SUPPLY)
            continue;
        double limit = upper_limit(p->values, b);
        double volt = values_highest(p->values, b, "charging");
        if (isnan(limit) ? !is_lithium(p->values, b) : volt <= limit)
            continue;
        fire_supply(p, b);
        if (trigger_is_facts(b) && !is_wired(p, b))
            continue;
        if (!isnan(limit) && !isnan(volt))
            above = true;
        else if (p->trigger->unknown == NULL)
            p->trigger->unknown = arena_printf(
                p->c->arena, "%s%s%s of %.*s", isnan(volt) ? "charging:" : "",
                isnan(volt) && isnan(limit) ? " and " : "",
                isnan(limit) ? "limits:" : "", (int)b->name.len, b->name.start);
    }
    if (above)
        p->trigger->unknown = NULL;
}

/* A load on which safety hangs, and what its wire loses of the voltage. A
 * supply or drop that is not known counts as too much. */
static bool loses_too_much(const struct probe *p, const struct block *wire) {
    double drop = values_highest(p->values, wire, "drop");
    double volt = volt_behind(p->values, wire);
    return isnan(drop) || isnan(volt) ||
           condition_met(p->condition, drop / volt);
}

void trigger_find_safety_drop(const struct probe *p) {
    for (size_t i = 0; i < p->guide->block_count; i++) {
        const struct block *b = p->guide->blocks[i];
        const struct circuit_extremes *of = values_extremes(p->values, b);
        if (of != NULL && !isnan(of->safety_drop) &&
            condition_met(p->condition, of->safety_drop))
            trigger_fire(p->trigger, b);
        const struct entry *e =
            trigger_is_of_guide(b, KIND_WIRE) ? tree_setting(b, "load") : NULL;
        for (size_t k = 0; e != NULL && k < e->choice_count; k++) {
            const struct block *load = values_block(
                p->values, b->scope, text_trim(e->choices[k].text), "load");
            if (load != NULL && tree_setting(load, "serves") != NULL &&
                loses_too_much(p, b))
                trigger_fire(p->trigger, b);
        }
    }
}

void trigger_find_chemistry(const struct guide *g, const struct values *v,
                            struct triggers *e) {
    bool any = false;
    for (size_t i = 0; i < g->block_count; i++) {
        const struct block *b = g->blocks[i];
        if (b->kind->id != KIND_SUPPLY)
            continue;
        any = true;
        const struct named *n = values_of(v, b, "chemistry");
        const struct variant *list;
        size_t count = values_variants(v, &list);
        if (n == NULL)
            e->lead_acid = true;
        for (size_t k = 0; n != NULL && k < count; k++) {
            const struct value *value = &n->by_variant[k];
            if (value->type == VALUE_TEXT && !text_is(value->text, "lithium") &&
                !text_is(value->text, "none"))
                e->lead_acid = true;
        }
    }
    if (!any) /* no supply is described */
        e->lead_acid = true;
}

/* What a supply says of its posts in all its variants; "" where it does not, or
 * they differ. */
static struct text grounded_post(const struct values *v,
                                 const struct block *b) {
    const struct named *n = values_of(v, b, "grounded post");
    const struct variant *list;
    size_t count = values_variants(v, &list);
    struct text post = {"", 0};
    for (size_t i = 0; n != NULL && i < count; i++) {
        const struct value *value = &n->by_variant[i];
        if (value->type != VALUE_TEXT ||
            (post.len > 0 && !text_equal(post, value->text)))
            return (struct text){"", 0};
        post = value->text;
    }
    return post;
}

bool trigger_is_isolated(const struct guide *g, const struct values *v) {
    struct probe p = {.guide = g, .values = v};
    size_t supplies = 0, isolated = 0;
    for (size_t i = 0; i < g->block_count; i++) {
        const struct block *b = g->blocks[i];
        if (b->kind->id != KIND_SUPPLY ||
            (trigger_is_facts(b) && !is_wired(&p, b)))
            continue;
        supplies++;
        isolated += text_is(grounded_post(v, b), "none");
    }
    return supplies > 0 && isolated == supplies;
}
