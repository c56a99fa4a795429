/* figure.c - a quantity as it is printed: number, unit, converted figure. */
#include "values/figure.h"

#include "base/arena.h"
#include "values/range.h"

#include <math.h>
#include <string.h>

#define NBSP "\xC2\xA0"

static const struct unit *find(const char *name) {
    return unit_find(name, strlen(name));
}

/* A few milliohms are not written 0.0025 ohm, nor the coil of a relay 85000
 * mohm: a computed value takes the unit in which it has few figures. What is
 * below `noise` is none. */
static const struct unit *handy(const struct quantity *q,
                                const struct unit *u) {
    static const struct {
        const char *name, *other;
        double from, below, noise;
    } rows[] = {
        {"ohm", "mohm", 0, 0.1, -1},
        {"mohm", "ohm", 1, INFINITY, -1},
        {"V", "mV", 0, 0.01, 1e-6},
        {"W", "mW", 0, 0.01, 1e-6},
        {"in", "ft", 10 * 0.3048, INFINITY, -1}, /* the length of a loop */
        {"mm", "m", 10 * 0.3048, INFINITY, -1},
    };
    double size = fabs(q->nominal);
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
        if (u != NULL && strcmp(u->name, rows[i].name) == 0 &&
            size >= rows[i].from && size < rows[i].below &&
            size > rows[i].noise)
            return find(rows[i].other);
    return u;
}

const struct unit *figure_unit(const struct quantity *q) {
    if (q->unit != NULL)
        return q->decimals >= 0 || q->fraction ? q->unit : handy(q, q->unit);
    return handy(q, unit_usual(q->dim, UNIT_SI));
}

static double in_unit(double si, const struct unit *u) {
    return u == NULL ? si : unit_from_si(u, si);
}

enum { SIGNIFICANT = 3, FINEST = 6 };

/* What a diode that blocks lets through in a circuit (1 Mohm), and no meter of
 * a workshop shows: none. */
#define NO_AMPERE 5e-5

static bool is_no_current(double si, const struct unit *u) {
    return u != NULL && strcmp(u->label, "A") == 0 && fabs(si) < NO_AMPERE;
}

/* Of a computed value. An estimate says how many digits of it mean something:
 * 710 A, not 706 A. */
static int computed_decimals(double number, const struct unit *u,
                             int significant) {
    if (!isfinite(number))
        return 0;
    if (significant > 0)
        return round_decimals(number, significant);
    int decimals = round_decimals(number, SIGNIFICANT);
    const char *label = u == NULL ? "" : u->label;
    int most = fabs(number) >= 1 ? 1 : 2; /* what a meter can show */
    if (strcmp(label, "V") == 0)
        decimals = most + 1;
    else if (strcmp(label, "W") == 0)
        decimals = decimals < 3 ? decimals : 3;
    else if (strcmp(label, "mV") == 0 || strcmp(label, "mW") == 0)
        decimals = decimals < most ? decimals : most;
    else if (strcmp(label, "A") == 0)
        decimals = is_no_current(number, u) ? 0 : decimals < 5 ? decimals : 5;
    else if (strcmp(label, "%") == 0)
        decimals = 1;
    else if (u != NULL && u->offset != 0)
        decimals = 0;
    return decimals < 0 ? 0 : decimals;
}

int figure_decimals(const struct quantity *q, const struct unit *unit) {
    if (q->decimals >= 0 && unit == figure_unit(q))
        return q->decimals;
    double shown = q->nominal;
    if (shown == 0 || is_no_current(shown, unit)) { /* it may go either way */
        struct ends e = range_ends(q);
        shown = fmax(fabs(e.low), fabs(e.high));
    }
    int decimals =
        computed_decimals(in_unit(shown, unit), unit, q->significant);
    bool assumed = q->op == QUANTITY_ROOT && q->root == ROOT_ASSUMPTION;
    return assumed && decimals < 0 ? 0 : decimals;
}

