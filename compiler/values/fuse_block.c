/* fuse_block.c - a `fuse` block: the rating that carries the load for good and
 * still saves the wire, within reach of its source, able to break the fault. */
#include "base/arena.h"
#include "base/diag.h"
#include "calc/fuse.h"
#include "values/circuit_given.h"
#include "values/fuse_circuit.h"
#include "values/fuse_input.h"
#include "values/fuse_time.h"
#include "values/point.h"
#include "values/range.h"

#include <math.h>
#include <string.h>

static struct quantity *amperes(struct values *v, double x) {
    const struct unit *u = unit_find("A", 1);
    struct quantity *q = quantity_exact(&v->maker, x, u->dim, u);
    q->root = ROOT_DECISION;
    q->decimals = x == floor(x) ? 0 : 1;
    return q;
}

static void require(struct values *v, const struct fuse_inputs *f,
                    struct requirement r) {
    r.block = f->block;
    r.variant = f->variant;
    if (r.at.src == NULL)
        r.at = f->use_at;
    block_require(v, r);
}

/* The rating that the load wants and the most that the wires allow. */
static struct quantity *least_rating(struct values *v,
                                     const struct fuse_inputs *f) {
    const struct quantity *of[] = {f->current, f->share, f->factor};
    return quantity_call(&v->maker, fuse_calculation(FUSE_LEAST), NULL, of);
}

static const struct quantity *most_rating(struct values *v,
                                          const struct fuse_inputs *f,
                                          const struct wire_outcome *o) {
    const struct quantity *of[] = {o->ampacity,
                                   quantity_number(&v->maker, f->rule->share)};
    return quantity_call(&v->maker, fuse_calculation(FUSE_MOST), NULL, of);
}

static const char *rating_cure(struct values *v, const struct fuse_inputs *f,
                               const struct quantity *least) {
    double want = range_ends(least).high, most = INFINITY;
    for (size_t i = 0; i < f->wire_count; i++)
        most = fmin(most, range_ends(most_rating(v, f, f->outcome[i])).low);
    const struct fuse_rating *r = fuse_rating_up(f->style, want);
    if (r != NULL && r->amp <= most)
        return arena_printf(v->c->arena, "%g A passes", r->amp);
    return "no rating of this style fits between load and wire: a larger wire";
}

static void require_rating(struct values *v, const struct fuse_inputs *f,
                           const struct quantity *least, double amp) {
    const char *cure = rating_cure(v, f, least);
    const struct quantity *rating = amperes(v, amp);
    if (fuse_rating_find(f->style, amp) == NULL)
        require(v, f,
                (struct requirement){
                    .rule = "style",
                    .what = "rating",
                    .trouble = arena_printf(v->c->arena,
                                            "a %s fuse is not made for %g A",
                                            f->style->name, amp),
                    .cure = cure});
    require(v, f,
            (struct requirement){.rule = "share",
                                 .what = "rating that the load needs",
                                 .left = least,
                                 .right = rating,
                                 .source = f->share_source,
                                 .cure = cure});
    for (size_t i = 0; i < f->wire_count; i++)
        require(v, f,
                (struct requirement){
                    .rule = "H06",
                    .what = arena_printf(
                        v->c->arena, "rating, against the wire %.*s",
                        (int)f->wire[i]->name.len, f->wire[i]->name.start),
                    .left = rating,
                    .right = most_rating(v, f, f->outcome[i]),
                    .source = f->rule->source,
                    .cure = cure});
}

/* A load of this wire that no wire before it names; NULL: none. A figure
 * without a name may be any. */
static const struct quantity *own_load(struct values *v,
                                       const struct fuse_inputs *f, size_t i) {
    const struct value *mine = block_setting(v, f->wire[i], "load", f->variant);
    for (size_t k = 0; k < i && mine->type == VALUE_TEXT; k++) {
        const struct value *other =
            block_setting(v, f->wire[k], "load", f->variant);
        if (other->type == VALUE_TEXT && text_equal(other->text, mine->text))
            return NULL;
    }
    return f->outcome[i]->current;
}

