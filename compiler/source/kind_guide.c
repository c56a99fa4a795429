/* kind_guide.c - kinds of block that say what a guide is, and those of the
 * library behind it. */
#include "source/kind_tables.h"

static const struct setting guide_settings[] = {
    {"id", SETTING_TEXT, NULL, NULL,
     "number of the guide in the shop's register", .required = true},
    {"revision", SETTING_COUNT, NULL, NULL,
     "1 for the first issue, one more for each later one", .required = true},
    {"date", SETTING_DATE, NULL, NULL, "of this revision: 24 November 2025",
     false, false},
    {"status", SETTING_CHOICE, NULL, "draft|released|withdrawn",
     "a draft says so on each page; a released guide allows no bare number",
     .required = true},
    {"author", SETTING_TEXT, NULL, NULL, "who wrote it", false, false},
    {"approver", SETTING_TEXT, NULL, NULL,
     "who answers for it; a released guide names one", false, false},
    {"change", SETTING_PROSE, NULL, NULL,
     "what this revision changed, one line for each change", .repeats = true},
    {"applies", SETTING_VARIANTS, NULL, NULL,
     "variants of the vehicle that it is for; absent: all", false, false},
    {"after", SETTING_LIST, NULL, NULL, "guides that must have been done first",
     false, false},
    {"before", SETTING_LIST, NULL, NULL, "guides that must not be done yet",
     false, false},
    {"time", SETTING_QUANTITY, "h", NULL, "working time of one person", false,
     false},
    {"uses", SETTING_FILES, NULL, NULL,
     "files of facts: the stems of files under procedures/facts/", false,
     false},
    {"units", SETTING_CHOICE, NULL, "customary|SI",
     "system of the first figure where both are printed", false, false},
    {"style off", SETTING_LIST, NULL, NULL,
     "rules of style that are not asked of this guide, by name", false, false},
    {0},
};

const struct kind kind_guide = {
    KIND_GUIDE,
    "guide",
    "what the guide is: once in each guide",
    NAME_NONE,
    KIND_HOLDS_SETTINGS | KIND_IN_GUIDE,
    guide_settings,
    NULL,
    NULL,
};

static const struct setting vehicle_settings[] = {
    {"maker", SETTING_TEXT, NULL, NULL, "who built it", false, false},
    {"model", SETTING_TEXT, NULL, NULL, "the maker's name for it", false,
     false},
    {0},
};

static const struct column vehicle_columns[] = {
    {"variant", SETTING_TEXT, NULL, "name used in [..] and {for ..}",
     .required = true},
    {"years", SETTING_TEXT, NULL, "model years: 1976 to 1979", false, false},
    {"chassis", SETTING_TEXT, NULL, "what tells it apart on the vehicle", false,
     false},
    {"numbers", SETTING_TEXT, NULL, "range of identification numbers", false,
     false},
    {"axle load front", SETTING_QUANTITY, "kg", "as loaded for the road", false,
     false},
    {"axle load rear", SETTING_QUANTITY, "kg", "as loaded for the road", false,
     false},
    {0},
};

const struct kind kind_vehicle = {
    KIND_VEHICLE,
    "vehicle",
    "the factory variants of one vehicle, a row each",
    NAME_REQUIRED,
    KIND_HOLDS_SETTINGS | KIND_HOLDS_ROWS | KIND_IN_FACTS,
    vehicle_settings,
    NULL,
    vehicle_columns,
};

static const struct setting shop_settings[] = {
    {"name", SETTING_TEXT, NULL, NULL, "of the workshop", false, false},
    {"plain sizes", SETTING_TEXT, NULL, NULL,
     "sizes of tools that may stand in running text without braces", false,
     false},
    {"jurisdiction", SETTING_TEXT, NULL, NULL,
     "whose law its guides assume; absent: United States", false, false},
    {"local rule", SETTING_TEXT, NULL, NULL, "who tells which local rules hold",
     false, false},
    {"style off", SETTING_LIST, NULL, NULL,
     "rules of style that are not asked of any guide, by name", false, false},
    {0},
};

