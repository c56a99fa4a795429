/* friction.c - conditions of a thread, preload targets, scatter of tightening.
 */
#include "calc/torque.h"
#include "calc/word.h"

#include <string.h>

#define SHIGLEY                                                                \
    "Shigley, Mechanical Engineering Design, Table 8-15 after Bowman"
#define RANGES "range: a fastener maker's table of K"
#define CHART "common inch torque chart"

/* Nominal and range often come from two tables, and where tables disagree the
 * range takes in both: zinc is 0.20 in one textbook, 0.295 in another. */
static const struct nut_factor nut_factors[] = {
    {"clean, dry", 0.18, 0.20, 0.27, true, false, CHART " K 0.20; " RANGES},
    {"dry", 0.18, 0.20, 0.27, true, false, CHART " K 0.20; " RANGES},
    {"black, dry", 0.20, 0.30, 0.30, true, false,
     SHIGLEY " (0.30); Bickford & Nassar Table 1 has 0.20 for bare steel"},
    {"zinc plated", 0.17, 0.20, 0.35, true, false,
     SHIGLEY " (0.20); " RANGES "; Bickford & Nassar has 0.295 dry"},
    {"zinc plated, dry", 0.17, 0.295, 0.35, true, false,
     "Bickford & Nassar Table 1 (0.295); " RANGES},
    {"zinc flake", 0.16, 0.24, 0.32, true, false,
     RANGES ", its middle as nominal"},
    {"cadmium plated", 0.15, 0.16, 0.20, true, false,
     SHIGLEY " (0.16); " RANGES "; Bickford & Nassar has 0.20 dry"},
    {"phosphated, oiled", 0.15, 0.18, 0.22, true, false,
     SHIGLEY " (lubricated, 0.18); " RANGES},
    {"oiled", 0.10, 0.15, 0.26, true, false, CHART " K 0.15; " RANGES},
    {"lubricated", 0.10, 0.18, 0.26, true, false, SHIGLEY " (0.18); " RANGES},
    {"anti-seize", 0.09, 0.12, 0.17, false, false,
     SHIGLEY " (0.12); range from memory: Bickford"},
    {"waxed lock nut", 0.09, 0.09, 0.15, false, false,
     SHIGLEY " (0.09); high end from memory: makers of lock nuts"},
    {"locking compound", 0.15, 0.20, 0.25, false, false,
     "from memory: makers of thread-locking compound"},
    {"stainless, dry", 0.30, 0.36, 0.50, true, true,
     RANGES "; nominal from a stainless torque table at friction 0.30"},
    {"stainless, anti-seize", 0.12, 0.15, 0.20, false, false,
     "from memory: Bickford, makers of nickel paste"},
};
enum { NUT_FACTORS = sizeof nut_factors / sizeof nut_factors[0] };

const struct nut_factor *nut_factor_at(size_t index) {
    return index < NUT_FACTORS ? &nut_factors[index] : NULL;
}

/* Takes the part of text up to the next comma; false at the end. */
static bool next_part(const char **text, size_t *len, const char **part,
                      size_t *bytes) {
    if (*text == NULL)
        return false;
    const char *comma = memchr(*text, ',', *len);
    *part = *text;
    *bytes = comma ? (size_t)(comma - *text) : *len;
    *len -= comma ? *bytes + 1 : *bytes;
    *text = comma ? comma + 1 : NULL;
    return true;
}

/* The part stands among those of text. */
static bool has_part(const char *text, size_t len, const char *name,
                     size_t bytes) {
    const char *part;
    size_t n;
    char word[32];
    memcpy(word, name, bytes); /* of our own table: short enough */
    word[bytes] = '\0';
    while (next_part(&text, &len, &part, &n))
        if (word_is(part, n, word + strspn(word, " ")))
            return true;
    return false;
}

/* As many parts as the row has, and each of the row's among them. */
const struct nut_factor *nut_factor_find(const char *condition, size_t len) {
    for (size_t i = 0; i < NUT_FACTORS; i++) {
        const char *name = nut_factors[i].condition, *text = condition, *part;
        size_t left = strlen(name), text_left = len, n;
        bool all = true;
        while (next_part(&name, &left, &part, &n)) {
            const char *other;
            size_t other_n;
            all = all && next_part(&text, &text_left, &other, &other_n) &&
                  has_part(condition, len, part, n);
        }
        if (all && text == NULL)
            return &nut_factors[i];
    }
    return NULL;
}

const struct nut_factor *nut_factor_any(void) {
    static const struct nut_factor any = {
        "not in the table",
        0.09,
        0.50,
        0.50,
        false,
        false,
        "the least and the greatest nut factor of the table"};
    return &any;
}

/* Beginnings of words of the shop, the sure ones first, and the condition that
 * they may mean. Common practice, no source. */
