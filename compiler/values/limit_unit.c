/* limit_unit.c - the unit that a limit must have, by what it is the limit of.
 *
 * A bare number is a limit of a count, a ratio or a specific gravity. Beside
 * "voltage" it is a unit forgotten: <= 0.35 might be read as 0.35 mV. */
#include "values/limit_unit.h"

#include <stddef.h>

struct word {
    const char *word, *unit; /* unit NULL: whatever else it says, no unit */
};

static const struct word words[] = {
    {"ratio", NULL},
    {"number", NULL},
    {"count", NULL},
    {"share", NULL},
    {"factor", NULL},
    {"gravity", NULL},
    {"code", NULL},
    {"codes", NULL},
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
enum { WORDS = sizeof words / sizeof words[0] };

static bool is_letter(char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == '-';
}

/* In small or capital letters. */
static bool starts(struct text t, const char *word) {
    size_t i = 0;
    while (word[i] != '\0' && i < t.len &&
           (t.start[i] == word[i] || t.start[i] == word[i] - 'a' + 'A'))
        i++;
    return word[i] == '\0' && (i == t.len || !is_letter(t.start[i]));
}

static bool says(struct text t, const char *word) {
    for (size_t i = 0; i < t.len; i++)
        if ((i == 0 || !is_letter(t.start[i - 1])) &&
            starts(text_part(t, i, t.len), word))
            return true;
    return false;
}

const char *limit_unit_wanted(struct text characteristic) {
    struct text head;
    text_next_part(&characteristic, ',', &head);
    for (size_t i = 0; i < WORDS; i++)
        if (says(head, words[i].word))
            return words[i].unit;
    return NULL;
}
