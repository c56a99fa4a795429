/* fuse_input.c - what a `fuse` block says, before a rating is known. */
#include "values/fuse_input.h"

#include "base/arena.h"
#include "base/diag.h"
#include "source/circuit_tree.h"
#include "values/range.h"

#include <math.h>
#include <string.h>

/* The circuit that has a fuse or breaker of the block's name; NULL: none. */
static const struct block *drawn_in(const struct values *v,
                                    const struct block *fuse) {
    for (size_t i = 0; i < v->guide->block_count; i++) {
        const struct block *b = v->guide->blocks[i];
        const struct circuit *c = b->circuit;
        for (size_t k = 0; c != NULL && k < c->element_count; k++)
            if ((c->element[k].part == CIRCUIT_FUSE ||
                 c->element[k].part == CIRCUIT_BREAKER) &&
                text_equal(c->element[k].name, fuse->name))
                return b;
    }
    return NULL;
}

/* A circuit gives `protects` by the wire blocks that it names behind the fuse;
 * its own wires are judged in the circuit. */
static const char *wires_wanted(struct values *v, const struct block *fuse) {
    const struct block *b = drawn_in(v, fuse);
    return b == NULL
               ? "name the wires behind it"
               : arena_printf(
                     v->c->arena,
                     "no wire behind it in circuit %.*s has a wire block: name "
                     "one in its line, wire W1 BLOCK, or delete this block and "
                     "say in the line what it says",
                     (int)b->name.len, b->name.start);
}

/* `protects`: each named wire, computed first. */
static bool read_wires(struct values *v, struct fuse_inputs *f) {
    const struct value *names =
        block_setting(v, f->block, "protects", f->variant);
    if (names->type == VALUE_ABSENT) {
        block_missing(v, f->block, "protects", wires_wanted(v, f->block));
        return false;
    }
    if (names->type != VALUE_TEXT)
        return false;
    f->wire_count = blocks_listed(v, f->block, names->text, "wire", &f->wire);
    f->outcome =
        arena_alloc(v->c->arena, f->wire_count + 1, sizeof(*f->outcome));
    bool ok = f->wire_count > 0;
    for (size_t i = 0; i < f->wire_count; i++) {
        f->outcome[i] = electrical_wire(v, f->wire[i], f->variant);
        ok = ok && f->outcome[i] != NULL;
    }
    return ok;
}

/* A cable between two sources has its fuse at the stronger. */
static void read_place(struct values *v, struct fuse_inputs *f) {
    const struct value *place = block_setting(v, f->block, "place", f->variant);
    struct text at, own, rest;
    if (place->type != VALUE_QUANTITY || !f->has_feed ||
        blocks_entry(v, f->wire[0], "supply") == NULL)
        return; /* a circuit knows all its sources */
    electrical_split(place->text, &at, &rest);
    electrical_split(block_text(v, f->wire[0], "supply", f->variant), &own,
                     &rest);
    const struct block *supply = values_block(v, f->block->scope, at, "supply");
    if (supply != NULL &&
        supply != values_block(v, f->wire[0]->scope, own, "supply"))
        f->has_at = electrical_feed_of(v, f->block, supply, f->variant, &f->at);
}

/* False after a message. */
static bool read_current(struct values *v, struct fuse_inputs *f) {
    for (size_t i = 0; i < f->wire_count && !f->has_feed; i++) {
        f->feed = f->outcome[i]->feed;
        f->has_feed = f->outcome[i]->has_feed;
    }
    read_place(v, f);
    if (block_is_bad(v, f->block, "load", f->variant))
        return false;
    f->current = electrical_current(v, f->block, f->variant, &f->feed).most;
    if (f->current != NULL)
        return true;
    f->current = f->outcome[0]->current;
    for (size_t i = 1; i < f->wire_count; i++)
        if (f->outcome[i]->current != f->current)
            f->current = quantity_binary(&v->maker, QUANTITY_MAX, f->current,
                                         f->outcome[i]->current);
    return true;
}

/* The ambient of the fuse, K, at its hottest; where none is stated it is as hot
 * as the hottest of its wires, and at least what ratings are given for. */
static double read_ambient(struct values *v, const struct fuse_inputs *f,
                           const struct value *stated) {
    if (stated->type == VALUE_QUANTITY)
        return range_ends(stated->quantity).high;
    const struct quantity *hottest = NULL;
    double kelvin = 298.15;
    for (size_t i = 0; i < f->wire_count; i++) {
        double k = range_ends(f->outcome[i]->ambient).high;
        if (k > kelvin) {
            kelvin = k;
            hottest = f->outcome[i]->ambient;
        }
    }
    block_assume(v, f->block, f->variant, "ambient of the fuse",
                 hottest == NULL ? "25\xC2\xA0°C"
                                 : figure_of(v->c->arena, hottest, FIGURE_HIGH),
                 hottest == NULL ? "its rating's own ambient: none is stated"
                                 : "that of its wires: none is stated");
    return kelvin;
}

