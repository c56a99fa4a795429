/* lookup.h - `bayleaf size` for what is no block: convert, thread, crimp, ...
 */
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
/* Each of the table's rows. lookup_wire.c, lookup_joint.c, lookup_convert.c */
#define LOOKUP_RUN(name)                                                       \
    int lookup_##name(const struct lookup *l, const struct request *r,         \
                      const char *const *value)
LOOKUP_RUN(convert);
LOOKUP_RUN(thread);
LOOKUP_RUN(tap);
LOOKUP_RUN(pilot);
LOOKUP_RUN(pattern);
LOOKUP_RUN(extension);
LOOKUP_RUN(crimp);
LOOKUP_RUN(tab);
LOOKUP_RUN(stud);
LOOKUP_RUN(fuse_style);
LOOKUP_RUN(ground_pair);

/* Reads SETTING=VALUE words and runs it; exit status. */
int lookup_run(const struct lookup *l, const struct request *r);

#endif
