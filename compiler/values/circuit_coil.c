/* circuit_coil.c - whether the relays of a circuit surely move. */
#include "values/circuit_coil.h"

#include "base/arena.h"
#include "calc/relay.h"
#include "values/circuit_rule.h"
#include "values/circuit_worst.h"
#include "values/range.h"

#include <string.h>

/* The state in which the coil gets least of what is no rest; NULL: none. */
static const struct quantity *weakest(const struct circuit_work *w, size_t coil,
                                      const struct relay_coil *kind,
                                      size_t *state) {
    const struct quantity *least = NULL;
    for (size_t s = 0; s < w->c->state_count; s++) {
        const struct quantity *q = circuit_worst_figure(w, coil, s, "voltage");
        if (q == NULL)
            continue;
        q = quantity_abs(&w->v->maker, q);
        struct ends e = range_ends(q);
        if (e.high <= kind->releases ||
            (least != NULL && e.low >= range_ends(least).low))
            continue;
        least = q;
        *state = s;
    }
    return least;
}

void circuit_coil_require(struct circuit_work *w) {
    const struct quantity *supply = w->part[w->c->element_count].figure[0];
    const struct unit *volt = unit_find("V", 1);
    for (size_t i = 0; i < w->c->element_count; i++) {
        if (w->c->element[i].part != CIRCUIT_COIL || w->part[i].law == LAWS ||
            supply == NULL)
            continue;
        const struct relay_coil *kind =
            relay_coil_for(circuit_solve_coil_volt(w, i));
        size_t state = 0;
        const struct quantity *least =
            kind == NULL ? NULL : weakest(w, i, kind, &state);
        if (least == NULL)
            continue;
        struct quantity *operates =
            quantity_exact(&w->v->maker, kind->operates, volt->dim, volt);
        operates->decimals = 1;
        struct requirement r = circuit_rule(w, i, "coil");
        r.what = arena_printf(
            w->v->c->arena,
            "voltage at %s%s, against that at which every relay pulls",
            w->part[i].name, circuit_worst_words(w, state));
        r.left = least;
        r.right = operates;
        r.relation = RELATION_AT_LEAST;
        r.source = kind->source;
        r.cure = "a better feed or return of the coil, or a relay whose maker "
                 "promises to pull there";
        r.flag = true;
        block_require(w->v, r);
    }
}
