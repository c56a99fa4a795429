/* wire_input.c - what a `wire` block says, before a size is known. */
#include "values/wire_input.h"

#include "base/arena.h"
#include "base/diag.h"
#include "calc/conductor.h"
#include "calc/heating.h"
#include "values/circuit_given.h"
#include "values/range.h"

#include <string.h>

static bool read_conductor(struct values *v, struct wire_inputs *w) {
    struct text name = block_text(v, w->block, "conductor", w->variant);
    w->system = size_system_find(name.start, name.len);
    if (name.len == 0 || w->system == WIRE_UNDECLARED) {
        if (!block_is_bad(v, w->block, "conductor", w->variant))
            block_missing(
                v, w->block, "conductor",
                "write `conductor: AWG stranded` (or AWG solid, SAE, ISO "
                "6722, class 2, class 5, JIS, AU) once, in the facts or "
                "the guide: their sizes differ");
        return false;
    }
    struct text material = block_text(v, w->block, "material", w->variant);
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
            block_missing(v, w->block, "length",
                          "write length (one way) and return, or loop");
        return false;
    } else {
        struct text way = block_text(v, w->block, "return", w->variant);
        if (way.len == 0) {
            if (!block_is_bad(v, w->block, "return", w->variant))
                block_missing(
                    v, w->block, "return",
                    "how does the current come back: own wire, chassis, "
                    "or none (this wire is one way only)");
            return false;
        }
        w->length = length->quantity;
        if (text_is(way, "own wire"))
            w->length = quantity_binary(&v->maker, QUANTITY_MULTIPLY,
                                        quantity_number(&v->maker, 2),
                                        length->quantity);
        if (text_is(way, "chassis"))
            w->joints = block_assumed(v, w->block, w->variant,
                                      "chassis return with its two joints",
                                      0.005, (struct ends){0.001, 0.01}, "mohm",
                                      "common practice, no source");
    }
    return true;
}

static bool read_current(struct values *v, struct wire_inputs *w) {
    struct load_current c =
        electrical_current(v, w->block, w->variant, &w->feed);
    w->current = c.used;
    w->most = c.most;
    w->stated = c.stated;
    w->end[0].current = c.low;
    w->end[1].current = c.high;
    if (w->current == NULL) {
        if (block_setting(v, w->block, "load", w->variant)->type ==
            VALUE_ABSENT)
            block_missing(v, w->block, "load",
                          "write `load:` and a load block or a current");
        return false;
    }
    return true;
}

/* At an ambient that the insulation does not stand the wire carries nothing; a
 * message about an ampacity of 0 would not say why. */
static bool stands_ambient(struct values *v, const struct wire_inputs *w) {
    if (range_ends(w->ambient).high < w->insulation)
        return true;
    const struct unit *c = unit_find("degC", 4);
    block_require(
        v, (struct requirement){
               .block = w->block,
               .variant = w->variant,
               .rule = "ampacity",
               .what = "ambient, against what the insulation stands",
               .left = w->ambient,
               .right = quantity_exact(&v->maker, w->insulation, c->dim, c),
               .relation = RELATION_BELOW,
               .source = "a conductor without current is as warm as its "
                         "surroundings",
               .cure = "write an insulation for more heat, or lead the wire "
                       "another way",
               .stops = true,
               .at = block_place(v, w->block, "ambient")});
    return false;
}

/* °C: class H of ISO 6722, the highest; from memory. */
enum { INSULATION_MOST = 250 };

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
    struct text table = block_text(v, w->block, "ampacity", w->variant);
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
    if (w->insulation > 273.15 + INSULATION_MOST) {
        diag_add(v->c->diags, DIAG_SETTING_VALUE, insulation->at,
                 "no class of vehicle wire stands more than %d °C",
                 INSULATION_MOST);
        return false;
    }
    w->bundle = 1;
    if (bundle->type == VALUE_QUANTITY)
        w->bundle = (int)bundle->quantity->nominal;
    else
        block_assume(v, b, w->variant, "bundle", "the wire runs alone",
                     "none is stated");
    w->engine_space = engine->type == VALUE_TRUTH && engine->truth;
    if (engine->type != VALUE_TRUTH)
        block_assume(v, b, w->variant, "engine space",
                     "the wire stays outside it", "none is stated");
    if (ambient->type == VALUE_QUANTITY)
        w->ambient = ambient->quantity;
    return w->ambient == NULL || stands_ambient(v, w);
}

