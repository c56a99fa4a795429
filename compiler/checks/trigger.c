/* trigger.c - what the blocks of a guide expose a person to. */
#include "checks/trigger.h"

#include "base/arena.h"
#include "calc/rounding.h"
#include "source/kind.h"
#include "values/figure.h"
#include "values/range.h"

#include <math.h>
#include <string.h>

/* Thresholds of the hazard catalogue; ours where it names no document. */
#define FAULT_AMPERE 200.0  /* H04 */
#define TOUCH_KELVIN 333.15 /* H07: reachable metal, 60 degC */
#define LINE_VOLT 50.0      /* H09: 29 CFR 1910.333 */

static struct trigger *add_row(struct compile *c, struct triggers *e,
                               const char *row) {
    struct trigger *x = &e->row[e->row_count++];
    x->row = row;
    x->block =
        arena_alloc(c->arena, e->guide->block_count + 1, sizeof(*x->block));
    return x;
}

static void fire(struct trigger *x, const struct block *b) {
    x->fires = true;
    for (size_t i = 0; i < x->block_count; i++)
        if (x->block[i] == b)
            return;
    x->block[x->block_count++] = b;
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

static bool was_assumed(const struct values *v, const struct block *b,
                        const char *what) {
    const struct assumption *list;
    size_t count = values_assumptions(v, &list);
    for (size_t i = 0; i < count; i++)
        if (list[i].block == b && strcmp(list[i].what, what) == 0)
            return true;
    return false;
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

static void find_faults(struct compile *c, const struct values *v,
                        struct triggers *e) {
    struct trigger *x = add_row(c, e, "H04");
    double most = 0;
    for (size_t i = 0; i < e->guide->block_count; i++) {
        const struct block *b = e->guide->blocks[i];
        if (b->kind->id != KIND_FUSE || b->name.len == 0 || is_facts(b))
            continue;
        double ampere = highest(v, b, "fault.high");
        bool assumed = false; /* a source that nobody measured */
        for (size_t k = 0; k < e->guide->block_count; k++)
            assumed = assumed || was_assumed(v, e->guide->blocks[k],
                                             "inner resistance of the supply");
        if (isnan(ampere) || (ampere < FAULT_AMPERE && !assumed))
            continue;
        fire(x, b);
        most = fmax(most, ampere);
    }
    if (x->fires)
        e->text.fault_current = current_text(c, most);
}

static void find_heat(struct compile *c, const struct values *v,
                      struct triggers *e) {
    struct trigger *x = add_row(c, e, "H07");
    for (size_t i = 0; i < e->guide->block_count; i++) {
        const struct block *b = e->guide->blocks[i];
        if (b->kind->id != KIND_WIRE || b->name.len == 0 || is_facts(b))
            continue;
        double kelvin = highest(v, b, "temperature");
        if (was_assumed(v, b, "ambient") ||
            (!isnan(kelvin) && kelvin >= TOUCH_KELVIN))
            fire(x, b);
    }
}

/* Wires on a supply: live battery below 50 V, line voltage from there on. */
static void find_sources(struct compile *c, const struct values *v,
                         struct triggers *e) {
    struct trigger *battery = add_row(c, e, "H01");
    struct trigger *line = add_row(c, e, "H09");
    const struct guide *g = e->guide;
    for (size_t i = 0; i < g->block_count; i++) {
        const struct block *b = g->blocks[i];
        if (b->kind->id == KIND_SUPPLY) {
            double volt =
                fmax(highest(v, b, "resting"), highest(v, b, "charging"));
            if (volt >= LINE_VOLT)
                fire(line, b);
        }
        if (b->kind->id != KIND_WIRE || b->name.len == 0 || is_facts(b) ||
            values_of(v, b, "supply") == NULL)
            continue;
        double volt =
            highest(v, b, "supply"); /* NAN: a block, looked at above */
        if (!isnan(volt) && volt >= LINE_VOLT)
            fire(line, b);
        else
            fire(battery, b);
    }
}

static void find_chemistry(const struct values *v, struct triggers *e) {
    bool any = false;
    for (size_t i = 0; i < e->guide->block_count; i++) {
        const struct block *b = e->guide->blocks[i];
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
static void find_unfused(struct compile *c, const struct verdicts *judged,
                         struct triggers *e) {
    struct trigger *x = add_row(c, e, "H05");
    for (size_t i = 0; i < judged->count; i++) {
        const struct verdict *one = &judged->list[i];
        if (!one->overridden || one->rule == NULL ||
            strcmp(one->rule, "H05") != 0)
            continue;
        fire(x, one->block);
        e->text.place = text_cstr(c->arena, one->block->name);
        e->text.limit = one->limit;
    }
}

/* What the stands must carry: the worst variant's figure. */
static void find_load(const struct verdicts *judged, struct triggers *e) {
    for (size_t i = 0; i < judged->count; i++)
        if (judged->list[i].rule != NULL &&
            strcmp(judged->list[i].rule, "H14") == 0 &&
            judged->list[i].limit != NULL)
            e->text.load = judged->list[i].value;
}

void trigger_find(struct compile *c, const struct guide *g,
                  const struct values *v, const struct verdicts *judged,
                  struct triggers *out) {
    *out = (struct triggers){.guide = g};
    find_faults(c, v, out);
    find_heat(c, v, out);
    find_sources(c, v, out);
    find_chemistry(v, out);
    find_unfused(c, judged, out);
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

bool trigger_has_joint(const struct triggers *e, const struct step_words *s,
                       struct text tag) {
    for (size_t i = 0; i < e->guide->block_count; i++) {
        const struct block *b = e->guide->blocks[i];
        if (b->kind->id != KIND_TORQUE || b->name.len == 0)
            continue;
        const struct entry *joint = tree_setting(b, "joint");
        if (joint != NULL && joint->choice_count > 0 &&
            text_equal(text_trim(joint->choices[0].text), tag) &&
            walk_names(e->guide, s, b))
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

const struct step_words *trigger_first_step(const struct steps *s) {
    for (size_t i = 0; i < s->count; i++) {
        const struct node *section = s->step[i].section;
        if (section != NULL && section->text != NULL &&
            text_is(section->text->text, "Procedure"))
            return &s->step[i];
    }
    return &s->step[0];
}
