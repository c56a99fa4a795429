/* circuit_carry.c - what the parts of a circuit must carry. */
#include "values/circuit_carry.h"

#include "base/arena.h"
#include "calc/ampacity.h"
#include "calc/contact.h"
#include "values/circuit_crank.h"
#include "values/circuit_fault.h"
#include "values/circuit_feed.h"
#include "values/circuit_inflow.h"
#include "values/circuit_rating.h"
#include "values/circuit_share.h"
#include "values/circuit_trace.h"
#include "values/circuit_worst.h"
#include "values/range.h"

#include <math.h>
#include <string.h>

/* Below this nobody asks what a switch or a connector is rated for, A: common
 * practice, no source. */
#define SMALL 1.0

/* From here on a rating is one for line voltage, not for a vehicle's: V, of one
 * supply that is no battery. Batteries in series give direct current, whose arc
 * a 12 V contact does not put out. Common practice, no source. */
#define LINE_VOLT 50.0

/* A circuit in the state that a part carries most in. */
struct carry {
    struct circuit_work *w;
    size_t part;
    struct circuit_worst worst;
    bool besides; /* what lasts, besides the cranking of an engine */
    const struct circuit_throws *throws;
};

static void require(const struct carry *c, struct requirement r) {
    struct circuit_work *w = c->w;
    r.block = w->b;
    r.variant = w->variant;
    r.part = w->part[c->part].name;
    r.relation = RELATION_AT_MOST;
    if (r.at.src == NULL)
        r.at = w->part[c->part].element->at;
    block_require(w->v, r);
}

static const char *words(const struct carry *c, const char *what) {
    return arena_printf(c->w->v->c->arena, "%s%s", what,
                        circuit_worst_words(c->w, c->worst.state));
}

static bool has_several_supplies(const struct circuit_work *w) {
    return w->c->supply_count > 1;
}

/* Whether a fuse is right for another wire that it guards: then the one that it
 * is too large for lacks a fuse of its own. */
static bool fits_another(const struct carry *c, size_t fuse) {
    struct circuit_work *w = c->w;
    double rating = range_ends(w->part[fuse].rating).high;
    for (size_t i = 0; i < w->c->element_count; i++)
        if (i != c->part && w->part[i].law == LAW_WIRE &&
            range_ends(circuit_rating_ampacity(w, i)).low >= rating &&
            circuit_feed_fuses(w, c->throws, i)[fuse])
            return true;
    return false;
}

/* "a fuse of its own where the path of W8 leaves bus"; NULL: its path feeds no
 * load. */
static const char *branch_cure(const struct carry *c) {
    struct circuit_work *w = c->w;
    size_t own = w->c->element[c->part].branch;
    const struct circuit_branch *b = &w->c->branch[own];
    bool load = false, ahead = false;
    for (size_t i = b->first; i < b->first + b->count; i++) {
        load = load || w->c->element[i].part == CIRCUIT_LOAD;
        ahead =
            ahead || (w->part[i].law != LAWS && w->from[i] == w->node[b->from]);
    }
    struct text point = w->c->point[ahead ? b->from : b->to].name;
    return load ? arena_printf(w->v->c->arena,
                               "a fuse of its own where the path of %s leaves "
                               "%.*s, or a thicker wire",
                               w->part[c->part].name, (int)point.len,
                               point.start)
                : NULL;
}

