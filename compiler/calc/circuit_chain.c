/* circuit_chain.c - parts in series: found, and solved by their one current. */
#include "calc/circuit_chain.h"

#include <math.h>

/* Of the search for a current: Newton's steps shrink as their squares. */
enum { STEPS_MAX = 60 };
#define LAST_STEP 1e-12

static size_t index_words(size_t nodes, size_t parts) {
    return 2 + 5 * parts + 1 + 4 * nodes;
}

size_t circuit_chain_index(size_t nodes, size_t parts) {
    size_t bytes = index_words(nodes, parts) * sizeof(unsigned);
    return (bytes + sizeof(double) - 1) / sizeof(double);
}

struct circuit_chains circuit_chains_at(const struct net *net, double *index) {
    struct circuit_chains c = {.part_count = net->part_count,
                               .node_count = net->node_count};
    c.count = (unsigned *)(void *)index;
    c.from = c.count + 2;
    c.to = c.from + c.part_count;
    c.part = c.to + c.part_count;
    c.back = c.part + c.part_count;
    c.first = c.back + c.part_count;
    c.outer = c.first + c.part_count + 1;
    c.chain = c.outer + c.node_count;
    c.at = c.chain + c.node_count;
    return c;
}

static bool is_of_chain(const struct net_part *p) {
    return (p->law.law == LAW_RESISTANCE || p->law.law == LAW_WIRE) &&
           p->from != p->to;
}

/* Numbers the outer nodes; an inner one knows its two parts. */
static void find_inner(struct circuit_chains *c, const struct net *net) {
    unsigned *parts = c->outer; /* at the node; 3: it is no inner one */
    for (size_t n = 0; n < c->node_count; n++)
        parts[n] = n == 0 ? 3 : 0;
    for (size_t i = 0; i < c->part_count; i++) {
        const struct net_part *p = &net->part[i];
        size_t end[2] = {p->from, p->to};
        for (int k = 0; k < 2; k++) {
            unsigned *count = &parts[end[k]];
            if (*count < 2)
                c->at[2 * end[k] + *count] = (unsigned)i;
            *count = is_of_chain(p) && *count < 3 ? *count + 1 : 3;
        }
    }
    c->count[1] = 0;
    for (size_t n = 0; n < c->node_count; n++)
        c->outer[n] = parts[n] == 2 ? CHAIN_INNER : c->count[1]++;
}

/* From a part at its outer end `node` to the next outer node. */
static void follow(struct circuit_chains *c, const struct net *net, size_t part,
                   size_t node) {
    unsigned chain = c->count[0]++, at = c->first[chain];
    c->from[chain] = c->outer[node];
    for (;;) {
        const struct net_part *p = &net->part[part];
        c->back[part] = p->from != node;
        node = p->from == node ? p->to : p->from;
        c->part[at++] = (unsigned)part;
        if (c->outer[node] != CHAIN_INNER)
            break;
        c->chain[node] = chain;
        const unsigned *both = &c->at[2 * node];
        part = both[0] == part ? both[1] : both[0];
    }
    c->to[chain] = c->outer[node];
    c->first[chain + 1] = at;
}

void circuit_chains_find(struct circuit_chains *c, const struct net *net) {
    enum { UNTAKEN = 2 };
    find_inner(c, net);
    for (size_t i = 0; i < c->part_count; i++)
        c->back[i] = UNTAKEN;
    c->count[0] = c->first[0] = 0;
    for (size_t i = 0; i < c->part_count; i++) {
        const struct net_part *p = &net->part[i];
        if (c->back[i] != UNTAKEN)
            continue;
        if (c->outer[p->from] != CHAIN_INNER)
            follow(c, net, i, p->from);
        else if (c->outer[p->to] != CHAIN_INNER)
            follow(c, net, i, p->to);
    }
}

bool circuit_chains_hold(const struct circuit_chains *c,
                         const struct net *net) {
    for (size_t k = 0; k < c->count[0]; k++) {
        if (c->first[k + 1] - c->first[k] == 1)
            continue;
        for (unsigned i = c->first[k]; i < c->first[k + 1]; i++)
            if (!is_of_chain(&net->part[c->part[i]]))
                return false;
    }
    return true;
}

