/* misread.c - words that are no unit, name or operator: what was meant. */
#include "values/misread.h"

#include "base/arena.h"
#include "calc/unit.h"
#include "source/suggest.h"

#include <string.h>

static bool is_digit(char c) {
    return c >= '0' && c <= '9';
}

static const char feet_and_inches[] =
    "write feet and inches in one unit: 5.5 ft or 66 in";

static char at(struct text t, size_t i) {
    return i < t.len ? t.start[i] : '\0';
}

/* An operator that touches what stands before or behind it. */
static bool is_joined(struct text word) {
    for (size_t i = 0; i < word.len && word.len > 1; i++)
        if (strchr("+-*/<>=", word.start[i]) != NULL)
            return true;
    return false;
}

/* "+1", "V+1", "*3": no unit has such a sign in it, N*m apart. */
static bool is_sum(struct text word) {
    for (size_t i = 0; i < word.len; i++)
        if (strchr(i == 0 ? "+*/<>=" : "+<>=", word.start[i]) != NULL)
            return true;
    return false;
}

/* The digits behind the number that go wrong: 1e3, 1_000, 5'6". */
static const char *number_trouble(struct text word) {
    bool digit = is_digit(at(word, 1));
    switch (at(word, 0)) {
    case 'e':
    case 'E':
        return digit || ((at(word, 1) == '-' || at(word, 1) == '+') &&
                         is_digit(at(word, 2)))
                   ? "write the number with all its digits"
                   : NULL;
    case '.':
        return digit ? "it has two points" : "write a digit behind the point";
    case '\'':
        return digit ? feet_and_inches : NULL;
    case '_':
        return digit ? "write the number without it" : NULL;
    default:
        return NULL;
    }
}

/* "V-14.4V", behind 13.8: a unit, a hyphen and a number. */
static bool is_span(struct text word) {
    for (size_t i = 1; i + 1 < word.len; i++)
        if (word.start[i] == '-' && is_digit(word.start[i + 1]))
            return unit_find(word.start, i) != NULL;
    return false;
}

/* “ ” „ */
static bool is_curly(struct text word) {
    return text_starts(word, "\xE2\x80\x9C") ||
           text_starts(word, "\xE2\x80\x9D") ||
           text_starts(word, "\xE2\x80\x9E");
}

/* ' ‘ ’ */
static bool is_single(struct text word) {
    return at(word, 0) == '\'' || text_starts(word, "\xE2\x80\x98") ||
           text_starts(word, "\xE2\x80\x99");
}