static const struct {
    const char *word, *condition;
} shop_words[] = {
    {"stainless", "stainless, anti-seize"},
    {"anti", "anti-seize"},
    {"copper", "anti-seize"},
    {"nickel", "anti-seize"},
    {"paste", "anti-seize"},
    {"wax", "waxed lock nut"},
    {"thread", "locking compound"},
    {"lock", "locking compound"},
    {"flake", "zinc flake"},
    {"zinc", "zinc plated"},
    {"galvani", "zinc plated"},
    {"cadmium", "cadmium plated"},
    {"phosph", "phosphated, oiled"},
    {"oil", "oiled"},
    {"greas", "lubricated"},
    {"lub", "lubricated"},
    {"black", "black, dry"},
    {"dry", "clean, dry"},
    {"clean", "clean, dry"},
    {"degreas", "clean, dry"},
};

static char small(char c) {
    return c >= 'A' && c <= 'Z' ? (char)(c - 'A' + 'a') : c;
}

static bool has_word(const char *text, size_t len, const char *beginning) {
    size_t n = strlen(beginning);
    for (size_t i = 0; i + n <= len; i++) {
        size_t same = 0;
        char before = i == 0 ? ' ' : small(text[i - 1]);
        while (same < n && small(text[i + same]) == beginning[same])
            same++;
        if (same == n && !(before >= 'a' && before <= 'z'))
            return true;
    }
    return false;
}

const struct nut_factor *nut_factor_near(const char *condition, size_t len) {
    for (size_t i = 0; i < sizeof shop_words / sizeof shop_words[0]; i++)
        if (has_word(condition, len, shop_words[i].word))
            return nut_factor_find(shop_words[i].condition,
                                   strlen(shop_words[i].condition));
    return NULL;
}

#define A5 "from memory: VDI 2230-1 Table A5"
static const struct friction frictions[] = {
    {"A", 0.04, 0.10, "solid lubricants, waxes, MoS2, PTFE coatings", A5},
    {"B", 0.08, 0.16,
     "oil, grease, phosphated and oiled, lubricated zinc flake", A5},
    {"C", 0.14, 0.24, "zinc plated with little or no lubricant", A5},
    {"D", 0.20, 0.35, "hot-dip galvanised, stainless as supplied", A5},
    {"E", 0.30, 0.99, "dry stainless, aluminium, rough surfaces; not bounded",
     A5},
};

const struct friction *friction_at(size_t index) {
    return index < sizeof frictions / sizeof frictions[0] ? &frictions[index]
                                                          : NULL;
}

static const struct {
    const char *name, *source;
} targets[TARGETS] = {
    [TARGET_75_PROOF] = {"75 % of proof", "Shigley Eq. 8-31, reusable joint"},
    [TARGET_90_PROOF] = {"90 % of proof",
                         "from memory: Shigley Eq. 8-31, permanent joint"},
    [TARGET_90_YIELD] = {"90 % of yield", "VDI 2230-1 Table A1: 90 % of Rp0.2 "
                                          "combined with torsion"},
    [TARGET_70_TENSILE] = {"70 % of tensile", "from memory: RCSC Table 8.1"},
};

const char *target_name(enum preload_target t) {
    return targets[t].name;
}

const char *target_source(enum preload_target t) {
    return targets[t].source;
}

bool target_find(const char *name, size_t len, enum preload_target *out) {
    for (int t = 0; t < TARGETS; t++) {
        if (word_is(name, len, targets[t].name)) {
            *out = (enum preload_target)t;
            return true;
        }
    }
    return false;
}

#define HANDBOOK                                                               \
    "Machinery's Handbook, Accuracy of Bolt Preload Application Methods"
#define NASA "NASA preload criteria, as an engineering page quotes them"
#define VDI "VDI 2230 (1986) guideline table, as a fastener maker quotes it"
static const struct tightening ways[] = {
    {"by feel", 0.35, 0.35, HANDBOOK},
    {"torque wrench", 0.25, 0.25, HANDBOOK},
    {"torque wrench, dry", 0.35, 0.35, NASA},
    {"torque wrench, cadmium plated", 0.30, 0.30, NASA},
    {"torque wrench, lubricated", 0.25, 0.25, NASA},
    {"torque wrench, tested joint", 0.23, 0.23, VDI " (17 to 23 %)"},
    {"torque wrench, estimated friction", 0.28, 0.28, VDI " (23 to 28 %)"},
    {"turn of nut", 0.15, 0.15, HANDBOOK},
    {"torque and angle", 0.15, 0.15, HANDBOOK ", turn of nut"},
    {"indicating washer", 0.10, 0.10, HANDBOOK},
    {"bolt elongation", 0.05, 0.05, HANDBOOK " (3 to 5 %)"},
    {"power screwdriver", 0.43, 0.43, VDI " (26 to 43 %)"},
    {"impact driver", 0.60, 0.60, "from memory: " VDI " (43 to 60 %)"},
};
enum { WAYS = sizeof ways / sizeof ways[0] };

const struct tightening *tightening_find(const char *name, size_t len) {
    for (size_t i = 0; i < WAYS; i++)
        if (word_is(name, len, ways[i].name))
            return &ways[i];
    return NULL;
}

const struct tightening *tightening_at(size_t index) {
    return index < WAYS ? &ways[index] : NULL;
}
