/* part.h - the parts that a guide's pages are made of: their words in a
 * template, and the author's sections that belong to them. */
#ifndef PART_H
#define PART_H

#include "base/text.h"

struct arena;
struct node;

enum part_id {
    PART_TITLE,
    PART_PARTICULARS,
    PART_APPLICABILITY,
    PART_CHANGES,
    PART_OPENING, /* what stands before the author's first section */
    PART_PURPOSE,
    PART_SAFETY,
    PART_PRELIMINARY,
    PART_PARTS,
    PART_ELECTRICAL,
    PART_TORQUE,
    PART_AS_FOUND,
    PART_PROCEDURE,
    PART_LIMITS,
    PART_TEST,
    PART_CLOSE_UP,
    PART_FAULTS,
    PART_OWNER,
    PART_RECORDS,
    PART_CALCULATIONS,
    PART_JOB, /* from here on: of a job, where there is one */
    PART_COMPLAINT,
    PART_WORK,
    PART_READINGS,
    PART_MEASURED,
    PART_FITTED,
    PART_RATINGS,
    PART_WATCH,
    PART_NEXT_CHECK,
    PART_SIGNED,
    PART_COUNT /* none of these */
};

/* `insert WORD` in a template. */
const char *part_word(enum part_id part);
enum part_id part_by_word(struct text word);
/* The part that an author's section of this title belongs to. */
enum part_id part_by_title(struct text title);
enum part_id part_of_section(struct arena *a, const struct node *section);
/* The title that one is nearly spelt as, or NULL. */
const char *part_near(struct text title);

#endif