/* SI base units for a dimension that the table of units lacks. */
static const char *base_units(struct arena *a, struct dim d) {
    static const char *const names[DIM_BASES] = {"m", "kg", "s", "A", "K", "r"};
    struct buf b = buf_in(a);
    for (int i = 0; i < DIM_BASES; i++) {
        if (d.power[i] == 0)
            continue;
        buf_printf(&b, "%s%s", b.len > 0 ? "\xC2\xB7" : "", names[i]);
        if (d.power[i] != 1)
            buf_printf(&b, "%d", d.power[i]);
    }
    return buf_cstr(&b);
}

const char *figure_text(struct arena *a, double si, const struct unit *unit,
                        struct dim dim, int decimals, enum round_way way) {
    if (!isfinite(si)) /* in a message: no such value is kept */
        return "not a number";
    char number[ROUND_TEXT_MAX];
    if (decimals == 0 && is_no_current(si, unit))
        si = 0;
    round_text(number, in_unit(si, unit), decimals, way);
    /* A minus sign, not a hyphen. */
    const char *minus = number[0] == '-' ? "\xE2\x88\x92" : "";
    const char *digits = number[0] == '-' ? number + 1 : number;
    const char *label = unit != NULL ? unit->label : base_units(a, dim);
    if (label[0] == '\0' || strcmp(label, "\xC2\xB0") == 0) /* 90° */
        return arena_printf(a, "%s%s%s", minus, digits, label);
    return arena_printf(a, "%s%s" NBSP "%s", minus, digits, label);
}

const char *figure_short(struct arena *a, double si, const char *unit,
                         int digits, enum round_way way) {
    const struct unit *u = unit_find(unit, strlen(unit));
    return figure_text(a, si, u, u->dim,
                       round_decimals(unit_from_si(u, si), digits), way);
}

/* Decimals of an end: as many, up to two more than the nominal's, as show it
 * exactly; else two digits of the range's width. A computed value and a
 * converted one show all their figures alike. */
static int end_decimals(const struct quantity *q, double end,
                        const struct unit *u, int decimals) {
    if (q->decimals < 0)
        return decimals;
    double number = round_snap(in_unit(end, u));
    for (int more = decimals; more <= decimals + 2; more++)
        if (round_snap(round_value(number, more, ROUND_HALF_EVEN)) == number)
            return more;
    if (u != figure_unit(q))
        return decimals;
    struct ends e = range_ends(q);
    int fine = round_decimals(in_unit(e.high, u) - in_unit(e.low, u), 2);
    return fine > decimals ? fine : decimals;
}

static const char *end_text(struct arena *a, const struct quantity *q,
                            double end, const struct unit *u, int decimals,
                            enum round_way way) {
    return figure_text(a, end, u, q->dim, end_decimals(q, end, u, decimals),
                       way);
}

static bool has_width(const struct quantity *q) {
    struct ends e = range_ends(q);
    return isfinite(e.low) && isfinite(e.high) &&
           round_snap(e.low) != round_snap(e.high);
}

double figure_shown(const struct quantity *q, double end, enum round_way way) {
    if (q->fraction && !has_width(q))
        return end;
    const struct unit *u = figure_unit(q);
    int decimals = end_decimals(q, end, u, figure_decimals(q, u));
    double number = round_value(in_unit(end, u), decimals, way);
    return u == NULL ? number : unit_to_si(u, number);
}

static const char *in_form(struct arena *a, const struct quantity *q,
                           const struct unit *u, int decimals,
                           enum figure_form form) {
    if (q->fraction && u == figure_unit(q) &&
        (form == FIGURE_PLAIN || !has_width(q)))
        return arena_printf(a, "%.*s%s%s", (int)q->written.len,
                            q->written.start,
                            u == NULL || u->label[0] == '\0' ? "" : NBSP,
                            u == NULL ? "" : u->label);
    switch (form) {
    case FIGURE_PLAIN:
        break;
    case FIGURE_LOW:
    case FIGURE_AT_MOST:
        return end_text(a, q, range_ends(q).low, u, decimals, ROUND_DOWN);
    case FIGURE_HIGH:
    case FIGURE_AT_LEAST:
        return end_text(a, q, range_ends(q).high, u, decimals, ROUND_UP);
    case FIGURE_RANGE: {
        const char *plain = in_form(a, q, u, decimals, FIGURE_PLAIN);
        if (!has_width(q))
            return plain;
        return arena_printf(a, "%s (%s to %s)", plain,
                            in_form(a, q, u, decimals, FIGURE_LOW),
                            in_form(a, q, u, decimals, FIGURE_HIGH));
    }
    }
    return figure_text(a, q->nominal, u, q->dim, decimals, ROUND_HALF_EVEN);
}

