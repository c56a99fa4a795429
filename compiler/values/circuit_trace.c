/* circuit_trace.c - what the current of a part comes from and feeds. */
#include "values/circuit_trace.h"

#include "base/arena.h"
#include "calc/fuse.h"
#include "values/range.h"

#include <math.h>
#include <stdint.h>
#include <string.h>

/* Less than this flows nowhere: leaks of what is cut off, A. */
#define NOTHING 1e-4

double circuit_trace_current(const struct circuit_work *w, size_t part) {
    size_t n = w->in_net[part];
    return n == SIZE_MAX ? 0 : w->solution.current[n];
}

static bool flows(const struct circuit_work *w, size_t part) {
    return part < w->c->element_count &&
           fabs(circuit_trace_current(w, part)) > NOTHING;
}

/* Where the current of a part enters it, or leaves it. */
static size_t end_of(const struct circuit_work *w, size_t part, bool leaves) {
    return (circuit_trace_current(w, part) > 0) == leaves ? w->to[part]
                                                          : w->from[part];
}

static bool is_taker(const struct circuit_work *w, size_t part) {
    enum circuit_part kind = w->c->element[part].part;
    return kind == CIRCUIT_LOAD || kind == CIRCUIT_COIL;
}

static bool is_fuse(const struct circuit_work *w, size_t part) {
    enum circuit_part kind = w->c->element[part].part;
    return kind == CIRCUIT_FUSE || kind == CIRCUIT_BREAKER;
}

/* The posts of supplies that are on. */
static bool *posts_of(const struct circuit_work *w) {
    bool *post = arena_alloc(w->v->c->arena, w->node_count, sizeof *post);
    for (size_t s = w->c->element_count; s < w->part_count; s++)
        if (w->part[s].law != LAWS)
            post[w->from[s]] = post[w->to[s]] = true;
    return post;
}

/* How far a current is followed. */
struct way {
    bool behind;
    bool (*ends)(const struct circuit_work *, size_t); /* elements of it */
    const bool *stop;                                  /* nodes; NULL: none */
    bool own; /* past no joint beside it */
};

/* Marks the nodes on the way, and in `found` the elements that end it. */
static void follow(const struct circuit_work *w, size_t part,
                   const struct way *way, bool *found) {
    bool *node = arena_alloc(w->v->c->arena, w->node_count, sizeof *node);
    size_t start = end_of(w, part, way->behind);
    if (!flows(w, part) || (way->stop != NULL && way->stop[start]))
        return;
    node[start] = true;
    for (bool grown = true; grown;) {
        grown = false;
        for (size_t i = 0; i < w->c->element_count; i++) {
            size_t near = flows(w, i) ? end_of(w, i, !way->behind) : SIZE_MAX;
            if (i == part || near == SIZE_MAX || !node[near] ||
                (way->own && near == start &&
                 w->c->element[i].part == CIRCUIT_JOINT))
                continue;
            size_t next = end_of(w, i, way->behind);
            if (way->ends(w, i))
                found[i] = true;
            else if (!node[next] && (way->stop == NULL || !way->stop[next]))
                node[next] = grown = true;
        }
    }
}

static size_t find_loads(const struct circuit_work *w, size_t part,
                         const struct way *way, bool *load) {
    size_t count = 0;
    memset(load, 0, w->c->element_count * sizeof *load);
    follow(w, part, way, load);
    for (size_t i = 0; i < w->c->element_count; i++)
        count += load[i];
    return count;
}

size_t circuit_trace_loads(const struct circuit_work *w, size_t part,
                           bool behind, bool *load) {
    struct way way = {behind, is_taker, posts_of(w), false};
    return find_loads(w, part, &way, load);
}

void circuit_trace_served(const struct circuit_work *w, size_t part,
                          bool *load) {
    struct way behind = {true, is_taker, NULL, false};
    struct way before = {false, is_taker, NULL, false};
    if (find_loads(w, part, &behind, load) == 0)
        find_loads(w, part, &before, load);
}

size_t circuit_trace_returns(const struct circuit_work *w, size_t joint,
                             bool *load) {
    struct way way = {false, is_taker, posts_of(w), true};
    return find_loads(w, joint, &way, load);
}

static struct text setting_of(const struct circuit_work *w, size_t supply,
                              const char *setting) {
    const struct block *b = circuit_solve_supply(w, supply);
    return b == NULL ? (struct text){NULL, 0}
                     : block_text(w->v, b, setting, w->variant);
}

static bool is_grounded(const struct circuit_work *w, size_t supply,
                        const char *post) {
    return text_is(setting_of(w, supply, "grounded post"), post);
}

bool circuit_trace_is_grounded(const struct circuit_work *w, size_t supply) {
    return is_grounded(w, supply, "negative") ||
           is_grounded(w, supply, "positive");
}

bool circuit_trace_minus_hot(const struct circuit_work *w, size_t supply) {
    return is_grounded(w, supply, "positive");
}

bool circuit_trace_floats(const struct circuit_work *w, size_t supply) {
    return is_grounded(w, supply, "none");
}

bool circuit_trace_is_battery(const struct circuit_work *w, size_t supply) {
    struct text chemistry = setting_of(w, supply, "chemistry");
    return chemistry.len > 0 && !text_is(chemistry, "none");
}

size_t circuit_trace_hot_post(const struct circuit_work *w, size_t supply) {
    return circuit_trace_minus_hot(w, supply) ? w->from[supply] : w->to[supply];
}

