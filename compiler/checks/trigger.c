/* trigger.c - what the blocks of a guide expose a person to. */
#include "checks/trigger.h"

#include "base/arena.h"
#include "calc/rounding.h"
#include "checks/judge.h"
#include "source/kind.h"
#include "values/figure.h"
#include "values/range.h"

#include <math.h>
#include <string.h>

/* Thresholds of the hazard catalogue; ours where it names no document. */
#define FAULT_AMPERE 200.0  /* H04 */
#define TOUCH_KELVIN 333.15 /* H07: reachable metal, 60 degC */
#define LINE_VOLT 50.0      /* H09: 29 CFR 1910.333 */

static struct trigger *add_row(struct compile *c, const struct guide *g,
                               struct triggers *e, const char *row) {
    struct trigger *t = &e->row[e->row_count++];
    t->row = row;
    t->by = arena_alloc(c->arena, g->block_count + 1, sizeof *t->by);
    return t;
}

static void fire(struct trigger *t, const struct block *b) {
    t->fires = true;
    t->by[b->index] = true;
}

/* Highest end of a field or setting over the variants that apply; NAN when it
 * has no value in any. */
static double highest(const struct values *v, const struct block *b,
                      const char *name) {
    const struct named *n = values_of(v, b, name);
    const struct variant *list;
    size_t count = values_variants(v, &list);
    double most = NAN;
    for (size_t i = 0; n != NULL && i < count; i++)
        if ((values_applies(v) >> i & 1) != 0 &&
            n->by_variant[i].type == VALUE_QUANTITY)
            most = fmax(most, range_ends(n->by_variant[i].quantity).high);
    return most;
}

static bool is_facts(const struct block *b) {
    return b->scope->parent == NULL;
}

/* Kilo-amperes from 1000 A on, rounded up to two digits. */
static const char *current_text(struct compile *c, double ampere) {
    const struct unit *a = unit_find("A", 1), *ka = unit_find("kA", 2);
    const struct unit *u = ampere >= 1000 && ka != NULL ? ka : a;
    int decimals = round_decimals(unit_from_si(u, ampere), 2);
    return figure_text(c->arena, ampere, u, u->dim, decimals < 0 ? 0 : decimals,
                       ROUND_UP);
}

/* Blocks of the guide that compute; those of the facts are for others. */
static bool is_of_guide(const struct block *b, enum kind_id kind) {
    return b->kind->id == kind && b->name.len > 0 && !is_facts(b);
}

static bool any_source_assumed(const struct values *v) {
    const struct assumption *list;
    size_t count = values_assumptions(v, &list);
    for (size_t i = 0; i < count; i++)
        if (strcmp(list[i].what, "inner resistance of the supply") == 0)
            return true;
    return false;
}

/* A source that nobody measured or described counts as a strong one. */
static void find_faults(struct compile *c, const struct guide *g,
                        const struct values *v, struct triggers *e) {
    struct trigger *t = add_row(c, g, e, "H04");
    bool assumed = any_source_assumed(v);
    double most = 0;
    for (size_t i = 0; i < g->block_count; i++) {
        const struct block *b = g->blocks[i];
        if (!is_of_guide(b, KIND_FUSE))
            continue;
        double ampere = highest(v, b, "fault.high");
        if (ampere < FAULT_AMPERE && !assumed)
            continue;
        fire(t, b);
        most = fmax(most, ampere);
    }
    if (most > 0)
        e->text.fault_current = current_text(c, most);
}

static void find_heat(struct compile *c, const struct guide *g,
                      const struct values *v, struct triggers *e) {
    struct trigger *t = add_row(c, g, e, "H07");
    for (size_t i = 0; i < g->block_count; i++) {
        const struct block *b = g->blocks[i];
        if (is_of_guide(b, KIND_WIRE) &&
            (values_assumed(v, b, "ambient") ||
             highest(v, b, "temperature") >= TOUCH_KELVIN))
            fire(t, b);
    }
}

static double supply_volt(const struct values *v, const struct block *supply) {
    return fmax(highest(v, supply, "resting"), highest(v, supply, "charging"));
}