const char *figure_of(struct arena *a, const struct quantity *q,
                      enum figure_form form) {
    const struct unit *u = figure_unit(q);
    return in_form(a, q, u, figure_decimals(q, u), form);
}

/* A converted figure that is this far off would be set on a wrench. */
#define CONVERTED_OFF 0.02

/* Decimals in another unit so that a step of the last digit is about as fine as
 * the authored one: up to twice as coarse, else finer; and finer still where a
 * small number would be rounded away. */
int figure_like(const struct quantity *q, const struct unit *from,
                const struct unit *to) {
    double number = in_unit(q->nominal, to);
    if (q->decimals < 0 || q->fraction)
        return computed_decimals(number, to, q->significant);
    double step =
        pow(10, -figure_decimals(q, from)) * from->factor / to->factor;
    int decimals = (int)ceil(-log10(step) - 0.3);
    decimals = decimals < 0 ? 0 : decimals > 6 ? 6 : decimals;
    while (decimals < 6 && to->offset == 0 &&
           fabs(round_value(number, decimals, ROUND_HALF_EVEN) - number) >
               CONVERTED_OFF * fabs(number))
        decimals++;
    return decimals;
}

const char *figure_in(struct arena *a, const struct quantity *q,
                      const struct unit *unit, enum figure_form form) {
    const struct unit *from = figure_unit(q);
    int decimals = q->decimals >= 0 && from != NULL ? figure_like(q, from, unit)
                                                    : figure_decimals(q, unit);
    return in_form(a, q, unit, decimals, form);
}

static bool is_unit(const struct unit *u, const char *name) {
    return strcmp(u->name, name) == 0;
}

static const struct unit *partner(const struct unit *u) {
    static const char *const pairs[][2] = {
        {"m", "ft"},       {"mm", "in"}, {"cm", "in"},     {"km", "mi"},
        {"N.m", "lbf.ft"}, {"kg", "lb"}, {"degC", "degF"}, {"kPa", "psi"},
        {"bar", "psi"},    {"L", "gal"}, {"km/h", "mph"},  {"N", "lbf"},
        {"kN", "lbf"},     {"kW", "hp"},
    };
    static const char *const only_back[][2] = {
        {"lbf.in", "N.m"},  {"kgf.m", "N.m"}, {"kgf.cm", "N.m"},
        {"kN.m", "lbf.ft"}, {"t", "lb"},      {"yd", "m"},
        {"oz", "g"},
    };
    for (size_t i = 0; i < sizeof pairs / sizeof pairs[0]; i++) {
        if (is_unit(u, pairs[i][0]))
            return find(pairs[i][1]);
        if (is_unit(u, pairs[i][1]))
            return find(pairs[i][0]);
    }
    for (size_t i = 0; i < sizeof only_back / sizeof only_back[0]; i++)
        if (is_unit(u, only_back[i][0]))
            return find(only_back[i][1]);
    return NULL;
}

const char *figure_both(struct arena *a, const struct quantity *q,
                        enum figure_form form) {
    const struct unit *u = figure_unit(q);
    const char *first = figure_of(a, q, form);
    const struct unit *other = u == NULL ? NULL : partner(u);
    /* A drill or wrench of 5/16 in has no metric twin. */
    if (other == NULL || q->fraction)
        return first;
    const char *second = in_form(a, q, other, figure_like(q, u, other),
                                 form == FIGURE_RANGE ? FIGURE_PLAIN : form);
    if (form != FIGURE_RANGE || !has_width(q))
        return arena_printf(a, "%s (%s)", first, second);
    int decimals = figure_like(q, u, other);
    return arena_printf(a, "%s; %s (%s to %s)", first, second,
                        in_form(a, q, other, decimals, FIGURE_LOW),
                        in_form(a, q, other, decimals, FIGURE_HIGH));
}

