/* register_work.h - inside `register`: what its forms share. */
#ifndef REGISTER_WORK_H
#define REGISTER_WORK_H

#include "base/diag.h"
#include "command/command.h"
#include "library/census.h"
#include "library/issued.h"
#include "library/order.h"

struct register_work {
    const struct request *r;
    struct census census;
    struct circle circle; /* of the census */
    int status;
};

/* Every file of procedures/issued/; those that are damaged are named. */
struct shelf_of_issued {
    struct compile compile;
    const struct issued **list;
    bool *changed; /* what its guide says now differs, or it says nothing; of
                      the last revision of each, once that was looked at */
    size_t count;
};

/* register_changed.c: something is out of date, or no sheet of the library. */
void register_refused(struct register_work *w);
/* What was issued, held against what stands now. */
struct shelf_of_issued register_issued(struct register_work *w);
/* The last issued revision of an id; 0: none. */
size_t register_latest(const struct shelf_of_issued *s, struct text id);
/* The guide of an issued revision as it stands; NULL: gone, or refused. */
const struct census_guide *register_guide(const struct census *s,
                                          const struct issued *was);
/* Prints figures that differ, then the passages; how many. */
size_t register_differences(const struct census *s, const struct issued *was,
                            const struct issued *now);
/* --changed: of each guide the last sheet that was issued, and the jobs whose
 * sheets it makes out of date. */
void register_changed(struct register_work *w);
/* register_jobs.c: names those of job files and of tables. */
void register_jobs(struct register_work *w,
                   const struct shelf_of_issued *issued);
/* register_sheet.c: --sheet: a sheet in the hand, by the code at its foot. */
void register_sheet(struct register_work *w, const char *code);

#endif
