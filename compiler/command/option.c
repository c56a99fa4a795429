/* option.c - the table of options, and the command line read against it. */
#include "command/option.h"

#include "base/text.h"

#include <string.h>

static bool fits_json(const struct command *c) {
    return c->takes_json;
}

static bool fits_paper(const struct command *c) {
    return c->takes_paper;
}

static bool fits_as(const struct command *c) {
    return c->takes_form;
}

static bool set_json(struct request *r, const char *value) {
    (void)value;
    r->json = true;
    return true;
}

static bool set_paper(struct request *r, const char *value) {
    if (strcmp(value, "letter") == 0)
        r->layout.paper = PAPER_LETTER;
    else if (strcmp(value, "A4") == 0)
        r->layout.paper = PAPER_A4;
    else
        return false;
    return true;
}

static bool set_template(struct request *r, const char *value) {
    r->layout.template = value;
    return command_is_plain(value) && value[0] != '\0';
}

static bool fits_vehicle(const struct command *c) {
    return c->takes_vehicle;
}

static bool set_vehicle(struct request *r, const char *value) {
    r->only = text_cstr(r->arena, text_trim(text_of(value)));
    return command_is_plain(value) && value[0] != '\0';
}

static bool fits_fleet(const struct command *c) {
    return c->takes_fleet;
}

static bool set_fleet(struct request *r, const char *value) {
    r->fleet = value;
    return command_is_plain(value) && value[0] != '\0';
}

static bool fits_register(const struct command *c) {
    return c->takes_register;
}

static bool set_changed(struct request *r, const char *value) {
    (void)value;
    r->changed = true;
    return true;
}

static bool set_print(struct request *r, const char *value) {
    (void)value;
    r->print = true;
    return true;
}

static bool set_sheet(struct request *r, const char *value) {
    r->sheet = value;
    return command_is_plain(value) && strlen(value) == 8;
}

static bool set_as(struct request *r, const char *value) {
    if (strcmp(value, "manual") == 0)
        r->form = FORM_MANUAL;
    else if (strcmp(value, "completion") == 0)
        r->form = FORM_COMPLETION;
    else if (strcmp(value, "reference") == 0)
        r->form = FORM_REFERENCE;
    else
        return false;
    return true;
}

static const struct option options[] = {
    {"--json", NULL, "results for other programs", fits_json, set_json},
    {"--paper", "letter|A4", "paper; else A4 where the guide says units: SI",
     fits_paper, set_paper},
    {"--template", "NAME", "shop, bench, or one of the library's templates/",
     fits_paper, set_template},
    {"--for", "VEHICLE",
     "one vehicle only: a variant, a model year or an identification number",
     fits_vehicle, set_vehicle},
    {"--from", "TABLE.csv",
     "jobs from a table, a row each, as a spreadsheet writes it", fits_fleet,
     set_fleet},
    {"--changed", NULL, "only which issued sheets are out of date, and why",
     fits_register, set_changed},
    {"--print", NULL, "the same to build/register/figures.pdf", fits_register,
     set_print},
    {"--sheet", "CODE",
     "what a sheet in the hand is, by the eight letters at its foot",
     fits_register, set_sheet},
    {"--as", "manual|completion|reference",
     "help as the manual page, as the completion of bash, or as the tables of "
     "docs/language.md",
     fits_as, set_as},
};

enum { OPTIONS = sizeof options / sizeof options[0] };

const struct option *option_at(size_t index) {
    return index < OPTIONS ? &options[index] : NULL;
}

static const struct option *find(const char *word, const char **value) {
    for (size_t i = 0; i < OPTIONS; i++) {
        size_t len = strlen(options[i].name);
        if (strncmp(word, options[i].name, len) != 0 ||
            (word[len] != '\0' && word[len] != '='))
            continue;
        *value = word[len] == '=' ? word + len + 1 : NULL;
        return &options[i];
    }
    return NULL;
}

static int unknown(const char *word) {
    struct nearest near = nearest_to(text_of(word));
    for (size_t i = 0; i < OPTIONS; i++)
        nearest_offer(&near, text_of(options[i].name));
    nearest_offer(&near, text_of("--help"));
    nearest_offer(&near, text_of("--version"));
    return command_unknown("option", word, near);
}

int option_take(struct request *r, char **argv, int argc, int *at) {
    const char *value;
    const struct option *o = find(argv[*at], &value);
    if (o == NULL)
        return unknown(argv[*at]);
    if (r->command == NULL || !o->fits(r->command))
        return command_usage("%s does not go with this command", o->name);
    if (o->value == NULL && value != NULL)
        return command_usage("%s takes no value", o->name);
    if (o->value != NULL && value == NULL) {
        if (*at + 1 >= argc)
            return command_usage("%s wants %s", o->name, o->value);
        value = argv[++*at];
    }
    if (!o->set(r, value))
        return command_usage("%s wants %s, not '%s'", o->name, o->value, value);
    return STATUS_GOOD;
}
