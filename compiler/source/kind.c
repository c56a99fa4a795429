/* kind.c - look-up in the table of block kinds, and the nearest spelling. */
#include "source/kind.h"

#include "source/kind_tables.h"

#include <ctype.h>

static const struct kind *const kinds[KIND_COUNT] = {
    [KIND_GUIDE] = &kind_guide,       [KIND_VEHICLE] = &kind_vehicle,
    [KIND_FACTS] = &kind_facts,       [KIND_VALUES] = &kind_values,
    [KIND_NEEDS] = &kind_needs,       [KIND_PRELIMINARY] = &kind_preliminary,
    [KIND_PARTS] = &kind_parts,       [KIND_SUPPLY] = &kind_supply,
    [KIND_LOAD] = &kind_load,         [KIND_WIRE] = &kind_wire,
    [KIND_FUSE] = &kind_fuse,         [KIND_TORQUE] = &kind_torque,
    [KIND_CHECK] = &kind_check,       [KIND_LIMITS] = &kind_limits,
    [KIND_OVERRIDE] = &kind_override, [KIND_TABLE] = &kind_table,
    [KIND_COMPARE] = &kind_compare,   [KIND_FAULTS] = &kind_faults,
    [KIND_FIGURE] = &kind_figure,     [KIND_DANGER] = &kind_danger,
    [KIND_WARNING] = &kind_warning,   [KIND_CAUTION] = &kind_caution,
    [KIND_NOTICE] = &kind_notice,     [KIND_INCLUDE] = &kind_include,
    [KIND_HAZARD] = &kind_hazard,     [KIND_SHOP] = &kind_shop,
    [KIND_PINOUT] = &kind_pinout,     [KIND_ORDER] = &kind_order,
    [KIND_STYLE] = &kind_style,       [KIND_PAGE] = &kind_page,
    [KIND_INSERT] = &kind_insert,     [KIND_CIRCUIT] = &kind_circuit,
    [KIND_SHEET] = &kind_sheet,       [KIND_JOB] = &kind_job,
};

static bool is_blank(char c) {
    return c == ' ' || c == '\t' || c == '\n' || c == '\r';
}

/* Any run of blanks in `written` counts as one: `drop  limit`. */
static bool same_words(struct text written, const char *name) {
    size_t i = 0;
    for (; *name != '\0'; name++) {
        if (*name == ' ') {
            size_t from = i;
            while (i < written.len && is_blank(written.start[i]))
                i++;
            if (i == from)
                return false;
        } else if (i >= written.len || written.start[i++] != *name) {
            return false;
        }
    }
    return i == written.len;
}

const struct kind *kind_by_id(enum kind_id id) {
    return kinds[id];
}

const struct kind *kind_find(struct text name) {
    for (size_t i = 0; i < KIND_COUNT; i++)
        if (text_is(name, kinds[i]->name))
            return kinds[i];
    return NULL;
}

const struct setting *kind_setting(const struct kind *k, struct text name) {
    for (const struct setting *s = k->settings; s != NULL && s->name != NULL;
         s++)
        if (same_words(name, s->name))
            return s;
    return NULL;
}

const struct field *kind_field(const struct kind *k, struct text name) {
    for (const struct field *f = k->fields; f != NULL && f->name != NULL; f++)
        if (same_words(name, f->name))
            return f;
    return NULL;
}

const struct column *kind_column(const struct kind *k, struct text name) {
    for (const struct column *c = k->columns; c != NULL && c->name != NULL; c++)
        if (same_words(name, c->name))
            return c;
    return NULL;
}

enum { SPELLING_MAX = 40 };

/* Words that differ in case only are too far apart for an edit distance when
 * they are short (`ID`), so both are compared in small letters. */
static struct nearest begin(struct text name, char small[SPELLING_MAX]) {
    size_t len = name.len < SPELLING_MAX ? name.len : SPELLING_MAX;
    for (size_t i = 0; i < len; i++)
        small[i] = (char)tolower((unsigned char)name.start[i]);
    return nearest_to((struct text){small, len});
}

const char *kind_nearest(struct text name, unsigned place) {
    char small[SPELLING_MAX];
    struct nearest n = begin(name, small);
    for (size_t i = 0; i < KIND_COUNT; i++)
        if (kinds[i]->flags & place)
            nearest_offer(&n, text_of(kinds[i]->name));
    return n.best;
}

const char *kind_nearest_setting(const struct kind *k, struct text name) {
    char small[SPELLING_MAX];
    struct nearest n = begin(name, small);
    for (const struct setting *s = k->settings; s != NULL && s->name != NULL;
         s++)
        nearest_offer(&n, text_of(s->name));
    return n.best;
}

const char *kind_nearest_column(const struct kind *k, struct text name) {
    char small[SPELLING_MAX];
    struct nearest n = begin(name, small);
    for (const struct column *c = k->columns; c != NULL && c->name != NULL; c++)
        nearest_offer(&n, text_of(c->name));
    return n.best;
}
