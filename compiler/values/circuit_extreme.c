/* circuit_extreme.c - the worst that a circuit does to whoever touches it: for
 * the hazard catalogue. */
#include "values/circuit_extreme.h"

#include "base/arena.h"
#include "values/circuit_crank.h"
#include "values/circuit_fault.h"
#include "values/circuit_trace.h"
#include "values/range.h"

#include <math.h>

/* A short from any point of the circuit to a minus. */
static double fault_of(struct circuit_work *w) {
    struct circuit_fault *f = circuit_fault_most(w);
    return f == NULL ? NAN : circuit_fault_worst(f);
}

static bool is_assumed(const struct circuit_work *w) {
    for (size_t i = 0; i < w->c->supply_count; i++) {
        const struct block *b =
            circuit_solve_supply(w, w->c->element_count + i);
        if (block_setting(w->v, b, "resistance", w->variant)->type !=
            VALUE_QUANTITY)
            return true;
    }
    return false;
}

/* K, of a conductor at its largest current that lasts, at the highest ambient.
 */
static double lasting_of(const struct circuit_work *w, size_t wire,
                         const struct quantity *current) {
    const struct circuit_piece *p = &w->part[wire];
    double ambient = range_ends(p->figure[2]).high;
    if (current == NULL)
        return NAN;
    double x[PART_FIGURES] = {range_ends(p->figure[0]).low,
                              range_ends(p->figure[1]).low, ambient, INFINITY};
    struct circuit_part_law law = circuit_part_law(p, x);
    return circuit_law_temperature(&law, range_ends(current).high, ambient,
                                   p->run->ampacity.use.material);
}

/* K, of the hottest conductor: by what lasts, or after one cranking. */
static double temperature_of(struct circuit_work *w) {
    double most = NAN;
    bool cranks = circuit_crank_any(w);
    for (size_t i = 0; i < w->c->element_count; i++) {
        if (w->part[i].law != LAW_WIRE)
            continue;
        struct circuit_crank crank = {.start = {NULL, 0}};
        if (cranks)
            crank = circuit_crank_of(w, i);
        else
            crank.lasting = circuit_worst_of(w, i);
        most = fmax(most, lasting_of(w, i, crank.lasting.current));
        if (crank.start.current != NULL)
            most =
                fmax(most, range_ends(circuit_crank_heat(w, i, &crank)).high);
    }
    return most;
}

void circuit_extreme_add(struct circuit_work *w) {
    struct block_slots *own = &w->v->of_block[w->b->index];
    if (own->extremes == NULL) {
        own->extremes = arena_alloc(w->v->c->arena, 1, sizeof *own->extremes);
        *own->extremes = (struct circuit_extremes){NAN, NAN, NAN, false};
    }
    struct circuit_extremes *e = own->extremes;
    e->fault = fmax(e->fault, fault_of(w));
    e->fault_assumed = e->fault_assumed || is_assumed(w);
    e->temperature = fmax(e->temperature, temperature_of(w));
}
