/* wire_block.c - a `wire` block: the smallest size that carries the load and
 * loses no more than allowed, or the proof that the author's size does. */
#include "base/arena.h"
#include "base/diag.h"
#include "calc/conductor.h"
#include "calc/heating.h"
#include "values/range.h"
#include "values/trial.h"
#include "values/wire_input.h"

#include <string.h>

/* The same with a size put in. */
struct wire_trial {
    const struct wire_size *size;
    struct wire_run *run;
    struct quantity *per_metre, *ampacity, *drop;
    struct quantity *hot; /* after one cranking */
    struct quantity *resistance, *temperature, *heat;
    const char *why; /* the table has no row for this size; NULL: it has */
};

/* K, after one cranking by this current. */
static struct quantity *cranked(struct values *v, const struct wire_inputs *w,
                                const struct wire_size *size,
                                const struct quantity *current) {
    return wire_input_cranked(v, size, w->material, current, w->cranking_time,
                              w->ambient);
}

/* A cranking is over before the wire is as hot as its current would make it. */
static struct quantity *drop_at(struct values *v, const struct wire_inputs *w,
                                const struct wire_trial *t,
                                const struct quantity *current) {
    if (w->cranking) {
        const struct quantity *hot = cranked(v, w, t->size, current);
        const struct quantity *of[] = {current, hot, w->loaded, t->per_metre,
                                       w->joints};
        return quantity_call(&v->maker, wire_calculation(WIRE_DROP_AT),
                             &t->run->ampacity.use.material, of);
    }
    const struct quantity *of[] = {current, w->ambient, w->loaded, t->per_metre,
                                   w->joints};
    return quantity_call(&v->maker, wire_calculation(WIRE_DROP), t->run, of);
}

static void try_size(struct values *v, struct wire_inputs *w,
                     const struct wire_size *size, struct wire_trial *t) {
    *t = (struct wire_trial){.size = size};
    struct resistance r;
    t->run = arena_alloc(v->c->arena, 1, sizeof *t->run);
    struct ampacity_use use = {w->table,      size,      w->material,
                               w->insulation, w->bundle, w->engine_space};
    if (!conductor_resistance(size, w->material, &r)) {
        t->why = "its standard has no such conductor";
        return;
    }
    if (!ampacity_find(&use, &t->run->ampacity, &t->why))
        return;
    t->why = NULL;
    if (w->ambient == NULL) {
        double k = ampacity_assumed_ambient(&t->run->ampacity);
        w->ambient = block_assumed(v, w->block, w->variant, "ambient", k,
                                   (struct ends){k, k}, "degC",
                                   "the table's own ambient: none is stated");
    }
    t->per_metre = block_table(
        v, r.nominal, (struct ends){r.nominal, r.most}, "mohm/m",
        arena_printf(v->c->arena, "resistance of %s at 20 °C", size->label),
        r.source);
    const struct quantity *of_ambient[] = {w->ambient};
    t->ampacity = quantity_call(&v->maker, wire_calculation(WIRE_AMPACITY),
                                t->run, of_ambient);
    t->drop = drop_at(v, w, t, w->current);
    if (w->cranking)
        t->hot = cranked(v, w, size, w->current);
}

static bool carries(struct values *v, const struct wire_inputs *w,
                    const struct wire_trial *t) {
    if (w->cranking)
        return range_ends(t->hot).high <= w->insulation;
    return requirement_at_most(&v->maker, w->most, t->ampacity);
}

static bool loses_no_more(struct values *v, const struct wire_inputs *w,
                          const struct wire_trial *t) {
    if (w->limit == NULL || !w->by_ends)
        return w->limit == NULL ||
               requirement_at_most(&v->maker, t->drop, w->limit);
    for (int i = 0; i < 2; i++)
        if (!requirement_at_most(&v->maker, drop_at(v, w, t, w->end[i].current),
                                 w->end[i].limit))
            return false;
    return true;
}

static bool passes(struct values *v, const struct wire_inputs *w,
                   const struct wire_trial *t) {
    return t->why == NULL && carries(v, w, t) && loses_no_more(v, w, t);
}

