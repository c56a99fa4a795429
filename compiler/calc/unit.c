/* unit.c - dimensions and units: finding, converting, composing.
 *
 * A spelling is compared in a plain form: ASCII letters with '.' for any
 * product sign (middle dot, hyphen, '*', blank) and digits for powers, so that
 * "N·m", "N-m" and "N.m" need one row, and so do "mm²", "mm^2" and "mm2". */
#include "calc/unit.h"
#include "calc/unit_table.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

enum {
    PLAIN = 20,   /* room for the longest spelling of the table */
    WRITTEN = 60, /* and for the same with longer signs */
    INSIDE = 255
};

/* What stands for a sign, longest first where one begins another. Escapes where
 * the sign looks like a letter. */
static const struct {
    const char *written, *plain;
} translation[] = {
    {"°C", "degC"},
    {"°F", "degF"},
    {"° C", "degC"},
    {"° F", "degF"},
    {"°", "deg"},
    {"℃", "degC"},
    {"℉", "degF"},
    {"\xce\xa9", "ohm"},     /* Greek omega */
    {"\xe2\x84\xa6", "ohm"}, /* ohm sign */
    {"\xc2\xb5", "u"},       /* micro sign */
    {"\xce\xbc", "u"},       /* Greek mu */
    {"²", "2"},
    {"³", "3"},
    {"₂", "2"}, /* of inH2O */
    {"^", ""},
    {"·", "."},
    {"⋅", "."},
    {"•", "."},
    {"*", "."},
    {"-", "."},
    {"\xe2\x80\x91", "."}, /* hyphen that does not break */
    {"′", "'"},
    {"″", "\""},
    {"\xe2\x88\x95", "/"}, /* division slash */
};
enum { TRANSLATIONS = sizeof translation / sizeof translation[0] };

static bool is_plain(char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') ||
           (c >= '0' && c <= '9') || c == '%' || c == '.' || c == '/' ||
           c == '"' || c == '\'';
}

/* Bytes of text used by one translation, whose plain form is *plain; 0: no unit
 * has this character. */
static size_t translated(const char *text, size_t len, const char **plain) {
    size_t blanks = 0;
    while (blanks < len && (text[blanks] == ' ' || text[blanks] == '\t' ||
                            text[blanks] == '\n'))
        blanks++;
    *plain = ".";
    for (size_t i = 0; blanks == 0 && i < TRANSLATIONS; i++) {
        size_t n = strlen(translation[i].written);
        if (n <= len && memcmp(text, translation[i].written, n) == 0) {
            *plain = translation[i].plain;
            return n;
        }
    }
    return blanks;
}

/* The plain form of the beginning of text, as far as a unit may go on. after[n]
 * is its length behind n bytes of text; INSIDE where n parts a sign. */
struct form {
    char plain[PLAIN + 1];
    unsigned char after[WRITTEN + 1];
    size_t bytes; /* of text */
};

static struct form form_of(const char *text, size_t len) {
    struct form f = {.bytes = 0};
    size_t n = 0;
    memset(f.after, INSIDE, sizeof f.after);
    while (f.bytes < len) {
        const char *put = text + f.bytes;
        size_t used = 1, more = 1;
        if (!is_plain(*put)) {
            used = translated(put, len - f.bytes, &put);
            more = strlen(put);
        }
        if (used == 0 || n + more > PLAIN || f.bytes + used > WRITTEN)
            break;
        memcpy(f.plain + n, put, more);
        n += more;
        f.bytes += used;
        f.after[f.bytes] = (unsigned char)n;
    }
    return f;
}

static const struct unit *by_spelling(const char *plain) {
    size_t from = 0, to = unit_spelling_count;
    while (from < to) {
        size_t middle = (from + to) / 2;
        const struct unit_spelling *s = &unit_spelling_table[middle];
        int order = (unsigned char)*plain - (unsigned char)*s->spelling;
        if (order == 0)
            order = strcmp(plain, s->spelling);
        if (order == 0)
            return &unit_table[s->unit];
        if (order < 0)
            to = middle;
        else
            from = middle + 1;
    }
    return NULL;
}

/* The unit spelled by the first bytes of a form. */
static const struct unit *form_unit(const struct form *f, size_t bytes) {
    char plain[PLAIN + 1];
    memcpy(plain, f->plain, f->after[bytes]);
    plain[f->after[bytes]] = '\0';
    return by_spelling(plain);
}

