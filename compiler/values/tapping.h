/* tapping.h - a `torque` block whose thread is a tapping screw.
 *
 * A screw that cuts its own thread has no preload that anyone could compute:
 * the maker's figure is held against sanity ranges, and the pilot hole is
 * given. */
#ifndef TAPPING_H
#define TAPPING_H

#include "calc/screw.h"
#include "values/model.h"

/* Requirements and the field `pilot` for the maker's figure; by the settings
 * `into` and `joint`. */
void tapping_require(struct values *v, const struct block *b, size_t variant,
                     const struct tapping_screw *screw,
                     const struct quantity *figure);

#endif
