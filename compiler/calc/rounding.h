/* rounding.h - from a double to the decimal that is printed.
 *
 * Rules: decimal, once, at the end; half to even; the double is first snapped
 * to 15 significant digits, so that 0.405 written as 0.40500000000000003 is a
 * tie. Source: NIST SP 811 B.7, ISO 80000-1 B. All x must be finite. */
#ifndef ROUNDING_H
#define ROUNDING_H

#include <stddef.h>

/* UP: towards +infinity; DOWN: towards -infinity. */
enum round_way { ROUND_HALF_EVEN, ROUND_UP, ROUND_DOWN };

enum { ROUND_TEXT_MAX = 400 };

/* Decimals (may be negative: tens, hundreds) that give x this many significant
 * digits after rounding half to even: 1 for 9.96 and 2. 0 for x = 0. */
int round_decimals(double x, int significant);
/* x as decimal text, '-' for minus, no exponent, no "-0". Negative decimals
 * round to tens, hundreds, ... Decimals beyond the text's room are left off:
 * they would all be 0. */
void round_text(char out[ROUND_TEXT_MAX], double x, int decimals,
                enum round_way way);
/* The value that round_text prints. */
double round_value(double x, int decimals, enum round_way way);
/* To so many significant digits, but no more than `most` decimals; halves to
 * even. */
double round_digits(double x, int significant, int most);
/* The multiple of step (> 0) by the same rules; a setting to a tool's step. */
double round_step(double x, double step, enum round_way way);
/* The same where the steps are counted from `from`: a scale of 5, 7, 9. */
double round_step_from(double x, double step, double from, enum round_way way);
/* x snapped to 15 significant digits. */
double round_snap(double x);

#endif