const struct unit *unit_find(const char *spelling, size_t len) {
    struct form f = form_of(spelling, len);
    return f.bytes == len && len > 0 ? form_unit(&f, len) : NULL;
}

static bool letter_or_digit(char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') ||
           (c >= '0' && c <= '9') || (unsigned char)c >= 0x80;
}

/* May a unit end between these two bytes? Not inside a word, a character, or
 * before a sign that joins a further factor. */
static bool word_ends(const char *text, size_t len, size_t at) {
    if (at == len)
        return true;
    char before = text[at - 1], after = text[at];
    if (((unsigned char)after & 0xc0) == 0x80 || before == ' ')
        return false;
    if (before == '"' || before == '\'')
        return true;
    if (after == '/' || after == '^' || after == '*')
        return false;
    if ((after == '.' || after == '-') && at + 1 < len &&
        letter_or_digit(text[at + 1]))
        return false;
    return !letter_or_digit(after);
}

const struct unit *unit_prefix(const char *text, size_t len, size_t *used) {
    struct form f = form_of(text, len);
    for (size_t end = f.bytes; end > 0; end--) {
        if (f.after[end] == INSIDE || !word_ends(text, len, end))
            continue;
        const struct unit *u = form_unit(&f, end);
        if (u) {
            *used = end;
            return u;
        }
    }
    *used = 0;
    return NULL;
}

const struct unit *unit_at(size_t index) {
    return index < UNITS ? &unit_table[index] : NULL;
}

const char *unit_spelling_at(size_t index, const struct unit **of) {
    if (index >= unit_spelling_count)
        return NULL;
    *of = &unit_table[unit_spelling_table[index].unit];
    return unit_spelling_table[index].spelling;
}

/* Units for printing, SI and customary. */
static const enum unit_id usual[][2] = {
    {U_ONE, U_ONE},
    {U_A, U_A},
    {U_V, U_V},
    {U_ohm, U_ohm},
    {U_mohm_PER_m, U_ohm_PER_kft},
    {U_W, U_W},
    {U_N_m, U_lbf_ft},
    {U_Ah, U_Ah},
    {U_uF, U_uF},
    {U_m, U_ft},
    {U_mm2, U_in2},
    {U_L, U_gal},
    {U_kg, U_lb},
    {U_N, U_lbf},
    {U_kPa, U_psi},
    {U_degC, U_degF},
    {U_K, U_degF_diff},
    {U_s, U_s},
    {U_km_PER_h, U_mph},
    {U_L_PER_min, U_gal_PER_min},
    {U_Hz, U_Hz},
    {U_rpm, U_rpm},
    {U_deg, U_deg},
    {U_H, U_H},
    {U_S, U_S},
    {U_W_PER_m, U_W_PER_ft},
};
enum { USUAL = sizeof usual / sizeof usual[0] };

const struct unit *unit_usual(struct dim d, enum unit_system system) {
    for (size_t i = 0; i < USUAL; i++) {
        const struct unit *u =
            &unit_table[usual[i][system == UNIT_CUSTOMARY ? 1 : 0]];
        if (dim_equal(u->dim, d))
            return u;
    }
    return NULL;
}

const struct unit *unit_difference(const struct unit *u) {
    if (!u->dim.point)
        return u;
    return &unit_table[u->factor == 1 ? U_K : U_degF_diff];
}

double unit_to_si(const struct unit *u, double number) {
    return number * u->factor + u->offset;
}

double unit_from_si(const struct unit *u, double si) {
    double number = (si - u->offset) / u->factor;
    /* What the difference leaves of the rounding of 333.15 K would be rounded
     * up to a degree: 140 °F are 60 °C. */
    return u->offset == 0 ? number : round(number * 1e10) / 1e10;
}

bool dim_same(struct dim a, struct dim b) {
    return memcmp(a.power, b.power, sizeof a.power) == 0;
}

bool dim_equal(struct dim a, struct dim b) {
    return dim_same(a, b) && a.point == b.point;
}

bool dim_none(struct dim d) {
    for (int i = 0; i < DIM_BASES; i++)
        if (d.power[i] != 0)
            return false;
    return true;
}

