/* job_result.h - a guide for one job: figures of this vehicle, readings taken.
 */
#ifndef JOB_RESULT_H
#define JOB_RESULT_H

#include "source/tree.h"
#include "values/values.h"

/* A figure that the job set. */
struct job_figure {
    struct text name;   /* as the job writes it */
    struct text note;   /* how it was measured; or absent */
    const char *stated; /* as it prints for the vehicle's sort; or NULL */
    const char *set;    /* as it prints */
    bool outside;       /* of the stated range */
};

/* The first where there is no reading. */
enum job_verdict { JOB_NO_VERDICT, JOB_IN_LIMIT, JOB_OUT_OF_LIMIT };

/* A reading of the job, by the row of `limits` that asks for it. */
struct job_reading {
    const struct block *limits;
    const struct entry *row;             /* of limits */
    const struct quantity *found, *left; /* or NULL: of yes or no too */
    const char *found_text, *left_text;  /* as they print; or NULL */
    double low, high;                    /* the limit, SI; or infinite */
    enum job_verdict was, is;
};

/* In the order of the job; none where the guide is compiled for no job. */
size_t values_job_figures(const struct values *v,
                          const struct job_figure **list);
size_t values_job_readings(const struct values *v,
                           const struct job_reading **list);

#endif
