/* thread.c - reading a thread, its areas and limits. */
#include "calc/thread.h"
#include "calc/thread_table.h"
#include "calc/word.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#define PI 3.14159265358979323846
#define MM 1e-3
#define INCH 0.0254
#define SAME 1e-6

/* What is left of a written thread while it is read. */
struct rest {
    const char *at;
    size_t len;
};

static bool same(double a, double b) {
    return fabs(a - b) < SAME;
}

static bool digit(char c) {
    return c >= '0' && c <= '9';
}

static void skip_blanks(struct rest *r) {
    while (r->len > 0 && *r->at == ' ') {
        r->at++;
        r->len--;
    }
}

static char upper(char c) {
    return c >= 'a' && c <= 'z' ? (char)(c - 'a' + 'A') : c;
}

/* s in capitals. */
static bool take(struct rest *r, const char *s) {
    size_t n = strlen(s);
    if (r->len < n)
        return false;
    for (size_t i = 0; i < n; i++)
        if (upper(r->at[i]) != s[i])
            return false;
    r->at += n;
    r->len -= n;
    return true;
}

/* A decimal number without sign or exponent. */
static bool take_number(struct rest *r, double *out) {
    double value = 0, unit = 1;
    bool point = false, any = false;
    struct rest was = *r;
    while (r->len > 0 && (digit(*r->at) || (*r->at == '.' && !point))) {
        if (*r->at == '.') {
            point = true;
        } else {
            value = value * 10 + (*r->at - '0');
            unit *= point ? 10 : 1;
            any = true;
        }
        r->at++;
        r->len--;
    }
    *out = value / unit;
    if (!any)
        *r = was;
    return any;
}

static bool take_fraction(struct rest *r, double *out) {
    struct rest was = *r;
    double above, below;
    if (take_number(r, &above) && take(r, "/") && take_number(r, &below) &&
        below > 0) {
        *out = above / below;
        return true;
    }
    *r = was;
    return false;
}

/* Takes a class of fit off the end: "-2A", " 6g", "-6H". */
static void drop_class(struct rest *r) {
    static const char *const fits[] = {"1A", "2A", "3A", "1B", "2B", "3B",
                                       "6g", "6H", "6e", "6h", "4H", "5H"};
    for (size_t i = 0; i < sizeof fits / sizeof fits[0]; i++) {
        size_t n = strlen(fits[i]);
        if (r->len <= n + 1 || memcmp(r->at + r->len - n, fits[i], n) != 0)
            continue;
        char joint = r->at[r->len - n - 1];
        if (joint != '-' && joint != ' ')
            continue;
        r->len -= n + 1;
        while (r->len > 0 && r->at[r->len - 1] == ' ')
            r->len--;
        return;
    }
}

static void set_profile(struct thread *t, double root, double stress) {
    double d = t->diameter, p = t->pitch;
    t->pitch_diameter = d - 0.649519 * p;
    t->minor = d - 1.082532 * p;
    t->root = d - root * p;
    t->stress_area = PI / 4 * (d - stress * p) * (d - stress * p);
}

static enum thread_found read_metric(struct rest r, struct thread *t) {
    double d, p = 0;
    skip_blanks(&r);
    if (!take_number(&r, &d))
        return THREAD_UNREADABLE;
    skip_blanks(&r);
    if (r.len > 0) {
        if (!take(&r, "X") && !take(&r, "\xc3\x97") && !take(&r, "*") &&
            !take(&r, "-"))
            return THREAD_UNREADABLE;
        skip_blanks(&r);
        if (!take_number(&r, &p) || p == 0 || r.len > 0)
            return THREAD_UNREADABLE;
    }
    for (const struct metric_row *m = metric_table; m->diameter > 0; m++) {
        if (!same(m->diameter, d))
            continue;
        t->series = THREAD_COARSE;
        bool known = m->coarse > 0 && (p == 0 || same(p, m->coarse));
        if (known)
            p = m->coarse;
        for (int i = 0; i < METRIC_FINE && !known && p > 0; i++) {
            known = same(p, m->fine[i]);
            t->series = THREAD_FINE;
        }
        if (!known)
            return p == 0 ? THREAD_PITCH_MISSING : THREAD_UNKNOWN;
        t->diameter = d * MM;
        t->pitch = p * MM;
        /* d3 = d - 1.226869 P; As uses (d2 + d3)/2. ISO 68-1, ISO 898-1 9.1.6
         */
        set_profile(t, 1.226869, 0.938194);
        snprintf(t->name, sizeof t->name, "M%g x %g", d, p);
        return THREAD_FOUND;
    }
    return THREAD_UNKNOWN;
}

/* Constant-pitch series, and the smallest diameter (in) that each is for. */
static bool constant_pitch(double diameter, double per_inch) {
    static const struct {
        double per_inch, from;
    } series[] = {{6, 1.375}, {8, 1},     {12, 0.5625}, {16, 0.375},
                  {20, 0.25}, {28, 0.25}, {32, 0.25}};
    for (size_t i = 0; i < sizeof series / sizeof series[0]; i++)
        if (same(per_inch, series[i].per_inch))
            return diameter >= series[i].from - SAME;
    return false;
}

