/* circuit_word.c - words of an element's line: parts, terminals, colours.
 *
 * Terminals of relays: 30 supply, 87 closed when energized, 87a closed at rest,
 * 87b a second 87; 85 and 86 the coil (DIN 72552). */
#include "source/circuit_word.h"

#include <string.h>

static const char *const parts[CIRCUIT_PARTS] = {
    [CIRCUIT_FUSE] = "fuse",     [CIRCUIT_BREAKER] = "breaker",
    [CIRCUIT_WIRE] = "wire",     [CIRCUIT_SWITCH] = "switch",
    [CIRCUIT_COIL] = "coil",     [CIRCUIT_CONTACT] = "contact",
    [CIRCUIT_DIODE] = "diode",   [CIRCUIT_CONNECTOR] = "connector",
    [CIRCUIT_SPLICE] = "splice", [CIRCUIT_JOINT] = "joint",
    [CIRCUIT_LOAD] = "load"};

const char *circuit_part_word(enum circuit_part p) {
    return parts[p];
}

bool circuit_word_part(struct text word, enum circuit_part *out,
                       const char **nearest) {
    static const char *const others[] = {"from", "to", "supply", "state"};
    struct nearest n = nearest_to(word);
    for (int i = 0; i < CIRCUIT_PARTS; i++) {
        if (text_is(word, parts[i])) {
            *out = (enum circuit_part)i;
            return true;
        }
        nearest_offer(&n, text_of(parts[i]));
    }
    for (size_t i = 0; i < sizeof others / sizeof others[0]; i++)
        nearest_offer(&n, text_of(others[i]));
    *nearest = n.best;
    return false;
}

/* "87", "87a", "A1", "58L", "A", "NO": digits with a letter before or behind
 * them, or one or two capitals; a plain word is none: 7-pin, push-pull. */
static bool is_terminal(struct text t) {
    size_t digits = 0, capitals = 0, letters = 0;
    for (size_t i = 0; i < t.len; i++) {
        char c = t.start[i];
        bool digit = c >= '0' && c <= '9', capital = c >= 'A' && c <= 'Z';
        if (!digit && !capital && (c < 'a' || c > 'z'))
            return false;
        digits += digit;
        capitals += capital;
        letters += !digit;
    }
    return t.len <= 4 &&
           (digits > 0 ? letters <= 1
                       : letters > 0 && letters <= 2 && letters == capitals);
}

bool circuit_word_pair(struct text word, struct text terminal[2]) {
    const char *dash = memchr(word.start, '-', word.len);
    if (dash == NULL)
        return false;
    size_t at = (size_t)(dash - word.start);
    struct text a = text_part(word, 0, at);
    struct text b = text_part(word, at + 1, word.len);
    if (!is_terminal(a) || !is_terminal(b))
        return false;
    terminal[0] = a;
    terminal[1] = b;
    return true;
}

static bool is_pair(const struct text t[2], const char *a, const char *b) {
    return (text_is(t[0], a) && text_is(t[1], b)) ||
           (text_is(t[0], b) && text_is(t[1], a));
}

bool circuit_word_fits(enum circuit_part part, const struct text terminal[2],
                       const char **cure) {
    *cure = "";
    if (part == CIRCUIT_CONTACT) {
        *cure = "a contact is 30-87, 30-87a or 30-87b, or the other way round";
        return is_pair(terminal, "30", "87") ||
               is_pair(terminal, "30", "87a") || is_pair(terminal, "30", "87b");
    }
    if (part == CIRCUIT_COIL) {
        *cure = "a coil is 86-85 or 85-86";
        return is_pair(terminal, "85", "86");
    }
    *cure = "both are one; name two, as in 1-2";
    return part == CIRCUIT_CONNECTOR || /* 4-4: from half to half */
           !text_equal(terminal[0], terminal[1]);
}

/* The names of IEC 60757. */
static bool is_colour(struct text t) {
    static const char *const names[] = {
        "black",      "brown",     "red",         "orange",    "yellow",
        "green",      "blue",      "violet",      "purple",    "grey",
        "gray",       "white",     "pink",        "turquoise", "tan",
        "light blue", "dark blue", "light green", "dark green"};
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++)
        if (text_is(t, names[i]))
            return true;
    return false;
}

bool circuit_word_colour(struct text word, struct text colour[2]) {
    const char *slash = memchr(word.start, '/', word.len);
    struct text first = word, second = {NULL, 0};
    if (slash != NULL) {
        size_t at = (size_t)(slash - word.start);
        first = text_trim(text_part(word, 0, at));
        second = text_trim(text_part(word, at + 1, word.len));
    }
    if (!is_colour(first) || (slash != NULL && !is_colour(second)))
        return false;
    colour[0] = first;
    colour[1] = second;
    return true;
}

static bool is_one_of(struct text word, const char *all) {
    for (const char *from = all;;) {
        size_t len = strcspn(from, ",");
        if (text_equal(word, (struct text){from, len}))
            return true;
        if (from[len] == '\0')
            return false;
        from += len + 2;
    }
}

bool circuit_word_position(enum circuit_part part, struct text word,
                           const char **all) {
    switch (part) {
    case CIRCUIT_FUSE:
    case CIRCUIT_BREAKER:
    case CIRCUIT_SWITCH:
    case CIRCUIT_CONTACT:
    case CIRCUIT_CONNECTOR:
    case CIRCUIT_WIRE:
    case CIRCUIT_SPLICE:
    case CIRCUIT_JOINT:
    case CIRCUIT_DIODE:
        *all = "open, closed";
        break;
    case CIRCUIT_COIL:
        *all = "open, closed";
        break;
    case CIRCUIT_LOAD:
        *all = "running, starting, stalled, off";
        break;
    case CIRCUIT_PARTS:
        return false;
    }
    return is_one_of(word, *all);
}
