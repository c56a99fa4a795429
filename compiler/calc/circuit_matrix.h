/* circuit_matrix.h - conductances between the nodes of a circuit, eliminated in
 * the order of least degree: inside circuit_net.
 *
 * A node has the number of the step in which it is taken away; node 0, the
 * reference, stays, and has the last number. Of two nodes the one that is taken
 * first holds the conductance between them. */
#ifndef CIRCUIT_MATRIX_H
#define CIRCUIT_MATRIX_H

#include <stdbool.h>
#include <stddef.h>

/* Slices of the caller's memory. */
struct circuit_matrix {
    size_t n;        /* nodes */
    double *cell;    /* n * n: row of a step, column of a later one; in the
                        diagonal, once factored, the sum of the row */
    unsigned *place; /* step of each node */
    unsigned *first; /* n: where the row of a step begins in `later` */
    unsigned *later; /* steps after it, but the last, that it is joined to */
    unsigned *row;   /* n * (n + 1): while the order is sought */
};

/* Doubles of memory: of cells; of the rest. */
size_t circuit_matrix_cells(size_t n);
size_t circuit_matrix_index(size_t n);
struct circuit_matrix circuit_matrix_at(size_t n, double *cells, double *index);

/* Joined pairs of nodes, one after the other: `pair` tells the i-th. */
typedef void circuit_matrix_pair(const void *of, size_t i, size_t node[2]);
void circuit_matrix_order(struct circuit_matrix *m, const void *of,
                          size_t count, circuit_matrix_pair *pair);

/* Where the conductance between two nodes stands. */
static inline size_t circuit_matrix_between(const struct circuit_matrix *m,
                                            size_t a, size_t b) {
    size_t p = m->place[a], q = m->place[b];
    return p < q ? p * m->n + q : q * m->n + p;
}

void circuit_matrix_clear(struct circuit_matrix *m);
/* Takes node after node away and joins its neighbours instead, star to mesh.
 * Conductances are added and never subtracted, so that a part that hardly
 * conducts (a blocking diode) is not lost beside one that does. False:
 * singular. */
bool circuit_matrix_factor(struct circuit_matrix *m);
/* Whether, once factored, the matrix is positive definite. */
bool circuit_matrix_is_positive(const struct circuit_matrix *m);
/* Volts for amperes, both by step, at the factors. */
void circuit_matrix_substitute(const struct circuit_matrix *m, double *x);

/* The factors, packed: so many doubles. */
size_t circuit_matrix_packed(const struct circuit_matrix *m);
void circuit_matrix_pack(const struct circuit_matrix *m, double *packed);
void circuit_matrix_unpack(struct circuit_matrix *m, const double *packed);

#endif
