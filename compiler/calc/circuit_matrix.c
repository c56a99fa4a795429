/* circuit_matrix.c - order, factors and substitution of a circuit's nodes. */
#include "calc/circuit_matrix.h"

#include <math.h>
#include <string.h>

size_t circuit_matrix_cells(size_t n) {
    return n * n;
}

/* Places, row starts, rows; neighbours while the order is sought. */
static size_t index_words(size_t n) {
    return 2 * n + n * (n - 1) / 2 + n * (n + 1);
}

size_t circuit_matrix_index(size_t n) {
    size_t bytes = index_words(n) * sizeof(unsigned);
    return (bytes + sizeof(double) - 1) / sizeof(double);
}

struct circuit_matrix circuit_matrix_at(size_t n, double *cells,
                                        double *index) {
    struct circuit_matrix m = {.n = n, .cell = cells};
    m.place = (unsigned *)(void *)index;
    m.first = m.place + n;
    m.later = m.first + n;
    m.row = m.later + n * (n - 1) / 2;
    return m;
}

static unsigned *row_of(const struct circuit_matrix *m, size_t p) {
    return m->row + p * (m->n + 1);
}

static void join(struct circuit_matrix *m, size_t a, size_t b) {
    unsigned *row = row_of(m, a);
    double *cell = &m->cell[a * m->n + b];
    if (a == b || *cell != 0)
        return;
    *cell = 1;
    row[0]++;
    row[row[0]] = (unsigned)b;
}

static void leave(struct circuit_matrix *m, size_t a, size_t gone) {
    unsigned *row = row_of(m, a);
    for (unsigned i = 1; i <= row[0]; i++)
        if (row[i] == gone) {
            row[i] = row[row[0]];
            row[0]--;
            return;
        }
}

/* The node with the fewest neighbours; ties go to the lower number. */
static size_t next_node(const struct circuit_matrix *m) {
    size_t best = 0;
    for (size_t p = 1; p < m->n; p++)
        if (m->place[p] == m->n &&
            (best == 0 || row_of(m, p)[0] < row_of(m, best)[0]))
            best = p;
    return best;
}

/* Takes the node with the fewest neighbours, joins these, and so on. What a
 * node is joined to when it is taken is its row. */
static void take_nodes(struct circuit_matrix *m) {
    for (size_t p = 0; p < m->n; p++)
        m->place[p] = (unsigned)m->n; /* not taken yet */
    for (size_t step = 0; step + 1 < m->n; step++) {
        size_t best = next_node(m);
        const unsigned *row = row_of(m, best);
        m->place[best] = (unsigned)step;
        for (unsigned i = 1; i <= row[0]; i++) {
            leave(m, row[i], best);
            for (unsigned k = 1; k <= row[0]; k++)
                join(m, row[i], row[k]);
        }
    }
    m->place[0] = (unsigned)(m->n - 1);
}

/* Rows by step. */
static void number_rows(struct circuit_matrix *m) {
    unsigned at = 0;
    unsigned *node = row_of(m, 0); /* by step */
    for (size_t p = 1; p < m->n; p++)
        node[m->place[p]] = (unsigned)p;
    for (size_t step = 0; step + 1 < m->n; step++) {
        const unsigned *row = row_of(m, node[step]);
        m->first[step] = at;
        for (unsigned i = 1; i <= row[0]; i++)
            m->later[at++] = m->place[row[i]];
    }
    m->first[m->n - 1] = at;
}

void circuit_matrix_order(struct circuit_matrix *m, const void *of,
                          size_t count, circuit_matrix_pair *pair) {
    memset(m->cell, 0, m->n * m->n * sizeof *m->cell);
    for (size_t p = 0; p < m->n; p++)
        row_of(m, p)[0] = 0;
    for (size_t i = 0; i < count; i++) {
        size_t node[2];
        pair(of, i, node);
        if (node[0] == 0 || node[1] == 0)
            continue;
        join(m, node[0], node[1]);
        join(m, node[1], node[0]);
    }
    take_nodes(m);
    number_rows(m);
}

void circuit_matrix_clear(struct circuit_matrix *m) {
    for (size_t step = 0; step + 1 < m->n; step++) {
        double *row = m->cell + step * m->n;
        row[m->n - 1] = 0;
        for (unsigned i = m->first[step]; i < m->first[step + 1]; i++)
            row[m->later[i]] = 0;
    }
}

/* Joins the neighbours of a step to each other and to the reference. */
static void mesh(struct circuit_matrix *m, const double *row, double sum,
                 const unsigned *later, unsigned count) {
    size_t n = m->n;
    for (unsigned i = 0; i < count; i++) {
        m->cell[later[i] * n + n - 1] += row[later[i]] / sum * row[n - 1];
        for (unsigned k = 0; k < i; k++) {
            bool before = later[k] < later[i];
            size_t a = before ? later[k] : later[i];
            size_t b = before ? later[i] : later[k];
            m->cell[a * n + b] += row[a] / sum * row[b];
        }
    }
}

bool circuit_matrix_factor(struct circuit_matrix *m) {
    for (size_t step = 0; step + 1 < m->n; step++) {
        const unsigned *later = m->later + m->first[step];
        unsigned count = m->first[step + 1] - m->first[step];
        double *row = m->cell + step * m->n, sum = row[m->n - 1];
        for (unsigned i = 0; i < count; i++)
            sum += row[later[i]];
        if (sum == 0 || !isfinite(sum))
            return false;
        row[step] = sum;
        mesh(m, row, sum, later, count);
    }
    return true;
}

bool circuit_matrix_is_positive(const struct circuit_matrix *m) {
    for (size_t step = 0; step + 1 < m->n; step++)
        if (!(m->cell[step * m->n + step] > 0))
            return false;
    return true;
}

void circuit_matrix_substitute(const struct circuit_matrix *m, double *x) {
    size_t n = m->n;
    for (size_t step = 0; step + 1 < n; step++) {
        const double *row = m->cell + step * n;
        if (x[step] == 0) /* most of what an adjoint begins with */
            continue;
        for (unsigned i = m->first[step]; i < m->first[step + 1]; i++)
            x[m->later[i]] += row[m->later[i]] / row[step] * x[step];
    }
    x[n - 1] = 0;
    for (size_t step = n - 1; step-- > 0;) {
        const double *row = m->cell + step * n;
        double sum = x[step];
        for (unsigned i = m->first[step]; i < m->first[step + 1]; i++)
            sum += row[m->later[i]] * x[m->later[i]];
        x[step] = sum / row[step];
    }
}

size_t circuit_matrix_packed(const struct circuit_matrix *m) {
    return m->first[m->n - 1] + m->n - 1;
}

void circuit_matrix_pack(const struct circuit_matrix *m, double *packed) {
    for (size_t step = 0; step + 1 < m->n; step++) {
        const double *row = m->cell + step * m->n;
        *packed++ = row[step];
        for (unsigned i = m->first[step]; i < m->first[step + 1]; i++)
            *packed++ = row[m->later[i]];
    }
}

void circuit_matrix_unpack(struct circuit_matrix *m, const double *packed) {
    for (size_t step = 0; step + 1 < m->n; step++) {
        double *row = m->cell + step * m->n;
        row[step] = *packed++;
        for (unsigned i = m->first[step]; i < m->first[step + 1]; i++)
            row[m->later[i]] = *packed++;
    }
}