struct dim dim_product(struct dim a, struct dim b) {
    struct dim d = {.point = false};
    for (int i = 0; i < DIM_BASES; i++)
        d.power[i] = (signed char)(a.power[i] + b.power[i]);
    return d;
}

struct dim dim_quotient(struct dim a, struct dim b) {
    struct dim d = {.point = false};
    for (int i = 0; i < DIM_BASES; i++)
        d.power[i] = (signed char)(a.power[i] - b.power[i]);
    return d;
}

bool dim_power(struct dim d, int numerator, int denominator, struct dim *out) {
    *out = (struct dim){.point = false};
    for (int i = 0; i < DIM_BASES; i++) {
        int p = d.power[i] * numerator;
        if (denominator == 0 || p % denominator != 0)
            return false;
        p /= denominator;
        if (p > 60 || p < -60)
            return false;
        out->power[i] = (signed char)p;
    }
    return true;
}

/* A unit of the dimension, and the word for it. */
static const struct {
    enum unit_id unit;
    const char *word;
} kind[] = {
    {U_ONE, "plain number"},
    {U_A, "current"},
    {U_V, "voltage"},
    {U_ohm, "resistance"},
    {U_ohm_PER_m, "resistance per length"},
    {U_S, "conductance"},
    {U_W, "power"},
    {U_W_PER_m, "power per length"},
    {U_N_m, "torque or energy"},
    {U_Ah, "charge"},
    {U_F, "capacitance"},
    {U_H, "inductance"},
    {U_m, "length"},
    {U_m2, "area"},
    {U_m3, "volume"},
    {U_kg, "mass"},
    {U_N, "force"},
    {U_Pa, "pressure or stress"},
    {U_degC, "temperature"},
    {U_K, "temperature difference"},
    {U_s, "time"},
    {U_m_PER_s, "speed"},
    {U_L_PER_min, "flow"},
    {U_Hz, "frequency"},
    {U_rpm, "speed of rotation"},
    {U_deg, "angle"},
};
enum { KINDS = sizeof kind / sizeof kind[0] };

const char *dim_name(struct dim d, char out[UNIT_TEXT]) {
    static const char *const base[DIM_BASES] = {"m", "kg", "s",
                                                "A", "K",  "turn"};
    for (size_t i = 0; i < KINDS; i++)
        if (dim_equal(unit_table[kind[i].unit].dim, d))
            return kind[i].word;
    size_t n = 0;
    int below = 0;
    for (int i = 0; i < DIM_BASES; i++)
        below += d.power[i] < 0;
    for (int side = 1; side >= -1; side -= 2) {
        bool first = true;
        if (side < 0 && below > 0) {
            n += (size_t)snprintf(out + n, UNIT_TEXT - n, "%s%s",
                                  n == 0 ? "1/" : "/", below > 1 ? "(" : "");
        }
        for (int i = 0; i < DIM_BASES; i++) {
            int p = d.power[i] * side;
            if (p <= 0)
                continue;
            n += (size_t)snprintf(out + n, UNIT_TEXT - n, "%s%s",
                                  first ? "" : "\xc2\xb7", base[i]);
            if (p > 1)
                n += (size_t)snprintf(out + n, UNIT_TEXT - n, "%d", p);
            first = false;
        }
    }
    if (below > 1)
        snprintf(out + n, UNIT_TEXT - n, ")");
    return out;
}

bool unit_is_energy(const struct unit *u) {
    static const enum unit_id energies[] = {U_J,  U_kJ,  U_MJ,
                                            U_Wh, U_kWh, U_BTU};
    for (size_t i = 0; i < sizeof energies / sizeof energies[0]; i++)
        if (strcmp(u->name, unit_table[energies[i]].name) == 0)
            return true;
    return false;
}

const char *unit_measures(const struct unit *u, char out[UNIT_TEXT]) {
    if (unit_is_energy(u))
        return "energy";
    for (size_t i = 0; i < UNITS; i++)
        if (dim_equal(u->dim, unit_table[U_N_m].dim) &&
            strcmp(u->name, unit_table[i].name) == 0)
            return "torque";
    return dim_name(u->dim, out); /* composed: A.V.s may be either */
}

const char *unit_measures_of(const struct unit *u, struct dim d,
                             char out[UNIT_TEXT]) {
    return u == NULL ? dim_name(d, out) : unit_measures(u, out);
}
