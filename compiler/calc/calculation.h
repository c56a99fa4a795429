/* calculation.h - how the library describes a calculation to its callers.
 *
 * A calculation is a pure function of numbers in SI units, with everything that
 * is not a range (a wire size, a table, a thread) in `fixed`. It declares for
 * each input how the result moves with it, over the whole of its validity; the
 * ends of a result over ranges of inputs follow from that (values/range.c), and
 * tests/unit prove it by sampling. A trend is weak: a rising result may stay
 * level for a while, it never falls. */
#ifndef CALCULATION_H
#define CALCULATION_H

#include <stddef.h>

enum trend { TREND_RISING, TREND_FALLING, TREND_NEITHER };

enum { CALCULATION_INPUTS = 8, CALCULATION_CONSTANTS = 6 };

/* A figure of `fixed` that the formula names: "Tc", 378.15, "degC". */
struct calculation_constant {
    const char *name;
    double value; /* SI */
    const char *unit;
};

struct calculation {
    const char *name;     /* "voltage drop of a wire run" */
    const char *formula;  /* as an engineer writes it, naming the inputs */
    const char *source;   /* document and table or clause; "common practice, no
                             source"; "from memory: ..." */
    const char *validity; /* in words: inputs outside it give NAN */
    const char *unit;     /* name of a unit of the result's dimension */
    size_t input_count;
    struct {
        const char *name; /* symbol in the formula: "I" */
        const char *meaning;
        const char *unit; /* name of a unit of its dimension */
        enum trend trend;
    } input[CALCULATION_INPUTS];
    /* `fixed` is the struct that the module's header names for it. NAN when the
     * inputs lie outside the validity. */
    double (*value)(const void *fixed, const double *input);
    /* Writes them, at most CALCULATION_CONSTANTS, and tells how many; NULL: the
     * formula names none. */
    size_t (*constants)(const void *fixed, struct calculation_constant *out);
};

#endif