/* Two ends in another unit, rounded inward, with digits enough to differ. */
static const char *ends_in(struct arena *a, const struct spread *s,
                           const struct unit *u) {
    const struct quantity *end[2] = {s->low, s->high};
    double number[2];
    int decimals = 0;
    for (int i = 0; i < 2; i++) {
        number[i] = in_unit(end[i]->nominal, u);
        int like = figure_like(end[i], figure_unit(end[i]), u);
        decimals = like > decimals ? like : decimals;
    }
    bool apart = round_snap(number[0]) < round_snap(number[1]);
    while (apart && decimals < FINEST &&
           round_value(number[0], decimals, ROUND_UP) >=
               round_value(number[1], decimals, ROUND_DOWN))
        decimals++;
    return arena_printf(
        a, "%s to %s",
        figure_text(a, s->low->nominal, u, s->low->dim, decimals, ROUND_UP),
        figure_text(a, s->high->nominal, u, s->high->dim, decimals,
                    ROUND_DOWN));
}

/* A tolerance that rounding makes this much smaller is printed finer. */
#define TOLERANCE_KEPT 0.75

/* `33 lbf·ft ± 3 lbf·ft`: the tolerance is what of it is left on both sides of
 * the rounded figure, rounded down. */
static const char *plus_minus_in(struct arena *a, const struct quantity *q,
                                 const struct unit *u) {
    double low = in_unit(q->range.low, u), high = in_unit(q->range.high, u);
    double middle = in_unit(q->nominal, u), shown, left;
    int decimals = figure_like(q, figure_unit(q), u);
    for (;; decimals++) {
        shown = round_value(middle, decimals, ROUND_HALF_EVEN);
        left = round_value(round_snap(fmin(shown - low, high - shown)),
                           decimals, ROUND_DOWN);
        if (left >= TOLERANCE_KEPT * (high - low) / 2 || decimals >= FINEST)
            break;
    }
    return arena_printf(
        a, "%s \xC2\xB1" NBSP "%.*f%s%s",
        figure_text(a, q->nominal, u, q->dim, decimals, ROUND_HALF_EVEN),
        decimals, left, u->label[0] == '\0' ? "" : NBSP, u->label);
}

static const char *spread_in(struct arena *a, const struct quantity *q,
                             const struct unit *u) {
    const struct spread *s = q->spread;
    const char *first = figure_in(a, q, u, FIGURE_PLAIN);
    switch (s->form) {
    case SPREAD_TO:
        return ends_in(a, s, u);
    case SPREAD_PLUS_MINUS:
        if (s->high->dim.point == q->dim.point &&
            !dim_same(s->high->dim, q->dim)) /* a share of it */
            return arena_printf(a, "%s \xC2\xB1" NBSP "%s", first,
                                figure_of(a, s->high, FIGURE_PLAIN));
        return plus_minus_in(a, q, u);
    case SPREAD_ENDS:
        return arena_printf(a, "%s (%s)", first, ends_in(a, s, u));
    }
    return first;
}

static const char *spread_written(struct arena *a, const struct quantity *q) {
    const struct spread *s = q->spread;
    const char *high = figure_of(a, s->high, FIGURE_PLAIN);
    switch (s->form) {
    case SPREAD_TO:
        return arena_printf(a, "%s to %s", figure_of(a, s->low, FIGURE_PLAIN),
                            high);
    case SPREAD_PLUS_MINUS:
        return arena_printf(a, "%s \xC2\xB1" NBSP "%s",
                            figure_of(a, q, FIGURE_PLAIN), high);
    case SPREAD_ENDS:
        return arena_printf(a, "%s (%s to %s)", figure_of(a, q, FIGURE_PLAIN),
                            figure_of(a, s->low, FIGURE_PLAIN), high);
    }
    return high;
}

/* A drill or wrench of 5/16 in has no metric twin, nor have two of them. */
static bool in_fractions(const struct quantity *q) {
    const struct spread *s = q->spread;
    return q->fraction || s->high->fraction ||
           (s->low != NULL && s->low->fraction);
}

