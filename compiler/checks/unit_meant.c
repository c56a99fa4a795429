/* unit_meant.c - units as service sheets and tired fingers write them. */
#include "checks/unit_meant.h"

#include "calc/unit.h"

#include <stdbool.h>
#include <string.h>

enum { ROOM = 20 }; /* for the longest spelling of the table */

/* What no spelling of the table comes near. */
static const struct {
    const char *written, *unit;
} other[] = {
    {"mkg", "m.kg"}, /* on older metric sheets (from memory) */
    {"thousandth", "thou"},
    {"thousandths", "thou"},
};

/* Behind "a": what has amperes, so that "2 a side" is no current. */
static const char *const rated[] = {"fuse",  "breaker", "relay",
                                    "link",  "supply",  "alternator",
                                    "blade", "circuit", "charger"};

static char small(char c) {
    return c >= 'A' && c <= 'Z' ? (char)(c - 'A' + 'a') : c;
}

static bool is_letter(char c) {
    c = small(c);
    return (c >= 'a' && c <= 'z') || (unsigned char)c >= 0x80;
}

static bool is_alnum(struct text t, size_t at) {
    return at < t.len && (is_letter(t.start[at]) ||
                          (t.start[at] >= '0' && t.start[at] <= '9'));
}

/* A word in small letters without its dots and hyphens: "p.s.i." is "psi". The
 * bytes used; 0 where it is no word or too long. */
static size_t read_word(struct text t, char out[ROOM + 2]) {
    size_t n = 0, at = 0;
    bool parted = false;
    while (at < t.len && n <= ROOM) {
        bool sign = t.start[at] == '.' || t.start[at] == '-';
        if (is_letter(t.start[at]))
            out[n++] = small(t.start[at]);
        else if (!sign || n == 0 || at + 1 >= t.len ||
                 !is_letter(t.start[at + 1]))
            break;
        parted = parted || sign;
        at++;
    }
    out[n] = '\0';
    if (n == 0 || n > ROOM || is_alnum(t, at))
        return 0;
    if (parted && at < t.len && t.start[at] == '.' && out[1] != '\0' &&
        t.start[at - 2] == '.')
        at++; /* the last dot of p.s.i. */
    return at;
}

/* Whether two spellings differ in capitals alone, and in `dots` where a word
 * has none. */
static bool same(const char *word, const char *spelling, bool dots) {
    for (;; word++, spelling++) {
        while (!dots && *spelling == '.')
            spelling++;
        if (small(*spelling) != *word)
            return false;
        if (*word == '\0')
            return true;
    }
}

static const char *spelling_of(const char *word, bool dots) {
    const struct unit *of;
    const char *s;
    for (size_t i = 0; !dots && i < sizeof other / sizeof other[0]; i++)
        if (strcmp(word, other[i].written) == 0)
            return other[i].unit;
    for (size_t i = 0; (s = unit_spelling_at(i, &of)) != NULL; i++)
        if (same(word, s, dots))
            return of->name;
    return NULL;
}

/* "FT LBS": two words of a spelling that has two. */
static size_t read_two(struct text t, const char **meant) {
    char first[ROOM + 2], second[ROOM + 2], both[2 * ROOM + 4];
    size_t used = read_word(t, first);
    if (used == 0 || used >= t.len || t.start[used] != ' ')
        return 0;
    size_t more = read_word(text_part(t, used + 1, t.len), second);
    if (more == 0)
        return 0;
    strcpy(both, first);
    strcat(both, ".");
    strcat(both, second);
    *meant = spelling_of(both, true);
    return *meant == NULL ? 0 : used + 1 + more;
}

static bool is_rated(struct text t) {
    for (size_t i = 0; i < sizeof rated / sizeof rated[0]; i++)
        if (text_starts(t, rated[i]))
            return true;
    return false;
}

/* "4 gauge wire"; the 2 gauges of a dash have no size. */
static bool is_wire_size(const char *word, struct text behind) {
    behind = text_trim(behind);
    return (strcmp(word, "gauge") == 0 || strcmp(word, "ga") == 0) &&
           (text_starts(behind, "wire") || text_starts(behind, "cable") ||
            text_starts(behind, "lead"));
}

static size_t read_letter(struct text t, char letter, const char **meant) {
    *meant = letter == 'v'   ? "V"
             : letter == 'w' ? "W"
             : letter == 'a' && is_rated(text_trim(text_part(t, 1, t.len)))
                 ? "A"
                 : NULL;
    return *meant == NULL ? 0 : 1;
}

size_t unit_meant(struct text rest, const char **meant) {
    char word[ROOM + 2];
    size_t used = read_two(rest, meant);
    if (used > 0)
        return used;
    used = read_word(rest, word);
    size_t len = used == 0 ? 0 : strlen(word);
    if (len == 0 || strcmp(word, "us") == 0) /* 2 US bolts */
        return 0;
    if (len == 1)
        return read_letter(rest, word[0], meant);
    if (is_wire_size(word, text_part(rest, used, rest.len))) {
        *meant = "AWG";
        return used;
    }
    *meant = spelling_of(word, false);
    if (*meant == NULL && len > 2 && word[len - 1] == 's') {
        word[len - 1] = '\0';
        *meant = spelling_of(word, false);
    }
    return *meant == NULL ? 0 : used;
}
