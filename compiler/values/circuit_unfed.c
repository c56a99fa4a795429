/* circuit_unfed.c - why a circuit has no solution at the worst end. */
#include "values/circuit_unfed.h"

#include "base/arena.h"
#include "base/diag.h"
#include "calc/rounding.h"
#include "values/circuit_fault.h"
#include "values/circuit_volts.h"
#include "values/figure.h"
#include "values/range.h"

#include <math.h>
#include <stdint.h>
#include <string.h>

/* Of the load that comes shortest. */
struct unfed {
    size_t load;
    double asks, gives; /* W */
    double volt, ohm;   /* of what feeds it: open, and behind it */
    size_t part;        /* that has most of the resistance; SIZE_MAX: a wire */
    double most;        /* ohm, of it */
};

/* The part in the way of a short at the load that has most of the resistance;
 * wire is left out. */
static void find_part(const struct circuit_fault *f, struct unfed *u) {
    const struct circuit_work *w = f->w;
    for (size_t i = 0; i < w->part_count; i++) {
        size_t n = f->in_net[i];
        if (n == SIZE_MAX || w->part[i].law == LAW_WIRE ||
            w->part[i].law == LAW_DIODE ||
            circuit_fault_through(f, i) < 0.5 * f->current)
            continue;
        const struct circuit_part_law *law = &f->net.part[n].law;
        double ohm = law->figure[law->law == LAW_SUPPLY ? 1 : 0];
        if (ohm <= u->most)
            continue;
        u->part = i;
        u->most = ohm;
    }
}

/* The most that a load may be given, loads beside it off, in the way of feeding
 * it that gives least. */
static struct unfed unfed_of(struct circuit_work *w, size_t load) {
    const struct circuit_piece *p = &w->part[load];
    struct unfed u = {.load = load, .part = SIZE_MAX, .gives = INFINITY};
    const struct circuit_fault_ways *least = circuit_fault_least(w);
    u.asks = range_ends(p->figure[0]).high * range_ends(p->figure[1]).high;
    for (size_t k = 0; least != NULL && k < least->count; k++) {
        struct circuit_fault *f = least->way[k];
        double ampere = circuit_fault_between(f, w->from[load], w->to[load]);
        double volt = f->open.volt[w->from[load]] - f->open.volt[w->to[load]];
        if (ampere <= 0 || volt * ampere / 4 >= u.gives)
            continue;
        u.gives = volt * ampere / 4;
        u.volt = volt;
        u.ohm = volt / ampere;
        u.part = SIZE_MAX;
        u.most = 0;
        find_part(f, &u);
    }
    return u;
}

static const char *watts(struct arena *a, double x, enum round_way way) {
    return figure_short(a, x, x < 1000 ? "W" : "kW", 2, way);
}

static void tell_load(const struct circuit_work *w, const struct unfed *u) {
    struct arena *a = w->v->c->arena;
    const char *part =
        u->part == SIZE_MAX
            ? ""
            : arena_printf(
                  a, "; %s alone has up to %s", w->part[u->part].name,
                  figure_short(a, u->most, "mohm", 2, ROUND_HALF_EVEN));
    diag_add(w->v->c->diags, DIAG_CIRCUIT_UNSOLVED,
             w->part[u->load].element->at,
             "%s, a load of constant power, asks for up to %s, and %s behind "
             "%s give no more than %s%s",
             w->part[u->load].name, watts(a, u->asks, ROUND_UP),
             circuit_volts(a, u->volt, ROUND_HALF_EVEN),
             figure_short(a, u->ohm, "mohm", 2, ROUND_HALF_EVEN),
             watts(a, u->gives, ROUND_DOWN), part);
}

void circuit_unfed_tell(struct circuit_work *w, struct text name) {
    struct unfed worst = {.asks = 0, .gives = 0};
    if (w->unsolved_told)
        return;
    w->unsolved_told = true;
    for (size_t i = 0; i < w->c->element_count; i++) {
        if (w->part[i].law != LAW_POWER)
            continue;
        struct unfed one = unfed_of(w, i);
        if (one.asks > one.gives &&
            one.asks * worst.gives >= worst.asks * one.gives)
            worst = one;
    }
    if (worst.asks > 0)
        tell_load(w, &worst);
    else
        diag_add(w->v->c->diags, DIAG_CIRCUIT_UNSOLVED, w->b->at,
                 "'%.*s' has no solution at the worst end of its figures: a "
                 "load of constant power is not fed there, a supply has a "
                 "short, or its rated output is too little",
                 (int)name.len, name.start);
}
