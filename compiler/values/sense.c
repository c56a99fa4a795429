/* sense.c - blocks whose settings contradict each other. */
#include "values/sense.h"

#include "base/arena.h"
#include "base/diag.h"
#include "calc/rounding.h"
#include "values/electrical.h"
#include "values/point.h"
#include "values/range.h"

struct sense {
    struct values *v;
    const struct block *b;
    size_t variant;
};

static const struct quantity *figure(const struct sense *s, const char *name) {
    const struct value *value = block_setting(s->v, s->b, name, s->variant);
    return value->type == VALUE_QUANTITY ? value->quantity : NULL;
}

static void refuse(const struct sense *s, const char *setting,
                   const char *words) {
    diag_add(s->v->c->diags, DIAG_SETTING_VALUE,
             block_place(s->v, s->b, setting), "%s", words);
}

static const struct block *load_of(const struct sense *s,
                                   const struct block *b) {
    return values_block(s->v, b->scope, block_text(s->v, b, "load", s->variant),
                        "load");
}

static void ask(const struct sense *s, const char *rule, const char *what,
                const char *setting, const char *trouble, const char *cure) {
    block_require(s->v,
                  (struct requirement){.block = s->b,
                                       .variant = s->variant,
                                       .rule = rule,
                                       .what = what,
                                       .trouble = trouble,
                                       .source = "common practice, no source",
                                       .cure = cure,
                                       .flag = true,
                                       .at = block_place(s->v, s->b, setting)});
}

/* 7 mA in use and 20 A at the start: one of the units is another. */
static void ask_start(const struct sense *s, const struct quantity *use) {
    const struct quantity *start = figure(s, "starting");
    struct arena *a = s->v->c->arena;
    if (start == NULL ||
        start->nominal <= SENSE_START_MOST * range_ends(use).high)
        return;
    ask(s, "inrush", "current at the start", "starting",
        arena_printf(a, "%.*s draws %s in use and %s at its start",
                     (int)s->b->name.len, s->b->name.start,
                     figure_of(a, use, FIGURE_PLAIN),
                     figure_of(a, start, FIGURE_PLAIN)),
        "look at the units of both: mA or A");
}

/* Whether `current` and `highest` can be compared: of one voltage. */
static bool at_one_voltage(const struct sense *s) {
    const struct value *use = block_setting(s->v, s->b, "current", s->variant);
    const struct value *most = block_setting(s->v, s->b, "highest", s->variant);
    return use->with == NULL || most->with == NULL ||
           round_snap(use->with->nominal) == round_snap(most->with->nominal);
}

/* `highest` and `starting` are more than what is drawn in use. */
static void check_load(const struct sense *s) {
    static const char *const more[] = {"highest", "starting"};
    const struct quantity *use = figure(s, "current");
    struct arena *a = s->v->c->arena;
    for (int i = 0; i < 2 && use != NULL; i++) {
        const struct quantity *q = figure(s, more[i]);
        if (q == NULL || range_ends(q).high >= use->nominal ||
            (i == 0 && !at_one_voltage(s)))
            continue;
        refuse(s, more[i],
               arena_printf(a,
                            "%.*s draws %s in use and %s of it is only %s; "
                            "write the larger, or leave it out",
                            (int)s->b->name.len, s->b->name.start,
                            figure_of(a, use, FIGURE_PLAIN), more[i],
                            figure_of(a, q, FIGURE_PLAIN)));
    }
    if (use != NULL)
        ask_start(s, use);
}

/* Only a starter is cranked through a wire, and a load that is on for hours
 * heats it for hours. */
static void check_wire(const struct sense *s) {
    struct values *v = s->v;
    struct text duty = block_text(v, s->b, "duty", s->variant);
    const struct block *load = load_of(s, s->b);
    if (load == NULL || duty.len == 0)
        return;
    struct text own = block_text(v, load, "duty", s->variant);
    bool cranked = text_is(own, "cranking");
    bool lasts = text_is(duty, "intermittent") && text_is(own, "continuous");
    if (text_is(duty, "cranking") == cranked && !lasts)
        return;
    if (cranked) /* a wire that is judged by what lasts stands a start */
        return;
    refuse(s, "duty",
           arena_printf(v->c->arena,
                        "the wire is for %.*s use and its load %.*s says %s%.*s"
                        "; leave the duty to the load",
                        (int)duty.len, duty.start, (int)load->name.len,
                        load->name.start, own.len == 0 ? "no duty" : "",
                        (int)own.len, own.start));
}

