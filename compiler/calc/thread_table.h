/* thread_table.h - the rows behind thread.c. */
#ifndef THREAD_TABLE_H
#define THREAD_TABLE_H

#include <stddef.h>

enum { METRIC_FINE = 4 };

struct metric_row {
    double diameter; /* mm */
    double coarse;   /* mm; 0: none */
    double fine[METRIC_FINE];
};
extern const struct metric_row metric_table[]; /* ends with diameter 0 */

struct unified_row {
    const char *name;           /* "#10", "1-1/8" */
    double diameter;            /* in */
    double coarse, fine, extra; /* threads per inch; 0: none */
};
extern const struct unified_row unified_table[]; /* ends with a NULL name */

/* ISO 965-1, micrometres, by pitch: fundamental deviation g, tolerance of the
 * external major diameter grade 6, of the internal minor diameter grade 6. */
struct pitch_row {
    double pitch; /* mm */
    int g, major, minor;
};
extern const struct pitch_row pitch_table[]; /* ends with pitch 0 */

/* Tolerance of the pitch diameter, grade 6, by diameter range and pitch. */
enum { DIAMETER_RANGES = 5 };
extern const double diameter_range[DIAMETER_RANGES + 1]; /* mm, rising */
struct pitch_diameter_row {
    int range;
    double pitch; /* mm */
    int external, internal;
};
extern const struct pitch_diameter_row
    pitch_diameter_table[]; /* ends with pitch 0 */

#endif
