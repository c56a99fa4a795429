/* owner.h - the parts of the sheet that a customer keeps: one job. */
#ifndef OWNER_H
#define OWNER_H

#include "layout/leaf.h"

/* Whose vehicle, which job. */
void owner_set_job(struct leaf *l);
bool owner_any_complaint(const struct leaf *l);
void owner_set_complaint(struct leaf *l);
void owner_set_work(struct leaf *l);
/* Readings before and after, with their limits, as a table and as bars. */
bool owner_any_readings(const struct leaf *l);
void owner_set_readings(struct leaf *l);
/* Figures that the job set. */
bool owner_any_measured(const struct leaf *l);
void owner_set_measured(struct leaf *l);
bool owner_any_fitted(const struct leaf *l);
void owner_set_fitted(struct leaf *l);
bool owner_any_next(const struct leaf *l);
void owner_set_next(struct leaf *l);
void owner_set_signed(struct leaf *l);

#endif
