/* option.h - the table of options, and the command line read against it. */
#ifndef OPTION_H
#define OPTION_H

#include "command/command.h"

/* An option and what it does to the request. */
struct option {
    const char *name;  /* "--json" */
    const char *value; /* "letter|A4", or NULL: takes none */
    const char *meaning;
    bool (*fits)(const struct command *c);
    bool (*set)(struct request *r, const char *value);
};

const struct option *option_at(size_t index); /* NULL past the end */

/* Takes the option at argv[*at], its value included; STATUS_GOOD or USAGE. */
int option_take(struct request *r, char **argv, int argc, int *at);

#endif
