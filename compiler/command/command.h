/* command.h - the commands of the program and what they are given. */
#ifndef COMMAND_H
#define COMMAND_H

#include "base/text.h"
#include "layout/layout.h"

#include <stdbool.h>
#include <stddef.h>

struct arena;

enum {
    STATUS_GOOD = 0,
    STATUS_REFUSED = 1,
    STATUS_USAGE = 2,
    STATUS_SYSTEM = 3
};

/* What `help --as` makes of the tables. */
enum help_form { FORM_PLAIN, FORM_MANUAL, FORM_COMPLETION, FORM_REFERENCE };

/* The command line after its options were taken out. */
struct request {
    struct arena *arena;
    const struct command *command;
    const char *const *word; /* what follows the command's name */
    size_t word_count;
    bool json, colour; /* colour: of the messages */
    struct layout_options layout;
    enum help_form form;
    bool changed;      /* of the register: only what is out of date */
    bool print;        /* of the register: on paper */
    const char *sheet; /* of the register: the code of a sheet, or NULL */
    const char *fleet; /* of sheet: a table of jobs, or NULL */
    const char *only;  /* variant, year or number to build for, or NULL */
    const char *root;  /* of the library; NULL when there is none */
};

struct command {
    const char *name;
    const char *synopsis; /* "[GUIDE...]" */
    const char *meaning;
    size_t least, most; /* words */
    bool needs_library;
    bool takes_json, takes_paper, takes_form, takes_register;
    bool takes_vehicle, takes_fleet;
    int (*run)(const struct request *r);
};

/* A line of help. */
void command_print(const struct command *c);
const struct command *command_find(const char *name);
const struct command *command_at(size_t index); /* NULL past the end */

int command_build(const struct request *r);
int command_check(const struct request *r);
int command_why(const struct request *r);
int command_sheet(const struct request *r);
int command_issue(const struct request *r);
int command_register(const struct request *r);
int command_size(const struct request *r);
int command_start(const struct request *r);
int command_dump(const struct request *r);
int command_help(const struct request *r);

/* "bayleaf: TEXT" on stderr, on one line; returns STATUS_USAGE. */
int command_usage(const char *text, ...) __attribute__((format(printf, 1, 2)));
/* No control characters: it may be printed as it is. */
bool command_is_plain(const char *word);
/* "bayleaf: unknown WHAT 'WORD'", with the nearest; returns STATUS_USAGE. */
int command_unknown(const char *what, const char *word, struct nearest near);
/* STATUS_SYSTEM with a message when stdout took less than it was given. */
int command_flush(int status);
/* The whole program: options, command, exit status. */
int command_main(int argc, char **argv);

#endif
