/* size.c - wire sizes: reading a written one, walking up and down. */
#include "calc/size.h"
#include "calc/size_table.h"
#include "calc/word.h"

#include <string.h>

static const char *const system_name[WIRE_SYSTEMS] = {
    [WIRE_AWG_SOLID] = "AWG solid",
    [WIRE_AWG_STRANDED] = "AWG stranded",
    [WIRE_SAE] = "SAE",
    [WIRE_ISO6722] = "ISO 6722",
    [WIRE_CLASS2] = "class 2",
    [WIRE_CLASS5] = "class 5",
    [WIRE_JIS] = "JIS",
    [WIRE_AU] = "AU",
};

const char *size_system_name(enum wire_system s) {
    return s < WIRE_SYSTEMS ? system_name[s] : "undeclared";
}

enum wire_system size_system_find(const char *name, size_t len) {
    for (int s = 0; s < WIRE_SYSTEMS; s++)
        if (word_is(name, len, system_name[s]))
            return (enum wire_system)s;
    return WIRE_UNDECLARED;
}

const struct wire_size *size_at(enum wire_system s, size_t index) {
    if (s >= WIRE_SYSTEMS || index >= size_table[s].count)
        return NULL;
    return &size_table[s].row[index];
}

const struct wire_size *size_up(const struct wire_size *s) {
    const struct size_rows *t = &size_table[s->system];
    for (const struct wire_size *r = s + 1; r < t->row + t->count; r++)
        if (r->usual)
            return r;
    return NULL;
}

const struct wire_size *size_down(const struct wire_size *s) {
    const struct size_rows *t = &size_table[s->system];
    for (const struct wire_size *r = s; r > t->row; r--)
        if (r[-1].usual)
            return r - 1;
    return NULL;
}

const struct wire_size *size_of_area(enum wire_system s, double area) {
    if (s >= WIRE_SYSTEMS)
        return NULL;
    for (size_t i = 0; i < size_table[s].count; i++)
        if (size_table[s].row[i].usual &&
            size_table[s].row[i].area >= area * (1 - 1e-9))
            return &size_table[s].row[i];
    return NULL;
}

int size_compare(const struct wire_size *a, const struct wire_size *b) {
    return (a->area > b->area) - (a->area < b->area);
}

/* How a written size names its system. */
enum notation {
    NOTATION_NONE,
    NOTATION_GAUGE, /* "10 gauge": not enough, ever */
    NOTATION_AWG,
    NOTATION_SAE,
    NOTATION_MM2,
    NOTATION_AV,
    NOTATION_MM,
};

enum { NUMBER = 8 };

/* A written size: its number in the form of the tables' names. */
struct written {
    enum notation notation;
    char number[NUMBER]; /* "10", "2/0", "2.5", "0.5f" */
};

static const struct {
    const char *word;
    enum notation notation;
} sign[] = {
    {"AWG", NOTATION_AWG},        {"SAE", NOTATION_SAE},
    {"AV", NOTATION_AV},          {"mm2", NOTATION_MM2},
    {"mm\xc2\xb2", NOTATION_MM2}, {"mm^2", NOTATION_MM2},
    {"sq mm", NOTATION_MM2},      {"sqmm", NOTATION_MM2},
    {"mm", NOTATION_MM},          {"gauge", NOTATION_GAUGE},
    {"ga", NOTATION_GAUGE},       {"ga.", NOTATION_GAUGE},
    {"B&S", NOTATION_GAUGE},
};
enum { SIGNS = sizeof sign / sizeof sign[0] };

static enum notation notation_of(const char *text, size_t len) {
    for (size_t i = 0; i < SIGNS; i++)
        if (word_is(text, len, sign[i].word))
            return sign[i].notation;
    return NOTATION_NONE;
}

static bool digit(char c) {
    return c >= '0' && c <= '9';
}

/* "10", "2/0", "2.5", "0.5f": bytes of the number at text, 0 for none. */
static size_t number_len(const char *text, size_t len) {
    size_t n = 0;
    while (n < len && (digit(text[n]) || text[n] == '.' || text[n] == '/'))
        n++;
    if (n == 0 || !digit(text[0]) || !digit(text[n - 1]))
        return 0;
    if (n < len && text[n] == 'f' && (n + 1 == len || text[n + 1] == ' '))
        n++;
    return n;
}

