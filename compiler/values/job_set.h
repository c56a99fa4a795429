/* job_set.h - inside values/: what a job sets, put in place. */
#ifndef JOB_SET_H
#define JOB_SET_H

#include "values/model.h"

struct job_set {
    struct text name, note;
    struct span at;
    size_t slot, was; /* was: what stood there; SIZE_MAX: nothing */
};

/* A set that has its message: what hangs on it needs none. */
void job_silence(struct values *v, const struct job_set *s);
/* Once all names are collected and before one is evaluated. */
void job_set_all(struct values *v);
/* job_result.c: what was set fits, before anything else is evaluated; readings
 * have limits, after all is. */
void job_check_sets(struct values *v);
/* job_vehicle.c: what the job calls its vehicle is of its variant. */
void job_check_vehicle(struct values *v);
/* job_maker.c: nothing is set that is measured on no vehicle. */
void job_check_makers(struct values *v);
void job_check_readings(struct values *v);

#endif