static void ask_voltage(const struct sense *s, const char *setting,
                        const char *trouble, const char *cure) {
    ask(s, "voltage", "voltage of the supply", setting, trouble, cure);
}

/* A load of 12 V on a supply of 24 V, or the other way round. */
static void ask_load(const struct sense *s, const struct block *load,
                     const struct feed *feed) {
    struct values *v = s->v;
    struct arena *a = v->c->arena;
    const struct value *current =
        load == NULL ? NULL : block_setting(v, load, "current", s->variant);
    const struct quantity *at =
        current != NULL && current->type == VALUE_QUANTITY ? current->with
                                                           : NULL;
    bool starter = electrical_cranks(v, load, s->variant);
    if (at == NULL || starter)
        return;
    double volt = feed->strongest->nominal;
    if (volt <= SENSE_VOLT_MOST * range_ends(at).high &&
        range_ends(at).low <= SENSE_VOLT_MOST * volt)
        return;
    ask_voltage(s, "load",
                arena_printf(a, "load %.*s was measured at %s and gets %s",
                             (int)load->name.len, load->name.start,
                             figure_of(a, at, FIGURE_PLAIN),
                             figure_of(a, feed->strongest, FIGURE_PLAIN)),
                "a load for this voltage, or its figures at it");
}

/* A load, or a share, of 12 V on a supply of 24 V. */
static void check_voltage(const struct sense *s) {
    struct values *v = s->v;
    struct arena *a = v->c->arena;
    struct feed feed;
    if (!electrical_voltages(v, s->b, s->variant, &feed))
        return;
    ask_load(s, load_of(s, s->b), &feed);
    /* A panel's voltage has wide ends. */
    double most = feed.strongest->nominal;
    struct drop_limit limit = drop_limit_stated(v, s->b, s->variant);
    if (drop_limit_is_odd(&limit, most))
        ask(s, "drop-limit", "drop limit", "drop limit",
            drop_limit_odd(a, &limit, feed.strongest), DROP_LIMIT_CURE);
    const struct quantity *of = limit.share == NULL ? NULL : limit.of;
    if (of != NULL && (range_ends(of).high > SENSE_VOLT_MOST * most ||
                       most > SENSE_VOLT_MOST * range_ends(of).high))
        ask_voltage(s, "drop limit",
                    arena_printf(a,
                                 "the drop limit is of %s and the supply has "
                                 "%s",
                                 figure_of(a, of, FIGURE_PLAIN),
                                 figure_of(a, feed.strongest, FIGURE_PLAIN)),
                    "write the per cent alone: they are of the supply");
}

/* A supply's block by the first word of what names one. */
static const struct block *supply_of(const struct sense *s,
                                     const struct block *b, struct text words,
                                     struct text *post) {
    struct text name;
    electrical_split(words, &name, post);
    return values_block(s->v, b->scope, name, "supply");
}

/* "battery -" where minus is grounded: a short to the chassis meets no fuse. */
static bool is_grounded(const struct sense *s, const struct block *supply,
                        struct text post) {
    if (supply == NULL) /* a busbar: nobody says which side */
        return false;
    enum point_post at = point_post(post);
    struct text grounded =
        block_text(s->v, supply, "grounded post", s->variant);
    return (at == POINT_MINUS && !text_is(grounded, "positive") &&
            !text_is(grounded, "none")) ||
           (at == POINT_PLUS && text_is(grounded, "positive"));
}

/* Two sources of one system, between which a cable may run. */
static bool can_be_joined(const struct sense *s, const struct block *one,
                          const struct block *other) {
    struct feed a, b;
    if (!electrical_feed_of(s->v, s->b, one, s->variant, &a) ||
        !electrical_feed_of(s->v, s->b, other, s->variant, &b))
        return true; /* nothing is known */
    double one_volt = a.strongest->nominal, other_volt = b.strongest->nominal;
    return one_volt <= SENSE_VOLT_MOST * other_volt &&
           other_volt <= SENSE_VOLT_MOST * one_volt;
}

