/* circuit_ground.c - the grounded posts of a circuit are one point: a second
 * way between them, through a supply, is a short by way of the chassis. */
#include "values/circuit_ground.h"

#include "base/arena.h"
#include "base/diag.h"
#include "base/text.h"
#include "values/circuit_fault.h"
#include "values/circuit_trace.h"

#include <math.h>
#include <stdint.h>

/* Share of the lowest supply's voltage above which two points are not one: an
 * alternator whose minus is not written stands 2 V from that of its battery. */
#define APART 0.5

struct ways {
    const struct circuit_work *w;
    double *volt; /* by node, against the post where they begin; NAN: no way */
    size_t *by;   /* by node: the part that leads there */
};

static size_t grounded_post(const struct circuit_work *w, size_t supply) {
    return w->from[supply] + w->to[supply] - circuit_trace_hot_post(w, supply);
}

static bool is_grounded(const struct circuit_work *w, size_t supply) {
    return w->part[supply].law != LAWS && circuit_trace_is_grounded(w, supply);
}

/* What holds its ends at one voltage but for its own drop. */
static bool joins(const struct circuit_work *w, size_t part) {
    return circuit_fault_carries(w, part) && !w->open[part] &&
           w->part[part].law != LAW_DIODE;
}

/* From a node with a way to one without, by `part`, which lifts its `to` end by
 * so much. */
static bool step(const struct ways *k, size_t part, double volt) {
    size_t from = k->w->from[part], to = k->w->to[part];
    if (isnan(k->volt[from]) == isnan(k->volt[to]))
        return false;
    bool ahead = isnan(k->volt[to]);
    size_t next = ahead ? to : from;
    k->volt[next] = ahead ? k->volt[from] + volt : k->volt[to] - volt;
    k->by[next] = part;
    return true;
}

/* Through wire as far as it leads before through any supply. */
static void find_ways(const struct ways *k, size_t post) {
    const struct circuit_work *w = k->w;
    for (size_t n = 0; n < w->node_count; n++) {
        k->volt[n] = NAN;
        k->by[n] = SIZE_MAX;
    }
    k->volt[post] = 0;
    for (bool crossed = true; crossed;) {
        for (bool grown = true; grown;) {
            grown = false;
            for (size_t i = 0; i < w->c->element_count; i++)
                if (joins(w, i) && step(k, i, 0))
                    grown = true;
        }
        crossed = false;
        for (size_t s = w->c->element_count; s < w->part_count && !crossed; s++)
            crossed = w->part[s].law != LAWS &&
                      step(k, s, w->part[s].figure[0]->nominal);
    }
}

/* The supplies, or the elements, on the way to a node: "lower, upper". */
static const char *names_on(const struct ways *k, size_t node, bool supplies) {
    const struct circuit_work *w = k->w;
    struct buf names = buf_in(w->v->c->arena);
    while (k->by[node] != SIZE_MAX) {
        size_t part = k->by[node];
        if ((part >= w->c->element_count) == supplies)
            buf_printf(&names, "%s%s", names.len > 0 ? ", " : "",
                       w->part[part].name);
        node = w->from[part] == node ? w->to[part] : w->from[part];
    }
    return buf_cstr(&names);
}

static const char *sign_of(const struct circuit_work *w, size_t supply) {
    return circuit_trace_minus_hot(w, supply) ? "+" : "-";
}

static void report(const struct ways *k, size_t a, size_t b) {
    const struct circuit_work *w = k->w;
    size_t node = grounded_post(w, b);
    const char *through = names_on(k, node, false);
    diag_add(w->v->c->diags, DIAG_CIRCUIT_UNSOLVED,
             w->c->supply[b - w->c->element_count].at,
             "%s %s and %s %s are both grounded and stand %.1f V apart: the "
             "chassis shorts %s%s%s; write grounded post: none for the one "
             "that is not tied to it",
             w->part[a].name, sign_of(w, a), w->part[b].name, sign_of(w, b),
             fabs(k->volt[node]), names_on(k, node, true),
             through[0] == '\0' ? "" : " through ", through);
}

/* Whether two posts are apart in the state that is solved; after a message. */
static bool refuse(const struct ways *k) {
    const struct circuit_work *w = k->w;
    double least = INFINITY;
    for (size_t s = w->c->element_count; s < w->part_count; s++)
        if (w->part[s].law != LAWS)
            least = fmin(least, w->part[s].figure[0]->nominal);
    for (size_t a = w->c->element_count; a < w->part_count; a++) {
        if (!is_grounded(w, a))
            continue;
        find_ways(k, grounded_post(w, a));
        for (size_t b = a + 1; b < w->part_count; b++) {
            if (!is_grounded(w, b) ||
                !(fabs(k->volt[grounded_post(w, b)]) > APART * least))
                continue;
            report(k, a, b);
            return true;
        }
    }
    return false;
}

void circuit_ground_require(struct circuit_work *w) {
    struct ways k = {.w = w};
    bool told = false;
    if (w->c->supply_count < 2)
        return;
    k.volt = arena_alloc(w->v->c->arena, w->node_count, sizeof *k.volt);
    k.by = arena_alloc(w->v->c->arena, w->node_count, sizeof *k.by);
    for (size_t s = 0; s < w->c->state_count && !told; s++)
        told = circuit_solve_state(w, s, NULL) && refuse(&k);
}

/* The nodes that parts join to one, supplies among them. */
static const bool *joined_to(const struct circuit_work *w, size_t node) {
    bool *here = arena_alloc(w->v->c->arena, w->node_count, sizeof *here);
    here[node] = true;
    for (bool grown = true; grown;) {
        grown = false;
        for (size_t i = 0; i < w->part_count; i++)
            if (w->part[i].law != LAWS && here[w->from[i]] != here[w->to[i]])
                here[w->from[i]] = here[w->to[i]] = grown = true;
    }
    return here;
}

bool circuit_ground_report(const struct circuit_work *w) {
    size_t first = w->c->element_count;
    while (first < w->part_count && !circuit_trace_is_grounded(w, first))
        first++;
    if (first == w->part_count)
        return false;
    const bool *here = joined_to(w, grounded_post(w, first));
    for (size_t s = first + 1; s < w->part_count; s++) {
        const struct text one = w->c->supply[s - w->c->element_count].name;
        const struct text to = w->c->supply[first - w->c->element_count].name;
        if (!circuit_trace_is_grounded(w, s) || here[grounded_post(w, s)])
            continue;
        diag_add(w->v->c->diags, DIAG_CIRCUIT_UNSOLVED,
                 w->c->supply[s - w->c->element_count].at,
                 "%.*s %s and %.*s %s are both grounded and no path joins "
                 "them; write the chassis between them, 'from %.*s %s', "
                 "'joint G9 ring M8', 'to %.*s %s', or grounded post: none for "
                 "the one that is not tied to it",
                 (int)one.len, one.start, sign_of(w, s), (int)to.len, to.start,
                 sign_of(w, first), (int)one.len, one.start, sign_of(w, s),
                 (int)to.len, to.start, sign_of(w, first));
        return true;
    }
    return false;
}