static void require_fuse(const struct carry *c, size_t fuse,
                         const struct quantity *ampacity) {
    struct circuit_work *w = c->w;
    const struct circuit_piece *p = &w->part[fuse];
    if (p->rating == NULL)
        return;
    const char *own = NULL;
    if (range_ends(p->rating).high > range_ends(ampacity).low &&
        p->element->branch != w->c->element[c->part].branch &&
        fits_another(c, fuse))
        own = branch_cure(c);
    require(&(struct carry){w, fuse, c->worst, false, c->throws},
            (struct requirement){
                .rule = "H06",
                .what = arena_printf(w->v->c->arena,
                                     "rating of %s against the ampacity of %s",
                                     p->name, w->part[c->part].name),
                .left = p->rating,
                .right = ampacity,
                .source = w->part[c->part].run->ampacity.source,
                .cure = own != NULL ? own : "a smaller fuse, or a thicker wire",
                .at = own != NULL ? w->c->element[c->part].at : p->element->at,
                .same = {"ampacity", w->b, w->part[c->part].name}});
}

/* Several may feed a wire at one time: each lets its rating pass for good, and
 * none opens while the wire carries the sum. */
static void require_together(const struct carry *c,
                             const struct quantity *ampacity) {
    struct circuit_work *w = c->w;
    struct circuit_inflow in = circuit_inflow_of(w, c->part);
    if (in.most == NULL)
        return;
    require(c, (struct requirement){
                   .rule = "H06",
                   .what = arena_printf(w->v->c->arena,
                                        "%s together against the ampacity of "
                                        "%s, which they feed at one time",
                                        in.names, w->part[c->part].name),
                   .left = in.most,
                   .right = ampacity,
                   .source = "the devices of several sources add up: NFPA 70 "
                             "705.12(B), from memory",
                   .cure = "a fuse of its own where they meet, smaller fuses, "
                           "or a thicker wire",
                   .same = {"ampacity", w->b, w->part[c->part].name}});
}

static void require_wire(const struct carry *c) {
    struct circuit_work *w = c->w;
    const struct quantity *ampacity = circuit_rating_ampacity(w, c->part);
    const bool *fuse = circuit_feed_fuses(w, c->throws, c->part);
    circuit_solve_all_on(w); /* a lead is one whatever is off */
    bool lead = circuit_trace_is_lead(w, c->part);
    for (size_t i = 0; i < w->c->element_count && !lead; i++)
        if (fuse[i])
            require_fuse(c, i, ampacity);
    if (!lead)
        require_together(c, ampacity);
    require(c, (struct requirement){
                   .rule = "ampacity",
                   .what = arena_printf(
                       w->v->c->arena, "%s in %s, against its ampacity",
                       c->besides ? "current that lasts" : "current",
                       words(c, w->part[c->part].name)),
                   .left = c->worst.current,
                   .right = ampacity,
                   .source = w->part[c->part].run->ampacity.source,
                   .cure = "a thicker wire, insulation for more heat, or less "
                           "load"});
}

/* By the heat of one cranking, as its block is. */
static void require_heat(const struct carry *c,
                         const struct circuit_crank *crank) {
    struct circuit_work *w = c->w;
    double most = w->part[c->part].run->ampacity.use.insulation;
    require(c, (struct requirement){
                   .rule = "cranking",
                   .what = arena_printf(w->v->c->arena,
                                        "conductor temperature after cranking, "
                                        "%s",
                                        words(c, w->part[c->part].name)),
                   .left = circuit_crank_heat(w, c->part, crank),
                   .right = block_table(w->v, most, (struct ends){most, most},
                                        "degC", "insulation", "stated"),
                   .source = "short-time heating without loss of heat",
                   .cure = "a thicker wire, or insulation for more heat"});
}

/* What a load is: the kind of its block, or its own word. */
static struct text kind_of(const struct circuit_work *w, size_t load) {
    const struct circuit_element *e = &w->c->element[load];
    if (e->part == CIRCUIT_COIL || e->word_count == 0)
        return text_of("resistive");
    const struct block *b = values_block(w->v, w->b->scope, e->word[0], "load");
    return b == NULL ? e->word[0] : block_text(w->v, b, "kind", w->variant);
}

/* The loads whose current passes, on whichever side they are. */
static bool *loads_of(struct circuit_work *w, size_t part) {
    size_t n = w->c->element_count;
    bool *load = arena_alloc(w->v->c->arena, n, sizeof *load);
    if (circuit_trace_loads(w, part, true, load) == 0)
        circuit_trace_loads(w, part, false, load);
    return load;
}

