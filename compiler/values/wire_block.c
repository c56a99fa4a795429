/* wire_block.c - a `wire` block: the smallest size that carries the load and
 * loses no more than allowed, or the proof that the author's size does. */
#include "base/arena.h"
#include "base/diag.h"
#include "calc/conductor.h"
#include "calc/heating.h"
#include "values/electrical.h"
#include "values/range.h"

#include <stdint.h>
#include <string.h>

/* What the block says, before a size is known. */
struct wire_inputs {
    const struct block *block;
    size_t variant;
    enum wire_system system;
    enum material material;
    enum ampacity_table table;
    double insulation; /* K */
    int bundle;
    bool engine_space, cranking, ambient_assumed, chassis;
    const struct quantity *current, *ambient, *length, *joints, *limit;
    const struct quantity *terminals, *cranking_time;
    struct feed feed;
    bool has_feed;
    struct span use_at; /* where a failed check points: `use`, or the block */
};

/* The same with a size put in. */
struct wire_trial {
    const struct wire_size *size;
    struct wire_run *run;
    const struct quantity *per_metre, *ampacity, *drop, *hot, *temperature;
    const char *why; /* the table has no row for this size; NULL: it has */
};

static void missing(struct values *v, const struct block *b,
                    const char *setting, const char *cure) {
    diag_add(v->c->diags, DIAG_SETTING_MISSING, b->at,
             "wire %.*s says no %s; %s", (int)b->name.len, b->name.start,
             setting, cure);
}

static struct text text_setting(struct values *v, const struct wire_inputs *w,
                                const char *name) {
    const struct value *value = block_setting(v, w->block, name, w->variant);
    return value->type == VALUE_TEXT ? value->text : (struct text){NULL, 0};
}

static bool is_bad(struct values *v, const struct wire_inputs *w,
                   const char *name) {
    return block_setting(v, w->block, name, w->variant)->type == VALUE_BAD;
}

static bool read_conductor(struct values *v, struct wire_inputs *w) {
    struct text name = text_setting(v, w, "conductor");
    w->system = size_system_find(name.start, name.len);
    if (name.len == 0 || w->system == WIRE_UNDECLARED) {
        if (!is_bad(v, w, "conductor"))
            missing(v, w->block, "conductor",
                    "write `conductor: AWG stranded` (or AWG solid, SAE, ISO "
                    "6722, class 2, class 5, JIS, AU) once, in the facts or "
                    "the guide: their sizes differ");
        return false;
    }
    struct text material = text_setting(v, w, "material");
    w->material = MATERIAL_COPPER;
    if (material.len > 0)
        material_find(material.start, material.len, &w->material);
    return true;
}

/* Length of conductor: there and back, or one way and the chassis. */
static bool read_length(struct values *v, struct wire_inputs *w) {
    const struct value *loop = block_setting(v, w->block, "loop", w->variant);
    const struct value *length =
        block_setting(v, w->block, "length", w->variant);
    const struct dim none = {{0}, false};
    w->joints = quantity_exact(&v->maker, 0, unit_find("ohm", 3)->dim,
                               unit_find("mohm", 4));
    if (loop->type == VALUE_QUANTITY && length->type == VALUE_QUANTITY) {
        diag_add(v->c->diags, DIAG_SETTING_VALUE, loop->at,
                 "loop and length both say how long the wire is");
        return false;
    }
    if (loop->type == VALUE_QUANTITY) {
        w->length = loop->quantity;
    } else if (length->type != VALUE_QUANTITY) {
        if (loop->type != VALUE_BAD && length->type != VALUE_BAD)
            missing(v, w->block, "length",
                    "write length (one way) and return, or loop");
        return false;
    } else {
        struct text way = text_setting(v, w, "return");
        if (way.len == 0) {
            if (!is_bad(v, w, "return"))
                missing(v, w->block, "return",
                        "how does the current come back: own wire, chassis, "
                        "or none (this wire is one way only)");
            return false;
        }
        w->length = length->quantity;
        if (text_is(way, "own wire"))
            w->length = quantity_binary(
                &v->maker, QUANTITY_MULTIPLY,
                quantity_exact(&v->maker, 2, none, NULL), length->quantity);
        w->chassis = text_is(way, "chassis");
    }
    if (w->chassis)
        w->joints = block_assumed(v, w->block, w->variant,
                                  "chassis return with its two joints", 0.005,
                                  (struct ends){0.001, 0.01}, "mohm",
                                  "common practice, no source");
    if (range_ends(w->length).low > 0)
        return true;
    diag_add(v->c->diags, DIAG_SETTING_VALUE,
             loop->type == VALUE_QUANTITY ? loop->at : length->at,
             "a wire's length is above 0");
    return false;
}

