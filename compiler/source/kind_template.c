/* kind_template.c - kinds of block of a template: the paper, and the parts of
 * the guide in their order. */
#include "source/kind_tables.h"

static const struct setting page_settings[] = {
    {"like", SETTING_TEXT, NULL, NULL,
     "a template whose settings hold where none is written here, and whose "
     "parts print if none is listed here",
     false, false},
    {"paper", SETTING_CHOICE, NULL, "by units|Letter|A4|Legal|A3|Tabloid|A5",
     "'by units': Letter or, for guides in SI, A4, with the same page breaks",
     false, false},
    {"step size", SETTING_COUNT, NULL, NULL,
     "letters of the steps in points, 12 without it; all others follow", false,
     false},
    {"binding margin", SETTING_QUANTITY, "m", NULL, "left, 19 mm without it",
     false, false},
    {"outer margin", SETTING_QUANTITY, "m", NULL, "right, 13 mm without it",
     false, false},
    {"top margin", SETTING_QUANTITY, "m", NULL, "13 mm without it", false,
     false},
    {"bottom margin", SETTING_QUANTITY, "m", NULL, "13 mm without it", false,
     false},
    {"shop", SETTING_TEXT, NULL, NULL,
     "name in the head of page 1; without it that of the facts", false, false},
    {"address", SETTING_TEXT, NULL, NULL, "behind the name", false, false},
    {"logo", SETTING_TEXT, NULL, NULL,
     "a PNG or JPEG file, by its path from procedures/", false, false},
    {"logo height", SETTING_QUANTITY, "m", NULL, "10 mm without it", false,
     false},
    {0},
};

const struct kind kind_page = {
    KIND_PAGE,
    "page",
    "paper, margins, size of the letters, head of the first page",
    NAME_NONE,
    KIND_HOLDS_SETTINGS | KIND_IN_TEMPLATE,
    page_settings,
    NULL,
    NULL,
};

static const struct setting insert_settings[] = {
    {"new page", SETTING_YES_NO, NULL, NULL, "the part begins a page", false,
     false},
    {0},
};

const struct kind kind_insert = {
    KIND_INSERT,
    "insert",
    "a part of the guide, under the heading that stands above it",
    NAME_REQUIRED,
    KIND_HOLDS_SETTINGS | KIND_IN_TEMPLATE,
    insert_settings,
    NULL,
    NULL,
};
