/* job.h - job files: a guide carried out on one vehicle. */
#ifndef JOB_H
#define JOB_H

#include "source/tree.h"

struct compile;
struct reading;

/* The one `job` block of a source. NULL after a message, or without a source.
 */
const struct block *job_read(struct compile *c, struct source *src);
/* Reads c->job into a guide that was read: its block sees the guide's names,
 * and is guide->job. */
void job_join(struct reading *r);
/* A setting on one line; absent when it is not written. */
struct text job_setting(struct arena *a, const struct block *job,
                        const char *name);

#endif
