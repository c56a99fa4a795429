/* trigger.c - what the blocks of a guide expose a person to. */
#include "checks/trigger.h"

#include "base/arena.h"
#include "calc/grade.h"
#include "calc/rounding.h"
#include "checks/judge.h"
#include "checks/trigger_probe.h"
#include "checks/wired.h"
#include "source/kind.h"
#include "values/figure.h"
#include "values/range.h"

#include <math.h>
#include <string.h>

void trigger_fire(struct trigger *t, const struct block *b) {
    t->fires = true;
    t->by[b->index] = true;
}

bool trigger_is_facts(const struct block *b) {
    return b->scope->parent == NULL;
}

bool trigger_is_of_guide(const struct block *b, enum kind_id kind) {
    return b->kind->id == kind && b->name.len > 0 && !trigger_is_facts(b);
}

/* An estimate, as values/electrical.h prints it: two digits, rounded up, and
 * kilo-amperes from 1000 A on. */
static const char *current_text(struct compile *c, double ampere) {
    const struct unit *a = unit_find("A", 1), *ka = unit_find("kA", 2);
    const struct unit *u = ampere >= 1000 && ka != NULL ? ka : a;
    int decimals = round_decimals(unit_from_si(u, ampere), 2);
    return figure_text(c->arena, ampere, u, u->dim, decimals, ROUND_UP);
}

static bool any_source_assumed(const struct values *v) {
    const struct assumption *list;
    size_t count = values_assumptions(v, &list);
    for (size_t i = 0; i < count; i++)
        if (strcmp(list[i].what, "inner resistance of the supply") == 0)
            return true;
    return false;
}

/* Into a short at the load side of a fuse, or anywhere in a circuit. */
static double fault_of(const struct values *v, const struct block *b) {
    const struct circuit_extremes *e = values_extremes(v, b);
    return e != NULL ? e->fault : values_highest(v, b, "fault.high");
}

/* A source that nobody measured or described counts as a strong one. */
static void find_fault(const struct probe *p) {
    bool assumed = any_source_assumed(p->values);
    double most = 0;
    for (size_t i = 0; i < p->guide->block_count; i++) {
        const struct block *b = p->guide->blocks[i];
        if (!trigger_is_of_guide(b, KIND_FUSE) &&
            !trigger_is_of_guide(b, KIND_CIRCUIT))
            continue;
        const struct circuit_extremes *e = values_extremes(p->values, b);
        double ampere = fault_of(p->values, b);
        if (!isnan(ampere) && !condition_met(p->condition, ampere) &&
            !(e != NULL ? e->fault_assumed : assumed))
            continue;
        trigger_fire(p->trigger, b);
        most = fmax(most, ampere);
    }
    if (most > 0)
        p->found->text.fault_current = current_text(p->c, most);
}

static void find_heat(const struct probe *p) {
    for (size_t i = 0; i < p->guide->block_count; i++) {
        const struct block *b = p->guide->blocks[i];
        const struct circuit_extremes *e = values_extremes(p->values, b);
        double kelvin = e != NULL ? e->temperature
                                  : values_highest(p->values, b, "temperature");
        if ((trigger_is_of_guide(b, KIND_WIRE) ||
             trigger_is_of_guide(b, KIND_CIRCUIT)) &&
            (values_assumed(p->values, b, "ambient") ||
             condition_met(p->condition, kelvin)))
            trigger_fire(p->trigger, b);
    }
}

/* Whether a wire or a circuit of the guide carries the load. */
static bool is_carried(const struct probe *p, const struct block *load) {
    for (size_t i = 0; i < p->guide->block_count; i++) {
        const struct block *b = p->guide->blocks[i];
        if (b->circuit != NULL && wired_names_load(b, load->name))
            return true;
        const struct entry *e =
            trigger_is_of_guide(b, KIND_WIRE) ? tree_setting(b, "load") : NULL;
        for (size_t k = 0; e != NULL && k < e->choice_count; k++)
            if (text_equal(text_trim(e->choices[k].text), load->name))
                return true;
    }
    return false;
}

