/* circuit_memo.c - states and corners that were solved, kept. */
#include "values/circuit_memo.h"

#include "base/arena.h"

#include <stdint.h>
#include <string.h>

bool circuit_memo_open(const struct circuit_work *w) {
    for (size_t i = 0; i < w->part_count; i++)
        if (w->open[i] || (i >= w->c->element_count && w->part[i].law == LAWS))
            return true;
    return false;
}

/* Of a large circuit only the solution is copied, not the room for its factors:
 * enough while no other state is put on. */
enum { COPIED_MAX = 200000 }; /* doubles */

static size_t room_of(const struct circuit_work *w) {
    size_t all = circuit_solve_room(w);
    return all <= COPIED_MAX ? all
                             : 1 + 3 * w->node_count + 3 * w->net.part_count;
}

bool circuit_memo_has(const struct circuit_work *w, size_t state) {
    return w->memo[state].known &&
           (w->ordered == state || circuit_solve_room(w) <= COPIED_MAX);
}

static void *copied(struct arena *a, const void *from, size_t count,
                    size_t size) {
    void *to = arena_alloc(a, count + 1, size);
    memcpy(to, from, count * size);
    return to;
}

void circuit_memo_keep(struct circuit_work *w) {
    struct arena *a = w->v->c->arena;
    struct circuit_memo *m = &w->memo[w->state];
    size_t parts = w->part_count, room = parts + w->node_count;
    *m = (struct circuit_memo){
        .known = true,
        .root = m->root,
        .root_count = m->root_count,
        .open = copied(a, w->open, parts, sizeof *w->open),
        .peak = copied(a, w->peak, parts, sizeof *w->peak),
        .supply = copied(a, w->part + w->c->element_count, w->c->supply_count,
                         sizeof *w->part),
        .net = w->net,
        .net_part = copied(a, w->net_part, room, sizeof *w->net_part),
        .of_net = copied(a, w->of_net, room, sizeof *w->of_net),
        .in_net = copied(a, w->in_net, parts, sizeof *w->in_net),
        .strays = w->strays,
        .work = copied(a, w->work, room_of(w), sizeof *w->work),
        .solution = w->solution};
}

void circuit_memo_recall(struct circuit_work *w) {
    const struct circuit_memo *m = &w->memo[w->state];
    size_t parts = w->part_count, room = parts + w->node_count;
    w->net = m->net;
    memcpy(w->open, m->open, parts * sizeof *w->open);
    memcpy(w->peak, m->peak, parts * sizeof *w->peak);
    memcpy(w->part + w->c->element_count, m->supply,
           w->c->supply_count * sizeof *w->part);
    memcpy(w->net_part, m->net_part, room * sizeof *w->net_part);
    memcpy(w->of_net, m->of_net, room * sizeof *w->of_net);
    memcpy(w->in_net, m->in_net, parts * sizeof *w->in_net);
    memcpy(w->work, m->work, room_of(w) * sizeof *w->work);
    w->ordered = w->state;
    w->strays = m->strays;
    w->solution = m->solution;
}

void circuit_memo_no_slopes(struct circuit_work *w) {
    w->unkept.known = false;
    w->unkept.count = 0;
    w->slopes = &w->unkept;
}

/* A corner of a state that was solved, by its figures; fault: it was not. */
struct circuit_corner {
    struct circuit_corner *next; /* of the same remainder */
    double *value;               /* of each root */
    enum net_fault fault;
    double *kept;
    struct net_part *net_part;
    struct circuit_slopes slopes;
};

static size_t remainder_of(const struct corner *corner, size_t count) {
    uint64_t sum = 0, bits = 0;
    for (size_t i = 0; i < count; i++) {
        memcpy(&bits, &corner[i].value, sizeof bits);
        sum = (sum ^ bits) * 0x9E3779B97F4A7C15u;
        sum ^= sum >> 32;
    }
    return sum % CORNER_LISTS;
}

static bool is_corner(const struct circuit_corner *k,
                      const struct corner *corner, size_t count) {
    for (size_t i = 0; i < count; i++)
        if (k->value[i] != corner[i].value)
            return false;
    return true;
}

static void keep_corner(struct circuit_work *w, struct circuit_corner **list,
                        const struct corner *corner, size_t count,
                        enum net_fault fault) {
    struct arena *a = w->v->c->arena;
    struct circuit_corner *k = arena_alloc(a, 1, sizeof *k);
    *k = (struct circuit_corner){
        .next = *list,
        .value = arena_alloc(a, count + 1, sizeof *k->value),
        .fault = fault,
        .kept = arena_alloc(a, circuit_net_kept(&w->net), sizeof *k->kept),
        .net_part =
            copied(a, w->net_part, w->net.part_count, sizeof *w->net_part)};
    for (size_t i = 0; i < count; i++)
        k->value[i] = corner[i].value;
    circuit_net_keep(&w->net, w->work, k->kept);
    *list = k;
    w->slopes = &k->slopes;
}

/* Of large circuits no corner is kept. */
enum { CORNER_ROOM_MAX = COPIED_MAX / 10 };

/* Many results have their ends at the same corners: each is solved once. What
 * is tried once, along a range, is not kept. */
bool circuit_solve_corner(struct circuit_work *w, const struct corner *corner,
                          size_t count) {
    struct circuit_memo *m = &w->memo[w->state];
    bool known = w->at == NULL && m->known && m->root == corner &&
                 circuit_solve_room(w) <= CORNER_ROOM_MAX;
    struct circuit_corner **list =
        known ? &m->corner[remainder_of(corner, count)] : NULL;
    struct circuit_corner *k = known ? *list : NULL;
    while (k != NULL && !is_corner(k, corner, count))
        k = k->next;
    if (k == NULL) {
        circuit_solve_make(w, corner, count);
        circuit_memo_no_slopes(w);
        enum net_fault fault = circuit_solve_net(w, circuit_memo_open(w));
        if (known && !w->trying && m->corner_count < CIRCUIT_CORNERS_MAX) {
            keep_corner(w, list, corner, count, fault);
            m->corner_count++;
        }
        return fault == NET_SOLVED;
    }
    memcpy(w->net_part, k->net_part, w->net.part_count * sizeof *w->net_part);
    w->solution = circuit_net_recall(&w->net, w->work, k->kept);
    w->slopes = &k->slopes;
    return k->fault == NET_SOLVED;
}
