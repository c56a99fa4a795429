/* figure.h - a quantity as it is printed: number, unit, converted figure.
 *
 * A literal prints as it was written; a computed value with three significant
 * digits (volts to 0.01 V from 1 V up, per cent and degrees less fine), an
 * estimate with as many as it says; in the unit in which it has few
 * figures: 1.6 mohm, 85 ohm, 8.0 mV. Ends of a range round outward, a limit
 * inward. Between number and unit stands U+00A0. */
#ifndef FIGURE_H
#define FIGURE_H

#include "calc/rounding.h"
#include "values/quantity.h"

#include <stdio.h>

enum figure_form {
    FIGURE_PLAIN, /* 0.31 V */
    FIGURE_RANGE, /* 0.31 V (0.28 V to 0.35 V); plain when it has no width */
    FIGURE_LOW,
    FIGURE_HIGH,
    FIGURE_AT_MOST,  /* <= 0.40 V: its low end, rounded down */
    FIGURE_AT_LEAST, /* >= 11.4 V: its high end, rounded up */
};

const char *figure_of(struct arena *a, const struct quantity *q,
                      enum figure_form form);
/* With the converted figure behind it where the other system has one:
 * 15 lbf·ft (20 N·m). */
const char *figure_both(struct arena *a, const struct quantity *q,
                        enum figure_form form);
/* The band of a limit: 0 V to 0.1 V, as written, else with its ends rounded
 * inward; a bare number alone. */
const char *figure_band(struct arena *a, const struct quantity *q);
/* In a unit of the author's choice. */
const char *figure_in(struct arena *a, const struct quantity *q,
                      const struct unit *unit, enum figure_form form);
/* A literal with a width as its author wrote it, 12 in to 18 in; in `unit`, or,
 * where that is NULL, in its own with the converted figures behind: 45 N·m ± 5
 * N·m (33 lbf·ft ± 3 lbf·ft). Converted ends lie within the written ones. A
 * quantity without `spread` prints plain. */
const char *figure_spread(struct arena *a, const struct quantity *q,
                          const struct unit *unit);
/* Number and unit of any SI value, with this many decimals. */
const char *figure_text(struct arena *a, double si, const struct unit *unit,
                        struct dim dim, int decimals, enum round_way way);
/* The same in a unit by its spelling, with so many significant digits. */
const char *figure_short(struct arena *a, double si, const char *unit,
                         int digits, enum round_way way);
/* The SI value that figure_of() shows for an end of q, rounded this way. */
double figure_shown(const struct quantity *q, double end, enum round_way way);
/* A printed text with ordinary blanks, for a terminal. */
void figure_write(FILE *out, const char *text);
const char *figure_plain(struct arena *a, const char *text);
/* Whether the words say this figure, both with ordinary blanks: "5 A" is not
 * said by "15 A", nor "4 A" by "4 AWG". */
bool figure_is_in(const char *words, const char *figure);
/* The unit and the decimals that figure_of() uses. */
const struct unit *figure_unit(const struct quantity *q);
int figure_decimals(const struct quantity *q, const struct unit *unit);
/* Decimals in another unit that are as fine as q's own in `from`. */
int figure_like(const struct quantity *q, const struct unit *from,
                const struct unit *to);
/* Two values that must be told apart: as many decimals as that takes. */
void figure_apart(struct arena *a, double left_si, double right_si,
                  const struct unit *unit, struct dim dim, int decimals,
                  const char **left, const char **right,
                  const char **difference);

#endif
