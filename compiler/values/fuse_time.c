/* fuse_time.c - a fuse against time: it holds while the load starts, and opens
 * before a fault spoils the wire. A curve that is not verified raises a
 * question, it does not refuse. */
#include "values/fuse_time.h"

#include "base/arena.h"
#include "calc/fuse.h"
#include "calc/heating.h"
#include "values/electrical.h"
#include "values/range.h"

#include <math.h>

#define FUSING_TIME 3600.0 /* s: conventional, IEC 60364-4-43 433.1 */

static const struct quantity *seconds(struct values *v, double x) {
    const struct unit *u = unit_find("s", 1);
    return quantity_exact(&v->maker, x, u->dim, u);
}

const char *fuse_time_source(struct values *v, const struct fuse_style *style) {
    return arena_printf(v->c->arena, "opening times: %s%s",
                        style->time_verified ? "" : "unverified, ",
                        style->time_source);
}

/* The `starting` of the load that a wire names; NULL where there is none. */
static const struct value *starting_of(struct values *v,
                                       const struct fuse_case *f,
                                       const struct block *wire) {
    const struct value *load = block_setting(v, wire, "load", f->variant);
    if (load->type != VALUE_TEXT)
        return NULL;
    const struct block *b = values_block(v, wire->scope, load->text, "load");
    if (b == NULL)
        return NULL;
    const struct value *start = block_setting(v, b, "starting", f->variant);
    return start->type == VALUE_QUANTITY && start->with != NULL ? start : NULL;
}

/* The shortest opening time, s, at the highest starting current; INFINITY below
 * the curve, where it never opens. */
static double shortest_at_start(const struct fuse_case *f,
                                const struct value *start) {
    double shortest, longest;
    double multiple = range_ends(start->quantity).high / f->rating;
    if (!fuse_opening(f->style, multiple, &shortest, &longest))
        return INFINITY;
    return shortest;
}

bool fuse_time_holds_start(struct values *v, const struct fuse_case *f,
                           const struct block *wire) {
    const struct value *start = starting_of(v, f, wire);
    return start == NULL ||
           range_ends(start->with).high <= shortest_at_start(f, start);
}

/* Starting current against the shortest opening time at its highest end. */
static void require_start(struct values *v, const struct fuse_case *f,
                          const struct block *wire) {
    const struct value *start = starting_of(v, f, wire);
    if (start == NULL)
        return;
    double shortest = shortest_at_start(f, start);
    if (isinf(shortest))
        return;
    block_require(
        v, (struct requirement){
               .block = f->block,
               .variant = f->variant,
               .rule = "start",
               .what = "starting time of the load, against the fuse's shortest "
                       "opening time",
               .left = start->with,
               .right = seconds(v, shortest),
               .relation = RELATION_AT_MOST,
               .source = fuse_time_source(v, f->style),
               .cure = "a larger fuse, or a slower style",
               .flag = !f->style->time_verified,
               .at = f->at});
}

/* The wire's time to the short-time limit of its insulation against the longest
 * opening time, over the curve from the conventional fusing current on. */
static void require_saved(struct values *v, const struct fuse_case *f,
                          const struct block *wire,
                          const struct wire_outcome *o) {
    const struct insulation *kind = insulation_rated(o->insulation);
    double from = fmax(f->from, fuse_multiple(f->style, FUSING_TIME));
    double worst, margin;
    if (kind == NULL || isnan(from) ||
        !fuse_wire_margin(
            f->style, f->rating, o->run, range_ends(o->temperature).high,
            range_ends(o->ambient).high, kind->limit, from, &margin, &worst) ||
        !isfinite(margin))
        return;
    struct quantity *one = quantity_number(&v->maker, 1);
    one->decimals = 0;
    block_require(
        v, (struct requirement){
               .block = f->block,
               .variant = f->variant,
               .rule = "fault-heat",
               .what = arena_printf(
                   v->c->arena,
                   "time that wire %.*s stands, over the longest opening time",
                   (int)wire->name.len, wire->name.start),
               .left = quantity_number(&v->maker, margin),
               .right = one,
               .relation = RELATION_AT_LEAST,
               .source = arena_printf(
                   v->c->arena, "worst at %.3g times the rating; %s; %s", worst,
                   fuse_time_source(v, f->style), kind->source),
               .cure = "a larger wire or a smaller fuse",
               .flag = !f->style->time_verified,
               .at = f->at});
}

const char *fuse_time_opening(struct values *v,
                              const struct fuse_style *style) {
    static const char blade[] =
        "from memory: blade fuses take up to half a second at 350 %";
    double shortest, longest;
    if (style == NULL)
        return blade;
    if (!fuse_opening(style, 3.5, &shortest, &longest))
        return arena_printf(v->c->arena, "%s; of style %s no curve is known",
                            blade, style->name);
    return longest <= 0.5
               ? blade
               : arena_printf(v->c->arena, "%s; style %s up to %.2g s", blade,
                              style->name, longest);
}

void fuse_time_require(struct values *v, const struct fuse_case *f,
                       const struct block *wire,
                       const struct wire_outcome *outcome) {
    if (f->style->time == NULL) {
        block_assume(v, f->block, f->variant, "opening times",
                     "not checked: no curve of this style is known",
                     f->style->time_source);
        return;
    }
    require_start(v, f, wire);
    require_saved(v, f, wire, outcome);
}