const char *misread_cure(struct text word) {
    static const char either[] = "write ± or +/-";
    static const char most[] = "an upper limit is written <= 0.1 V";
    static const char least[] = "a lower limit is written >= 11.4 V";
    static const char range[] = "a range is written 4 V to 5 V";
    static const char about[] = "say how far off it may be: 4 V ± 0.5 V";
    static const char current[] = "write the unit alone";
    static const char answer[] =
        "a limit that is no figure is written no, or yes";
    static const struct {
        const char *word, *cure;
    } rows[] = {
        {"plus-minus", either}, {"plus/minus", either},  {"+-", either},
        {"max", most},          {"max.", most},          {"maximum", most},
        {"less", most},         {"under", most},         {"below", most},
        {"min", least},         {"min.", least},         {"minimum", least},
        {"more", least},        {"over", least},         {"above", least},
        {"about", about},       {"approx.", about},      {"roughly", about},
        {"~", about},           {"DC", current},         {"AC", current},
        {"dc", current},        {"ac", current},         {"...", range},
        {"..", range},          {"\xE2\x80\xA6", range}, {"through", range},
        {"none", answer},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
        if (text_is(word, rows[i].word))
            return rows[i].cure;
    if (word.len > 3 && is_curly(word))
        return "a source stands in straight quotes: \"tape\"";
    if (is_single(word) && word.len > (at(word, 0) == '\'' ? 1 : 3))
        return "a source stands in double quotes: \"tape\"";
    if (text_is(word, "\xE2\x80\x93") || text_is(word, "\xE2\x80\x94"))
        return "a range is written 4 V to 5 V, a difference 5 V - 4 V";
    for (size_t i = 0; i < word.len && word.len > 3; i++) /* an en dash */
        if (text_starts(text_part(word, i, word.len), "\xE2\x80\x93"))
            return range;
    bool minus = text_starts(word, "\xE2\x88\x92") && is_digit(at(word, 3));
    return minus || (at(word, 0) == '-' && is_digit(at(word, 1))) ||
                   is_span(word)
               ? range
               : NULL;
}

bool misread_energy(const struct unit *read, const struct unit *wanted) {
    char name[UNIT_TEXT];
    return read != NULL && wanted != NULL && unit_is_energy(read) &&
           strcmp(unit_measures(wanted, name), "torque") == 0;
}

const char *misread_meant(struct arena *a, const struct unit *read,
                          struct dim wanted) {
    static const struct {
        const char *read, *wanted, *meant;
    } rows[] = {
        {"C", "degC", "degC for degrees Celsius"},
        {"F", "degF", "degF for degrees Fahrenheit"},
        {"lb", "N.m", "lbf.ft or lbf.in for a torque"},
        {"lbf", "N.m", "lbf.ft or lbf.in for a torque"},
        {"oz", "N.m", "ozf.in for a torque"},
        {"kg", "N.m", "N.m, or kgf.m, for a torque"},
        {"J", "N.m", "N.m or lbf.ft for a torque"},
        {"kJ", "N.m", "N.m or lbf.ft for a torque"},
        {"lb", "N", "lbf for a force"},
        {"kg", "N", "kgf for a force"},
    };
    for (size_t i = 0; read != NULL && i < sizeof rows / sizeof rows[0]; i++) {
        const struct unit *u =
            unit_find(rows[i].wanted, strlen(rows[i].wanted));
        if (strcmp(read->name, rows[i].read) == 0 && dim_same(u->dim, wanted))
            return arena_printf(a, "; write %s", rows[i].meant);
    }
    struct dim per = dim_quotient(unit_find("lb", 2)->dim,
                                  unit_find("ft", 2)->dim); /* lb/ft, ft/lb */
    struct dim torque = unit_find("N.m", 3)->dim;
    if (read != NULL && dim_same(wanted, torque) &&
        (dim_same(read->dim, per) || dim_none(dim_product(read->dim, per))))
        return "; write lbf.ft or lbf.in for a torque";
    return "";
}

const char *misread_degrees(struct arena *a, const struct unit *read,
                            const char *figure) {
    static const struct {
        const char *read, *is, *meant;
    } rows[] = {
        {"C", "charge", "degC for degrees Celsius, or A.s for a charge"},
        {"F", "capacitance",
         "degF for degrees Fahrenheit, or mF for a capacitance"},
    };
    for (size_t i = 0; read != NULL && i < sizeof rows / sizeof rows[0]; i++)
        if (strcmp(read->name, rows[i].read) == 0)
            return arena_printf(a, "%s is a %s; write %s", figure, rows[i].is,
                                rows[i].meant);
    return NULL;
}

const char *misread_end(struct scan *s, const struct nearest *near) {
    return suggest(s->arena, near->wanted,
                   (struct text){near->best, near->best_len});
}

/* Volts for volts, v for V. */
static void offer_small_letters(struct scan *s, struct nearest *near) {
    struct text word = near->wanted;
    char *small = arena_copy(s->arena, word.start, word.len);
    for (size_t i = 0; i < word.len; i++)
        if (small[i] >= 'A' && small[i] <= 'Z')
            small[i] = (char)(small[i] - 'A' + 'a');
    if (unit_find(small, word.len) != NULL)
        nearest_offer(near, (struct text){small, word.len});
}

/* What the trade or a keyboard writes for a unit; NULL: no such word. */
static const char *said_for(struct text word) {
    static const struct {
        const char *word, *unit;
    } rows[] = {
        {"nm", "N.m"},
        {"NM", "N.m"},
        {"nM", "N.m"},
        {"mkg", "kgf.m"},
        {"mkp", "kgf.m"},
        {"kpm", "kgf.m"},
        {"VDC", "V"},
        {"Vdc", "V"},
        {"VAC", "V"},
        {"Vac", "V"},
        {"ADC", "A"},
        {"Ltr", "L"},
        {"ltr", "L"},
        {"mtr", "m"},
        {"gauge", "AWG"},
        {"gage", "AWG"},
        {"ga", "AWG"},
        {"degs", "deg"},
        {"\xC2\xBA", "deg"}, /* º */
        {"\xCB\x9A", "deg"}, /* ˚ */
        {"\xC2\xBA"
         "C",
         "degC"},
        {"\xCB\x9A"
         "C",
         "degC"},
        {"\xC2\xBA"
         "F",
         "degF"},
        {"\xCB\x9A"
         "F",
         "degF"},
        {"\xE2\x80\x99", "ft"}, /* ’ */
        {"\xE2\x80\x9D", "in"}, /* ” */
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
        if (text_is(word, rows[i].word))
            return rows[i].unit;
    return NULL;
}

static void report_unit(struct scan *s, struct text word) {
    struct nearest near = nearest_to(word);
    const struct unit *u;
    offer_small_letters(s, &near); /* before what is only as near */
    for (size_t i = 0; (u = unit_at(i)) != NULL; i++)
        nearest_offer(&near, text_of(u->name));
    nearest_offer(&near, text_of("AWG"));
    const char *said = said_for(word);
    if (said != NULL)
        near = (struct nearest){word, said, strlen(said), 0};
    const char *spelling; /* where no name is near, any way to write one */
    for (size_t i = 0; near.best == NULL; i++) {
        if ((spelling = unit_spelling_at(i, &u)) == NULL)
            break;
        struct nearest one = nearest_to(word);
        nearest_offer(&one, text_of(spelling));
        if (one.best != NULL && one.distance <= 3)
            near = one;
    }
    scan_fail(s, DIAG_UNIT_UNKNOWN, s->at, s->at + word.len, "'%.*s'%s",
              (int)word.len, word.start, misread_end(s, &near));
}

void misread_unit(struct scan *s, struct text word, bool touching) {
    size_t end = s->at + word.len;
    const char *trouble = touching ? number_trouble(word) : NULL;
    const char *cure = misread_cure(word);
    if (trouble != NULL)
        scan_fail(s, DIAG_NUMBER_FORM, s->at, end, "at '%.*s': %s",
                  (int)word.len, word.start, trouble);
    else if (is_sum(word) || cure != NULL)
        misread_word(s, word);
    else
        report_unit(s, word);
}

/* A sign in front of all: a limit was meant. */
static const char *limit_cure(const struct scan *s, struct text word) {
    bool first = text_trim(text_part(s->text, 0, s->at)).len == 0;
    return !first               ? NULL
           : at(word, 0) == '<' ? misread_cure(text_of("max"))
           : at(word, 0) == '>' ? misread_cure(text_of("min"))
                                : NULL;
}

/* "16 ft 6 in", "16' 6\"": a number right behind a length. */
static const char *inches_cure(const struct scan *s, struct text word) {
    struct text before = text_trim(text_part(s->text, 0, s->at));
    bool feet = before.len > 1 &&
                (before.start[before.len - 1] == '\'' ||
                 text_is(text_part(before, before.len - 2, before.len), "ft"));
    return feet && is_digit(at(word, 0)) ? feet_and_inches : NULL;
}

/* "12 N.m, then 25 N.m": one figure stands in one place. */
static const char *stages_cure(const struct scan *s, struct text word) {
    struct text rest =
        text_trim(text_part(s->text, s->at + word.len, s->text.len));
    return text_is(word, ",") && text_starts(rest, "then ")
               ? "one figure stands here, the last stage; a step tells those "
                 "before it: to {12 N.m}, then to {NAME.torque}"
               : NULL;
}

/* A word in place of a figure that was not taken. */
static const char *none_cure(const struct scan *s, struct text word) {
    static const char *const words[] = {"n/a", "N/A",          "-",
                                        "--",  "\xE2\x80\x93", "\xE2\x80\x94"};
    for (size_t i = 0; i < sizeof words / sizeof words[0]; i++)
        if (text_is(word, words[i]) && text_is(text_trim(s->text), words[i]))
            return "where there is no figure leave it empty";
    return NULL;
}

const char *misread_words(struct scan *s, struct text word) {
    static const char *const links[] = {"to", "at", "of", "per"};
    size_t end = s->at + word.len;
    struct text rest = text_part(s->text, end, s->text.len), next;
    if (rest.len == 0 || rest.start[0] != ' ')
        return "";
    rest = text_trim(rest);
    text_next_part(&rest, ' ', &next);
    char first = at(next, 0);
    if (!((first >= 'a' && first <= 'z') || (first >= 'A' && first <= 'Z')))
        return "";
    for (size_t i = 0; i < sizeof links / sizeof links[0]; i++)
        if (text_is(next, links[i]))
            return "";
    return arena_printf(s->arena, "; words stand in quotes: \"%.*s\"",
                        (int)s->text.len, s->text.start);
}

const char *misread_span(struct scan *s) {
    size_t n = 0;
    while (is_digit(at(s->text, n)) || at(s->text, n) == '.')
        n++;
    return n > 0 && at(s->text, n) == '-' && is_digit(at(s->text, n + 1))
               ? "; a range is written 4 V to 5 V"
               : "";
}

const char *misread_bare(struct arena *a, struct text t, struct dim wanted) {
    t = text_trim(t);
    const struct unit *us = unit_usual(wanted, UNIT_CUSTOMARY);
    const struct unit *si = unit_usual(wanted, UNIT_SI);
    for (size_t i = 0; i < t.len; i++)
        if (!is_digit(t.start[i]) && (i == 0 || t.start[i] != '.'))
            return "";
    if (t.len == 0 || us == NULL || si == NULL)
        return "";
    return us == si
               ? arena_printf(a, "; write %.*s %s", (int)t.len, t.start,
                              si->name)
               : arena_printf(a, "; write %.*s %s or %.*s %s", (int)t.len,
                              t.start, us->name, (int)t.len, t.start, si->name);
}

void misread_word(struct scan *s, struct text word) {
    size_t end = s->at + word.len;
    struct nearest none = nearest_to(word);
    const char *cure = limit_cure(s, word);
    if (cure == NULL)
        cure = inches_cure(s, word);
    if (cure == NULL)
        cure = none_cure(s, word);
    if (cure == NULL)
        cure = stages_cure(s, word);
    if (cure == NULL)
        cure = misread_cure(word);
    if (word.len == 0)
        scan_fail(s, DIAG_EXPRESSION_FORM, s->at, s->at,
                  "something is missing here");
    else if (cure != NULL)
        scan_fail(s, DIAG_EXPRESSION_FORM, s->at, end, "at '%.*s'; %s",
                  (int)word.len, word.start, cure);
    else if (is_joined(word))
        scan_fail(s, DIAG_EXPRESSION_FORM, s->at, end,
                  "'%.*s' is one word: an operator has a blank on each side",
                  (int)word.len, word.start);
    else
        scan_fail(s, DIAG_EXPRESSION_FORM, s->at, end, "at '%.*s'%s",
                  (int)word.len, word.start, misread_end(s, &none));
}
