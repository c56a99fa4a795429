/* point.c - where a place is measured from: `6 in from battery +`.
 *
 * A guide may speak of sources that it does not describe, a busbar or an inlet:
 * those words are known. Anything else is a supply's name. */
#include "values/point.h"

#include "base/diag.h"
#include "source/suggest.h"

/* Sources that need no block. Words of 33 CFR 183.455 and of the trade. */
static const char *const sources[] = {
    "busbar",    "panel",   "alternator", "generator", "starter", "inlet",
    "converter", "charger", "inverter",   "isolator",  "magneto",
};

enum { SOURCES = sizeof sources / sizeof sources[0] };

static struct text first_word(struct text point) {
    size_t end = 0;
    while (end < point.len && point.start[end] != ' ')
        end++;
    return text_part(point, 0, end);
}

static enum point_kind of_supply(const struct block *supply) {
    const struct entry *e = tree_setting(supply, "chemistry");
    bool none =
        e != NULL && e->choice_count > 0 && text_is(e->choices[0].text, "none");
    return none ? POINT_SOURCE : POINT_BATTERY;
}

enum point_kind point_find(struct values *v, const struct scope *from,
                           struct text point) {
    struct text word = first_word(point);
    const struct block *supply = values_block(v, from, word, "supply");
    if (supply != NULL)
        return of_supply(supply);
    if (text_is(word, "battery"))
        return POINT_BATTERY;
    for (size_t i = 0; i < SOURCES; i++)
        if (text_is(word, sources[i]))
            return POINT_SOURCE;
    return POINT_NONE;
}

enum point_post point_post(struct text behind) {
    if (text_starts(behind, "-") || text_starts(behind, "minus") ||
        text_starts(behind, "negative") || text_starts(behind, "\xE2\x88\x92"))
        return POINT_MINUS;
    bool plus = text_starts(behind, "+") || text_starts(behind, "plus") ||
                text_starts(behind, "positive") || text_starts(behind, "B+");
    return plus ? POINT_PLUS : POINT_NO_POST;
}

bool point_is_far(struct values *v, const struct scope *from, struct text point,
                  const struct block *supply) {
    struct text word = first_word(point);
    const struct block *at = values_block(v, from, word, "supply");
    if (at != NULL)
        return at != supply;
    bool is_battery = of_supply(supply) == POINT_BATTERY;
    return is_battery
               ? text_is(word, "alternator") || text_is(word, "generator")
               : text_is(word, "battery");
}

/* What may stand behind a supply: words for its posts. */
static bool is_post(struct text words) {
    static const char *const posts[] = {
        "+",        "-",     "\xE2\x88\x92", "plus",     "minus",
        "positive", "post",  "negative",     "terminal", "stud",
        "output",   "clamp", "pole",         "B+"};
    struct text word;
    while (text_next_part(&words, ' ', &word)) {
        bool known = word.len == 0;
        for (size_t i = 0; i < sizeof posts / sizeof posts[0]; i++)
            known = known || text_is(word, posts[i]);
        if (!known)
            return false;
    }
    return true;
}

/* Where a panel or an inlet begins is anyone's guess, but a supply is known by
 * its posts. */
static bool check_post(struct values *v, const struct scope *from,
                       struct text point, struct span at) {
    struct text word = first_word(point);
    struct text behind = text_part(point, word.len, point.len);
    bool supply = text_is(word, "battery") ||
                  values_block(v, from, word, "supply") != NULL;
    if (!supply || is_post(behind))
        return true;
    behind = text_trim(behind);
    diag_add(v->c->diags, DIAG_SETTING_VALUE, at,
             "'%.*s' is no post of %.*s; write %.*s +, or name another source",
             (int)behind.len, behind.start, (int)word.len, word.start,
             (int)word.len, word.start);
    return false;
}

/* "plus busbar": the source that stands further back, a supply or a word;
 * absent: none does. */
static struct text source_in(struct values *v, const struct scope *from,
                             struct text words) {
    struct text word;
    while (text_next_part(&words, ' ', &word))
        if (word.len > 0 && point_find(v, from, word) != POINT_NONE)
            return word;
    return (struct text){NULL, 0};
}

bool point_check(struct values *v, const struct scope *from, struct text point,
                 struct span at) {
    if (point_find(v, from, point) != POINT_NONE)
        return check_post(v, from, point, at);
    struct text word = first_word(point);
    if (values_block(v, from, word, "load") != NULL) {
        diag_add(v->c->diags, DIAG_SETTING_VALUE, at,
                 "'%.*s' is a load; a fuse's place is measured from the source "
                 "of its wire",
                 (int)word.len, word.start);
        return false;
    }
    struct text source = source_in(v, from, point);
    if (source.len > 0) {
        diag_add(v->c->diags, DIAG_SETTING_VALUE, at,
                 "'%.*s' is no source; the source stands first: from %.*s",
                 (int)word.len, word.start, (int)source.len, source.start);
        return false;
    }
    struct nearest near = nearest_to(word);
    const struct guide *g = v->guide;
    for (size_t i = 0; i < g->block_count; i++)
        if (g->blocks[i]->kind->id == KIND_SUPPLY)
            nearest_offer(&near, g->blocks[i]->name);
    nearest_offer(&near, text_of("battery"));
    for (size_t i = 0; i < SOURCES; i++)
        nearest_offer(&near, text_of(sources[i]));
    diag_add(
        v->c->diags, DIAG_SETTING_VALUE, at,
        "'%.*s' is no source%s; name a supply, or a busbar, panel, "
        "alternator or other source",
        (int)word.len, word.start,
        suggest(v->c->arena, word, (struct text){near.best, near.best_len}));
    return false;
}
