/* quantity.h - a number with its unit, and how it came about.
 *
 * A quantity is a node in a graph: a root (a literal, fact or assumption, with
 * an identity and a range) or an operation on other quantities. The graph is
 * what makes a value used twice stay one value: range.h bounds a result over
 * its roots, and `bayleaf why` walks it. All numbers are SI. */
#ifndef QUANTITY_H
#define QUANTITY_H

#include "base/place.h"
#include "calc/calculation.h"
#include "calc/unit.h"

#include <stdbool.h>
#include <stddef.h>

struct arena;
struct corner;

enum quantity_op {
    QUANTITY_ROOT,
    QUANTITY_ADD,
    QUANTITY_SUBTRACT,
    QUANTITY_MULTIPLY,
    QUANTITY_DIVIDE,
    QUANTITY_POWER, /* exponent numerator / denominator */
    QUANTITY_ABS,
    QUANTITY_MIN,
    QUANTITY_MAX,
    QUANTITY_CALL, /* a calculation of the library */
};

enum root_kind { ROOT_LITERAL, ROOT_ASSUMPTION, ROOT_DECISION, ROOT_TABLE };

struct ends {
    double low, high;
};

/* What is known of a value's ends. Interval arithmetic gives an enclosure when
 * the node is made; it is exact when no uncertain root stands in two of the
 * arguments. Else range_ends() searches when first asked, and keeps the ends.
 */
struct bounds {
    struct ends within;
    bool exact;                 /* `within` are the ends */
    bool low_found, high_found; /* that end of `ends` is set */
    struct ends ends;
    size_t first, last; /* the uncertain roots below have serials from first to
                           last; SIZE_MAX and 0: there is none */
};

/* How an author wrote a literal that has a width. */
enum spread_form {
    SPREAD_TO,         /* 12 in to 18 in */
    SPREAD_PLUS_MINUS, /* 45 N·m ± 5 N·m */
    SPREAD_ENDS,       /* 13.8 V (13.2 V to 14.4 V) */
};
struct spread {
    enum spread_form form;
    const struct quantity *low, *high; /* of ±: the tolerance in `high` alone */
};

struct quantity {
    enum quantity_op op;
    struct dim dim;
    const struct unit *unit; /* in which it prints, or NULL: the usual one */
    double nominal;
    size_t serial; /* later nodes have larger ones: a topological order */
    const struct quantity *arg[CALCULATION_INPUTS];
    size_t arg_count;
    /* ROOT */
    enum root_kind root;
    struct ends range; /* low <= nominal <= high */
    int decimals;      /* of a literal as written, in `unit`; -1: computed */
    int significant; /* digits of an estimate that is computed; 0: the usual */
    bool fraction;   /* written as a fraction, 5/16 in: prints as `written` */
    struct text written;
    /* Of a circuit's result, at its low and its high end: the roots that move
       it most, with their values there, the first of them most; behind them
       one without a root. NULL: of no circuit. */
    const struct corner *moved[2];
    const struct spread *spread; /* of a literal; NULL: written without one */
    /* POWER */
    int numerator, denominator;
    /* CALL */
    const struct calculation *calculation;
    const void *fixed;
    /* What the author calls it, where it stands, and what it rests on. */
    struct text name;
    struct text note;
    struct span at;
    struct bounds *bounds; /* a cache: filled in behind a const node */
};

/* Nodes are made here only; they get their serial from the maker. They may be
 * named and given a unit by who made them, until others use them. */
struct quantity_maker {
    struct arena *arena;
    size_t next_serial;
};

struct quantity *quantity_root(struct quantity_maker *m, enum root_kind kind,
                               double nominal, struct ends range,
                               struct dim dim, const struct unit *unit);
/* Whether it rests on nothing uncertain: it is its nominal value. */
bool quantity_is_exact(const struct quantity *q);
/* Exact number. */
struct quantity *quantity_exact(struct quantity_maker *m, double si,
                                struct dim dim, const struct unit *unit);
/* The same without a dimension. */
struct quantity *quantity_number(struct quantity_maker *m, double x);
/* The dimensions must already agree; the result's is computed here. */
struct quantity *quantity_binary(struct quantity_maker *m, enum quantity_op op,
                                 const struct quantity *left,
                                 const struct quantity *right);
/* dim_power() must have found the result's dimension whole. */
struct quantity *quantity_power(struct quantity_maker *m,
                                const struct quantity *base, int numerator,
                                int denominator);
struct quantity *quantity_abs(struct quantity_maker *m,
                              const struct quantity *of);
/* The same operation on the same quantities, to print in another way. Not of a
 * root: that would be another unknown. */
struct quantity *quantity_twin(struct quantity_maker *m,
                               const struct quantity *of);
/* NAN nominal when the inputs lie outside the calculation's validity. */
struct quantity *quantity_call(struct quantity_maker *m,
                               const struct calculation *calculation,
                               const void *fixed,
                               const struct quantity *const *arg);

#endif
