/* lookup.h - `bayleaf size` for what is no block: convert, thread, crimp,
 * extension, ground-pair. */
#ifndef LOOKUP_H
#define LOOKUP_H

#include "command/command.h"

struct lookup {
    const char *name;
    const char *inputs[8]; /* names of settings; ends with NULL */
    const char *units[8];  /* of which dimension; NULL: a text */
    const char *wanted;    /* how many of them must be there: the first ... */
    const char *meaning;
    int (*run)(const struct lookup *l, const struct request *r,
               const char *const *value);
};

const struct lookup *lookup_find(const char *name);
const struct lookup *lookup_at(size_t index); /* NULL past the end */
/* Reads SETTING=VALUE words and runs it; exit status. */
int lookup_run(const struct lookup *l, const struct request *r);

#endif