bool circuit_trace_is_lead(const struct circuit_work *w, size_t wire) {
    const struct circuit_piece *p = &w->part[wire];
    const struct fuse_place *bare = fuse_place_find(false, false);
    bool post = false, fuse = false;
    if (wire >= w->c->element_count || p->law != LAW_WIRE ||
        range_ends(p->figure[0]).high > bare->most * (1 + 1e-9))
        return false;
    for (size_t s = w->c->element_count; s < w->part_count; s++) {
        size_t hot = circuit_trace_hot_post(w, s);
        size_t far = hot == w->from[wire] ? w->to[wire] : w->from[wire];
        if (w->part[s].law == LAWS ||
            (hot != w->from[wire] && hot != w->to[wire]))
            continue;
        post = true;
        for (size_t i = 0; i < w->c->element_count; i++)
            fuse = fuse || (w->part[i].law != LAWS && is_fuse(w, i) &&
                            (w->from[i] == far || w->to[i] == far));
    }
    return post && fuse;
}

void circuit_trace_fuses(const struct circuit_work *w, size_t part,
                         bool *fuse) {
    bool behind = circuit_trace_minus_hot(w, w->c->element_count);
    struct way way = {behind, is_fuse, NULL, false};
    follow(w, part, &way, fuse);
}

void circuit_trace_all_fuses(const struct circuit_work *w, size_t part,
                             bool *fuse) {
    size_t n = w->c->element_count;
    bool *asked = arena_alloc(w->v->c->arena, n, sizeof *asked);
    circuit_trace_fuses(w, part, fuse);
    for (bool grown = true; grown;) {
        grown = false;
        for (size_t i = 0; i < n; i++) {
            if (!fuse[i] || asked[i])
                continue;
            circuit_trace_fuses(w, i, fuse);
            asked[i] = grown = true;
        }
    }
}

size_t circuit_trace_joined(const struct circuit_work *w, size_t part) {
    size_t count = 0;
    for (size_t i = 0; i < w->c->element_count; i++)
        count += i != part && flows(w, i) && flows(w, part) &&
                 w->c->element[i].part != CIRCUIT_JOINT &&
                 end_of(w, i, true) == end_of(w, part, false);
    return count;
}

/* Marks the nodes that what flows into those that are marked comes through;
 * `through`: loads, too. */
static void mark_before(const struct circuit_work *w, bool through,
                        bool *node) {
    for (bool grown = true; grown;) {
        grown = false;
        for (size_t i = 0; i < w->c->element_count; i++)
            if (flows(w, i) && (through || !is_taker(w, i)) &&
                node[end_of(w, i, true)] && !node[end_of(w, i, false)])
                node[end_of(w, i, false)] = grown = true;
    }
}

/* Whether a supply, a part, gives all of its rated output, and so no longer
 * holds its voltage. */
static bool is_at_limit(const struct circuit_work *w, size_t supply) {
    size_t n = w->in_net[supply];
    return n != SIZE_MAX &&
           circuit_law_is_at_limit(&w->net_part[n].law,
                                   w->solution.volt[w->from[supply]] -
                                       w->solution.volt[w->to[supply]]);
}

const char *circuit_trace_limits(const struct circuit_work *w,
                                 const char *words) {
    struct arena *a = w->v->c->arena;
    for (size_t s = w->c->element_count; s < w->part_count; s++)
        if (is_at_limit(w, s))
            words = arena_printf(
                a, "%s%s%s at its full %s", words == NULL ? "" : words,
                words == NULL ? "" : ", ", w->part[s].name,
                figure_of(a, w->part[s].figure[2], FIGURE_PLAIN));
    return words;
}

/* Of the supplies that give at one of the nodes, that with the least voltage at
 * its posts, `limited` or not. SIZE_MAX: none. */
static size_t weakest_of(const struct circuit_work *w, const bool *node,
                         bool limited) {
    size_t found = SIZE_MAX;
    double least = INFINITY;
    for (size_t s = w->c->element_count; s < w->part_count; s++) {
        double volt = w->solution.volt[w->to[s]] - w->solution.volt[w->from[s]];
        if (w->part[s].law == LAWS || !node[w->to[s]] || volt >= least ||
            circuit_trace_current(w, s) < NOTHING ||
            is_at_limit(w, s) != limited)
            continue;
        found = s;
        least = volt;
    }
    return found;
}

static size_t weakest(const struct circuit_work *w, const bool *node) {
    size_t found = weakest_of(w, node, false);
    return found != SIZE_MAX ? found : weakest_of(w, node, true);
}

size_t circuit_trace_supply(const struct circuit_work *w, size_t load) {
    bool *node = arena_alloc(w->v->c->arena, w->node_count, sizeof *node);
    if (!flows(w, load))
        return SIZE_MAX;
    node[end_of(w, load, false)] = true;
    mark_before(w, true, node);
    return weakest(w, node);
}

size_t circuit_trace_string(const struct circuit_work *w, size_t supply,
                            size_t *string) {
    size_t most = w->part_count - w->c->element_count, count = 0;
    bool *node = arena_alloc(w->v->c->arena, w->node_count, sizeof *node);
    for (size_t s = supply; s != SIZE_MAX && count < most;) {
        string[count++] = s;
        memset(node, 0, w->node_count * sizeof *node);
        node[w->from[s]] = true;
        mark_before(w, false, node);
        s = weakest(w, node);
        for (size_t i = 0; i < count && s != SIZE_MAX; i++)
            s = string[i] == s ? SIZE_MAX : s;
    }
    return count;
}

size_t circuit_trace_feeding(const struct circuit_work *w, size_t load,
                             size_t **string) {
    size_t supply = circuit_trace_supply(w, load);
    *string =
        arena_alloc(w->v->c->arena, w->c->supply_count + 1, sizeof(**string));
    return supply == SIZE_MAX ? 0 : circuit_trace_string(w, supply, *string);
}
