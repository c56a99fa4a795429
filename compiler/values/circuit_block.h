/* circuit_block.h - a circuit solved for one variant: its results by name. */
#ifndef CIRCUIT_BLOCK_H
#define CIRCUIT_BLOCK_H

#include "values/model.h"

enum circuit_result {
    RESULT_POINT,   /* voltage against the minus of the first supply */
    RESULT_VOLTAGE, /* across an element, where the current enters first */
    RESULT_DROP,    /* the same */
    RESULT_CURRENT,
    RESULT_HEAT,
    RESULT_TEMPERATURE, /* of a wire's conductor */
    RESULT_LOOP,        /* first supply less the first load */
    RESULT_LOSS,        /* a supply less this load; has no name */
    RESULT_SAG,    /* of a supply that limits itself: what it is short of its
                      voltage at its rated output; below 0: it is not there; no
                      name */
    RESULT_FAULT,  /* into a short at a point, all supplies on */
    RESULT_HOTTEST /* a text: what gives off most and is no load */
};

/* The supplies, as parts, that move a result: it was sought with each of them
 * at its nominal voltage. */
struct circuit_held {
    size_t *supply;
    size_t count;
};

/* What a name of a circuit stands for. */
struct circuit_output {
    enum circuit_result result;
    size_t state;
    size_t index; /* point or element */
    bool again;   /* the first state by its name: a second name for one value */
    struct field field;
    size_t supply;             /* that a loss is measured from; 0: the first */
    struct circuit_held *held; /* or NULL */
};

struct circuit_work;

/* The circuit in one variant, with all its states solved at the nominal
 * figures; NULL after a message. */
struct circuit_work *circuit_block_open(struct values *v, const struct block *b,
                                        size_t variant);
/* The first supply at `at` where that is not NULL. BAD after a message. */
struct value circuit_block_value(struct values *v, const struct slot *s,
                                 size_t variant, const struct quantity *at);
/* The same of a result that has no name of its own; `name` is for the page. */
struct value circuit_block_result(struct values *v, const struct block *b,
                                  const struct circuit_output *o,
                                  struct text name, size_t variant,
                                  const struct quantity *at);
/* As far as a solution is sure: Newton's iteration ends within 1e-11 of the
 * voltages, and a drop is the small difference of two. What is printed is
 * rounded outwards, and must not be moved by a rest in the last digits. NaN,
 * where there is no solution, stays. */
double circuit_block_settled(double x);

#endif
