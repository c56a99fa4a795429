/* dice.h - figures at random that are the same on every machine. */
#ifndef DICE_H
#define DICE_H

#include <stddef.h>
#include <stdint.h>

struct dice {
    uint64_t state;
};

/* Numerical Recipes' 64-bit generator; the upper bits are the better ones. */
static inline uint64_t roll_bits(struct dice *d) {
    d->state = d->state * 6364136223846793005u + 1442695040888963407u;
    return d->state;
}

/* Evenly in [from, to). */
static inline double roll(struct dice *d, double from, double to) {
    return from + (double)(roll_bits(d) >> 11) * 0x1p-53 * (to - from);
}

/* A whole number below `upto`, which is above zero. */
static inline size_t roll_one(struct dice *d, size_t upto) {
    return (size_t)(roll_bits(d) >> 33) % upto;
}

#endif
