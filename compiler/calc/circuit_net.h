/* circuit_net.h - a circuit's voltages and currents: nodal analysis, Newton's
 * iteration for parts that are not linear.
 *
 * Every part stands between two nodes, so the matrix is symmetric; it is
 * eliminated in the order of least degree, which for the chains and trees of
 * vehicle wiring fills in next to nothing. Node 0 is the reference. */
#ifndef CIRCUIT_NET_H
#define CIRCUIT_NET_H

#include "calc/circuit_law.h"

enum { NET_NODES_MAX = 2000 };

struct net_part {
    size_t from, to; /* nodes; of a supply: minus, plus */
    struct circuit_part_law law;
};

struct net {
    const struct net_part *part;
    size_t part_count, node_count;
};

enum net_fault {
    NET_SOLVED,
    NET_FLOATS,   /* `where` is a node that no part joins to the reference */
    NET_SHORTED,  /* `where` is a supply left with under half of its own
                     voltage, or of those that limit themselves one that is so
                     and no other supply is there, or is driven backwards */
    NET_UNFED,    /* `where` is a load of constant power that the circuit cannot
                     feed */
    NET_DIVERGES, /* no solution was found; `where` is the part that moved most
                   */
    NET_LARGE
};

struct net_solution {
    double *volt;    /* by node, against node 0 */
    double *current; /* by part, from `from` to `to` */
    size_t where;
    int rounds; /* of the iteration, tried in vain too */
};

/* How many doubles of memory a solution needs. */
size_t circuit_net_room(size_t node_count, size_t part_count);
/* `work` begins with a zero, or is that of an earlier solution of the same net,
 * whose parts may have other figures since; the solution stands in it. */
enum net_fault circuit_net_solve(const struct net *n, double *work,
                                 struct net_solution *out);
/* The solution that stands in `work` as figures of its own, and back again, so
 * that the adjoint and a next solution go on from there: circuit_net_kept
 * doubles. */
size_t circuit_net_kept(const struct net *n, double *work);
void circuit_net_keep(const struct net *n, double *work, double *kept);
struct net_solution circuit_net_recall(const struct net *n, double *work,
                                       const double *kept);
/* How the weighted sum of node voltages moves with a current drawn from each
 * node, at the solution in `work`: sensitivity by adjoint. `weight` and `by`
 * have a figure for each node. A result moves by (by[to] - by[from]) for each
 * ampere that a part takes more at its voltage. */
void circuit_net_adjoint(const struct net *n, double *work,
                         const double *weight, double *by);

#endif
