/* answer.h - what a look-up of `bayleaf size` finds, in order, and its inputs.
 *
 * Quantities are read by the source language itself: they become definitions of
 * a guide in memory, so that every spelling, tolerance and message is the same.
 */
#ifndef ANSWER_H
#define ANSWER_H

#include "command/lookup.h"
#include "source/tree.h"
#include "stages.h"
#include "values/quantity.h"
#include "values/values.h"

#include <stdbool.h>
#include <stddef.h>

/* Results in the order in which they were added. */
struct answer {
    const struct request *r;
    struct arena *arena;
    struct compile c;
    struct values *values;
    struct quantity_maker maker;
    struct named *list;
    size_t count, room;
    const char *source; /* of the figures; NULL: none is told */
};

/* Reads the inputs that are quantities. A status other than STATUS_GOOD comes
 * after a message. */
int answer_begin(struct answer *a, const struct lookup *l,
                 const struct request *r, const char *const *value);
/* An input by its place in the look-up; NULL where it is not given. */
const struct value *answer_value(const struct answer *a, size_t index);
const struct quantity *answer_input(const struct answer *a, size_t index);
/* Adds a result. A number that is NAN is left out; a length has a thousandth of
 * a millimetre or a ten-thousandth of an inch, as tables give them. */
void answer_add(struct answer *a, const char *name, struct value value);
void answer_text(struct answer *a, const char *name, const char *text);
void answer_quantity(struct answer *a, const char *name, struct quantity *q);
void answer_number(struct answer *a, const char *name, double si,
                   const char *unit);
void answer_length(struct answer *a, const char *name, double si, bool inch);
/* Prints them, or writes them as JSON; the status of the command. */
int answer_end(struct answer *a);

#endif
