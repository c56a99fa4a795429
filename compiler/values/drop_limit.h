/* drop_limit.h - how much of its supply's voltage a run may lose: the setting
 * `drop limit` of wires and circuits, and what holds where none is stated. */
#ifndef DROP_LIMIT_H
#define DROP_LIMIT_H

#include "values/model.h"

struct drop_limit {
    const struct quantity *volt;  /* told in volts; else NULL */
    const struct quantity *share; /* of a voltage; NULL with `volt` NULL: not
                                     stated, or BAD */
    const struct quantity *of;    /* that voltage; NULL: the supply's */
};

/* Of the supply's voltage, where no safety hangs on it and none is stated. */
#define DROP_LIMIT_USUAL 0.10

struct drop_limit drop_limit_stated(struct values *v, const struct block *b,
                                    size_t variant);
/* 3 % where safety hangs on the load, else 10 %: common practice (ABYC E-11,
 * from memory). `load` is its block, or NULL. */
struct drop_limit drop_limit_usual(struct values *v, const struct block *load,
                                   size_t variant);
bool drop_limit_is_known(const struct drop_limit *limit);
/* Stated without a reason in quotes, and more than the usual share of a supply
 * of `volt`: 5 V where 5 % was meant. */
bool drop_limit_is_odd(const struct drop_limit *limit, double volt);
/* The words of the question, and its cure. */
const char *drop_limit_odd(struct arena *a, const struct drop_limit *limit,
                           const struct quantity *supply);
#define DROP_LIMIT_CURE "a smaller one, or its reason in quotes behind it"
/* V, with a supply of this voltage; NULL: the limit is not known. */
const struct quantity *drop_limit_volt(struct values *v,
                                       const struct drop_limit *limit,
                                       const struct quantity *supply);
/* Lists the usual limit as assumed, under `what`; its source. */
const char *drop_limit_assume(struct values *v, const struct block *b,
                              size_t variant, const char *what,
                              const struct drop_limit *usual);

#endif
