/* circuit_solve.h - a circuit of one variant as a net, and its ends. */
#ifndef CIRCUIT_SOLVE_H
#define CIRCUIT_SOLVE_H

#include "calc/circuit_net.h"
#include "values/circuit_block.h"
#include "values/circuit_part.h"
#include "values/range.h"

enum { CORNER_LISTS = 64 };

/* How the currents of the parts move with the roots, voltages held: the same
 * for every result that is sought at this solution. */
struct circuit_slope {
    unsigned part, root;
    double current; /* A, for one unit of the root */
};

struct circuit_slopes {
    bool known;
    struct circuit_slope *list;
    size_t count, room;
};

/* Figures of a part in its state, and which roots of a list are below each:
 * from `first` up to but not `last`, in the order of the list. */
struct circuit_figures {
    size_t count;
    const struct quantity *of[PART_FIGURES];
    size_t first[PART_FIGURES], last[PART_FIGURES];
    bool moves; /* some root is below one of them */
};

/* A result that was worked out. */
struct circuit_found {
    bool known;
    size_t supply; /* of a loss */
    double nominal;
    struct ends ends;
    const struct corner *moved[2]; /* as of a quantity */
    const char *limits; /* which supplies are at their limit; NULL: none */
};

/* A state as it was solved first, so that going back to it costs little: it
 * has a net of its own. */
struct circuit_memo {
    bool known;
    const struct quantity *at; /* the first supply's voltage, or NULL */
    bool *open, *peak;
    double *start;
    const struct quantity *span;
    struct circuit_piece *supply;
    struct net net;
    struct net_part *net_part, *nominal; /* at hand; at the nominal figures */
    size_t *of_net, *in_net;
    size_t strays;
    double *work, *kept; /* the latter at the nominal figures */
    size_t kept_count;
    /* Roots with width below the figures of all parts; NULL: not looked for */
    struct corner *root;
    size_t root_count;
    const struct circuit_figures *figures; /* by part, for these roots */
    double **beyond; /* corners of these roots past the knee of a supply */
    size_t beyond_count;
    bool beyond_known;
    struct circuit_corner *corner[CORNER_LISTS]; /* solved at these roots */
    size_t corner_count;
    struct circuit_slopes slopes; /* at the nominal figures */
    struct circuit_found *found;  /* by kind of result, part or point */
};

struct circuit_worst;

struct circuit_work {
    struct values *v;
    const struct block *b;
    const struct circuit *c;
    size_t variant;
    struct circuit_work *twin;   /* an earlier variant with the same results */
    struct circuit_piece *part;  /* elements, then supplies of the state */
    const struct block **supply; /* their blocks; NULL: there is none */
    size_t part_count;
    struct circuit_worst **worst; /* by part; NULL: not asked yet */
    size_t *from, *to;            /* nodes by part */
    size_t *node; /* by point; SIZE_MAX: not there in this variant */
    size_t node_count;
    size_t state;
    bool *open;    /* by part, in the state */
    bool *peak;    /* by part: a load that starts */
    double *start; /* by part: share of a wire's current that cranks an engine,
                      where what starts is not all that flows in its path, or
                      that starts or stalls a load */
    const struct quantity *span; /* how long that lasts, in the state */
    double *warm; /* by part: A, of a wire, what lasts, in the state where that
                     is most; NULL: not looked for yet */
    const struct quantity *cranking; /* for how long; NULL: not asked yet */
    struct net net;                  /* of the parts that conduct */
    struct net_part *net_part;
    size_t *of_net; /* part of each net part; SIZE_MAX: a stray leak */
    size_t *in_net; /* net part of each part; SIZE_MAX: open */
    size_t strays;  /* leaks of what the state cuts off, behind the parts */
    double *work;
    struct net_solution solution;
    const struct quantity *at; /* the first supply's voltage, or NULL */
    struct circuit_memo *memo; /* by state; behind them those with `at` */
    struct circuit_memo *kept; /* of the state at hand; NULL: not kept */
    bool nominal;              /* that is as it was kept */
    const struct corner *root; /* the list that `figures` is for */
    const struct circuit_figures *figures; /* by part */
    bool unsolved_told;            /* that a worst end has no solution */
    bool trying;                   /* corners that nothing asks for again */
    struct circuit_slopes *slopes; /* of the solution at hand */
    struct circuit_slopes unkept;  /* where it is of no state or corner kept */
    size_t chatters;               /* the contact that moved last */
    size_t ordered;  /* of a large circuit: the state that `work` is for */
    double *scratch; /* of the task at hand */
    size_t scratch_count;
    struct circuit_fault *faults; /* shorts: all that were solved */
    struct circuit_fault *most;   /* NULL: not worked out */
    const struct circuit_fault_ways *least;
};

/* V, of the system that a coil is made for: of its figures, else of the first
 * supply. */
double circuit_solve_coil_volt(const struct circuit_work *w, size_t coil);
/* Parts and nodes; NULL after a message. */
struct circuit_work *circuit_solve_open(struct values *v, const struct block *b,
                                        size_t variant);
/* Puts a state on and solves at the nominal figures; false after a message. */
bool circuit_solve_state(struct circuit_work *w, size_t state,
                         const struct quantity *at);
/* Puts every supply on as the circuit names it, for faults; nothing is solved,
 * and the next state puts its own on. */
void circuit_solve_all_on(struct circuit_work *w);
/* Solves with the roots at a corner. NAN figures: not solved. */
bool circuit_solve_corner(struct circuit_work *w, const struct corner *corner,
                          size_t count);
/* How many figures a part has in its state, and one of them. */
size_t circuit_solve_figures(const struct circuit_work *w, size_t part,
                             const struct quantity **figure);
/* Whether a contact is closed while its relay rests: 87a. */
bool circuit_solve_rests(const struct circuit_element *e);
/* Finds the roots of a list, by serial, below the figures of all parts: corners
 * of that list are solved with less search from then on. */
const struct circuit_figures *circuit_solve_index(const struct circuit_work *w,
                                                  const struct corner *root,
                                                  size_t count);
/* A figure at a corner of that list. */
double circuit_solve_value(const struct circuit_figures *f, size_t k,
                           const struct corner *corner, size_t count);
/* Whether a part is another one in the state that is put on: a load that
 * starts, a wire that cranks an engine besides or feeds what starts. */
bool circuit_solve_differs(const struct circuit_work *w, size_t part);
/* A part in its state: a load that starts is a resistance. */
struct circuit_piece circuit_solve_piece(const struct circuit_work *w,
                                         size_t part);
/* The law of a part, in its state, at these figures. */
struct circuit_part_law circuit_solve_law(const struct circuit_work *w,
                                          size_t part, const double *figure);

/* The block of a supply, a part; before a state is solved, too. NULL: there is
 * none. */
const struct block *circuit_solve_supply(const struct circuit_work *w,
                                         size_t supply);
/* A, that a supply gives at most; NULL: nobody says, or it is a battery
 * (self_limit.h). */
const struct quantity *circuit_solve_output(const struct circuit_work *w,
                                            size_t supply);

#endif
