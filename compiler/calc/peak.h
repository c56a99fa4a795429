/* peak.h - where a function of one figure is largest. */
#ifndef PEAK_H
#define PEAK_H

struct peak {
    double at, value;
};

/* The function; not finite where it has no value. */
typedef double peak_function(void *of, double x);

/* The largest value between `from` and `to`, both included: the best of
 * PEAK_STEPS even steps, then, unless it falls from an end on, parabolas
 * through three points about it, with the golden section where a parabola leads
 * astray. A peak narrower than two steps can be missed; one that is as smooth
 * as the heat of a joint is found to within 1e-7 of its value. `value` is
 * -INFINITY when the function has none anywhere. Source: successive parabolic
 * interpolation and golden section search, textbook numerics. */
struct peak peak_find(peak_function *f, void *of, double from, double to);

enum { PEAK_STEPS = 16 };

#endif