/* E = C U^2 / 2. A voltage that is not stated counts as high enough. */
static void find_energy(const struct probe *p, double least_volt) {
    for (size_t i = 0; i < p->guide->block_count; i++) {
        const struct block *b = p->guide->blocks[i];
        if (b->kind->id != KIND_LOAD || tree_setting(b, "capacitance") == NULL)
            continue;
        double farad = values_highest(p->values, b, "capacitance");
        double volt = values_highest(p->values, b, "charged to");
        if (!isnan(volt) &&
            (volt < least_volt ||
             !condition_met(p->condition, farad * volt * volt / 2)))
            continue;
        p->trigger->by[i] = true;
        p->trigger->fires =
            p->trigger->fires || !trigger_is_facts(b) || is_carried(p, b);
    }
}

/* Parts that the guide uses. Where the catalogue or the guide has a column of
 * masses, an empty cell counts as heavy; where neither has, nobody weighs. */
static bool is_heavy(const struct probe *p, const struct block *b,
                     const struct entry *row) {
    for (size_t k = 0; k < 64; k++)
        if ((values_applies(p->values) >> k & 1) != 0 &&
            condition_met(p->condition,
                          values_cell_number(p->values, b, row, "mass", k)))
            return true;
    const struct cell *cell = tree_cell(b, row, "mass");
    return cell != NULL && cell->text.len == 0;
}

static bool is_used(const struct probe *p, struct text item) {
    for (size_t i = 0; i < p->guide->block_count; i++) {
        const struct block *b = p->guide->blocks[i];
        for (size_t k = 0;
             b->kind->id == KIND_PARTS && b->node != NULL && k < b->entry_count;
             k++) {
            const struct cell *cell = tree_cell(b, &b->entries[k], "item");
            if (cell != NULL && text_equal(cell->text, item))
                return true;
        }
    }
    return false;
}

static void find_mass(const struct probe *p) {
    for (size_t i = 0; i < p->guide->block_count; i++) {
        const struct block *b = p->guide->blocks[i];
        for (size_t k = 0; b->kind->id == KIND_PARTS && k < b->entry_count;
             k++) {
            const struct entry *row = &b->entries[k];
            const struct cell *item = tree_cell(b, row, "item");
            if (row->kind == ENTRY_ROW && item != NULL && !row->bad &&
                (b->node != NULL || is_used(p, item->text)) &&
                is_heavy(p, b, row))
                trigger_fire(p->trigger, b);
        }
    }
}

/* Any text of a setting over the variants. */
static bool any_text(const struct values *v, const struct block *b,
                     const char *setting, bool (*is)(struct text)) {
    const struct named *n = values_of(v, b, setting);
    const struct variant *list;
    size_t count = values_variants(v, &list);
    for (size_t i = 0; n != NULL && i < count; i++)
        if (n->by_variant[i].type == VALUE_TEXT && is(n->by_variant[i].text))
            return true;
    return false;
}

static bool is_stainless_grade(struct text t) {
    const struct grade *g = NULL;
    return grade_find(t.start, t.len, 0.008, &g) != GRADE_UNREADABLE &&
           g->stainless;
}

static bool is_stainless_condition(struct text t) {
    return text_starts(t, "stainless");
}

static void find_stainless(const struct probe *p) {
    for (size_t i = 0; i < p->guide->block_count; i++) {
        const struct block *b = p->guide->blocks[i];
        if (trigger_is_of_guide(b, KIND_TORQUE) &&
            (any_text(p->values, b, "grade", is_stainless_grade) ||
             any_text(p->values, b, "nut", is_stainless_grade) ||
             any_text(p->values, b, "condition", is_stainless_condition)))
            trigger_fire(p->trigger, b);
    }
}

static bool says_hydraulic(struct text name) {
    static const char word[] = "hydraulic";
    size_t len = sizeof word - 1;
    for (size_t i = 0; i + len <= name.len; i++)
        if (strncmp(name.start + i, word, len) == 0)
            return true;
    return false;
}