static const char *const series_word[] = {
    [THREAD_COARSE] = "UNC",  [THREAD_FINE] = "UNF",    [THREAD_EXTRA] = "UNEF",
    [THREAD_CONSTANT] = "UN", [THREAD_SPECIAL] = "UNS",
};

/* The series of a pair; false when there is none. 1-14 is UNS, though old
 * tables call it NF. */
static bool series_of(const struct unified_row *u, double per_inch,
                      enum thread_series *out) {
    const double standard[] = {u->coarse, u->fine, u->extra};
    for (int s = THREAD_COARSE; s <= THREAD_EXTRA; s++) {
        if (same(standard[s], per_inch)) {
            *out = (enum thread_series)s;
            return true;
        }
    }
    bool uns = same(u->diameter, 1) && same(per_inch, 14);
    *out = uns ? THREAD_SPECIAL : THREAD_CONSTANT;
    return uns || constant_pitch(u->diameter, per_inch);
}

/* Series word at the end: -1 none, -2 unreadable. "NC" and "NF" are the old
 * names. */
static int series_read(struct rest r) {
    skip_blanks(&r);
    if (r.len == 0)
        return -1;
    for (int s = THREAD_COARSE; s <= THREAD_SPECIAL; s++)
        if (word_is(r.at, r.len, series_word[s]))
            return s;
    if (word_is(r.at, r.len, "NC"))
        return THREAD_COARSE;
    return word_is(r.at, r.len, "NF") ? THREAD_FINE : -2;
}

static enum thread_found set_unified(struct thread *t,
                                     const struct unified_row *u,
                                     double per_inch, int wanted) {
    enum thread_series series;
    if (per_inch == 0) {
        if (wanted < 0 || wanted > THREAD_EXTRA)
            return THREAD_PITCH_MISSING;
        per_inch = wanted == THREAD_COARSE ? u->coarse
                   : wanted == THREAD_FINE ? u->fine
                                           : u->extra;
        if (per_inch == 0)
            return THREAD_UNKNOWN;
    }
    if (!series_of(u, per_inch, &series)) {
        if (wanted != THREAD_SPECIAL)
            return THREAD_UNKNOWN;
        series = THREAD_SPECIAL;
    }
    if (wanted >= 0 && (enum thread_series)wanted != series)
        return THREAD_SERIES_WRONG;
    t->unified = true;
    t->series = series;
    t->diameter = u->diameter * INCH;
    t->pitch = INCH / per_inch;
    /* Sharp root, d - 1.299038 P; stress area with 0.9743/n. FED-STD-H28,
     * ASME B1.1. */
    set_profile(t, 1.299038, 0.9743);
    snprintf(t->name, sizeof t->name, "%s-%g %s", u->name, per_inch,
             series_word[series]);
    return THREAD_FOUND;
}

static const struct unified_row *unified_row(double diameter, bool gauge) {
    for (const struct unified_row *u = unified_table; u->name; u++) {
        double number = 0;
        struct rest r = {u->name + 1, strlen(u->name + 1)};
        bool is_gauge = u->name[0] == '#' && take_number(&r, &number);
        if (is_gauge == gauge && same(gauge ? number : u->diameter, diameter))
            return u;
    }
    return NULL;
}

/* "1/2", "1-1/8", "1 1/8", "0.250", "1": inches. */
static bool take_inches(struct rest *r, double *out) {
    if (take_fraction(r, out))
        return true;
    if (!take_number(r, out))
        return false;
    struct rest was = *r;
    double part;
    if ((take(r, "-") || take(r, " ")) && take_fraction(r, &part) && part < 1)
        *out += part;
    else
        *r = was;
    return true;
}

static enum thread_found read_unified(struct rest r, struct thread *t) {
    double size, per_inch = 0;
    bool gauge = take(&r, "#") || take(&r, "NO.") || take(&r, "NO ");
    skip_blanks(&r);
    if (gauge ? !take_number(&r, &size) : !take_inches(&r, &size))
        return THREAD_UNREADABLE;
    bool inches = take(&r, "\"");
    skip_blanks(&r);
    if (take(&r, "-")) {
        skip_blanks(&r);
        if (!take_number(&r, &per_inch) || per_inch == 0)
            return THREAD_UNREADABLE;
    }
    int wanted = series_read(r);
    if (wanted == -2)
        return THREAD_UNREADABLE;

    /* A bare whole number is a gauge where such a gauge has this pitch: 10-32,
     * but 1-8. */
    enum thread_found found = THREAD_UNKNOWN;
    const struct unified_row *u;
    bool maybe = !inches && per_inch > 0 && wanted != THREAD_SPECIAL;
    if ((gauge || maybe) && (u = unified_row(size, true)))
        found = set_unified(t, u, per_inch, wanted);
    if (!gauge && found != THREAD_FOUND && (u = unified_row(size, false)))
        found = set_unified(t, u, per_inch, wanted);
    return found;
}

enum thread_found thread_read(const char *text, size_t len,
                              struct thread *out) {
    struct rest r = {text, len};
    struct thread t = {.unified = false};
    word_trim(&r.at, &r.len);
    drop_class(&r);
    enum thread_found found =
        take(&r, "M") ? read_metric(r, &t) : read_unified(r, &t);
    if (found == THREAD_FOUND)
        *out = t;
    return found;
}