/* Why a size does not do: "14 AWG loses 0.61 V, over 0.40 V". */
static const char *why_not(struct values *v, const struct wire_inputs *w,
                           const struct wire_trial *t) {
    struct arena *a = v->c->arena;
    if (!carries(v, w, t))
        return w->cranking
                   ? arena_printf(a,
                                  "%s gets hotter than its insulation stands",
                                  t->size->label)
                   : arena_printf(a, "%s carries %s, not %s", t->size->label,
                                  figure_of(a, t->ampacity, FIGURE_LOW),
                                  figure_of(a, w->most, FIGURE_HIGH));
    return arena_printf(a, "%s loses %s, more than %s", t->size->label,
                        figure_of(a, t->drop, FIGURE_HIGH),
                        figure_of(a, w->limit, FIGURE_AT_MOST));
}

/* What the search for a size found. */
struct wire_search {
    struct wire_trial found, largest;
    bool any;
    const char *why;      /* the table has no row for any size */
    const char *rejected; /* why the sizes below the found one fail */
};

static void search_sizes(struct values *v, struct wire_inputs *w,
                         struct wire_search *out) {
    *out = (struct wire_search){0};
    struct buf rejected = buf_in(v->c->arena);
    const struct wire_size *size;
    for (size_t i = 0; (size = size_at(w->system, i)) != NULL; i++) {
        if (!size->usual)
            continue;
        struct wire_trial t;
        try_size(v, w, size, &t);
        if (t.why != NULL) { /* the table has no row for it */
            out->why = t.why;
            continue;
        }
        out->largest = t;
        if (passes(v, w, &t)) {
            out->found = t;
            out->any = true;
            break;
        }
        buf_printf(&rejected, "%s%s", rejected.len > 0 ? "\n" : "",
                   why_not(v, w, &t));
    }
    out->rejected = buf_cstr(&rejected);
}

/* Where no size passes that is told, and what fails at the largest only once it
 * is set aside. */
static void require(struct values *v, const struct wire_inputs *w,
                    const char *rule, const char *what,
                    const struct quantity *left, const struct quantity *right,
                    const char *source, const char *cure) {
    block_require(v,
                  (struct requirement){
                      .block = w->block,
                      .variant = w->variant,
                      .rule = rule,
                      .what = what,
                      .left = left,
                      .right = right,
                      .relation = RELATION_AT_MOST,
                      .source = source,
                      .cure = cure,
                      .same = {w->none_passes ? "size" : NULL, w->block, NULL},
                      .at = w->use_at});
}

static const struct quantity *insulation_of(struct values *v,
                                            const struct wire_inputs *w) {
    return block_table(v, w->insulation,
                       (struct ends){w->insulation, w->insulation}, "degC",
                       "insulation", "stated");
}

static void set_requirements(struct values *v, const struct wire_inputs *w,
                             const struct wire_trial *t, const char *cure) {
    if (w->cranking)
        require(v, w, "cranking", "conductor temperature after cranking",
                t->hot, insulation_of(v, w),
                "short-time heating without loss of heat", cure);
    else
        require(v, w, "ampacity", "current", w->most, t->ampacity,
                t->run->ampacity.source, cure);
    if (w->limit != NULL)
        require(v, w, "drop", "voltage drop", t->drop, w->limit,
                w->limit_source, cure);
    if (w->terminals == NULL)
        return;
    /* What a terminal carries for seconds no table says, as in a circuit. */
    block_require(v, (struct requirement){
                         .block = w->block,
                         .variant = w->variant,
                         .rule = "terminals",
                         .what = "current through the terminals",
                         .left = w->most,
                         .right = w->terminals,
                         .relation = RELATION_AT_MOST,
                         .source = "terminals of the block",
                         .cure = w->cranking
                                     ? "its rating is of a current that lasts; "
                                       "for a start ask the maker, or fit a "
                                       "larger one"
                                     : "a larger terminal, or two",
                         .flag = w->cranking,
                         .at = w->use_at});
}

