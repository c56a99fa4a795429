/* ampacity.c - how much current a wire may carry.
 *
 * The tables are for gauges (ISO 10133: for areas). An AWG size finds its own
 * row; a size of another system the largest row that is not larger in area. */
#include "calc/ampacity.h"
#include "calc/ampacity_table.h"
#include "calc/word.h"

#include <math.h>
#include <string.h>

#define ZERO_C 273.15
#define ENGINE_SPACE_C 50 /* 33 CFR 183.425 Table 5 note 1 */
/* Slack, K, so that 105 degC read from a text finds the 105 degC column. */
#define SAME_KELVIN 1e-6

const char *ampacity_table_name(enum ampacity_table t) {
    return ampacity_source_table[t].name;
}

bool ampacity_table_find(const char *name, size_t len,
                         enum ampacity_table *out) {
    for (int t = 0; t < AMPACITY_TABLES; t++) {
        if (word_is(name, len, ampacity_source_table[t].name)) {
            *out = (enum ampacity_table)t;
            return true;
        }
    }
    return false;
}

static double area_of(const struct ampacity_row *r) {
    if (r->area > 0)
        return r->area;
    const struct wire_size *s = NULL;
    size_read(r->name, strlen(r->name), WIRE_AWG_SOLID, &s);
    return s->area;
}

static const struct ampacity_row *row_named(const struct ampacity_rows *rows,
                                            const struct wire_size *s) {
    if (s->system != WIRE_AWG_SOLID && s->system != WIRE_AWG_STRANDED)
        return NULL;
    for (size_t i = 0; i < rows->count; i++)
        if (strcmp(rows->row[i].name, s->name) == 0)
            return &rows->row[i];
    return NULL;
}

static const struct ampacity_row *row_of(const struct ampacity_rows *rows,
                                         const struct wire_size *s,
                                         bool *smaller) {
    const double same = 1e-9; /* areas that differ by less are equal */
    const struct ampacity_row *best = row_named(rows, s);
    *smaller = false;
    if (best != NULL)
        return best;
    for (size_t i = 0; i < rows->count; i++)
        if (area_of(&rows->row[i]) <= s->area * (1 + same))
            best = &rows->row[i];
    *smaller = best != NULL && area_of(best) < s->area * (1 - same);
    return best;
}

/* The highest column not above the insulation for which the row has a figure;
 * -1 when there is none. */
static int column_of(const struct ampacity_source *t,
                     const struct ampacity_row *r, double insulation) {
    int best = -1;
    for (int c = 0; c < AMPACITY_COLUMNS; c++)
        if (t->rated[c] + ZERO_C <= insulation + SAME_KELVIN && r->amp[c] > 0)
            best = c;
    return best;
}

static double bundle_factor(const struct ampacity_source *t, int bundled) {
    for (size_t i = 0; i < t->bundle_count; i++)
        if (bundled >= t->bundle[i].from)
            return t->bundle[i].factor;
    return NAN;
}

bool ampacity_find(const struct ampacity_use *u, struct ampacity *out,
                   const char **why) {
    const struct ampacity_source *t = &ampacity_source_table[u->table];
    const struct ampacity_rows *rows =
        u->material == MATERIAL_ALUMINIUM ? &t->aluminium : &t->copper;
    if (rows->count == 0) {
        *why =
            "the table has no aluminium; write ampacity: NEC 310.16, which has";
        return false;
    }
    if (u->bundled < 1) {
        *why = "a bundle has at least one conductor";
        return false;
    }
    bool smaller = false;
    const struct ampacity_row *r = row_of(rows, u->size, &smaller);
    if (!r) {
        *why = rows == &t->copper ? t->below
                                  : "the size is below the smallest of the "
                                    "table's aluminium";
        return false;
    }
    int c = column_of(t, r, u->insulation);
    if (c < 0) {
        *why = "the table has no column for so low an insulation temperature";
        return false;
    }
    *out = (struct ampacity){
        .use = *u,
        .row = r->name,
        .row_smaller = smaller,
        .amp = r->amp[c],
        .rated = t->rated[c] + ZERO_C,
        .reference = t->reference + ZERO_C,
        .bundle = bundle_factor(t, u->bundled),
        .engine = 1,
        .verified = r->verified,
        .source = t->source,
        .bundle_source = t->bundle_source,
    };
    if (u->engine_space && t->engine[c] > 0)
        out->engine = t->engine[c];
    return true;
}

double ampacity_assumed_ambient(const struct ampacity *a) {
    double engine = ENGINE_SPACE_C + ZERO_C;
    return a->use.engine_space && engine > a->reference ? engine : a->reference;
}

static double square_root_factor(const struct ampacity *a, double ambient) {
    double coldest = ampacity_source_table[a->use.table].coldest + ZERO_C;
    double share =
        (a->rated - fmax(ambient, coldest)) / (a->rated - a->reference);
    return share > 0 ? sqrt(share) : 0;
}

double ampacity_ambient_factor(const struct ampacity *a, double ambient) {
    bool printed = a->use.engine_space &&
                   ampacity_source_table[a->use.table].engine[0] > 0;
    if (isnan(ambient) && printed)
        return a->engine;
    if (isnan(ambient))
        ambient = ampacity_assumed_ambient(a);
    double factor = square_root_factor(a, ambient);
    return printed ? fmin(factor, a->engine) : factor;
}

double ampacity_at(const struct ampacity *a, double ambient) {
    return a->amp * a->bundle * ampacity_ambient_factor(a, ambient);
}