/* Into the form of the tables: "00" is "2/0", "0" is "1/0", "2.50" is "2.5". */
static bool number_set(struct written *w, const char *text, size_t len) {
    if (len >= NUMBER)
        return false;
    memcpy(w->number, text, len);
    w->number[len] = '\0';
    if (w->notation == NOTATION_AWG || w->notation == NOTATION_SAE) {
        size_t zeros = strspn(w->number, "0");
        if (zeros == len) {
            w->number[0] = (char)('0' + zeros);
            strcpy(w->number + 1, "/0");
        }
        return true;
    }
    bool flexible = w->number[len - 1] == 'f';
    size_t end = len - flexible;
    if (memchr(w->number, '.', end)) {
        while (w->number[end - 1] == '0')
            end--;
        if (w->number[end - 1] == '.')
            end--;
    }
    w->number[end] = flexible ? 'f' : '\0';
    w->number[end + flexible] = '\0';
    return true;
}

static struct written written_of(const char *text, size_t len) {
    struct written w = {NOTATION_NONE, ""};
    word_trim(&text, &len);
    size_t n = number_len(text, len);
    if (n > 0) { /* 10 AWG */
        w.notation = notation_of(text + n, len - n);
        if (!number_set(&w, text, n))
            w.notation = NOTATION_NONE;
        return w;
    }
    for (size_t i = 0; i < SIGNS; i++) { /* AWG 10 */
        size_t word = strlen(sign[i].word);
        if (word >= len || !word_is(text, word, sign[i].word))
            continue;
        const char *rest = text + word;
        size_t left = len - word;
        word_trim(&rest, &left);
        if (number_len(rest, left) != left || left == 0)
            continue;
        w.notation = sign[i].notation;
        if (!number_set(&w, rest, left))
            w.notation = NOTATION_NONE;
        return w;
    }
    return w;
}

static bool fits(enum notation n, enum wire_system s) {
    switch (n) {
    case NOTATION_AWG:
        return s == WIRE_AWG_SOLID || s == WIRE_AWG_STRANDED;
    case NOTATION_SAE:
        return s == WIRE_SAE;
    case NOTATION_MM2:
        return s == WIRE_ISO6722 || s == WIRE_CLASS2 || s == WIRE_CLASS5 ||
               s == WIRE_JIS;
    case NOTATION_AV:
        return s == WIRE_JIS;
    case NOTATION_MM:
        return s == WIRE_AU;
    case NOTATION_NONE:
    case NOTATION_GAUGE:
        break;
    }
    return false;
}

/* The number in a row's name: "10" of "SAE 10", "2.5" of "2.5 mm2". */
static bool row_is(const struct wire_size *row, const char *number) {
    const char *at = row->name;
    size_t n = strlen(number);
    while (*at != '\0' && !digit(*at))
        at++;
    return strncmp(at, number, n) == 0 && (at[n] == '\0' || at[n] == ' ');
}

enum size_found size_read(const char *text, size_t len,
                          enum wire_system declared,
                          const struct wire_size **out) {
    *out = NULL;
    struct written w = written_of(text, len);
    if (w.notation == NOTATION_NONE)
        return SIZE_UNREADABLE;
    if (w.notation == NOTATION_GAUGE)
        return SIZE_AMBIGUOUS;
    if (declared >= WIRE_SYSTEMS) {
        for (int s = 0; s < WIRE_SYSTEMS; s++) {
            if (!fits(w.notation, (enum wire_system)s))
                continue;
            if (declared < WIRE_SYSTEMS)
                return SIZE_AMBIGUOUS;
            declared = (enum wire_system)s;
        }
    }
    if (!fits(w.notation, declared))
        return SIZE_MISMATCH;
    for (size_t i = 0; i < size_table[declared].count; i++) {
        if (row_is(&size_table[declared].row[i], w.number)) {
            *out = &size_table[declared].row[i];
            return SIZE_FOUND;
        }
    }
    return SIZE_UNKNOWN;
}