/* One behind the other they carry the same, side by side what all take: only a
 * circuit knows. */
static void ask_load(struct values *v, const struct fuse_inputs *f) {
    const struct quantity *sum = own_load(v, f, 0);
    bool in_circuits = true;
    for (size_t i = 0; i < f->wire_count; i++) {
        const struct quantity *own = i == 0 ? NULL : own_load(v, f, i);
        if (own != NULL)
            sum = quantity_binary(&v->maker, QUANTITY_ADD, sum, own);
        in_circuits =
            in_circuits && circuit_given_holds(v, f->wire[i], f->variant);
    }
    if (in_circuits || sum == f->outcome[0]->current ||
        block_setting(v, f->block, "load", f->variant)->type != VALUE_ABSENT)
        return;
    require(v, f,
            (struct requirement){
                .rule = "load",
                .what = "what the fuse carries",
                .trouble = arena_printf(
                    v->c->arena,
                    "its wires have loads of their own: side by side they take "
                    "up to %s together, one behind the other %s, which was "
                    "taken",
                    figure_of(v->c->arena, sum, FIGURE_HIGH),
                    figure_of(v->c->arena, f->current, FIGURE_HIGH)),
                .source = "common practice, no source",
                .cure = "write load: and what flows through the fuse, or draw "
                        "the circuit",
                .flag = true});
}

/* Nearer, or as far as the wire may run in a sheath. */
static const char *place_cure(struct values *v, const struct fuse_inputs *f,
                              const struct fuse_place *rule, bool battery,
                              bool sheathed) {
    const struct fuse_place *other = fuse_place_find(battery, true);
    if (sheathed || other == NULL)
        return arena_printf(v->c->arena, "place it within %s", rule->words);
    return arena_printf(v->c->arena,
                        "place it within %s, or within %s (sheathed: yes "
                        "in fuse %.*s)",
                        rule->words, other->words, (int)f->block->name.len,
                        f->block->name.start);
}

/* Place: within reach of the source. What is not said counts as unfused. */
static const struct quantity *require_place(struct values *v,
                                            const struct fuse_inputs *f) {
    const struct value *place = block_setting(v, f->block, "place", f->variant);
    const struct value *sheathed =
        block_setting(v, f->block, "sheathed", f->variant);
    if (place->type == VALUE_BAD)
        return NULL;
    if (place->type != VALUE_QUANTITY) {
        require(v, f,
                (struct requirement){
                    .rule = "H05",
                    .what = "distance from the source",
                    .trouble = "no place is stated: the wire counts as unfused",
                    .source = "33 CFR 183.455: overcurrent protection at the "
                              "source",
                    .cure = "write place: 5 in from battery +",
                    .at = f->block->at});
        return NULL;
    }
    bool battery = point_find(v, f->block->scope, place->text) == POINT_BATTERY;
    bool in_sheath = sheathed->type == VALUE_TRUTH && sheathed->truth;
    const struct fuse_place *rule = fuse_place_find(battery, in_sheath);
    const struct unit *inch = unit_find("in", 2);
    struct quantity *most =
        quantity_exact(&v->maker, rule->most, inch->dim, inch);
    most->decimals = 0;
    require(
        v, f,
        (struct requirement){.rule = "H05",
                             .what = "distance from the source",
                             .left = place->quantity,
                             .right = most,
                             .source = rule->source,
                             .cure = place_cure(v, f, rule, battery, in_sheath),
                             .at = place->at});
    return place->quantity;
}

/* Short at the load side of the fuse: cold wire from the source to it, no
 * contacts. */
