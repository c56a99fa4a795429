/* values.h - what values_evaluate leaves: every named value, for each variant.
 *
 * Readers (checks, layout, commands) ask here and never evaluate. All printed
 * texts come from values_print*(), so that a figure looks the same in a step, a
 * table and a message. */
#ifndef VALUES_H
#define VALUES_H

#include "base/place.h"
#include "base/text.h"
#include "calc/unit.h"

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

struct arena;
struct block;
struct entry;
struct guide;
struct mark;
struct node;
struct quantity;
struct scope;
struct tags;
struct values;
struct wire_size;

/* A set of variants, bit i for variant i. */
typedef uint64_t variant_set;

struct variant {
    struct text name; /* "mark 1"; absent when the guide names no vehicle */
    size_t index;
    const struct entry *row; /* in the vehicle block, or NULL */
    const struct block *vehicle;
};

enum value_type {
    VALUE_BAD,      /* a message was given; stays quiet from then on */
    VALUE_ABSENT,   /* a setting that is not written */
    VALUE_QUANTITY, /* quantity */
    VALUE_SIZE,     /* size: a decision */
    VALUE_TEXT,     /* text; also a decision such as a fuse style */
    VALUE_TRUTH,    /* truth */
    VALUE_LIMIT,    /* >= low, <= high, or both */
};

struct value {
    enum value_type type;
    struct quantity *quantity;    /* QUANTITY; not const: values/ names it */
    struct quantity *low, *high;  /* LIMIT: either may be NULL */
    struct quantity *with;        /* `28 A for 60 ms`: the second */
    const char *joint;            /* "for", "at", "from", "step" */
    const struct wire_size *size; /* SIZE */
    struct text text; /* TEXT; of a quantity the point behind `from` */
    bool truth;       /* TRUTH */
    bool staged;      /* QUANTITY: the sum of stages that print one by one */
    bool decision;    /* chosen by the compiler or by `use` */
    struct span at;
};

/* One named value: `feed.drop`, `lamps.current`, `run`. */
struct named {
    struct text name; /* with the block's name in front */
    const struct block *block;
    struct value *by_variant; /* [variant count] */
    bool computed;            /* a field, not a setting or definition */
    struct span at;
};

size_t values_variants(const struct values *v, const struct variant **list);
/* Those that the guide is for: its `applies`, or all. */
variant_set values_applies(const struct values *v);
/* The first variant that it applies to. */
size_t values_first(const struct values *v);
/* Those of a {for} mark or a row; 0 after a message. Empty tags: all. */
variant_set values_tagged(const struct values *v, const struct tags *t);
/* Those that read a node: the {for} marks on it and above it. */
variant_set values_readers(const struct values *v, const struct node *n);
/* Those that apply and that a row is for. */
variant_set values_of_row(const struct values *v, const struct block *b,
                          const struct entry *row);
/* "mark 1, mark 2", in the order of the vehicle's rows; "" for all. */
const char *values_variant_names(const struct values *v, struct arena *a,
                                 variant_set s);

size_t values_count(const struct values *v);
/* Works out a value that nothing of the guide has asked for: results of a
 * circuit wait until they are. */
void values_demand(struct values *v, size_t index);
/* Works out what each circuit gives whether it is named or not, the voltages of
 * its points and what it loses as a whole: before all values are listed. */
void values_demand_usual(struct values *v);
const struct named *values_at(const struct values *v, size_t index);
/* A block by its name as seen from a scope; NULL when there is none. `kinds`
 * are kind names parted by '|'. */
const struct block *values_block(const struct values *v,
                                 const struct scope *from, struct text name,
                                 const char *kinds);
/* By its full name as seen from a scope; NULL when there is none. */
const struct named *values_find(const struct values *v,
                                const struct scope *from, struct text name);
/* A block's setting or field: "drop limit", "drop"; NULL when absent. */
const struct named *values_of(const struct values *v, const struct block *b,
                              const char *name);
