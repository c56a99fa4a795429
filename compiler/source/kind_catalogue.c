/* kind_catalogue.c - kinds of block of the hazard catalogue: rows, rules of
 * order, rules of style. */
#include "source/kind_tables.h"

static const struct setting hazard_settings[] = {
    {"title", SETTING_TEXT, NULL, NULL, "for the safety summary", false, false},
    {"action", SETTING_CHOICE, NULL, "insert|flag|refuse",
     "what the compiler does where it is met", false, false},
    {"signal", SETTING_CHOICE, NULL, "danger|warning|caution|notice",
     "word of the panel", false, false},
    {"tags", SETTING_LIST, NULL, NULL,
     "words of {touches ..} and {does ..} that call for it", false, false},
    {"with", SETTING_LIST, NULL, NULL,
     "words that call for it in the model years of `years`", false, false},
    {"years", SETTING_TEXT, NULL, NULL,
     "model years, `1988 or later` or `2005 or earlier`; one that the vehicle "
     "does not state counts",
     false, false},
    {"when", SETTING_LIST, NULL, NULL,
     "what calculations show: `fault current >= 200 A`", false, false},
    {"unless", SETTING_CHOICE, NULL, "no lead-acid battery",
     "never called for there", false, false},
    {"words", SETTING_LIST, NULL, NULL,
     "phrases of a step that ask for its mark; a bar stands between two words "
     "that do as well",
     false, false},
    {"settled by", SETTING_LIST, NULL, NULL,
     "words of marks of other rows whose panel says enough: they answer for "
     "`words`",
     false, false},
    {"hazard", SETTING_PROSE, NULL, NULL, "what can hurt", false, false},
    {"consequence", SETTING_PROSE, NULL, NULL, "what it can do", false, false},
    {"avoidance", SETTING_PROSE, NULL, NULL, "commands, the verb first", false,
     false},
    {"symbols", SETTING_LIST, NULL, NULL, "signs drawn in the panel", false,
     false},
    {"cure", SETTING_TEXT, NULL, NULL,
     "what the author may do, where the row flags or refuses", false, false},
    {"defer", SETTING_TEXT, NULL, NULL, "who must do such work", false, false},
    {"shop only", SETTING_YES_NO, NULL, NULL,
     "no owner is told to do such work", false, false},
    {"source", SETTING_TEXT, NULL, NULL,
     "document and clause, or `common practice`", false, false},
    {"in force", SETTING_YES_NO, NULL, NULL,
     "no: the shop sets a shipped row aside, with a reason", false, false},
    {"reason", SETTING_PROSE, NULL, NULL,
     "why the shop weakens a shipped row; printed", false, false},
    {"approver", SETTING_TEXT, NULL, NULL, "who answers for that; printed",
     false, false},
    {0},
};

const struct kind kind_hazard = {
    KIND_HAZARD,
    "hazard",
    "a row of the hazard catalogue, templates/hazards.md",
    NAME_REQUIRED,
    KIND_HOLDS_SETTINGS | KIND_IN_CATALOGUE,
    hazard_settings,
    NULL,
    NULL,
};

static const struct setting order_settings[] = {
    {"title", SETTING_TEXT, NULL, NULL, "what is wrong, for the message", false,
     false},
    {"step", SETTING_LIST, NULL, NULL,
     "words of marks of the step that must wait", false, false},
    {"step words", SETTING_LIST, NULL, NULL, "phrases of such a step", false,
     false},
    {"needs", SETTING_LIST, NULL, NULL,
     "words of marks of what must be done before it", false, false},
    {"needs words", SETTING_LIST, NULL, NULL, "phrases of that", false, false},
    {"undone by", SETTING_LIST, NULL, NULL,
     "words of marks after which it must be done again", false, false},
    {"undone words", SETTING_LIST, NULL, NULL, "phrases of that", false, false},
    {"from", SETTING_LIST, NULL, NULL,
     "words of marks from which on it must not be done", false, false},
    {"until", SETTING_LIST, NULL, NULL,
     "words of marks up to which it must not be done", false, false},
    {"cure", SETTING_TEXT, NULL, NULL, "for the message", false, false},
    {"source", SETTING_TEXT, NULL, NULL,
     "document and clause, or `common practice`", false, false},
    {"in force", SETTING_YES_NO, NULL, NULL,
     "no: the shop sets a shipped rule aside, with a reason", false, false},
    {"reason", SETTING_PROSE, NULL, NULL, "why the shop sets it aside; printed",
     false, false},
    {"approver", SETTING_TEXT, NULL, NULL, "who answers for that; printed",
     false, false},
    {0},
};

const struct kind kind_order = {
    KIND_ORDER,
    "order",
    "a rule for the order of steps: either `needs` and `undone by`, or `from` "
    "and `until`",
    NAME_REQUIRED,
    KIND_HOLDS_SETTINGS | KIND_IN_CATALOGUE,
    order_settings,
    NULL,
    NULL,
};

static const struct setting style_settings[] = {
    {"title", SETTING_TEXT, NULL, NULL, "the cure, for the message",
     .required = true},
    {"words", SETTING_LIST, NULL, NULL, "phrases that a step should not have",
     false, false},
    {"most words", SETTING_COUNT, NULL, NULL, "in one sentence of a step",
     false, false},
    {"most commands", SETTING_COUNT, NULL, NULL,
     "sentences of a step that begin with one of `verbs`", false, false},
    {"verbs", SETTING_LIST, NULL, NULL, "words that begin a command", false,
     false},
    {"names", SETTING_LIST, NULL, NULL,
     "names of one part with bars between them, of which a guide uses one",
     false, false},
    {0},
};

const struct kind kind_style = {
    KIND_STYLE,
    "style",
    "a rule for the words of steps; `style off` of a guide or a shop names "
    "those that it does not want",
    NAME_REQUIRED,
    KIND_HOLDS_SETTINGS | KIND_IN_CATALOGUE,
    style_settings,
    NULL,
    NULL,
};