static struct quantity *fault_high(struct values *v,
                                   const struct fuse_inputs *f,
                                   const struct feed *feed,
                                   const struct quantity *place) {
    const struct wire_outcome *o = f->outcome[0];
    const struct unit *m = unit_find("m", 1), *mohm = unit_find("mohm", 4);
    const struct unit *c = unit_find("degC", 4);
    enum material *material = arena_alloc(v->c->arena, 1, sizeof *material);
    *material = o->material;
    const struct quantity *of[] = {
        feed->strongest,
        feed->resistance,
        o->per_metre,
        place != NULL ? place : quantity_exact(&v->maker, 0, m->dim, m),
        quantity_exact(&v->maker, 293.15, c->dim, c),
        quantity_exact(&v->maker, 0, mohm->dim, mohm)};
    return quantity_call(&v->maker, wire_calculation(WIRE_FAULT), material, of);
}

/* Short at the far end: hot wire, largest resistance, all contacts. */
static struct quantity *fault_low(struct values *v, const struct fuse_inputs *f,
                                  size_t wire) {
    const struct wire_outcome *o = f->outcome[wire];
    const struct feed *feed = f->has_at ? &f->at : &f->feed;
    const struct unit *c = unit_find("degC", 4);
    enum material *material = arena_alloc(v->c->arena, 1, sizeof *material);
    *material = o->material;
    const struct quantity *contacts = block_assumed(
        v, f->block, f->variant, "terminals and contacts of the loop", 0.005,
        (struct ends){0.001, 0.01}, "mohm", "common practice, no source");
    const struct quantity *of[] = {
        feed->weakest,
        feed->resistance,
        o->per_metre,
        o->length,
        quantity_exact(&v->maker, o->insulation, c->dim, c),
        contacts};
    return quantity_call(&v->maker, wire_calculation(WIRE_FAULT), material, of);
}

enum { INTERRUPT_UNKNOWN = 1000 }; /* A: hazard catalogue, H04b */

/* As the maker says, or as its style breaks at this voltage; NULL: not known.
 */
static struct quantity *breaks(struct values *v, const struct fuse_inputs *f,
                               const char **source) {
    const struct value *stated =
        block_setting(v, f->block, "interrupt", f->variant);
    *source = electrical_unstated;
    if (stated->type == VALUE_QUANTITY) {
        *source = electrical_stated(v, stated->quantity->note);
        return stated->quantity;
    }
    double volt = f->has_feed ? range_ends(f->feed.strongest).high : NAN;
    if (f->has_at)
        volt = fmax(volt, range_ends(f->at.strongest).high);
    double amp = f->has_feed ? fuse_interrupt(f->style, volt) : NAN;
    if (isnan(amp))
        return NULL;
    *source = f->style->interrupt_source;
    struct quantity *q = amperes(v, amp);
    electrical_in_kiloampere(q);
    return q;
}

static void require_interrupt(struct values *v, const struct fuse_inputs *f,
                              const struct quantity *high) {
    if (block_is_bad(v, f->block, "interrupt", f->variant))
        return;
    const char *source;
    const struct quantity *limit = breaks(v, f, &source);
    const char *cure = "a style that breaks more, such as class T, or a cable "
                       "and fuse ahead of it";
    if (limit == NULL && range_ends(high).high <= INTERRUPT_UNKNOWN)
        return;
    require(v, f,
            (struct requirement){
                .rule = "H04b",
                .what = "fault current against the interrupting rating",
                .left = limit == NULL
                            ? NULL
                            : electrical_fault_beside(
                                  quantity_twin(&v->maker, high), limit),
                .right = limit,
                .source = source,
                .trouble = arena_printf(
                    v->c->arena,
                    "the fault current may reach %s and the interrupting "
                    "rating is not known",
                    figure_of(v->c->arena, high, FIGURE_HIGH)),
                .cure = limit == NULL ? "write interrupt: from the maker's data"
                                      : cure});
}

/* 3.5 times its rating opens a blade fuse within half a second. */
static void require_opening(struct values *v, const struct fuse_inputs *f,
                            const struct quantity *low, double amp) {
    require(v, f,
            (struct requirement){
                .rule = "H06b",
                .what = "3.5 times the rating, against a short at the far end",
                .left = quantity_binary(&v->maker, QUANTITY_MULTIPLY,
                                        quantity_number(&v->maker, 3.5),
                                        amperes(v, amp)),
                .right = low,
                .source = fuse_time_opening(v, f->style),
                .cure = "a smaller fuse or a larger wire",
                .flag = true});
}

