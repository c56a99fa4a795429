/* ampacity_table.h - the rows behind ampacity.c. */
#ifndef AMPACITY_TABLE_H
#define AMPACITY_TABLE_H

#include "calc/ampacity.h"

enum { AMPACITY_COLUMNS = 7 };

struct ampacity_row {
    const char *name;             /* "12 AWG", "2.5 mm2" */
    double area;                  /* m2 */
    double amp[AMPACITY_COLUMNS]; /* 0: the table has no figure */
    bool verified;
};

struct ampacity_rows {
    const struct ampacity_row *row; /* by rising area; NULL: none */
    size_t count;
};

struct ampacity_bundle {
    int from;      /* current-carrying conductors */
    double factor; /* rows by falling count, the last from 1 */
};

struct ampacity_source {
    const char *name;
    double rated[AMPACITY_COLUMNS];  /* degC, insulation columns; 0: no more */
    double engine[AMPACITY_COLUMNS]; /* factors; 0: the table has none */
    double reference;                /* degC */
    double coldest; /* degC, ambient below which nothing more is gained */
    struct ampacity_rows copper, aluminium;
    const struct ampacity_bundle *bundle;
    size_t bundle_count;
    const char *source, *bundle_source;
    const char *below; /* of a copper size that is too small for it */
};
extern const struct ampacity_source ampacity_source_table[AMPACITY_TABLES];

#endif