/* Share of a resistive rating that a contact keeps for what it feeds: each load
 * counts as its current over its own share. `kind` is "lamp", or "mixed". */
static double share_for(struct circuit_work *w, size_t part,
                        const char **kind) {
    const bool *load = loads_of(w, part);
    double all = fabs(circuit_trace_current(w, part)), more = 0;
    *kind = NULL;
    for (size_t i = 0; i < w->c->element_count; i++) {
        if (!load[i])
            continue;
        struct text word = kind_of(w, i);
        const struct contact_load *one =
            contact_load_find(word.start, word.len);
        if (one == NULL)
            one = contact_load_find("resistive", 9);
        double own = fmin(fabs(circuit_trace_current(w, i)), all);
        more += own * (1 / one->share - 1);
        bool same = *kind == NULL || strcmp(*kind, one->kind) == 0;
        *kind = same ? one->kind : "mixed";
    }
    double least = contact_load_find("motor", 5)->share;
    return all > 0 ? fmax(all / (all + more), least) : 1;
}

static bool breaks_for(struct circuit_work *w, size_t part) {
    const struct circuit_element *e = &w->c->element[part];
    return (e->part == CIRCUIT_SWITCH || e->part == CIRCUIT_CONTACT) &&
           w->part[part].law != LAWS &&
           strcmp(circuit_part_contact(e)->name, "battery switch") != 0;
}

/* A battery switch ahead of what makes and breaks the current of each of its
 * loads: it is closed all day and carries. Common practice, no source: none is
 * opened under load. */
static bool only_carries(struct circuit_work *w, size_t part) {
    size_t n = w->c->element_count;
    bool *left = loads_of(w, part);
    if (memchr(left, true, n) == NULL ||
        strcmp(circuit_part_contact(&w->c->element[part])->name,
               "battery switch") != 0)
        return false;
    for (size_t i = 0; i < n; i++) {
        const bool *load = breaks_for(w, i) ? loads_of(w, i) : NULL;
        for (size_t k = 0; load != NULL && k < n; k++)
            left[k] = left[k] && !load[k];
    }
    return memchr(left, true, n) == NULL;
}

/* V, of the supplies that feed the loads of a part, those in series together;
 * 0: it has none. */
static double volt_of_feeds(struct circuit_work *w, size_t part) {
    const bool *load = loads_of(w, part);
    double most = 0;
    for (size_t i = 0; i < w->c->element_count; i++) {
        size_t *string;
        size_t n = load[i] ? circuit_trace_feeding(w, i, &string) : 0;
        double volt = 0;
        while (n-- > 0)
            volt += range_ends(w->part[string[n]].figure[0]).high;
        most = fmax(most, volt);
    }
    return most;
}

/* V, that a contact breaks, in the state that is solved: of what feeds its
 * loads, which of two systems is one alone; else of the one supply, or what
 * several give together. Another state may be left on. */
static double volt_at(struct circuit_work *w, size_t part) {
    double volt = volt_of_feeds(w, part);
    if (volt > 0)
        return volt;
    for (size_t i = w->c->element_count; i < w->part_count; i++)
        if (w->part[i].law != LAWS)
            volt = fmax(volt, range_ends(w->part[i].figure[0]).high);
    struct circuit_fault *most =
        has_several_supplies(w) ? circuit_fault_most(w) : NULL;
    return most == NULL ? volt : fmax(volt, circuit_fault_volt(most, part));
}

static bool is_line(const struct circuit_work *w) {
    for (size_t i = w->c->element_count; i < w->part_count; i++)
        if (w->part[i].law != LAWS && !circuit_trace_is_battery(w, i) &&
            range_ends(w->part[i].figure[0]).high >= LINE_VOLT)
            return true;
    return false;
}

