/* real.h - numbers in a PDF: the one place through which each of them goes. */
#ifndef REAL_H
#define REAL_H

#include "base/text.h"

#include <stdbool.h>

/* Finite and within +-32767: readers (and libharu) promise no more. */
bool real_fits(double x);

/* A blank and the number, at most `decimals` (0 to 5) of them, no exponent, no
 * trailing zeros. False, and nothing written, when it does not fit. */
bool real_put(struct buf *out, double x, int decimals);

#endif