const char *fuse_ambient_trouble(struct arena *a,
                                 const struct fuse_style *style,
                                 double kelvin) {
    return arena_printf(a,
                        "a %s fuse is not made for %.0f\xC2\xA0°C, only for "
                        "%.0f\xC2\xA0°C to %.0f\xC2\xA0°C",
                        style->name, kelvin - 273.15, style->coldest - 273.15,
                        style->hottest - 273.15);
}

/* The factor of the ambient; past the end of what the style is made for that at
 * the end, after a requirement that never holds: with it set aside the rest is
 * judged as far as its table goes. */
static double ambient_factor(struct values *v, const struct fuse_inputs *f,
                             const struct value *stated) {
    double kelvin = read_ambient(v, f, stated);
    double factor = fuse_ambient_factor(f->style, kelvin);
    if (!isnan(factor))
        return factor;
    block_require(
        v, (struct requirement){
               .block = f->block,
               .variant = f->variant,
               .rule = "ambient",
               .what = "ambient of the fuse",
               .trouble = fuse_ambient_trouble(v->c->arena, f->style, kelvin),
               .source = f->style->ambient_source,
               .cure = "a cooler place, or another style",
               .at = block_place(v, f->block, "ambient")});
    double end =
        kelvin > f->style->hottest ? f->style->hottest : f->style->coldest;
    block_assume(
        v, f->block, f->variant, "factor of the ambient",
        arena_printf(v->c->arena, "that at %.0f\xC2\xA0°C", end - 273.15),
        "the end of what its style is made for");
    return fuse_ambient_factor(f->style, end);
}

const char *fuse_input_share(struct values *v, const struct value *share,
                             bool continuous) {
    if (share != NULL && share->type == VALUE_QUANTITY)
        return arena_printf(v->c->arena, "share of the rating %s",
                            electrical_stated(v, share->quantity->note));
    return continuous ? "80 % of the rating for a continuous load: common "
                        "practice, no source"
                      : "all of the rating for a load that is not on for "
                        "hours: common practice, no source";
}

/* Share of the rating that the load may take: 80 % unless it is intermittent.
 */
static bool read_share(struct values *v, struct fuse_inputs *f) {
    const struct value *share = block_setting(v, f->block, "share", f->variant);
    const struct value *ambient =
        block_setting(v, f->block, "ambient", f->variant);
    if (share->type == VALUE_BAD || ambient->type == VALUE_BAD)
        return false;
    bool continuous = false;
    for (size_t i = 0; i < f->wire_count; i++)
        continuous |= f->outcome[i]->continuous;
    f->lasting = share->type == VALUE_QUANTITY
                     ? share->quantity
                     : quantity_number(&v->maker, FUSE_INPUT_LASTING);
    f->share = share->type == VALUE_QUANTITY || continuous
                   ? f->lasting
                   : quantity_number(&v->maker, 1);
    f->share_source = fuse_input_share(v, share, continuous);
    if (share->type != VALUE_QUANTITY && continuous)
        block_assume(v, f->block, f->variant, "share of the rating",
                     "80\xC2\xA0% for a continuous load",
                     "common practice, no source");
    struct ends e = range_ends(f->share);
    if (!(e.low > 0 && e.high <= 1)) {
        diag_add(v->c->diags, DIAG_SETTING_VALUE,
                 block_place(v, f->block, "share"),
                 "the share is above 0 and not above 100 %%");
        return false;
    }
    f->factor = quantity_number(&v->maker, ambient_factor(v, f, ambient));
    return true;
}

const char *fuse_volt_trouble(struct arena *a, const struct fuse_style *style,
                              double volt) {
    return arena_printf(a, "a %s fuse is made for %g V, and this may be %.1f V",
                        style->name, style->volt, volt);
}

bool fuse_input_read(struct values *v, const struct block *b, size_t variant,
                     struct fuse_inputs *f) {
    *f = (struct fuse_inputs){.block = b, .variant = variant};
    const struct value *style = block_setting(v, b, "style", variant);
    const struct value *rule = block_setting(v, b, "rule", variant);
    const struct value *use = block_setting(v, b, "use", variant);
    const struct value *place = block_setting(v, b, "place", variant);
    bool ok = use->type != VALUE_BAD && rule->type != VALUE_BAD &&
              place->type != VALUE_BAD;
    if (use->type == VALUE_QUANTITY &&
        use->quantity->range.low < use->quantity->range.high) {
        diag_add(v->c->diags, DIAG_SETTING_VALUE, use->at,
                 "a rating is one figure");
        ok = false;
    }
    if (style->type == VALUE_ABSENT) {
        block_missing(v, b, "style",
                      "its ratings and what it can break depend on it");
        ok = false;
    } else if (style->type != VALUE_TEXT) {
        ok = false;
    } else {
        f->style = fuse_style_find(style->text.start, style->text.len);
    }
    f->rule = rule->type == VALUE_TEXT
                  ? fuse_rule_find(rule->text.start, rule->text.len)
                  : fuse_rule_find("100 %", 5);
    f->use_at = use->type == VALUE_QUANTITY ? use->at : b->at;
    if (!read_wires(v, f) || !ok || f->style == NULL || f->rule == NULL)
        return false;
    return read_current(v, f) && read_share(v, f);
}
