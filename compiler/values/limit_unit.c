/* limit_unit.c - the unit that a limit must have, by what it is the limit of.
 *
 * A bare number is a limit of a count, a ratio or a specific gravity. Beside
 * "voltage" it is a unit forgotten: <= 0.35 might be read as 0.35 mV. */
#include "values/limit_unit.h"

#include <stddef.h>

struct word {
    const char *word, *unit;
};

/* Each in one or in many: voltage, voltages; thickness, thicknesses. */
static const struct word quantities[] = {
    {"voltage", "V"},
    {"volts", "V"},
    {"current", "A"},
    {"amps", "A"},
    {"amperes", "A"},
    {"resistance", "ohm"},
    {"pressure", "psi"},
    {"torque", "lbf\xC2\xB7"
               "ft"},
    {"temperature", "degC"},
    {"length", "in"},
    {"clearance", "in"},
    {"run-out", "in"},
    {"runout", "in"},
    {"thickness", "in"},
    {"capacitance", "F"},
    {"weight", "lb"},
};
/* What has no unit, whatever else is said: "voltage, ratio to resting". */
static const char *const numbers[] = {
    "ratio",   "number",   "count", "share", "factor",
    "gravity", "fraction", "index", "code",
};
/* What is counted, unless it is a place: "bars shown", but "between the
 * marks". */
static const char *const counted[] = {
    "turns",  "bars",    "marks",     "steps",   "clicks",  "teeth",
    "pulses", "flashes", "divisions", "notches", "strands",
};
static const char *const before_a_place[] = {"the", "between", "of",
                                             "at",  "from",    "to"};
#define COUNT(list) (sizeof(list) / sizeof *(list))

static bool is_letter(char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
}

/* In small or capital letters; how much of the text the word takes, or 0. */
static size_t starts(struct text t, const char *word) {
    size_t i = 0;
    while (word[i] != '\0' && i < t.len &&
           (t.start[i] == word[i] || t.start[i] == word[i] - 'a' + 'A'))
        i++;
    return word[i] == '\0' ? i : 0;
}

static bool ends_at(struct text t, size_t i) {
    return i >= t.len || !is_letter(t.start[i]);
}

static bool starts_or_many(struct text t, const char *word) {
    size_t n = starts(t, word);
    if (n == 0)
        return false;
    struct text rest = text_part(t, n, t.len);
    return ends_at(rest, 0) || ends_at(rest, starts(rest, "s")) ||
           ends_at(rest, starts(rest, "es"));
}

/* The place of the word in the text; `len` of it: it is not there. */
static size_t find(struct text t, const char *word) {
    for (size_t i = 0; i < t.len; i++)
        if ((i == 0 || !is_letter(t.start[i - 1])) &&
            starts_or_many(text_part(t, i, t.len), word))
            return i;
    return t.len;
}

/* "the" before "marks", with any blanks between. */
static bool is_behind(struct text before, const char *word) {
    before = text_trim(before);
    size_t i = before.len;
    while (i > 0 && is_letter(before.start[i - 1]))
        i--;
    struct text last = text_part(before, i, before.len);
    return last.len > 0 && starts(last, word) == last.len;
}

static bool is_place(struct text before) {
    for (size_t i = 0; i < COUNT(before_a_place); i++)
        if (is_behind(before, before_a_place[i]))
            return true;
    return false;
}

/* Bars are counted on a gauge; of a pressure they are its unit. */
static bool is_counted(struct text t) {
    bool pressure = find(t, "pressure") < t.len;
    for (size_t i = 0; i < COUNT(counted); i++) {
        size_t at = find(t, counted[i]);
        if (at < t.len && !is_place(text_part(t, 0, at)) &&
            !(pressure && starts(text_part(t, at, t.len), "bars") > 0))
            return true;
    }
    return false;
}

const char *limit_unit_wanted(struct text characteristic) {
    struct text all = characteristic, head;
    for (size_t i = 0; i < COUNT(numbers); i++)
        if (find(all, numbers[i]) < all.len)
            return NULL;
    if (is_counted(all))
        return NULL;
    text_next_part(&characteristic, ',', &head);
    for (size_t i = 0; i < COUNT(quantities); i++)
        if (find(head, quantities[i].word) < head.len)
            return quantities[i].unit;
    return NULL;
}
