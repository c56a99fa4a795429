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

/* The states of a large circuit share one room, and only the last that was put
 * on is known. */
enum { OWN_ROOM_MAX = 200000 }; /* doubles */

static bool is_large(const struct circuit_work *w) {
    return circuit_solve_room(w) > OWN_ROOM_MAX;
}

static void *copied(struct arena *a, const void *from, size_t count,
                    size_t size) {
    void *to = arena_alloc(a, count + 1, size);
    memcpy(to, from, count * size);
    return to;
}

/* Two exact voltages of one value are the same. */
static bool is_at(const struct quantity *a, const struct quantity *b) {
    if (a == b || a == NULL || b == NULL)
        return a == b;
    return quantity_is_exact(a) && quantity_is_exact(b) &&
           a->nominal == b->nominal;
}

/* NULL: what is asked for is not worth keeping. */
static struct circuit_memo *memo_of(const struct circuit_work *w) {
    if (w->at == NULL)
        return &w->memo[w->state];
    return is_large(w) ? NULL : &w->memo[w->c->state_count + w->state];
}

static void make_room(struct circuit_work *w) {
    struct arena *a = w->v->c->arena;
    size_t parts = w->part_count, room = parts + w->node_count;
    if (w->net_part != NULL && is_large(w))
        return;
    w->open = arena_alloc(a, parts, sizeof *w->open);
    w->peak = arena_alloc(a, parts, sizeof *w->peak);
    w->start = arena_alloc(a, parts, sizeof *w->start);
    w->net_part = arena_alloc(a, room, sizeof *w->net_part);
    w->of_net = arena_alloc(a, room, sizeof *w->of_net);
    w->in_net = arena_alloc(a, parts, sizeof *w->in_net);
    w->work = NULL;
}

/* A large state that is solved again, as it was: what follows from it stays. */
static bool keep_again(struct circuit_work *w, struct circuit_memo *m) {
    if (!m->known || w->at != NULL || m->net.part_count != w->net.part_count ||
        m->kept_count != circuit_net_kept(&w->net, w->work))
        return false;
    m->net = w->net;
    memcpy(m->nominal, w->net_part, w->net.part_count * sizeof *w->net_part);
    return true;
}

static void keep(struct circuit_work *w, struct circuit_memo *m) {
    struct arena *a = w->v->c->arena;
    size_t count = circuit_net_kept(&w->net, w->work);
    *m = (struct circuit_memo){
        .known = true,
        .at = w->at,
        .open = w->open,
        .peak = w->peak,
        .start = w->start,
        .span = w->span,
        .supply = copied(a, w->part + w->c->element_count, w->c->supply_count,
                         sizeof *w->part),
        .net = w->net,
        .net_part = w->net_part,
        .nominal =
            copied(a, w->net_part, w->net.part_count, sizeof *w->net_part),
        .of_net = w->of_net,
        .in_net = w->in_net,
        .strays = w->strays,
        .work = w->work,
        .kept = arena_alloc(a, count, sizeof *m->kept),
        .kept_count = count};
}

void circuit_memo_keep(struct circuit_work *w) {
    struct circuit_memo *m = memo_of(w);
    w->kept = m;
    w->nominal = true;
    if (m == NULL)
        return;
    if (!keep_again(w, m))
        keep(w, m);
    circuit_net_keep(&w->net, w->work, m->kept);
    w->ordered = w->state;
    w->slopes = &m->slopes;
}

static void put_back(struct circuit_work *w, const struct circuit_memo *m) {
    w->at = m->at;
    w->open = m->open;
    w->peak = m->peak;
    w->start = m->start;
    w->span = m->span;
    w->net_part = m->net_part;
    w->of_net = m->of_net;
    w->in_net = m->in_net;
    w->strays = m->strays;
    w->work = m->work;
    w->net = m->net;
    memcpy(w->part + w->c->element_count, m->supply,
           w->c->supply_count * sizeof *w->part);
    memcpy(w->net_part, m->nominal, w->net.part_count * sizeof *w->net_part);
    w->solution = circuit_net_recall(&w->net, w->work, m->kept);
}

bool circuit_memo_recall(struct circuit_work *w) {
    struct circuit_memo *m = memo_of(w);
    bool known = m != NULL && m->known && is_at(m->at, w->at) &&
                 (w->ordered == w->state || !is_large(w));
    if (!known) {
        make_room(w);
        w->ordered = SIZE_MAX;
        w->kept = NULL;
        return false;
    }
    if (w->kept != m || !w->nominal)
        put_back(w, m);
    w->kept = m;
    w->nominal = true;
    w->slopes = &m->slopes;
    return true;
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
        .kept =
            arena_alloc(a, circuit_net_kept(&w->net, w->work), sizeof *k->kept),
        .net_part =
            copied(a, w->net_part, w->net.part_count, sizeof *w->net_part)};
    for (size_t i = 0; i < count; i++)
        k->value[i] = corner[i].value;
    circuit_net_keep(&w->net, w->work, k->kept);
    *list = k;
    w->slopes = &k->slopes;
}

/* Of large circuits no corner is kept. */
enum { CORNER_ROOM_MAX = OWN_ROOM_MAX / 10 };

/* Many results have their ends at the same corners: each is solved once. What
 * is tried once, along a range, is not kept. */
bool circuit_solve_corner(struct circuit_work *w, const struct corner *corner,
                          size_t count) {
    struct circuit_memo *m = w->kept;
    bool known = m != NULL && m->root == corner &&
                 circuit_solve_room(w) <= CORNER_ROOM_MAX;
    w->nominal = false;
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