const struct kind kind_shop = {
    KIND_SHOP,
    "shop",
    "the workshop that writes the guides",
    NAME_NONE,
    KIND_HOLDS_SETTINGS | KIND_IN_FACTS,
    shop_settings,
    NULL,
    NULL,
};

const struct kind kind_facts = {
    KIND_FACTS,
    "facts",
    "definitions that every guide of the library may use and none redefines",
    NAME_NONE,
    KIND_HOLDS_DEFINITIONS | KIND_IN_FACTS,
    NULL,
    NULL,
    NULL,
};

const struct kind kind_values = {
    KIND_VALUES,
    "values",
    "definitions that belong to this guide",
    NAME_NONE,
    KIND_HOLDS_DEFINITIONS | KIND_IN_GUIDE | KIND_IN_SHARED,
    NULL,
    NULL,
    NULL,
};

const struct kind kind_needs = {
    KIND_NEEDS,
    "needs",
    "what an include of this file must pass in: a name, then a unit, `number`, "
    "`text` or `size`",
    NAME_NONE,
    KIND_HOLDS_SETTINGS | KIND_FREE_SETTINGS | KIND_IN_SHARED,
    NULL,
    NULL,
    NULL,
};

static const struct setting preliminary_settings[] = {
    {"conditions", SETTING_LIST, NULL, NULL,
     "state of the vehicle before work begins", .repeats = true},
    {"references", SETTING_LIST, NULL, NULL, "papers to have at hand",
     .repeats = true},
    {"personnel", SETTING_LIST, NULL, NULL, "how many, and of which trade",
     .repeats = true},
    {"equipment", SETTING_LIST, NULL, NULL, "special tools and instruments",
     .repeats = true},
    {"supplies", SETTING_LIST, NULL, NULL, "what is used up", .repeats = true},
    {"spares", SETTING_LIST, NULL, NULL,
     "what is renewed whether or not it looks good", .repeats = true},
    {"safety", SETTING_LIST, NULL, NULL, "what holds for the whole job",
     .repeats = true},
    {"stands", SETTING_TEXT, NULL, NULL,
     "axle stands: how many, and the rating of each or of the pair", false,
     false},
    {0},
};

const struct kind kind_preliminary = {
    KIND_PRELIMINARY,
    "preliminary",
    "what must be at hand before work begins; `none` where there is nothing",
    NAME_NONE,
    KIND_HOLDS_SETTINGS | KIND_IN_GUIDE | KIND_IN_SHARED,
    preliminary_settings,
    NULL,
    NULL,
};

static const struct column parts_columns[] = {
    {"item", SETTING_TEXT, NULL, "short name, the same in catalogue and guide",
     .required = true},
    {"quantity", SETTING_QUANTITY, NULL, "how many, or how much", false, false},
    {"description", SETTING_PROSE, NULL, "what to ask for", false, false},
    {"maker", SETTING_TEXT, NULL, "whose number it is", false, false},
    {"number", SETTING_TEXT, NULL, "the maker's part number", false, false},
    {"renew", SETTING_YES_NO, NULL, "renewed whether or not it looks good",
     false, false},
    {"crimps", SETTING_TEXT, NULL,
     "wire sizes that a terminal or splice is crimped to: 12 AWG, 10 AWG",
     false, false},
    {"mass", SETTING_QUANTITY, "kg", "of one; left empty it counts as heavy",
     false, false},
    {"interchange", SETTING_TEXT, NULL,
     "another maker's number, then its grade of match: direct, with change: "
     "..., reference only",
     .repeats = true},
    {0},
};

const struct kind kind_parts = {
    KIND_PARTS,
    "parts",
    "in facts the catalogue; in a guide the parts that the job uses",
    NAME_NONE,
    KIND_HOLDS_ROWS | KIND_IN_GUIDE | KIND_IN_FACTS | KIND_IN_SHARED,
    NULL,
    NULL,
    parts_columns,
};

const struct kind kind_include = {
    KIND_INCLUDE,
    "include",
    "steps of a file under procedures/shared/; definitions pass values in",
    NAME_REQUIRED,
    KIND_HOLDS_DEFINITIONS | KIND_IN_GUIDE | KIND_IN_SHARED,
    NULL,
    NULL,
    NULL,
};