static bool read_current(struct values *v, struct wire_inputs *w) {
    w->current = electrical_current(v, w->block, w->variant);
    if (w->current == NULL) {
        if (block_setting(v, w->block, "load", w->variant)->type ==
            VALUE_ABSENT)
            missing(v, w->block, "load",
                    "write `load:` and a load block or a current");
        return false;
    }
    if (range_ends(w->current).low >= 0)
        return true;
    diag_add(v->c->diags, DIAG_SETTING_VALUE, w->block->at,
             "the current of a load is not below 0");
    return false;
}

/* Insulation, ambient, bundle, table: what is not said is taken at its worst
 * or at the table's own, and listed. */
static bool read_surroundings(struct values *v, struct wire_inputs *w) {
    const struct block *b = w->block;
    const struct value *insulation =
        block_setting(v, b, "insulation", w->variant);
    const struct value *ambient = block_setting(v, b, "ambient", w->variant);
    const struct value *bundle = block_setting(v, b, "bundle", w->variant);
    const struct value *engine =
        block_setting(v, b, "engine space", w->variant);
    if (insulation->type == VALUE_BAD || ambient->type == VALUE_BAD ||
        bundle->type == VALUE_BAD || engine->type == VALUE_BAD)
        return false;
    struct text table = text_setting(v, w, "ampacity");
    w->table = AMPACITY_33CFR;
    if (table.len == 0 ||
        !ampacity_table_find(table.start, table.len, &w->table))
        block_assume(v, b, w->variant, "ampacity table",
                     ampacity_table_name(w->table),
                     "the library's default table");
    w->insulation = 273.15 + 60;
    if (insulation->type == VALUE_QUANTITY)
        w->insulation = range_ends(insulation->quantity).low;
    else
        block_assume(v, b, w->variant, "insulation", "60\xC2\xA0°C",
                     "the lowest class: none is stated");
    w->bundle = 1;
    if (bundle->type == VALUE_QUANTITY)
        w->bundle = (int)bundle->quantity->nominal;
    else
        block_assume(v, b, w->variant, "bundle", "the wire runs alone",
                     "none is stated");
    w->engine_space = engine->type == VALUE_TRUTH && engine->truth;
    if (ambient->type == VALUE_QUANTITY)
        w->ambient = ambient->quantity;
    return true;
}

static bool read_limit(struct values *v, struct wire_inputs *w) {
    const struct value *limit =
        block_setting(v, w->block, "drop limit", w->variant);
    if (limit->type == VALUE_BAD)
        return false;
    if (limit->type != VALUE_QUANTITY)
        return true; /* no limit: only ampacity decides */
    if (!dim_none(limit->quantity->dim)) {
        w->limit = limit->quantity;
        return true;
    }
    const struct quantity *of = limit->with != NULL ? limit->with
                                : w->has_feed       ? w->feed.base
                                                    : NULL;
    if (of == NULL) {
        missing(v, w->block, "supply",
                "a drop limit in per cent needs the voltage that it refers to");
        return false;
    }
    w->limit =
        quantity_binary(&v->maker, QUANTITY_MULTIPLY, limit->quantity, of);
    struct quantity *q = (struct quantity *)(uintptr_t)w->limit;
    q->unit = unit_find("V", 1);
    q->name = text_of("drop limit");
    return true;
}

static bool read_inputs(struct values *v, const struct block *b, size_t variant,
                        struct wire_inputs *w) {
    *w = (struct wire_inputs){.block = b, .variant = variant};
    bool ok = read_conductor(v, w);
    ok &= read_current(v, w);
    ok &= read_length(v, w);
    ok &= read_surroundings(v, w);
    w->has_feed = electrical_feed(v, b, variant, &w->feed);
    if (is_bad(v, w, "supply"))
        ok = false;
    else
        ok &= read_limit(v, w);
    const struct value *terminals = block_setting(v, b, "terminals", variant);
    if (terminals->type == VALUE_QUANTITY)
        w->terminals = terminals->quantity;
    w->cranking = text_is(text_setting(v, w, "duty"), "cranking");
    if (w->cranking)
        w->cranking_time = block_assumed(
            v, b, variant, "length of one cranking", 15, (struct ends){10, 30},
            "s", "common practice, no source");
    return ok && !is_bad(v, w, "use");
}