static void require_times(struct values *v, const struct fuse_inputs *f,
                          const struct fuse_case *at) {
    for (size_t i = 0; i < f->wire_count; i++)
        fuse_time_require(v, at, f->wire[i], f->outcome[i]);
}

/* Wires behind one fuse that carry the same current are one run: a return that
 * is thinner than its feed sets the limit of the whole. */
static void question_thin(struct values *v, const struct fuse_inputs *f) {
    for (size_t i = 1; i < f->wire_count; i++) {
        if (f->outcome[i]->load != f->outcome[0]->load ||
            size_compare(f->outcome[i]->size, f->outcome[0]->size) == 0)
            continue;
        bool later = size_compare(f->outcome[i]->size, f->outcome[0]->size) < 0;
        size_t thin = later ? i : 0, thick = later ? 0 : i;
        require(
            v, f,
            (struct requirement){
                .rule = "return",
                .what = "one run, two sizes",
                .trouble = arena_printf(
                    v->c->arena,
                    "%.*s in %s is thinner than %.*s in %s and sets the "
                    "limit of the whole run",
                    (int)f->wire[thin]->name.len, f->wire[thin]->name.start,
                    f->outcome[thin]->size->label,
                    (int)f->wire[thick]->name.len, f->wire[thick]->name.start,
                    f->outcome[thick]->size->label),
                .source = "common practice, no source",
                .cure = "the same size out and back",
                .flag = true});
    }
}

/* The smallest rating for the load that also holds while it starts; the
 * smallest of all where none does, so that the check tells why. */
static const struct fuse_rating *rating_that_starts(struct values *v,
                                                    const struct fuse_inputs *f,
                                                    double least) {
    const struct fuse_rating *smallest = fuse_rating_up(f->style, least);
    for (const struct fuse_rating *r = smallest; r != NULL;
         r = fuse_rating_up(f->style, r->amp * (1 + 1e-9) + 1e-6)) {
        struct fuse_case at = {f->block, f->variant, f->style,
                               r->amp,   0,          f->use_at};
        bool starts = true;
        for (size_t i = 0; i < f->wire_count && starts; i++)
            starts = fuse_time_holds_start(v, &at, f->wire[i]);
        if (starts)
            return r;
    }
    return smallest;
}

/* Of `use`, else the smallest that carries and starts the load; 0: none is made
 * so large, after a requirement that never holds. */
static double choose_rating(struct values *v, const struct fuse_inputs *f,
                            const struct quantity *least) {
    const struct value *use = block_setting(v, f->block, "use", f->variant);
    if (use->type == VALUE_QUANTITY)
        return use->quantity->nominal;
    const struct fuse_rating *up =
        rating_that_starts(v, f, round_snap(range_ends(least).high));
    if (up != NULL)
        return up->amp;
    require(v, f,
            (struct requirement){
                .rule = "style",
                .what = "rating",
                .trouble = arena_printf(
                    v->c->arena, "no %s fuse is made for %s", f->style->name,
                    figure_of(v->c->arena, least, FIGURE_HIGH)),
                .cure = "another style, or write use: and the rating that its "
                        "maker makes",
                .stops = true});
    return 0;
}

/* A short at its load side and one at the far end: fields and requirements;
 * returns the least of the currents. */