double circuit_chain_voltage(const struct circuit_chains *c,
                             const struct net *net, size_t chain, double ampere,
                             double *ohm) {
    double volt = 0, sum = 0, one;
    for (unsigned i = c->first[chain]; i < c->first[chain + 1]; i++) {
        volt += circuit_law_voltage(&net->part[c->part[i]].law, ampere, &one);
        sum += one;
    }
    *ohm = sum;
    return volt;
}

/* Newton's iteration in a bracket: the voltage grows with the current, with a
 * corner where a wire melts. */
double circuit_chain_current(const struct circuit_chains *c,
                             const struct net *net, size_t chain, double u,
                             double near, double *slope) {
    double wanted = fabs(u), low = 0, high = INFINITY, ohm = NAN;
    double ampere = fabs(near);
    for (int step = 0; step < STEPS_MAX; step++) {
        double volt = circuit_chain_voltage(c, net, chain, ampere, &ohm);
        double next = ampere + (wanted - volt) / ohm;
        if (fabs(next - ampere) <= LAST_STEP * ampere) {
            ampere = next;
            break;
        }
        if (volt < wanted)
            low = ampere;
        else
            high = ampere;
        bool between = next > low && next < high;
        ampere = between || isinf(high) ? next : (low + high) / 2;
    }
    *slope = 1 / ohm;
    return copysign(ampere, u);
}

double circuit_chain_start(const struct circuit_chains *c,
                           const struct net *net, size_t chain) {
    double ohm = 0;
    for (unsigned i = c->first[chain]; i < c->first[chain + 1]; i++)
        ohm += 1 / circuit_law_start(&net->part[c->part[i]].law);
    return 1 / ohm;
}

/* The node behind a part, going along its chain. */
static size_t behind(const struct circuit_chains *c, const struct net *net,
                     size_t part) {
    const struct net_part *p = &net->part[part];
    return c->back[part] ? p->from : p->to;
}

static size_t before(const struct circuit_chains *c, const struct net *net,
                     size_t part) {
    const struct net_part *p = &net->part[part];
    return c->back[part] ? p->to : p->from;
}

double circuit_chain_inside(const struct circuit_chains *c,
                            const struct net *net, size_t chain, double current,
                            double *by_part, double *tangent, double *volt) {
    double at = volt[before(c, net, c->part[c->first[chain]])], ohm = 0;
    for (unsigned i = c->first[chain]; i < c->first[chain + 1]; i++) {
        size_t part = c->part[i];
        by_part[part] = c->back[part] ? -current : current;
        at -=
            circuit_law_voltage(&net->part[part].law, current, &tangent[part]);
        ohm += tangent[part];
        if (i + 1 < c->first[chain + 1])
            volt[behind(c, net, part)] = at;
    }
    return ohm;
}

void circuit_chain_gather(const struct circuit_chains *c, const struct net *net,
                          size_t node, const double *tangent, double ampere,
                          double *into) {
    size_t chain = c->chain[node];
    double side = 0, all = 0; /* ohm: from the beginning to the node */
    for (unsigned i = c->first[chain]; i < c->first[chain + 1]; i++) {
        all += tangent[c->part[i]];
        if (behind(c, net, c->part[i]) == node)
            side = all;
    }
    into[c->to[chain]] += ampere * side / all;
    into[c->from[chain]] += ampere * (all - side) / all;
}

void circuit_chain_spread(const struct circuit_chains *c, const struct net *net,
                          size_t chain, const double *tangent,
                          const double *ampere, double *by) {
    unsigned first = c->first[chain], end = c->first[chain + 1];
    size_t node = before(c, net, c->part[first]);
    double at = by[node], through = 0, drop = 0, ohm = 0;
    for (unsigned i = first; i < end; i++) { /* as if nothing came in first */
        drop += tangent[c->part[i]] * through;
        ohm += tangent[c->part[i]];
        node = behind(c, net, c->part[i]);
        if (i + 1 < end)
            through += ampere[node];
    }
    through = (at - by[node] - drop) / ohm;
    for (unsigned i = first; i + 1 < end; i++) {
        node = behind(c, net, c->part[i]);
        at -= tangent[c->part[i]] * through;
        by[node] = at;
        through += ampere[node];
    }
}