static void set_steady(struct values *v, const struct wire_inputs *w,
                       struct wire_trial *t) {
    struct quantity_maker *m = &v->maker;
    const struct quantity *loop_of[] = {w->current, w->ambient, w->length,
                                        t->per_metre};
    const struct quantity *heat_of[] = {w->most, w->ambient, w->length,
                                        t->per_metre};
    const struct quantity *warm_of[] = {w->most, w->ambient};
    t->resistance =
        quantity_call(m, wire_calculation(WIRE_RESISTANCE), t->run, loop_of);
    t->temperature =
        quantity_call(m, wire_calculation(WIRE_TEMPERATURE), t->run, warm_of);
    t->heat = quantity_call(m, wire_calculation(WIRE_HEAT), t->run, heat_of);
}

/* At the end of one cranking. */
static void set_cranked(struct values *v, const struct wire_inputs *w,
                        struct wire_trial *t) {
    struct quantity_maker *m = &v->maker;
    const enum material *material = &t->run->ampacity.use.material;
    const struct quantity *of[] = {w->current, t->hot, w->length, t->per_metre};
    t->resistance = quantity_call(m, wire_calculation(WIRE_RESISTANCE_AT),
                                  material, of + 1);
    t->temperature = t->hot;
    t->heat = quantity_call(m, wire_calculation(WIRE_HEAT_AT), material, of);
    const struct quantity *stands = insulation_of(v, w);
    struct heated *heated = arena_alloc(v->c->arena, 1, sizeof *heated);
    *heated = (struct heated){t->size, w->material};
    const struct quantity *most_of[] = {w->cranking_time, w->ambient, stands};
    block_quantity(v, w->block, "cranking", w->variant,
                   "allowed current for one cranking",
                   quantity_call(m, heating_calculation(HEATING_CURRENT),
                                 heated, most_of));
}

static void set_fields(struct values *v, const struct wire_inputs *w,
                       struct wire_trial *t) {
    const struct block *b = w->block;
    size_t variant = w->variant;
    struct quantity_maker *m = &v->maker;
    (w->cranking ? set_cranked : set_steady)(v, w, t);
    block_field(
        v, b, "size", variant,
        (struct value){.type = VALUE_SIZE, .size = t->size, .decision = true});
    block_quantity(v, b, "area", variant, "area",
                   block_table(v, t->size->area,
                               (struct ends){t->size->area, t->size->area},
                               "mm2", "area", t->size->source));
    block_quantity(v, b, "current", variant, "current", w->current);
    block_quantity(v, b, "most", variant, "most current", w->most);
    block_quantity(v, b, "loop", variant, "length of conductor", w->length);
    block_quantity(v, b, "ampacity", variant, "ampacity", t->ampacity);
    block_quantity(v, b, "resistance", variant, "resistance", t->resistance);
    block_quantity(v, b, "drop", variant, "voltage drop", t->drop);
    if (w->has_feed)
        block_quantity(
            v, b, "percent", variant, "drop, of the supply",
            quantity_binary(m, QUANTITY_DIVIDE, t->drop, w->feed.base));
    block_quantity(v, b, "temperature", variant, "conductor temperature",
                   t->temperature);
    block_quantity(v, b, "heat", variant, "heat in the wire", t->heat);
}

static void no_size(struct values *v, const struct wire_inputs *w,
                    const struct wire_search *s) {
    const struct wire_trial *largest = &s->largest;
    bool no_row = largest->size == NULL;
    const char *trouble =
        no_row ? arena_printf(v->c->arena, "no size of %s has a row in %s: %s",
                              size_system_name(w->system),
                              ampacity_table_name(w->table), s->why)
               : arena_printf(
                     v->c->arena,
                     "no size of %s passes: %s, the largest, loses %s and "
                     "carries %s",
                     size_system_name(w->system), largest->size->label,
                     figure_of(v->c->arena, largest->drop, FIGURE_HIGH),
                     figure_of(v->c->arena, largest->ampacity, FIGURE_LOW));
    block_require(
        v, (struct requirement){.block = w->block,
                                .variant = w->variant,
                                .rule = "size",
                                .what = "wire size",
                                .trouble = trouble,
                                .cure = no_row ? "another table: write "
                                                 "ampacity:"
                                               : "a shorter run, two wires "
                                                 "side by side, or a higher "
                                                 "drop limit",
                                .stops = no_row,
                                .at = w->block->at});
}

