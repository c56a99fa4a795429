/* hole.h - the holes that belong to a thread: clearance and tap drill. */
#ifndef HOLE_H
#define HOLE_H

#include "calc/thread.h"

enum hole_fit {
    HOLE_CLOSE,  /* ISO 273 fine; inch close */
    HOLE_MEDIUM, /* ISO 273 medium; inch free */
    HOLE_COARSE, /* ISO 273 coarse; no inch column */
    HOLE_FITS
};
/* m; NAN when the table has no such hole. */
double hole_clearance(const struct thread *t, enum hole_fit fit,
                      const char **source);
/* m: metric d - P (the catalogue rounds to 0.1 mm), inch by a common chart,
 * whose drill's name goes to *drill (NULL for metric). NAN when the chart has
 * none. */
double hole_tap(const struct thread *t, const char **drill,
                const char **source);
/* Share of a full thread that a hole leaves: (D - hole) n/1.299. */
double hole_thread_share(const struct thread *t, double hole);

#endif
