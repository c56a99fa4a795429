/* question.h - words that give a hazard away without its mark. */
#ifndef QUESTION_H
#define QUESTION_H

#include "checks/catalogue.h"
#include "checks/walk.h"

struct question {
    struct compile *c;
    const struct guide *guide;
    const struct steps *steps;
    const struct hazard *hazard;
    const variant_set *warned; /* by the index of a section: has its panel */
};

/* Asks the author about each step with a phrase of the row that neither a
 * panel in its section nor {touches nothing: reason} answers, and, where the
 * row fires nowhere, about the supplies; and about what an owner is told in
 * paragraphs, which {defer TRADE} answers, too. */
void question_ask(const struct question *q, bool fires);

#endif