/* Of a share of the supply's own voltage also what it is at its ends. */
static void take_limit(struct values *v, struct wire_inputs *w,
                       const struct drop_limit *limit) {
    bool share = limit->share != NULL && limit->of == NULL;
    w->by_ends = share && w->end[0].current != NULL;
    for (int i = 0; i < 2 && w->by_ends; i++)
        w->end[i].limit =
            drop_limit_volt(v, limit, electrical_end(v, w->feed.base, i == 1));
    w->limit = drop_limit_volt(v, limit, w->feed.base);
}

static const struct block *load_block(struct values *v,
                                      const struct wire_inputs *w) {
    return values_block(v, w->block->scope,
                        block_text(v, w->block, "load", w->variant), "load");
}

static void assume_limit(struct values *v, struct wire_inputs *w) {
    if (!w->has_feed) {
        block_assume(v, w->block, w->variant, "drop limit",
                     "none, the ampacity alone decides",
                     "neither a limit nor a supply is stated");
        return;
    }
    struct drop_limit usual = drop_limit_usual(v, load_block(v, w), w->variant);
    take_limit(v, w, &usual);
    w->limit_source =
        drop_limit_assume(v, w->block, w->variant, "drop limit", &usual);
}

static bool read_limit(struct values *v, struct wire_inputs *w) {
    struct drop_limit limit = drop_limit_stated(v, w->block, w->variant);
    if (block_is_bad(v, w->block, "drop limit", w->variant))
        return false;
    if (!drop_limit_is_known(&limit)) {
        assume_limit(v, w);
        return true;
    }
    if (limit.share != NULL && limit.of == NULL && !w->has_feed) {
        block_missing(
            v, w->block, "supply",
            "a drop limit in per cent needs the voltage that it refers to");
        return false;
    }
    w->limit_source = "drop limit of the block";
    take_limit(v, w, &limit);
    return true;
}

/* The wire's own duty, else that of the load that it names. */
static struct text read_duty(struct values *v, const struct wire_inputs *w) {
    struct text own = block_text(v, w->block, "duty", w->variant);
    const struct block *load = load_block(v, w);
    if (own.len > 0 || load == NULL)
        return own;
    const struct value *duty = block_setting(v, load, "duty", w->variant);
    return duty->type == VALUE_TEXT ? duty->text : own;
}

const struct quantity *
wire_input_cranking(struct values *v, const struct block *b, size_t variant) {
    return block_assumed(v, b, variant, "length of one cranking", 15,
                         (struct ends){10, 30}, "s",
                         "common practice, no source");
}

struct quantity *wire_input_cranked(struct values *v,
                                    const struct wire_size *size,
                                    enum material material,
                                    const struct quantity *current,
                                    const struct quantity *time,
                                    const struct quantity *ambient) {
    struct heated *heated = arena_alloc(v->c->arena, 1, sizeof *heated);
    *heated = (struct heated){size, material};
    const struct quantity *of[] = {current, time, ambient};
    return quantity_call(&v->maker, heating_calculation(HEATING_TEMPERATURE),
                         heated, of);
}

bool wire_input_read(struct values *v, const struct block *b, size_t variant,
                     struct wire_inputs *w) {
    *w = (struct wire_inputs){.block = b, .variant = variant};
    w->has_feed = electrical_feed(v, b, variant, &w->feed);
    bool ok = read_conductor(v, w);
    ok &= read_current(v, w);
    ok &= read_length(v, w);
    if (ok)
        w->loaded = circuit_given_loaded(v, b, variant, w->most);
    if (w->loaded == NULL)
        w->loaded = w->length;
    ok &= read_surroundings(v, w);
    /* Without a supply no rule of fuses and faults could be asked. */
    if (!v->c->single &&
        block_setting(v, b, "supply", variant)->type == VALUE_ABSENT) {
        block_missing(v, b, "supply", "write `supply:` and what feeds it");
        ok = false;
    }
    if (block_is_bad(v, w->block, "supply", w->variant) || w->feed.bad)
        ok = false;
    else
        ok &= read_limit(v, w);
    const struct value *terminals = block_setting(v, b, "terminals", variant);
    if (terminals->type == VALUE_QUANTITY)
        w->terminals = terminals->quantity;
    struct text duty = read_duty(v, w);
    w->intermittent = text_is(duty, "intermittent");
    w->cranking = text_is(duty, "cranking");
    if (w->cranking) {
        w->cranking_time = wire_input_cranking(v, b, variant);
        block_assume(v, b, variant, "heat before the cranking",
                     "that of the ambient",
                     "what lasts besides is known to a circuit only");
    }
    return ok && !block_is_bad(v, w->block, "use", w->variant);
}
