/* job_maker.h - figures that are stated, and measured on no vehicle. */
#ifndef JOB_MAKER_H
#define JOB_MAKER_H

#include "values/values.h"

/* What a quantity is that no job measures: "the limit of R1", "the maker's
 * torque of bolt"; NULL: none of these. Of what is computed from it the job
 * computes it again, so the cell or the setting must name it alone. */
const char *job_maker_use(struct values *v, const struct quantity *q,
                          size_t variant, bool *limit);

#endif