static const struct quantity *table_root(struct values *v, double nominal,
                                         struct ends range, const char *unit,
                                         const char *name, const char *source) {
    const struct unit *u = unit_find(unit, strlen(unit));
    struct quantity *q =
        quantity_root(&v->maker, ROOT_TABLE, nominal, range, u->dim, u);
    q->name = text_of(name);
    q->note = text_of(source);
    return q;
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
        w->ambient_assumed = true;
        w->ambient = block_assumed(v, w->block, w->variant, "ambient", k,
                                   (struct ends){k, k}, "degC",
                                   "the table's own ambient: none is stated");
    }
    t->per_metre = table_root(
        v, r.nominal, (struct ends){r.nominal, r.most}, "mohm/m",
        arena_printf(v->c->arena, "resistance of %s at 20 °C", size->label),
        r.source);
    const struct quantity *of_ambient[] = {w->ambient};
    t->ampacity = quantity_call(&v->maker, wire_calculation(WIRE_AMPACITY),
                                t->run, of_ambient);
    const struct quantity *of_drop[] = {w->current, w->ambient, w->length,
                                        t->per_metre, w->joints};
    t->drop =
        quantity_call(&v->maker, wire_calculation(WIRE_DROP), t->run, of_drop);
    if (!w->cranking)
        return;
    struct heated *heated = arena_alloc(v->c->arena, 1, sizeof *heated);
    *heated = (struct heated){size, w->material};
    const struct quantity *of_heat[] = {w->current, w->cranking_time,
                                        w->ambient};
    t->hot = quantity_call(&v->maker, heating_calculation(HEATING_TEMPERATURE),
                           heated, of_heat);
}

static bool at_most(struct values *v, const struct quantity *left,
                    const struct quantity *right) {
    const struct quantity *room =
        quantity_binary(&v->maker, QUANTITY_SUBTRACT, right, left);
    return requirement_holds(room, left, right);
}

static bool carries(struct values *v, const struct wire_inputs *w,
                    const struct wire_trial *t) {
    if (w->cranking)
        return range_ends(t->hot).high <= w->insulation;
    return at_most(v, w->current, t->ampacity);
}

static bool passes(struct values *v, const struct wire_inputs *w,
                   const struct wire_trial *t) {
    return t->why == NULL && carries(v, w, t) &&
           (w->limit == NULL || at_most(v, t->drop, w->limit));
}

/* The smallest usual size that passes; *largest is the last one tried. */
static bool smallest(struct values *v, struct wire_inputs *w,
                     struct wire_trial *found, struct wire_trial *largest) {
    const struct wire_size *size;
    for (size_t i = 0; (size = size_at(w->system, i)) != NULL; i++) {
        if (!size->usual)
            continue;
        struct wire_trial t;
        try_size(v, w, size, &t);
        if (t.why == NULL)
            *largest = t;
        if (!passes(v, w, &t))
            continue;
        *found = t;
        return true;
    }
    return false;
}

static void require(struct values *v, const struct wire_inputs *w,
                    const char *rule, const char *what,
                    const struct quantity *left, const struct quantity *right,
                    const char *source, const char *cure) {
    block_require(v, (struct requirement){.block = w->block,
                                          .variant = w->variant,
                                          .rule = rule,
                                          .what = what,
                                          .left = left,
                                          .right = right,
                                          .relation = RELATION_AT_MOST,
                                          .source = source,
                                          .cure = cure,
                                          .at = w->use_at});
}

static void set_requirements(struct values *v, const struct wire_inputs *w,
                             const struct wire_trial *t, const char *cure) {
    if (w->cranking)
        require(v, w, "cranking", "conductor temperature after cranking",
                t->hot,
                table_root(v, w->insulation,
                           (struct ends){w->insulation, w->insulation}, "degC",
                           "insulation", "stated"),
                "short-time heating without loss of heat", cure);
    else
        require(v, w, "ampacity", "current", w->current, t->ampacity,
                t->run->ampacity.source, cure);
    if (w->limit != NULL)
        require(v, w, "drop", "voltage drop", t->drop, w->limit,
                "drop limit of the block", cure);
    if (w->terminals != NULL)
        require(v, w, "terminals", "current through the terminals", w->current,
                w->terminals, "terminals of the block",
                "a larger terminal, or two");
}

static void set_fields(struct values *v, const struct wire_inputs *w,
                       struct wire_trial *t) {
    const struct block *b = w->block;
    size_t variant = w->variant;
    const struct quantity *heat_of[] = {w->current, w->ambient, w->length,
                                        t->per_metre};
    const struct quantity *warm_of[] = {w->current, w->ambient};
    struct quantity_maker *m = &v->maker;
    block_field(
        v, b, "size", variant,
        (struct value){.type = VALUE_SIZE, .size = t->size, .decision = true});
    block_quantity(v, b, "area", variant, "area",
                   table_root(v, t->size->area,
                              (struct ends){t->size->area, t->size->area},
                              "mm2", "area", t->size->source));
    block_quantity(v, b, "current", variant, "current", w->current);
    block_quantity(v, b, "loop", variant, "length of conductor", w->length);
    block_quantity(v, b, "ampacity", variant, "ampacity", t->ampacity);
    block_quantity(
        v, b, "resistance", variant, "resistance",
        quantity_call(m, wire_calculation(WIRE_RESISTANCE), t->run, heat_of));
    block_quantity(v, b, "drop", variant, "voltage drop", t->drop);
    if (w->has_feed)
        block_quantity(
            v, b, "percent", variant, "drop, of the supply",
            quantity_binary(m, QUANTITY_DIVIDE, t->drop, w->feed.base));
    t->temperature =
        quantity_call(m, wire_calculation(WIRE_TEMPERATURE), t->run, warm_of);
    block_quantity(v, b, "temperature", variant, "conductor temperature",
                   t->temperature);
    block_quantity(
        v, b, "heat", variant, "heat in the wire",
        quantity_call(m, wire_calculation(WIRE_HEAT), t->run, heat_of));
}