const char *figure_spread(struct arena *a, const struct quantity *q,
                          const struct unit *unit) {
    if (q->spread == NULL)
        return unit == NULL ? figure_both(a, q, FIGURE_PLAIN)
                            : figure_in(a, q, unit, FIGURE_PLAIN);
    if (unit != NULL && unit != figure_unit(q))
        return spread_in(a, q, unit);
    const char *first = spread_written(a, q);
    const struct unit *own = figure_unit(q);
    const struct unit *other = own == NULL ? NULL : partner(own);
    if (unit != NULL || other == NULL || in_fractions(q))
        return first;
    const char *second = spread_in(a, q, other);
    return q->spread->form == SPREAD_ENDS
               ? arena_printf(a, "%s; %s", first, second)
               : arena_printf(a, "%s (%s)", first, second);
}

const char *figure_band(struct arena *a, const struct quantity *q) {
    if (!has_width(q))
        return figure_both(a, q, FIGURE_PLAIN);
    if (q->spread != NULL && q->spread->form == SPREAD_TO)
        return figure_spread(a, q, NULL); /* its ends are the author's */
    struct ends e = range_ends(q);
    const struct unit *u = figure_unit(q);
    int decimals = figure_decimals(q, u);
    /* A band finer than its figures would vanish or turn round. */
    while (round_value(in_unit(e.low, u), decimals, ROUND_UP) >=
           round_value(in_unit(e.high, u), decimals, ROUND_DOWN))
        decimals++;
    return arena_printf(a, "%s to %s",
                        end_text(a, q, e.low, u, decimals, ROUND_UP),
                        end_text(a, q, e.high, u, decimals, ROUND_DOWN));
}

void figure_apart(struct arena *a, double left_si, double right_si,
                  const struct unit *unit, struct dim dim, int decimals,
                  const char **left, const char **right,
                  const char **difference) {
    const struct unit *apart = unit == NULL ? NULL : unit_difference(unit);
    struct dim gap_dim = dim;
    gap_dim.point = false;
    for (int more = 0; more < 12; more++, decimals++) {
        *left = figure_text(a, left_si, unit, dim, decimals, ROUND_HALF_EVEN);
        *right = figure_text(a, right_si, unit, dim, decimals, ROUND_HALF_EVEN);
        /* Of the figures as shown, so that the reader's subtraction agrees. */
        double gap = fabs(
            round_value(in_unit(left_si, unit), decimals, ROUND_HALF_EVEN) -
            round_value(in_unit(right_si, unit), decimals, ROUND_HALF_EVEN));
        *difference =
            dim.point && unit != NULL
                ? arena_printf(a, "%.*f" NBSP "%s", decimals < 0 ? 0 : decimals,
                               gap, unit->label) /* "5 °C too hot" */
                : figure_text(a, apart == NULL ? gap : unit_to_si(apart, gap),
                              apart, gap_dim, decimals, ROUND_HALF_EVEN);
        if (strcmp(*left, *right) != 0)
            return;
    }
}

void figure_write(FILE *out, const char *text) {
    for (const char *s = text; *s != '\0'; s++) {
        if (strncmp(s, NBSP, 2) == 0) {
            fputc(' ', out);
            s++;
        } else {
            fputc(*s, out);
        }
    }
}

const char *figure_plain(struct arena *a, const char *text) {
    char *out = arena_copy(a, text, strlen(text)), *to = out;
    for (const char *from = out; *from != '\0'; from++) {
        if (strncmp(from, NBSP, 2) == 0) {
            *to++ = ' ';
            from++;
        } else {
            *to++ = *from;
        }
    }
    *to = '\0';
    return out;
}

/* A figure goes on with it: a digit, a point before one, a letter of a unit in
 * whatever script, the point of a product. A dash parts two figures. */
static bool goes_on(const char *end) {
    unsigned char c = (unsigned char)end[0];
    if (c == '.')
        return end[1] >= '0' && end[1] <= '9';
    return (c >= '0' && c <= '9') || (c >= 'A' && c <= 'Z') ||
           (c >= 'a' && c <= 'z') || (c >= 0x80 && c != 0xE2);
}

bool figure_is_in(const char *words, const char *figure) {
    size_t len = strlen(figure);
    for (const char *at = words; (at = strstr(at, figure)) != NULL; at++)
        if ((at == words || strchr("0123456789.", at[-1]) == NULL) &&
            !goes_on(at + len))
            return true;
    return false;
}