/* A figure of a pressure does not say of what: its name does. */
static void find_pressure(const struct probe *p) {
    const struct unit *bar = unit_find("bar", 3);
    for (size_t i = 0; i < values_count(p->values); i++) {
        const struct named *n = values_at(p->values, i);
        const struct variant *list;
        size_t count = values_variants(p->values, &list);
        if (!says_hydraulic(n->name))
            continue;
        for (size_t k = 0; k < count; k++) {
            const struct value *v = &n->by_variant[k];
            if ((values_applies(p->values) >> k & 1) == 0 ||
                v->type != VALUE_QUANTITY ||
                !dim_same(v->quantity->dim, bar->dim) ||
                !condition_met(p->condition, range_ends(v->quantity).high))
                continue;
            p->trigger->fires = true;
            if (n->block != NULL)
                p->trigger->by[n->block->index] = true;
        }
    }
}

static const char *place_of_verdict(const struct probe *p,
                                    const struct verdict *one) {
    return one->part != NULL ? one->part
                             : text_cstr(p->c->arena, one->block->name);
}

static bool is_let_through(const struct verdict *one) {
    return one->overridden && one->rule != NULL &&
           strcmp(one->rule, "H05") == 0;
}

/* Unfused cables that an override lets through are warned of, each once. */
static void find_unfused(const struct probe *p) {
    struct buf places = buf_in(p->c->arena);
    const struct verdict *list = p->judged->list;
    for (size_t i = 0; i < p->judged->count; i++) {
        if (!is_let_through(&list[i]))
            continue;
        const char *place = place_of_verdict(p, &list[i]);
        bool known = false;
        for (size_t k = 0; k < i; k++)
            known =
                known || (is_let_through(&list[k]) &&
                          strcmp(place_of_verdict(p, &list[k]), place) == 0);
        trigger_fire(p->trigger, list[i].block);
        if (!known)
            buf_printf(&places, "%s%s", places.len > 0 ? ", " : "", place);
        p->found->text.place = buf_cstr(&places);
        p->found->text.limit = list[i].limit;
    }
}

