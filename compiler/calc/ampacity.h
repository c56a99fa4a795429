/* ampacity.h - how much current a wire may carry: four published tables side by
 * side, each with its own ambient, bundle and engine-space factors.
 *
 * Ampacity is a function of table, insulation, ambient and bundle, never one
 * number for a gauge; a factor belongs to its base table and is used with no
 * other. */
#ifndef AMPACITY_H
#define AMPACITY_H

#include "calc/size.h"

#include <stdbool.h>
#include <stddef.h>

enum ampacity_table {
    AMPACITY_33CFR,    /* 33 CFR 183.425 Table 5: boats, below 50 V */
    AMPACITY_NEC,      /* NFPA 70 Table 310.16, editions 2014 to 2023 */
    AMPACITY_AC4313,   /* FAA AC 43.13-1B Tables 11-9, 11-10: harness */
    AMPACITY_ISO10133, /* ISO 10133 Annex A: from memory, unverified */
    AMPACITY_TABLES
};

/* "33 CFR 183.425", "NEC 310.16", "AC 43.13", "ISO 10133". */
const char *ampacity_table_name(enum ampacity_table t);
bool ampacity_table_find(const char *name, size_t len,
                         enum ampacity_table *out);

struct ampacity_use {
    enum ampacity_table table;
    const struct wire_size *size;
    enum material material;
    double insulation; /* K, what the insulation is rated for */
    int bundled;       /* current-carrying conductors together; 1: alone */
    bool engine_space;
};

struct ampacity {
    struct ampacity_use use;
    const char *row;  /* the row used: "12 AWG" */
    bool row_smaller; /* the size has no row of its own: largest row that is
                         not larger in area; the page must say so */
    double amp;       /* the table's figure, A */
    double rated;     /* K, insulation column used: not above the insulation */
    double reference; /* K, the ambient that the table is for */
    double bundle;    /* factor */
    double engine;    /* the table's printed factor; 1 outside engine space */
    bool verified;    /* false: from memory, the page must say "unverified" */
    const char *source;        /* of the figure */
    const char *bundle_source; /* of the factor */
};

/* false with *why (a lower-case clause) when the table has no row or column for
 * this use, or bundled < 1. */
bool ampacity_find(const struct ampacity_use *u, struct ampacity *out,
                   const char **why);

/* Ambient factor f = sqrt((Tc - Ta) / (Tc - Tref)), Tc the insulation column,
 * temperatures in K: 0 at and above Tc, never above 1 except NEC, whose own
 * table goes to 1.29 at 10 degC and no further. In engine space never above the
 * table's printed engine-space factor. An ambient of NAN means "not stated":
 * the table's own, or in engine space the printed factor (50 degC where the
 * table prints none).
 * Source: NFPA 70 Equation 310.15(B); it reproduces the tables' own factors
 * within 0.006 (NEC) and 0.01 (33 CFR note 1). */
double ampacity_ambient_factor(const struct ampacity *a, double ambient);
/* amp * bundle * ambient factor, A. Falling in ambient. */
double ampacity_at(const struct ampacity *a, double ambient);
/* K: the table's ambient, or 50 degC in engine space. The assumption that must
 * be printed when the author states none. */
double ampacity_assumed_ambient(const struct ampacity *a);

#endif
