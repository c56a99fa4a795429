/* kind_page.c - kinds of block that require, list, show and warn. */
#include "source/kind_tables.h"

enum { IN_TEXT = KIND_IN_GUIDE | KIND_IN_SHARED };

const struct kind kind_check = {
    KIND_CHECK,
    "check",
    "requirements that must hold in each variant, at the worst end",
    NAME_NONE,
    KIND_HOLDS_REQUIREMENTS | IN_TEXT | KIND_IN_FACTS,
    NULL,
    NULL,
    NULL,
};

static const struct column limits_columns[] = {
    {"id", SETTING_TEXT, NULL, "named in {reading ..}", .required = true},
    {"characteristic", SETTING_PROSE, NULL, "what is measured",
     .required = true},
    {"limit", SETTING_LIMIT, NULL, "what it must be", .required = true},
    {"instrument", SETTING_PROSE, NULL,
     "with the step of its display and its accuracy", false, false},
    {"condition", SETTING_PROSE, NULL, "state of the vehicle during the test",
     false, false},
    {"if out", SETTING_PROSE, NULL, "what to do when it is not met", false,
     false},
    {0},
};

const struct kind kind_limits = {
    KIND_LIMITS,
    "limits",
    "what is measured and what it must be, a row each",
    NAME_NONE,
    KIND_HOLDS_ROWS | IN_TEXT,
    NULL,
    NULL,
    limits_columns,
};

static const struct setting override_settings[] = {
    {"at", SETTING_TEXT, NULL, NULL,
     "the block, or the elements of a circuit, that the rule is set aside for",
     false, false},
    {"reason", SETTING_PROSE, NULL, NULL, "printed in the guide",
     .required = true},
    {"approver", SETTING_TEXT, NULL, NULL, "who answers for it",
     .required = true},
    {0},
};

const struct kind kind_override = {
    KIND_OVERRIDE,
    "override",
    "sets one rule of the trade aside, by its name",
    NAME_REQUIRED,
    KIND_HOLDS_SETTINGS | KIND_IN_GUIDE,
    override_settings,
    NULL,
    NULL,
};

static const struct setting table_settings[] = {
    {"title", SETTING_PROSE, NULL, NULL, "printed above it", false, false},
    {0},
};

const struct kind kind_table = {
    KIND_TABLE,
    "table",
    "rows and columns of your own",
    NAME_OPTIONAL,
    KIND_HOLDS_SETTINGS | KIND_HOLDS_ROWS | KIND_FREE_COLUMNS |
        KIND_PRINTS_TABLE | IN_TEXT,
    table_settings,
    NULL,
    NULL,
};

static const struct column compare_columns[] = {
    {"label", SETTING_PROSE, NULL, "what is compared", .required = true},
    {"before", SETTING_PROSE, NULL, "as it was", .required = true},
    {"after", SETTING_PROSE, NULL, "as it is now", .required = true},
    {0},
};

const struct kind kind_compare = {
    KIND_COMPARE,
    "compare",
    "the vehicle before and after the work",
    NAME_OPTIONAL,
    KIND_HOLDS_SETTINGS | KIND_HOLDS_ROWS | KIND_PRINTS_TABLE | IN_TEXT,
    table_settings,
    NULL,
    compare_columns,
};

static const struct column faults_columns[] = {
    {"symptom", SETTING_PROSE, NULL, "what is seen", .required = true},
    {"cause", SETTING_PROSE, NULL, "the likeliest and easiest to test first",
     .required = true},
    {"test", SETTING_PROSE, NULL, "how to find out", .required = true},
    {"normal", SETTING_PROSE, NULL, "reading when this is not the cause", false,
     false},
    {"remedy", SETTING_PROSE, NULL,
     "what to do, or who to refer to: each branch ends", .required = true},
    {0},
};

const struct kind kind_faults = {
    KIND_FAULTS,
    "faults",
    "fault isolation: from a symptom to a remedy, a row each",
    NAME_OPTIONAL,
    KIND_HOLDS_SETTINGS | KIND_HOLDS_ROWS | KIND_PRINTS_TABLE | IN_TEXT,
    table_settings,
    NULL,
    faults_columns,
};

static const struct setting figure_settings[] = {
    {"image", SETTING_TEXT, NULL, NULL,
     "a PNG or JPEG file, by its path from procedures/", .required = true},
    {"title", SETTING_PROSE, NULL, NULL, "printed below it", .required = true},
    {"width", SETTING_QUANTITY, "m", NULL, "on the page", false, false},
    {0},
};

static const struct column figure_columns[] = {
    {"mark", SETTING_TEXT, NULL, "number drawn on the image", .required = true},
    {"across", SETTING_QUANTITY, "%", "place of the mark from the left edge",
     .required = true},
    {"down", SETTING_QUANTITY, "%", "place of the mark from the top edge",
     .required = true},
    {"part", SETTING_PROSE, NULL, "what it shows", .required = true},
    {0},
};

const struct kind kind_figure = {
    KIND_FIGURE,
    "figure",
    "an image with numbered marks and their key",
    NAME_OPTIONAL,
    KIND_HOLDS_SETTINGS | KIND_HOLDS_ROWS | IN_TEXT,
    figure_settings,
    NULL,
    figure_columns,
};

static const struct setting panel_settings[] = {
    {"hazard", SETTING_PROSE, NULL, NULL, "what can hurt, or be damaged",
     .required = true},
    {"consequence", SETTING_PROSE, NULL, NULL, "what happens then",
     .required = true},
    {"avoidance", SETTING_PROSE, NULL, NULL, "commands, the verb first",
     .required = true},
    {0},
};

const struct kind kind_danger = {
    KIND_DANGER,
    "danger",
    "will kill or injure badly if not avoided",
    NAME_NONE,
    KIND_HOLDS_SETTINGS | IN_TEXT,
    panel_settings,
    NULL,
    NULL,
};

const struct kind kind_warning = {
    KIND_WARNING,
    "warning",
    "could kill or injure badly if not avoided",
    NAME_NONE,
    KIND_HOLDS_SETTINGS | IN_TEXT,
    panel_settings,
    NULL,
    NULL,
};

const struct kind kind_caution = {
    KIND_CAUTION,
    "caution",
    "could injure lightly if not avoided",
    NAME_NONE,
    KIND_HOLDS_SETTINGS | IN_TEXT,
    panel_settings,
    NULL,
    NULL,
};

const struct kind kind_notice = {
    KIND_NOTICE,
    "notice",
    "could damage property; nobody is hurt",
    NAME_NONE,
    KIND_HOLDS_SETTINGS | IN_TEXT,
    panel_settings,
    NULL,
    NULL,
};