/* Who has stands at hand raises the vehicle, whatever the steps call it. */
static void find_stands(const struct probe *p) {
    for (size_t i = 0; i < p->guide->block_count; i++) {
        const struct block *b = p->guide->blocks[i];
        if (b->kind->id == KIND_PRELIMINARY && !trigger_is_facts(b) &&
            tree_setting(b, "stands") != NULL)
            trigger_fire(p->trigger, b);
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

/* When joints that hold the vehicle together are tightened again: in their own
 * words, where they have the same. */
static void find_again(struct compile *c, const struct guide *g,
                       const struct values *v, const struct catalogue *k,
                       struct triggers *e) {
    const struct hazard *h = catalogue_find(k, "H26");
    const char *when = NULL;
    bool differ = false;
    for (size_t i = 0; h != NULL && i < g->block_count; i++) {
        const struct block *b = g->blocks[i];
        const struct named *n = values_of(v, b, "re-check");
        bool holding = false;
        for (size_t t = 0; t < h->tags.count; t++)
            holding = holding || trigger_is_joint(v, b, h->tags.item[t]);
        const char *said =
            n == NULL || !holding || !trigger_is_of_guide(b, KIND_TORQUE)
                ? NULL
                : values_print_over(v, c->arena, n, values_applies(v),
                                    PRINT_PLAIN);
        if (said == NULL)
            continue;
        differ = differ || (when != NULL && strcmp(when, said) != 0);
        when = said;
    }
    if (when == NULL)
        return;
    bool after = strncmp(when, "after ", 6) == 0;
    e->text.again = differ ? " Tighten again as the torque table says."
                           : arena_printf(c->arena, " Tighten again %s%s.",
                                          after ? "" : "after ", when);
}

static void find(const struct probe *p) {
    switch (p->condition->measure) {
    case MEASURE_BATTERY:
        trigger_find_battery(p);
        break;
    case MEASURE_VOLTAGE:
        trigger_find_voltage(p);
        break;
    case MEASURE_FAULT:
        find_fault(p);
        break;
    case MEASURE_SURFACE:
        find_heat(p);
        break;
    case MEASURE_ENERGY:
        find_energy(p, 0);
        break;
    case MEASURE_ENERGY_50V:
        find_energy(p, LINE_VOLT);
        break;
    case MEASURE_MASS:
        find_mass(p);
        break;
    case MEASURE_LITHIUM:
        trigger_find_lithium(p);
        break;
    case MEASURE_OVERCHARGE:
        trigger_find_overcharge(p);
        break;
    case MEASURE_SAFETY_DROP:
        trigger_find_safety_drop(p);
        break;
    case MEASURE_STAINLESS:
        find_stainless(p);
        break;
    case MEASURE_PRESSURE:
        find_pressure(p);
        break;
    case MEASURE_UNFUSED:
        find_unfused(p);
        break;
    case MEASURE_STANDS:
        find_stands(p);
        break;
    case MEASURE_COUNT:
        break;
    }
}

void trigger_find(struct compile *c, const struct guide *g,
                  const struct values *v, const struct catalogue *k,
                  const struct verdicts *judged, struct triggers *out) {
    *out = (struct triggers){0};
    out->row = arena_alloc(c->arena, k->count + 1, sizeof *out->row);
    for (size_t i = 0; i < k->count; i++) {
        const struct hazard *h = &k->row[i];
        if (h->when_count == 0)
            continue;
        struct trigger *t = &out->row[out->row_count++];
        t->row = h->id;
        t->by = arena_alloc(c->arena, g->block_count + 1, sizeof *t->by);
        for (size_t n = 0; n < h->when_count; n++)
            find(&(struct probe){c, g, v, judged, out, t, &h->when[n]});
    }
    trigger_find_chemistry(g, v, out);
    out->text.isolated = trigger_is_isolated(g, v);
    find_load(judged, out);
    find_again(c, g, v, k, out);
}

const struct trigger *trigger_of(const struct triggers *e, const char *row) {
    for (size_t i = 0; i < e->row_count; i++)
        if (strcmp(e->row[i].row, row) == 0)
            return &e->row[i];
    return NULL;
}

bool trigger_meets(const struct trigger *t, const struct step_words *s) {
    for (size_t i = 0; i < s->named_count; i++)
        if (t->by[s->named[i]->index])
            return true;
    return false;
}

/* "LPG" for the tag "LPG joint" */
static bool is_sort(struct text joint, struct text tag) {
    return text_equal(joint, tag) ||
           (joint.len < tag.len &&
            text_equal(joint, text_part(tag, 0, joint.len)) &&
            text_is(text_part(tag, joint.len, tag.len), " joint"));
}

bool trigger_is_joint(const struct values *v, const struct block *b,
                      struct text tag) {
    const struct named *n =
        b->kind->id == KIND_TORQUE ? values_of(v, b, "joint") : NULL;
    const struct variant *list;
    size_t count = values_variants(v, &list);
    for (size_t i = 0; n != NULL && i < count; i++)
        if (n->by_variant[i].type == VALUE_TEXT &&
            is_sort(n->by_variant[i].text, tag))
            return true;
    return false;
}

bool trigger_has_joint(const struct values *v, const struct step_words *s,
                       struct text tag) {
    for (size_t i = 0; i < s->named_count; i++)
        if (trigger_is_joint(v, s->named[i], tag))
            return true;
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
    else if (text_is(name, "tighten.again"))
        word = t->again;
    else if (text_is(name, "limit"))
        word = t->limit != NULL ? t->limit : "7\xC2\xA0in";
    else if (text_is(name, "other.side"))
        word = t->isolated ? "the other post" : "the chassis";
    else if (text_is(name, "first.cable"))
        word = t->isolated ? "one cable" : "the grounded cable";
    return word == NULL ? "" : word;
}
