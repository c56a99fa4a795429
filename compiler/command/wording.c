/* wording.c - what the tables of kinds and units say, in words of the trade. */
#include "command/wording.h"

#include "calc/unit.h"

#include <string.h>

static void add_dimension(struct buf *b, const char *unit) {
    char name[UNIT_TEXT];
    const struct unit *u = unit == NULL ? NULL : unit_find(unit, strlen(unit));
    if (u == NULL)
        buf_puts(b, "quantity");
    else if (dim_none(u->dim))
        buf_printf(b, "share (%s)", u->label);
    else
        buf_printf(b, "%s (%s)", unit_measures(u, name), u->label);
}

static void add_choices(struct buf *b, const char *choices, const char *last) {
    for (const char *s = choices; *s != '\0'; s++) {
        if (*s != '|')
            buf_add(b, s, 1);
        else
            buf_puts(b, strchr(s + 1, '|') == NULL ? last : ", ");
    }
}

void wording_value(struct buf *b, enum setting_type type, const char *unit,
                   const char *choices) {
    switch (type) {
    case SETTING_TEXT:
        buf_puts(b, "text");
        return;
    case SETTING_PROSE:
        buf_puts(b, "running text");
        return;
    case SETTING_QUANTITY:
        add_dimension(b, unit);
        return;
    case SETTING_LIMIT:
        buf_puts(b, unit == NULL ? "limit or range" : "limit or range, ");
        if (unit != NULL)
            add_dimension(b, unit);
        return;
    case SETTING_SIZE:
        buf_puts(b, "wire size");
        return;
    case SETTING_CHOICE:
        buf_puts(b, "one of: ");
        add_choices(b, choices, ", ");
        return;
    case SETTING_YES_NO:
        buf_puts(b, "yes or no");
        return;
    case SETTING_COUNT:
        buf_puts(b, "whole number");
        return;
    case SETTING_BLOCK:
    case SETTING_BLOCK_OR_QUANTITY:
        buf_puts(b, "name of a ");
        add_choices(b, choices, " or ");
        buf_puts(b, " block");
        if (type == SETTING_BLOCK_OR_QUANTITY) {
            buf_puts(b, ", or ");
            add_dimension(b, unit);
        }
        return;
    case SETTING_BLOCKS:
        buf_puts(b, "names of ");
        add_choices(b, choices, " or ");
        buf_puts(b, " blocks, with commas");
        return;
    case SETTING_LIST:
        buf_puts(b, "items of running text, with commas");
        return;
    case SETTING_VARIANTS:
        buf_puts(b, "names of variants, with commas");
        return;
    case SETTING_FILES:
        buf_puts(b, "names of files, with commas");
        return;
    case SETTING_DATE:
        buf_puts(b, "date: 24 November 2025");
        return;
    case SETTING_STARTING:
        add_dimension(b, unit);
        buf_puts(b, ", how long: 28 A for 60 ms");
        return;
    case SETTING_AT:
        add_dimension(b, unit);
        buf_puts(b, ", at which voltage: 7.6 A at 13.2 V");
        return;
    case SETTING_DROP:
        buf_puts(b, "drop: 0.4 V, 3 %, 3 % of 13.8 V");
        return;
    case SETTING_PLACE:
        buf_puts(b, "length and point: 5 in from battery +");
        return;
    case SETTING_WRENCH:
        buf_puts(b, "range and step: 5 lbf·ft to 75 lbf·ft, step 1 lbf·ft");
        return;
    case SETTING_STAGES:
        add_dimension(b, unit);
        buf_puts(b, ", stage by stage: 90 deg, then 90 deg");
        return;
    }
}

void wording_heading(struct buf *b, const struct kind *k) {
    static const char *const naming[] = {[NAME_NONE] = "",
                                         [NAME_OPTIONAL] = " [NAME]",
                                         [NAME_REQUIRED] = " NAME"};
    buf_printf(b, "%s%s", k->name, naming[k->naming]);
}

void wording_sentence(struct buf *b, const char *meaning) {
    bool small = meaning[0] >= 'a' && meaning[0] <= 'z';
    char first = small ? (char)(meaning[0] - 'a' + 'A') : meaning[0];
    buf_add(b, &first, 1);
    buf_printf(b, "%s.", meaning + 1);
}

void wording_places(struct buf *b, const struct kind *k) {
    static const struct {
        unsigned flag;
        const char *name;
    } places[] = {{KIND_IN_GUIDE, "guides"},
                  {KIND_IN_FACTS, "facts"},
                  {KIND_IN_SHARED, "shared files"},
                  {KIND_IN_CATALOGUE, "the hazard catalogue"},
                  {KIND_IN_TEMPLATE, "templates"},
                  {KIND_IN_JOB, "job files"}};
    bool first = true;
    for (size_t i = 0; i < sizeof places / sizeof places[0]; i++) {
        if ((k->flags & places[i].flag) == 0)
            continue;
        buf_printf(b, "%s%s", first ? "" : ", ", places[i].name);
        first = false;
    }
}

const char *wording_unit(const char *unit) {
    const struct unit *u = unit == NULL ? NULL : unit_find(unit, strlen(unit));
    return u == NULL ? "" : u->label;
}

void wording_dashed(struct buf *b, const char *name) {
    for (const char *s = name; *s != '\0'; s++)
        buf_add(b, *s == ' ' ? "-" : s, 1);
}