/* Nobody knows what it carries: asked of what breaks a current, and of a
 * connector, whose pins its maker rates. Crimps and bolted joints are as good
 * as their wire. */
static void ask_rating(const struct carry *c) {
    struct circuit_work *w = c->w;
    const struct circuit_element *e = &w->c->element[c->part];
    bool breaks = e->part == CIRCUIT_SWITCH || e->part == CIRCUIT_CONTACT;
    if ((!breaks && e->part != CIRCUIT_CONNECTOR) ||
        range_ends(c->worst.current).high <= SMALL)
        return;
    const char *name = w->part[c->part].name;
    require(
        c,
        (struct requirement){
            .rule = "contact",
            .what = breaks ? "rating of a contact" : "rating of a connector",
            .trouble = arena_printf(
                w->v->c->arena, "%s %s more than 1 A and no rating is stated",
                name, breaks ? "switches" : "carries"),
            .source = "common practice, no source",
            .cure = breaks
                        ? arena_printf(w->v->c->arena,
                                       "write it from its maker's data: "
                                       "%s %s%s 30 A, or 20 A lamp",
                                       circuit_part_word(e->part), name,
                                       e->terminal[0].len > 0 ? " 30-87," : "")
                        : arena_printf(w->v->c->arena,
                                       "write what its maker allows: "
                                       "connector %s 15 A, or its tab: "
                                       "tab 6.3 mm",
                                       name),
            .flag = true});
}

/* What is left of a rating in the state that is solved; NAN: not known. */
struct left {
    double share;
    double keeps; /* of it what the kind of the loads leaves */
    const char *kind;
};

static struct left left_of(struct circuit_work *w, size_t part,
                           const char *load) {
    struct left l = {.kind = NULL};
    l.keeps = share_for(w, part, &l.kind);
    bool carries = only_carries(w, part);
    l.share = strcmp(load, "resistive") == 0 && !carries ? l.keeps : 1;
    double volt = volt_at(w, part);
    if (strcmp(load, "any") != 0 && !carries &&
        (volt < LINE_VOLT || !is_line(w)))
        l.share *= contact_voltage_share(volt);
    return l;
}

/* Less than this a contact neither makes nor breaks, A. */
#define NOTHING 1e-3

/* The state that lasts in which a contact is nearest to its rating: less
 * current of lamps may be worse than more of a heater. */
static struct circuit_worst nearest_of(const struct carry *c,
                                       const char *load) {
    struct circuit_work *w = c->w;
    struct circuit_worst nearest = c->worst;
    double most = 0;
    for (size_t s = 0; s < w->c->state_count; s++) {
        if (circuit_worst_is_short(&w->c->state[s]))
            continue;
        const struct quantity *q =
            circuit_worst_figure(w, c->part, s, "current");
        if (q == NULL || !circuit_solve_state(w, s, NULL))
            continue;
        q = quantity_abs(&w->v->maker, q);
        double share = left_of(w, c->part, load).share;
        double high = range_ends(q).high;
        double now = high < NOTHING ? 0
                     : isnan(share) ? INFINITY
                                    : high / share;
        if (now <= most)
            continue;
        most = now;
        nearest = (struct circuit_worst){q, s};
    }
    return nearest;
}

/* `start`: the current of one cranking, which the tables of tabs and studs, for
 * what lasts, neither allow nor forbid. */
