/* circuit_task.h - inside circuit_block: one result whose ends are sought. */
#ifndef CIRCUIT_TASK_H
#define CIRCUIT_TASK_H

#include "source/circuit_tree.h"
#include "values/circuit_solve.h"

struct task {
    struct circuit_work *w;
    const struct circuit_output *output;
    size_t part;    /* of an element's result */
    size_t *string; /* parts: supplies that a loss is measured from */
    size_t string_count;
    struct corner *corner; /* every root with width, at its value of now */
    size_t count;
    bool *held; /* by root: it stays as it is; NULL: none does */
    double *weight, *by, *slope;
    double *first;   /* slopes at the nominal figures, for both ends */
    double **beyond; /* corners past a knee: values of the roots, in order */
    size_t beyond_count;
};

/* V, over a part in the solution at hand. */
double circuit_task_across(const struct circuit_work *w, size_t part);
/* An element's result as a function of the voltage across it. */
double circuit_task_of(const struct task *t, double u, const double *figure);
/* Values of the figures of a part at the corner. */
void circuit_task_figures(const struct task *t, size_t part, double *x);
/* Lost between two ends of the circuit: of no element. */
bool circuit_task_is_loss(const struct task *t);
bool circuit_task_is_open(const struct task *t);
/* Fills t->slope: how the result moves with each root, by the adjoint. */
void circuit_task_slopes(const struct task *t);
/* Finds the supplies that move the result, and marks the roots of their
 * voltages: these stay as they are. */
void circuit_task_hold(struct task *t);
/* The roots that move the result most from its nominal value to the corner at
 * hand, by the slopes there; as of a quantity. */
const struct corner *circuit_task_moved(const struct task *t);

#endif