/* The size of a trial or of `use`; NULL: the compiler chooses. */
static const struct wire_size *stated_size(const struct values *v,
                                           const struct block *b,
                                           const struct value *use) {
    if (v->trial != NULL && v->trial->block == b)
        return v->trial->size;
    return use->type == VALUE_SIZE ? use->size : NULL;
}

/* A size without a row in the table stops here. */
static bool has_row(struct values *v, const struct wire_inputs *w,
                    const struct wire_trial *t, const char *cure) {
    if (t->why == NULL)
        return true;
    block_require(v, (struct requirement){.block = w->block,
                                          .variant = w->variant,
                                          .rule = "ampacity",
                                          .what = "ampacity",
                                          .trouble = t->why,
                                          .cure = cure,
                                          .stops = true,
                                          .at = w->block->at});
    return false;
}

static void list_table(struct values *v, const struct wire_inputs *w,
                       const struct ampacity *a) {
    if (a->row_smaller)
        block_assume(v, w->block, w->variant, "row of the ampacity table",
                     arena_printf(v->c->arena, "%s", a->row),
                     "the largest row that is not larger in area");
    if (!a->verified)
        block_assume(v, w->block, w->variant, "ampacity", "unverified table",
                     a->source);
}

static const struct wire_outcome *keep_outcome(struct values *v,
                                               const struct wire_inputs *w,
                                               const struct wire_trial *t,
                                               const char *rejected) {
    struct wire_outcome *o = arena_alloc(v->c->arena, 1, sizeof *o);
    *o = (struct wire_outcome){.current = w->most,
                               .load = w->stated,
                               .ampacity = t->ampacity,
                               .length = w->length,
                               .per_metre = t->per_metre,
                               .ambient = w->ambient,
                               .temperature = t->temperature,
                               .cranking_time = w->cranking_time,
                               .run = t->run,
                               .size = t->size,
                               .rejected = rejected,
                               .material = w->material,
                               .insulation = w->insulation,
                               .cranking = w->cranking,
                               .continuous = !w->intermittent,
                               .feed = w->feed,
                               .has_feed = w->has_feed};
    v->of_block[w->block->index].outcome[w->variant] = o;
    return o;
}

bool wire_block_compute(struct values *v, const struct block *b,
                        size_t variant) {
    struct wire_inputs w;
    if (!wire_input_read(v, b, variant, &w))
        return false;
    struct wire_search search;
    search_sizes(v, &w, &search);
    const struct value *use = block_setting(v, b, "use", variant);
    w.use_at = use->type == VALUE_SIZE ? use->at : b->at;
    const struct wire_size *stated = stated_size(v, b, use);
    struct wire_trial chosen = search.any ? search.found : search.largest;
    const char *cure = NULL;
    if (stated != NULL) {
        try_size(v, &w, stated, &chosen);
        if (search.any)
            cure = arena_printf(v->c->arena, "%s passes",
                                search.found.size->label);
    } else if (!search.any) {
        w.none_passes = true;
        no_size(v, &w, &search);
    }
    if (chosen.size == NULL || !has_row(v, &w, &chosen, cure))
        return false;
    list_table(v, &w, &chosen.run->ampacity);
    set_fields(v, &w, &chosen);
    set_requirements(v, &w, &chosen, cure);
    weak_link_require(v, b, variant,
                      keep_outcome(v, &w, &chosen, search.rejected));
    return true;
}

const struct wire_outcome *
electrical_wire(struct values *v, const struct block *wire, size_t variant) {
    evaluate_block(v, wire, variant);
    return v->of_block[wire->index].outcome[variant];
}