static void require_contact(const struct carry *c, bool start) {
    struct circuit_work *w = c->w;
    struct circuit_carrying can = {.rating = NULL};
    if (start)
        can = circuit_rating_cranks(w, c->part);
    if (can.rating == NULL)
        can = circuit_rating_carries(w, c->part);
    if (can.rating == NULL && can.source == NULL) {
        ask_rating(c);
        return;
    }
    if (can.rating == NULL) {
        require(c,
                (struct requirement){
                    .rule = can.rule,
                    .what = arena_printf(w->v->c->arena, "current through %s",
                                         w->part[c->part].name),
                    .trouble = "the table has no figure for a tab of this "
                               "size on this wire",
                    .source = can.source,
                    .cure = "a larger tab, or a ring on a stud"});
        return;
    }
    struct carry at = *c;
    if (!start && !c->besides)
        at.worst = nearest_of(c, can.load);
    c = &at;
    if (!circuit_solve_state(w, c->worst.state, NULL))
        return;
    struct left left = left_of(w, c->part, can.load);
    const char *kind = left.kind;
    double keeps = left.keeps, share = left.share;
    const char *name = words(c, w->part[c->part].name);
    bool flag = start && strcmp(can.rule, "contact") != 0;
    require(c, (struct requirement){
                   .rule = can.rule,
                   .flag = flag,
                   .what = share == 1 || isnan(share)
                               ? arena_printf(w->v->c->arena,
                                              "current through %s, against "
                                              "its rating",
                                              name)
                               : arena_printf(w->v->c->arena,
                                              "current through %s, against "
                                              "%.0f %% of its rating, for a "
                                              "%s load",
                                              name, 100 * share, kind),
                   .left = isnan(share) ? NULL : c->worst.current,
                   .right = isnan(share)
                                ? NULL
                                : circuit_rating_share(w, can.rating, share),
                   .trouble = "no share of a 12 V rating is known at this "
                              "voltage",
                   .source = share == 1 ? can.source
                             : keeps < 1 && kind != NULL
                                 ? contact_load_find("motor", 5)->source
                                 : "a relay maker's sheet: 40 A at 12 V, 20 A "
                                   "at 27 V",
                   .cure = isnan(share)
                               ? "one that its maker rates for this direct "
                                 "voltage, and override contact with his figure"
                           : start
                               ? "its rating is of a current that lasts; write "
                                 "what its maker allows for a start, as 900 A "
                                 "cranking, or fit a larger one"
                               : "one with a larger rating, or a relay"});
}

/* A part through which an engine is cranked: by that, and by what lasts. */
static void require_cranked(struct circuit_work *w, size_t part,
                            const struct circuit_crank *crank,
                            const struct circuit_throws *throws) {
    struct carry start = {w, part, crank->start, false, throws};
    struct carry lasting = {w, part, crank->lasting, true, throws};
    bool wire = w->c->element[part].part == CIRCUIT_WIRE;
    if (wire)
        require_heat(&start, crank);
    else
        require_contact(&start, true);
    if (lasting.worst.current == NULL)
        return;
    if (wire)
        require_wire(&lasting);
    else
        require_contact(&lasting, false);
}

void circuit_carry_require(struct circuit_work *w) {
    bool cranks = circuit_crank_any(w);
    const struct circuit_throws *throws = circuit_feed_throws(w);
    for (size_t i = 0; i < w->c->element_count; i++) {
        if (w->part[i].law == LAWS)
            continue;
        enum circuit_part kind = w->c->element[i].part;
        struct carry c = {w, i, {NULL, 0}, false, throws};
        if (kind == CIRCUIT_LOAD || kind == CIRCUIT_COIL ||
            kind == CIRCUIT_DIODE)
            continue;
        c.worst = circuit_worst_of(w, i);
        if (c.worst.current == NULL)
            continue;
        bool fuse = kind == CIRCUIT_FUSE || kind == CIRCUIT_BREAKER;
        struct circuit_crank crank = {{NULL, 0}, {NULL, 0}};
        if (cranks && !fuse)
            crank = circuit_crank_of(w, i);
        if (crank.start.current != NULL)
            require_cranked(w, i, &crank, throws);
        else if (kind == CIRCUIT_WIRE)
            require_wire(&c);
        else if (fuse)
            circuit_share_require(w, i);
        else
            require_contact(&c, false);
    }
}