/* Its highest end over the variants that apply, in SI; NAN when it has no value
 * in any. */
double values_highest(const struct values *v, const struct block *b,
                      const char *name);

enum print_form {
    PRINT_PLAIN, /* 0.31 V */
    PRINT_RANGE, /* 0.31 V (0.28 V to 0.35 V); plain when it has no width */
    PRINT_LOW,   /* the low end, rounded down */
    PRINT_HIGH,  /* the high end, rounded up */
};

/* The value in one variant: number, unit, and the converted figure in
 * parentheses where the guide's units ask for it. NULL: absent or bad. */
const char *values_print(const struct values *v, struct arena *a,
                         const struct named *n, size_t variant,
                         enum print_form form);
/* Over a set of variants: "10 AWG; mark 3: 8 AWG" where they differ. NULL when
 * absent in all. */
const char *values_print_over(const struct values *v, struct arena *a,
                              const struct named *n, variant_set s,
                              enum print_form form);
/* A cell of a row as it prints: limits and quantities evaluated, the rest as
 * written. NULL after a message. */
const char *values_print_cell(const struct values *v, struct arena *a,
                              const struct block *b, const struct entry *row,
                              const char *column, variant_set s);
/* Likewise the limit of a reading, from the rows of `limits` that have this id:
 * "≤ 0.35 V; diesel: ≤ 0.45 V" where they differ. NULL when none has one. */
const char *values_print_limit(const struct values *v, struct arena *a,
                               struct text id, variant_set s);
/* The quantity in a cell of a row in one variant, in SI, its nominal value; NAN
 * when there is none, or after a message. */
double values_cell_number(const struct values *v, const struct block *b,
                          const struct entry *row, const char *column,
                          size_t variant);
/* The worst of a circuit over the variants that apply, at the worst end of its
 * figures; NAN: none. */
struct circuit_extremes {
    double fault;       /* A, into a short to a minus */
    double temperature; /* K, of a conductor, no start */
    double safety_drop; /* share of the supply, lost before a safety load */
    bool fault_assumed; /* the resistance of a supply is not stated */
};
/* NULL: it was not solved, or is no circuit. */
const struct circuit_extremes *values_extremes(const struct values *v,
                                               const struct block *b);

/* A table that a circuit gives by itself: of a `sheet` block. */
struct circuit_row {
    variant_set in;    /* in which it is there */
    const char **text; /* by column, then variant; NULL where it is not there */
};
struct circuit_table {
    size_t column_count;
    const char *const *head;
    const bool *figure; /* by column: what stands there is kept whole */
    struct circuit_row *row;
    size_t count;
};
/* NULL: after a message. */
const struct circuit_table *values_table(const struct values *v,
                                         const struct block *b);
const char *values_print_table(const struct values *v, struct arena *a,
                               const struct circuit_row *row, size_t column,
                               variant_set s);

/* A MARK_VALUE as it prints, over the variants. NULL after a message. */
const char *values_print_mark(const struct values *v, struct arena *a,
                              const struct mark *m, variant_set s);

/* The working of one computed field in one variant, for the annex and `why`. */
struct working {
    const char *what;    /* "voltage drop of a wire run" */
    const char *formula; /* "U = I * R" */
    const char *numbers; /* the same with the figures put in */
    const char *result;  /* as printed, with its range */
    const char *source;
};
size_t values_working(const struct values *v, struct arena *a,
                      const struct block *b, size_t variant,
                      const struct working **list);

/* What the library assumed because the author did not say. */
struct assumption {
    const struct block *block;
    const char *what;   /* "ambient" */
    const char *value;  /* "30 °C" */
    const char *source; /* "table's own ambient" */
    variant_set variants;
};
size_t values_assumptions(const struct values *v,
                          const struct assumption **list);
bool values_assumed(const struct values *v, const struct block *b,
                    const char *what);

#endif
