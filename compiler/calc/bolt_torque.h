/* bolt_torque.h - torques that a standard prints by thread: to compare a
 * maker's figure with, never to interpolate. */
#ifndef BOLT_TORQUE_H
#define BOLT_TORQUE_H

#include "calc/thread.h"

struct bolt_torque {
    double low, high; /* N m, recommended */
    double most;      /* N m, allowed */
};
/* FAA AC 43.13-1B Table 7-1; false when it has no such thread. */
bool bolt_torque_faa(const struct thread *t, bool shear_nut,
                     struct bolt_torque *out);
const char *bolt_torque_source(void);

#endif
