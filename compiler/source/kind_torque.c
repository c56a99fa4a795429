/* kind_torque.c - the kind of block for a bolted joint. */
#include "source/kind_tables.h"

static const struct setting torque_settings[] = {
    {"count", SETTING_COUNT, NULL, NULL, "how many of them", false, false},
    {"thread", SETTING_TEXT, NULL, NULL,
     "M8 x 1.25, 1/2-20; of a tapping screw ST4.2, #8 AB", false, false},
    {"grade", SETTING_TEXT, NULL, NULL,
     "of the bolt: 4.6 to 12.9; on inch threads SAE 1 to SAE 8.2, A574, A307; "
     "stainless A1-50 to A5-80",
     false, false},
    {"nut", SETTING_TEXT, NULL, NULL,
     "of the nut: 5, 6, 8, 9, 10, 12; on inch threads SAE 2, SAE 5, SAE 8; "
     "stainless A2-50 to A4-80",
     false, false},
    {"into", SETTING_TEXT, NULL, NULL,
     "what a tapped hole is in, and the engaged length: aluminium, 16 mm; cast "
     "aluminium with wire insert, 24 mm; of a tapping screw the sheet. Holes: "
     "steel, cast iron, bronze, brass, aluminium, cast aluminium, plastic",
     false, false},
    {"under head", SETTING_TEXT, NULL, NULL,
     "what head or nut press on: steel, hardened steel, cast iron, aluminium, "
     "cast aluminium, magnesium, glass-reinforced plastic, carbon-reinforced "
     "plastic; behind a comma the diameter of a flange or a stiff washer: "
     "aluminium, 24 mm; absent: not checked",
     false, false},
    {"condition", SETTING_TEXT, NULL, NULL,
     "of the thread: clean, dry; dry; black, dry; zinc plated; zinc plated, "
     "dry; zinc flake; cadmium plated; phosphated, oiled; oiled; lubricated; "
     "anti-seize; waxed lock nut; locking compound; stainless, dry; "
     "stainless, anti-seize",
     false, false},
    {"figure", SETTING_QUANTITY, "N.m", NULL,
     "the maker's torque, with its source", false, false},
    {"target", SETTING_CHOICE, NULL,
     "75 % of proof|90 % of proof|90 % of yield|70 % of tensile",
     "preload wanted, where there is no maker's figure; absent: 75 % of proof",
     false, false},
    {"method", SETTING_CHOICE, NULL, "K factor|friction",
     "how torque follows from preload", false, false},
    {"tightened", SETTING_CHOICE, NULL,
     "by feel|torque wrench|turn of nut|torque and angle|indicating washer|"
     "bolt elongation|power screwdriver|impact driver",
     "the way, which decides how far the clamping force scatters; absent: the "
     "friction of the condition decides",
     false, false},
    {"angle", SETTING_STAGES, "deg", NULL,
     "how far the bolt is turned on behind the figure, tightened: torque and "
     "angle, or turn of nut; prints behind its torque",
     false, false},
    {"prevailing", SETTING_QUANTITY, "N.m", NULL,
     "torque of a locking nut that turns freely", false, false},
    {"prevailing rule", SETTING_CHOICE, NULL, "always|over a third|included",
     "when prevailing torque is added; over a third: where it is a third of "
     "the torque or more",
     false, false},
    {"wrench", SETTING_WRENCH, "N.m", NULL, "range of the wrench, and its step",
     false, false},
    {"wrench length", SETTING_QUANTITY, "m", NULL,
     "from the drive to the middle of the grip", false, false},
    {"extension", SETTING_QUANTITY, "m", NULL,
     "length that an adaptor adds to the wrench", false, false},
    {"extension angle", SETTING_QUANTITY, "deg", NULL,
     "between adaptor and wrench; absent: in line", false, false},
    {"pattern", SETTING_TEXT, NULL, NULL,
     "order: star (round a circle) or spiral (a row, from the middle); drawn "
     "for 3 to 16",
     false, false},
    {"joint", SETTING_CHOICE, NULL,
     "wheel|brake|steering|suspension|seat|belt|hitch|propeller|rudder|fuel|"
     "LPG|electrical|other",
     "what lets go if it comes loose; counts as its hazard tag", false, false},
    {"re-check", SETTING_TEXT, NULL, NULL,
     "when to tighten again: 30 days; after {500 km}", false, false},
    {"renew", SETTING_YES_NO, NULL, NULL,
     "never used a second time: named under Spares", false, false},
    {0},
};

static const struct field torque_fields[] = {
    {"torque", "N.m", "torque to tighten to"},
    {"setting", "N.m", "what to set on the wrench"},
    {"preload", "kN",
     "clamping force of one bolt; with an angle that before it"},
    {"order", NULL,
     "of a pattern, by the numbers of its drawing: 1 to 6 as drawn for NAME"},
    {"pilot", "mm", "hole to drill for a tapping screw"},
    {"load", "%", "preload as a share of the bolt's proof load"},
    {0},
};

const struct kind kind_torque = {
    KIND_TORQUE,
    "torque",
    "a bolted joint; without a name: defaults for its file",
    NAME_OPTIONAL,
    KIND_HOLDS_SETTINGS | KIND_IN_GUIDE | KIND_IN_FACTS | KIND_IN_SHARED,
    torque_settings,
    torque_fields,
    NULL,
};