/* The voltage behind a wire; NAN when it is not known. */
static double volt_behind(const struct values *v, const struct block *wire) {
    const struct named *n = values_of(v, wire, "supply");
    const struct variant *list;
    size_t count = values_variants(v, &list);
    double most = highest(v, wire, "supply");
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
            most = fmax(most, supply_volt(v, supply));
    }
    return most;
}

/* Wires by their supply: live battery below 50 V, or where none is stated; line
 * voltage from there on. */
static void find_sources(struct compile *c, const struct guide *g,
                         const struct values *v, struct triggers *e) {
    struct trigger *battery = add_row(c, g, e, "H01");
    struct trigger *line = add_row(c, g, e, "H09");
    for (size_t i = 0; i < g->block_count; i++) {
        const struct block *b = g->blocks[i];
        if (b->kind->id == KIND_SUPPLY && supply_volt(v, b) >= LINE_VOLT) {
            line->by[i] = true; /* one of the facts: where a step names it */
            line->fires = line->fires || !is_facts(b);
        }
        if (is_of_guide(b, KIND_WIRE))
            fire(volt_behind(v, b) >= LINE_VOLT ? line : battery, b);
    }
}

static void find_chemistry(const struct guide *g, const struct values *v,
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

/* An unfused cable that an override lets through is warned of. */
static void find_unfused(struct compile *c, const struct guide *g,
                         const struct verdicts *judged, struct triggers *e) {
    struct trigger *t = add_row(c, g, e, "H05");
    for (size_t i = 0; i < judged->count; i++) {
        const struct verdict *one = &judged->list[i];
        if (!one->overridden || one->rule == NULL ||
            strcmp(one->rule, "H05") != 0)
            continue;
        fire(t, one->block);
        e->text.place = text_cstr(c->arena, one->block->name);
        e->text.limit = one->limit;
    }
}

/* What the stands must carry: the figure of the variant that is worst off. */
static void find_load(const struct verdicts *judged, struct triggers *e) {
    double least = INFINITY;
    for (size_t i = 0; i < judged->count; i++) {
        const struct verdict *one = &judged->list[i];
        if (one->rule == NULL || strcmp(one->rule, "H14") != 0 ||
            one->limit == NULL || one->slack > least)
            continue;
        least = one->slack;
        e->text.load = one->value;
    }
}

void trigger_find(struct compile *c, const struct guide *g,
                  const struct values *v, const struct verdicts *judged,
                  struct triggers *out) {
    *out = (struct triggers){0};
    find_faults(c, g, v, out);
    find_heat(c, g, v, out);
    find_sources(c, g, v, out);
    find_chemistry(g, v, out);
    find_unfused(c, g, judged, out);
    find_load(judged, out);
}

const struct trigger *trigger_of(const struct triggers *e, const char *row) {
    for (size_t i = 0; i < e->row_count; i++)
        if (strcmp(e->row[i].row, row) == 0)
            return &e->row[i];
    return NULL;
}

bool trigger_rules_out(const struct triggers *e, const char *row) {
    return strcmp(row, "H02") == 0 && !e->lead_acid;
}

bool trigger_meets(const struct trigger *t, const struct step_words *s) {
    for (size_t i = 0; i < s->named_count; i++)
        if (t->by[s->named[i]->index])
            return true;
    return false;
}

bool trigger_has_joint(const struct step_words *s, struct text tag) {
    for (size_t i = 0; i < s->named_count; i++) {
        const struct block *b = s->named[i];
        const struct entry *joint =
            b->kind->id == KIND_TORQUE ? tree_setting(b, "joint") : NULL;
        if (joint != NULL && joint->choice_count > 0 &&
            text_equal(text_trim(joint->choices[0].text), tag))
            return true;
    }
    return false;
}

const char *trigger_word(const struct trigger_text *t, struct text name) {
    const char *word = NULL;
    if (text_is(name, "fault.current"))
        word = t->fault_current != NULL ? t->fault_current : "a high current";
    else if (text_is(name, "place"))
        word = t->place != NULL ? t->place : "the wire";
    else if (text_is(name, "load"))
        word = t->load != NULL ? t->load : "the axle load";
    else if (text_is(name, "limit"))
        word = t->limit != NULL ? t->limit : "7\xC2\xA0in";
    return word == NULL ? "" : word;
}
