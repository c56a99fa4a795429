/* jobwalk.h - the job files of the library, one at a time. */
#ifndef JOBWALK_H
#define JOBWALK_H

#include "command/sheetwork.h"

struct jobwalk {
    const struct request *r;
    const char *const *path;
    size_t count, next;
    struct sheet_job job; /* its arena is its own, until the next one */
};

/* for (struct jobwalk w = jobwalk_start(r); jobwalk_next(&w);) ... w.job, to
 * the end, in the order of their names. One with mistakes is among them. */
struct jobwalk jobwalk_start(const struct request *r);
bool jobwalk_next(struct jobwalk *w);

#endif