static void no_size(struct values *v, const struct wire_inputs *w,
                    const struct wire_trial *largest) {
    const char *trouble =
        largest->size == NULL
            ? arena_printf(v->c->arena, "no size of %s has a row in %s",
                           size_system_name(w->system),
                           ampacity_table_name(w->table))
            : arena_printf(
                  v->c->arena,
                  "no size of %s passes: %s, the largest, loses %s and "
                  "carries %s",
                  size_system_name(w->system), largest->size->label,
                  figure_of(v->c->arena, largest->drop, FIGURE_HIGH),
                  figure_of(v->c->arena, largest->ampacity, FIGURE_LOW));
    block_require(v, (struct requirement){.block = w->block,
                                          .variant = w->variant,
                                          .rule = "size",
                                          .what = "wire size",
                                          .trouble = trouble,
                                          .cure = "a shorter run, two wires "
                                                  "side by side, or a higher "
                                                  "drop limit",
                                          .at = w->block->at});
}

bool wire_block_compute(struct values *v, const struct block *b,
                        size_t variant) {
    struct wire_inputs w;
    if (!read_inputs(v, b, variant, &w))
        return false;
    struct wire_trial found = {0}, largest = {0};
    bool any = smallest(v, &w, &found, &largest);
    const struct value *use = block_setting(v, b, "use", variant);
    w.use_at = use->type == VALUE_SIZE ? use->at : b->at;
    struct wire_trial chosen = found;
    const char *cure = NULL;
    const struct wire_size *stated = v->trial != NULL && v->trial->wire == b
                                         ? v->trial->size
                                     : use->type == VALUE_SIZE ? use->size
                                                               : NULL;
    if (stated != NULL) {
        try_size(v, &w, stated, &chosen);
        if (any)
            cure = arena_printf(v->c->arena, "%s passes", found.size->label);
    } else if (!any) {
        no_size(v, &w, &largest);
        if (largest.size == NULL)
            return false;
        chosen = largest;
    }
    if (chosen.why != NULL) {
        block_require(v, (struct requirement){.block = b,
                                              .variant = variant,
                                              .rule = "ampacity",
                                              .what = "ampacity",
                                              .trouble = chosen.why,
                                              .cure = cure,
                                              .at = b->at});
        return false;
    }
    if (chosen.run->ampacity.row_smaller)
        block_assume(v, b, variant, "row of the ampacity table",
                     arena_printf(v->c->arena, "%s", chosen.run->ampacity.row),
                     "the largest row that is not larger in area");
    if (!chosen.run->ampacity.verified)
        block_assume(v, b, variant, "ampacity", "unverified table",
                     chosen.run->ampacity.source);
    set_fields(v, &w, &chosen);
    if (stated != NULL || any)
        set_requirements(v, &w, &chosen, cure);
    struct wire_outcome *o = arena_alloc(v->c->arena, 1, sizeof *o);
    *o = (struct wire_outcome){
        .current = w.current,
        .ampacity = chosen.ampacity,
        .length = w.length,
        .per_metre = chosen.per_metre,
        .ambient = w.ambient,
        .temperature = chosen.temperature,
        .run = chosen.run,
        .size = chosen.size,
        .material = w.material,
        .insulation = w.insulation,
        .ambient_assumed = w.ambient_assumed,
        .cranking = w.cranking,
        .continuous = !text_is(text_setting(v, &w, "duty"), "intermittent"),
        .chassis = w.chassis,
        .feed = w.feed,
        .has_feed = w.has_feed};
    v->of_block[b->index].outcome[variant] = o;
    return true;
}

bool electrical_wire(struct values *v, const struct block *wire, size_t variant,
                     struct wire_outcome *out) {
    evaluate_block(v, wire, variant);
    const struct wire_outcome *o = v->of_block[wire->index].outcome[variant];
    if (o == NULL)
        return false;
    *out = *o;
    return true;
}
