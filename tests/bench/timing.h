/* timing.h - the clock of the benches and the median of what it said. */
#ifndef TIMING_H
#define TIMING_H

#include <stdlib.h>
#include <time.h>

static inline double now_ms(void) {
    struct timespec t;
    clock_gettime(CLOCK_MONOTONIC, &t);
    return (double)t.tv_sec * 1e3 + (double)t.tv_nsec / 1e6;
}

/* Of this process alone: what others do on the machine does not count. */
static inline double cpu_ms(void) {
    struct timespec t;
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &t);
    return (double)t.tv_sec * 1e3 + (double)t.tv_nsec / 1e6;
}

static inline int by_size(const void *a, const void *b) {
    double x = *(const double *)a, y = *(const double *)b;
    return (x > y) - (x < y);
}

/* Sorts them. */
static inline double median(double *ms, size_t count) {
    qsort(ms, count, sizeof *ms, by_size);
    return ms[count / 2];
}

#endif
