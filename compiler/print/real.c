/* real.c - numbers in a PDF. */
#include "print/real.h"

#include <math.h>

bool real_fits(double x) {
    return isfinite(x) && fabs(x) <= 32767;
}

bool real_put(struct buf *out, double x, int decimals) {
    static const long scales[] = {1, 10, 100, 1000, 10000, 100000};
    if (!real_fits(x))
        return false;
    long scaled = lround(x * (double)scales[decimals]);
    bool negative = scaled < 0;
    if (negative)
        scaled = -scaled;
    char text[24];
    size_t at = sizeof text;
    bool shown = false; /* zeros at the end are not */
    for (int i = 0; i < decimals; i++, scaled /= 10) {
        shown = shown || scaled % 10 != 0;
        if (shown)
            text[--at] = (char)('0' + scaled % 10);
    }
    if (shown)
        text[--at] = '.';
    if (scaled > 0 || !shown) {
        do {
            text[--at] = (char)('0' + scaled % 10);
            scaled /= 10;
        } while (scaled > 0);
    }
    if (negative)
        text[--at] = '-';
    text[--at] = ' ';
    buf_add(out, text + at, sizeof text - at);
    return true;
}
