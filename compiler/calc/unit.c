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

enum { PLAIN = 32 };

/* What stands for a character or run of the written form, longest first. */
static const struct {
    const char *written, *plain;
} translation[] = {
    {"\xc2\xb0"
     "C",
     "degC"},
    {"\xc2\xb0"
     "F",
     "degF"},
    {"\xc2\xb0 C", "degC"},
    {"\xc2\xb0 F", "degF"},
    {"\xc2\xb0", "deg"},      /* degree sign */
    {"\xe2\x84\x83", "degC"}, /* one character for both */
    {"\xe2\x84\x89", "degF"}, /* likewise */
    {"\xce\xa9", "ohm"},      /* omega */
    {"\xe2\x84\xa6", "ohm"},  /* ohm sign */
    {"\xc2\xb5", "u"},        /* micro sign */
    {"\xce\xbc", "u"},        /* mu */
    {"\xc2\xb2", "2"},        /* superscripts */
    {"\xc2\xb3", "3"},        /* */
    {"^", ""},                /* mm^2 */
    {"\xc2\xb7", "."},        /* middle dot */
    {"\xe2\x8b\x85", "."},    /* dot operator */
    {"\xe2\x80\xa2", "."},    /* bullet */
    {"*", "."},               /* */
    {"-", "."},               /* ft-lb */
    {"\xe2\x80\x91", "."},    /* non-breaking hyphen */
    {"\xe2\x80\xb2", "'"},    /* prime */
    {"\xe2\x80\xb3", "\""},   /* double prime */
    {"\xe2\x82\x82", "2"},    /* inH2O with its subscript */
    {"\xe2\x88\x95", "/"},    /* division slash */
};
enum { TRANSLATIONS = sizeof translation / sizeof translation[0] };

static bool is_plain(char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') ||
           (c >= '0' && c <= '9') || c == '%';
}

/* Bytes of text used by one translation, whose plain form is *plain; 0: none.
 */
static size_t translated(const char *text, size_t len, const char **plain) {
    if (is_plain(text[0]))
        return 0; /* most of what is asked: no translation begins so */
    for (size_t i = 0; i < TRANSLATIONS; i++) {
        size_t n = strlen(translation[i].written);
        if (n <= len && memcmp(text, translation[i].written, n) == 0) {
            *plain = translation[i].plain;
            return n;
        }
    }
    return 0;
}

/* The plain form; false when it does not fit, so that it is no unit. */
static bool plain_form(const char *text, size_t len, char out[PLAIN]) {
    size_t n = 0;
    for (size_t at = 0; at < len;) {
        const char *put = NULL;
        char one[2] = {text[at], '\0'};
        size_t used = 1;
        if (text[at] == ' ' || text[at] == '\t' || text[at] == '\n') {
            while (at + used < len && text[at + used] == ' ')
                used++;
            put = ".";
        } else {
            size_t more = translated(text + at, len - at, &put);
            if (more > 0)
                used = more;
            else
                put = one;
        }
        size_t room = strlen(put);
        if (n + room >= PLAIN)
            return false;
        memcpy(out + n, put, room);
        n += room;
        at += used;
    }
    out[n] = '\0';
    return n > 0;
}

static const struct unit *by_name(const char *name) {
    for (const struct unit *u = unit_table; u->name; u++)
        if (u->name[0] == name[0] && strcmp(u->name, name) == 0)
            return u;
    return NULL;
}

static const struct unit *by_spelling(const char *plain) {
    const struct unit *u = by_name(plain);
    const struct unit_spelling *s = unit_spelling_table;
    for (; !u && s->spelling; s++)
        if (s->spelling[0] == plain[0] && strcmp(s->spelling, plain) == 0)
            u = by_name(s->name);
    return u;
}

