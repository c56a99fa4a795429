/* joints.h - threads and grades to test with. */
#ifndef JOINTS_H
#define JOINTS_H

#include "calc/torque.h"

#include "check.h"

#define LBF 4.4482216152605
#define LBF_FT 1.3558179483314004
#define LBF_IN 0.1129848290276167

static inline struct thread thread_of(const char *text) {
    struct thread t;
    if (thread_read(text, strlen(text), &t) != THREAD_FOUND)
        fail_msg("no thread '%s'", text);
    return t;
}

static inline const struct grade *grade_of(const char *name, double diameter) {
    const struct grade *g = NULL;
    if (grade_find(name, strlen(name), diameter, &g) != GRADE_FOUND)
        fail_msg("no grade '%s' at %g mm", name, diameter * 1e3);
    return g;
}

static inline struct torque_joint joint_of(const char *text, const char *grade,
                                           enum preload_target target) {
    struct torque_joint j = {.thread = thread_of(text), .target = target};
    bool from_table;
    j.grade = grade_of(grade, j.thread.diameter);
    j.bearing = torque_bearing(&j.thread, &from_table);
    return j;
}

static inline double torque_value(enum torque_result r,
                                  const struct torque_joint *j,
                                  const double *in) {
    return torque_calculation(r)->value(j, in);
}

#endif