static const struct quantity *compute_faults(struct values *v,
                                             const struct fuse_inputs *f,
                                             const struct quantity *place,
                                             double amp) {
    struct quantity *high = fault_high(v, f, &f->feed, place);
    if (f->has_at)
        high = quantity_binary(&v->maker, QUANTITY_MAX, high,
                               fault_high(v, f, &f->at, place));
    for (size_t i = 1; i < f->wire_count; i++) { /* of another source */
        const struct feed *feed = &f->outcome[i]->feed;
        if (f->outcome[i]->has_feed && feed->strongest != f->feed.strongest)
            high = quantity_binary(&v->maker, QUANTITY_MAX, high,
                                   fault_high(v, f, feed, place));
    }
    struct quantity *low = fault_low(v, f, 0);
    for (size_t i = 1; i < f->wire_count; i++)
        low = quantity_binary(&v->maker, QUANTITY_MIN, low, fault_low(v, f, i));
    /* By three digits: rounded down to two it would be up to a tenth too small,
     * and a fuse that opens called one that does not. */
    const struct quantity *judged = quantity_twin(&v->maker, low);
    block_quantity(v, f->block, "fault.high", f->variant,
                   "fault current at its load side, at the most", high);
    block_quantity(v, f->block, "fault.low", f->variant,
                   "fault current at the far end, at the least", low);
    electrical_fault(high); /* behind the unit of the fields */
    electrical_fault(low);
    require_interrupt(v, f, high);
    require_opening(v, f, judged, amp);
    return low;
}

/* An arc goes on burning where the fuse is not made for the voltage, however
 * little current it breaks. */
static void ask_volt(struct values *v, const struct fuse_inputs *f) {
    double volt = f->has_feed ? range_ends(f->feed.strongest).high : NAN;
    if (f->has_at)
        volt = fmax(volt, range_ends(f->at.strongest).high);
    if (volt > f->style->volt)
        require(v, f,
                (struct requirement){
                    .rule = "voltage",
                    .what = "voltage of the supply",
                    .trouble = fuse_volt_trouble(v->c->arena, f->style, volt),
                    .source = f->style->volt_source,
                    .cure = FUSE_VOLT_CURE,
                    .flag = true});
}

void fuse_circuit_alone(struct values *v, const struct fuse_inputs *f,
                        const struct quantity *place, double amp) {
    struct fuse_case at = {f->block, f->variant, f->style, amp, 0, f->use_at};
    if (f->has_feed) /* overloads below a short are judged by H06 */
        at.from = range_ends(compute_faults(v, f, place, amp)).low / amp;
    require_times(v, f, &at);
}

static void set_colour(struct values *v, const struct fuse_inputs *f,
                       double amp) {
    block_field(v, f->block, "colour", f->variant,
                (struct value){.type = VALUE_TEXT,
                               .text = text_of(fuse_colour(f->style, amp)),
                               .decision = true});
}

bool fuse_block_compute(struct values *v, const struct block *b,
                        size_t variant) {
    struct fuse_inputs f;
    if (!fuse_input_read(v, b, variant, &f))
        return false;
    const struct quantity *least = least_rating(v, &f);
    double amp = choose_rating(v, &f, least);
    if (amp <= 0)
        return false;
    struct quantity *rating = amperes(v, amp);
    block_field(v, b, "rating", variant,
                (struct value){.type = VALUE_QUANTITY,
                               .quantity = rating,
                               .decision = true});
    set_colour(v, &f, amp);
    block_working(v, b, variant, "rating that the load needs", least);
    block_quantity(
        v, b, "loading", variant, "load, of the rating",
        quantity_binary(&v->maker, QUANTITY_DIVIDE, f.current, rating));
    /* Of any load that stays on, also where that of today does not. */
    const struct quantity *steady =
        quantity_binary(&v->maker, QUANTITY_MULTIPLY, rating, f.lasting);
    block_quantity(
        v, b, "steady", variant, "largest steady load",
        quantity_binary(&v->maker, QUANTITY_MULTIPLY, steady, f.factor));
    const char *source;
    struct quantity *most = breaks(v, &f, &source);
    if (most != NULL)
        block_quantity(v, b, "breaks", variant, "the most that it breaks",
                       most);
    require_rating(v, &f, least, amp);
    ask_volt(v, &f);
    ask_load(v, &f);
    question_thin(v, &f);
    const struct quantity *place = require_place(v, &f);
    if (!fuse_circuit_waits(v, &f, place, amp))
        fuse_circuit_alone(v, &f, place, amp);
    return true;
}