const struct unit *unit_find(const char *spelling, size_t len) {
    char plain[PLAIN];
    return plain_form(spelling, len, plain) ? by_spelling(plain) : NULL;
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
    size_t most = len < PLAIN ? len : PLAIN;
    *used = 0;
    for (size_t end = most; end > 0; end--) {
        if (!word_ends(text, len, end))
            continue;
        const struct unit *u = unit_find(text, end);
        if (u) {
            *used = end;
            return u;
        }
    }
    return NULL;
}

static size_t count_units(void) {
    size_t n = 0;
    while (unit_table[n].name)
        n++;
    return n;
}

const struct unit *unit_at(size_t index) {
    return index < count_units() ? &unit_table[index] : NULL;
}

const char *unit_spelling_at(size_t index, const struct unit **of) {
    size_t units = count_units();
    if (index < units) {
        *of = &unit_table[index];
        return (*of)->name;
    }
    size_t n = 0;
    while (unit_spelling_table[n].spelling)
        n++;
    if (index - units >= n)
        return NULL;
    *of = by_name(unit_spelling_table[index - units].name);
    return unit_spelling_table[index - units].spelling;
}

/* Units for printing, SI and customary. */
static const char *const usual[][2] = {
    {"1", "1"},
    {"A", "A"},
    {"V", "V"},
    {"ohm", "ohm"},
    {"mohm/m", "ohm/kft"},
    {"W", "W"},
    {"N.m", "lbf.ft"},
    {"Ah", "Ah"},
    {"uF", "uF"},
    {"m", "ft"},
    {"mm2", "in2"},
    {"L", "gal"},
    {"kg", "lb"},
    {"N", "lbf"},
    {"kPa", "psi"},
    {"degC", "degF"},
    {"K", "degF.diff"},
    {"s", "s"},
    {"km/h", "mph"},
    {"L/min", "gal/min"},
    {"Hz", "Hz"},
    {"rpm", "rpm"},
    {"deg", "deg"},
    {"H", "H"},
    {"S", "S"},
    {"W/m", "W/ft"},
};
enum { USUAL = sizeof usual / sizeof usual[0] };

const struct unit *unit_usual(struct dim d, enum unit_system system) {
    for (size_t i = 0; i < USUAL; i++) {
        const struct unit *u = by_name(usual[i][system == UNIT_CUSTOMARY]);
        if (u && dim_equal(u->dim, d))
            return u;
    }
    return NULL;
}

const struct unit *unit_difference(const struct unit *u) {
    if (!u->dim.point)
        return u;
    return by_name(u->factor == 1 ? "K" : "degF.diff");
}

double unit_to_si(const struct unit *u, double number) {
    return number * u->factor + u->offset;
}

double unit_from_si(const struct unit *u, double si) {
    return (si - u->offset) / u->factor;
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
    const char *unit, *word;
} kind[] = {
    {"1", "plain number"},
    {"A", "current"},
    {"V", "voltage"},
    {"ohm", "resistance"},
    {"ohm/m", "resistance per length"},
    {"S", "conductance"},
    {"W", "power"},
    {"W/m", "power per length"},
    {"N.m", "torque or energy"},
    {"Ah", "charge"},
    {"F", "capacitance"},
    {"H", "inductance"},
    {"m", "length"},
    {"m2", "area"},
    {"m3", "volume"},
    {"kg", "mass"},
    {"N", "force"},
    {"Pa", "pressure or stress"},
    {"degC", "temperature"},
    {"K", "temperature difference"},
    {"s", "time"},
    {"m/s", "speed"},
    {"L/min", "flow"},
    {"Hz", "frequency"},
    {"rpm", "speed of rotation"},
    {"deg", "angle"},
};
enum { KINDS = sizeof kind / sizeof kind[0] };

const char *dim_name(struct dim d, char out[UNIT_TEXT]) {
    static const char *const base[DIM_BASES] = {"m", "kg", "s",
                                                "A", "K",  "turn"};
    for (size_t i = 0; i < KINDS; i++)
        if (dim_equal(by_name(kind[i].unit)->dim, d))
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