/* 4 mm where 4 m was meant: no fuse stands beyond the end of its wire. */
static void ask_length(const struct sense *s, const struct block *wire) {
    struct arena *a = s->v->c->arena;
    const struct quantity *place = figure(s, "place");
    const struct value *run = block_setting(s->v, wire, "length", s->variant);
    if (run->type != VALUE_QUANTITY || place == NULL ||
        range_ends(place).low <= range_ends(run->quantity).high)
        return;
    ask(s, "length", "length of the wire", "place",
        arena_printf(a, "it stands %s along wire %.*s, whose length is %s",
                     figure_of(a, place, FIGURE_PLAIN), (int)wire->name.len,
                     wire->name.start,
                     figure_of(a, run->quantity, FIGURE_PLAIN)),
        "the length of the wire from its source, or look at the units");
}

/* What flows in any of its wires passes it. A load that a wire names as well is
 * asked about there. */
static void check_fuse_load(const struct sense *s, const struct value *wires) {
    struct values *v = s->v;
    struct feed feed = {.base = NULL};
    const struct block *const *wire;
    size_t count = 0;
    if (blocks_entry(v, s->b, "load") == NULL || wires->type != VALUE_TEXT ||
        (count = blocks_listed(v, s->b, wires->text, "wire", &wire)) == 0 ||
        !electrical_feed(v, wire[0], s->variant, &feed))
        return;
    const struct block *load = load_of(s, s->b);
    for (size_t i = 0; i < count; i++)
        if (load != NULL && load_of(s, wire[i]) == load)
            load = NULL;
    ask_load(s, load, &feed);
    const struct quantity *own =
        electrical_current(v, s->b, s->variant, &feed).most;
    for (size_t i = 0; i < count && own != NULL; i++) {
        const struct wire_outcome *o = electrical_wire(v, wire[i], s->variant);
        if (o == NULL || range_ends(own).high >= o->current->nominal)
            continue;
        refuse(s, "load",
               arena_printf(v->c->arena,
                            "%s flow through the fuse and %s in its wire %.*s; "
                            "write what all its wires take",
                            figure_of(v->c->arena, own, FIGURE_HIGH),
                            figure_of(v->c->arena, o->current, FIGURE_PLAIN),
                            (int)wire[i]->name.len, wire[i]->name.start));
        return;
    }
}

static void check_fuse(const struct sense *s) {
    struct values *v = s->v;
    const struct value *place = block_setting(v, s->b, "place", s->variant);
    const struct value *wires = block_setting(v, s->b, "protects", s->variant);
    if (place->type != VALUE_QUANTITY)
        return;
    struct text post;
    const struct block *at = supply_of(s, s->b, place->text, &post);
    if (is_grounded(s, at, post))
        refuse(s, "place",
               arena_printf(v->c->arena,
                            "a fuse at %.*s stands in the grounded side: a "
                            "short from the other to the chassis does not "
                            "pass it; put it at the other post",
                            (int)place->text.len, place->text.start));
    check_fuse_load(s, wires);
    const struct block *const *wire;
    size_t count = wires->type == VALUE_TEXT
                       ? blocks_listed(v, s->b, wires->text, "wire", &wire)
                       : 0;
    for (size_t i = 0; i < count; i++)
        ask_length(s, wire[i]);
    for (size_t i = 0; i < count && at != NULL; i++) {
        struct text state;
        const struct block *feeds =
            blocks_entry(v, wire[i], "supply") == NULL
                ? NULL /* by a circuit, which checks its own fuses */
                : supply_of(s, wire[i],
                            block_text(v, wire[i], "supply", s->variant),
                            &state);
        if (feeds == NULL || feeds == at || can_be_joined(s, feeds, at))
            continue;
        refuse(s, "place",
               arena_printf(v->c->arena,
                            "the fuse stands at %.*s and its wire %.*s is fed "
                            "by %.*s; name the source of the wire",
                            (int)place->text.len, place->text.start,
                            (int)wire[i]->name.len, wire[i]->name.start,
                            (int)feeds->name.len, feeds->name.start));
    }
}

static void check_block(const struct sense *s) {
    switch (s->b->kind->id) {
    case KIND_LOAD:
        check_load(s);
        break;
    case KIND_WIRE:
        check_wire(s);
        check_voltage(s);
        break;
    case KIND_FUSE:
        check_fuse(s);
        break;
    default:
        break;
    }
}

void sense_check(struct values *v) {
    for (size_t i = 0; i < v->guide->block_count; i++)
        for (size_t variant = 0; variant < v->variant_count; variant++)
            if ((v->applies >> variant & 1) != 0)
                check_block(&(struct sense){v, v->guide->blocks[i], variant});
}
