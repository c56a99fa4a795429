/* tally.h - the checks as the annex lists them: each once, where its margin is
 * least, and in one row what holds alike for several parts of a circuit. */
#ifndef TALLY_H
#define TALLY_H

#include "checks/findings.h"

struct arena;

struct tally_row {
    const struct verdict *verdict; /* of the first part */
    const char *what; /* "current in each of W12 and W13, against ..." */
};

/* A block's rows stand together, where its first check was made. Rows are
 * joined that differ in nothing but the one word which names the part. */
const struct tally_row *tally_checks(struct arena *a, const struct findings *f,
                                     variant_set applies, size_t *count);

#endif
