/* command.c - the table of commands, and the command line read against it. */
#include "command/command.h"

#include "base/arena.h"
#include "base/text.h"
#include "base/version.h"
#include "library/shelf.h"

#include <errno.h>
#include <stdarg.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

static const struct command commands[] = {
    {"build", "[GUIDE...]", "compile guides to build/NAME.pdf", 0, SIZE_MAX,
     true, true, true, command_build},
    {"check", "[GUIDE...]", "the same without printing", 0, SIZE_MAX, true,
     true, true, command_check},
    {"why", "GUIDE VALUE", "how a value came about, down to its sources", 2, 2,
     true, false, false, command_why},
    {"size", "KIND SETTING=VALUE...", "one calculation, no document", 1,
     SIZE_MAX, false, true, false, command_size},
    {"dump", "tree|values|pages|display GUIDE", "what a stage left, as text", 2,
     2, true, true, true, command_dump},
    {"help", "[KIND]", "the commands, or what a kind of block may hold", 0, 1,
     false, false, false, command_help},
};

enum { COMMANDS = sizeof commands / sizeof commands[0] };

const struct command *command_at(size_t index) {
    return index < COMMANDS ? &commands[index] : NULL;
}

const struct command *command_find(const char *name) {
    for (size_t i = 0; i < COMMANDS; i++)
        if (strcmp(commands[i].name, name) == 0)
            return &commands[i];
    return NULL;
}

int command_usage(const char *text, ...) {
    va_list args;
    va_start(args, text);
    fputs("bayleaf: ", stderr);
    vfprintf(stderr, text, args);
    fputs("\n", stderr);
    va_end(args);
    return STATUS_USAGE;
}

int command_flush(int status) {
    if (fflush(stdout) == 0 && !ferror(stdout))
        return status;
    fprintf(stderr, "bayleaf: cannot write: standard output: %s\n",
            strerror(errno));
    return STATUS_SYSTEM;
}

static int unknown(const char *what, const char *word, struct nearest near) {
    if (near.best != NULL)
        return command_usage("unknown %s '%s' (did you mean '%.*s'?)", what,
                             word, (int)near.best_len, near.best);
    return command_usage("unknown %s '%s'; see 'bayleaf help'", what, word);
}

static int unknown_command(const char *word) {
    struct nearest near = nearest_to(text_of(word));
    for (size_t i = 0; i < COMMANDS; i++)
        nearest_offer(&near, text_of(commands[i].name));
    return unknown("command", word, near);
}

/* An option and what it does to the request. */
struct option {
    const char *name;  /* "--json" */
    const char *value; /* "letter|A4", or NULL: takes none */
    const char *meaning;
    bool (*fits)(const struct command *c);
    bool (*set)(struct request *r, const char *value);
};

static bool fits_json(const struct command *c) {
    return c->takes_json;
}

static bool fits_paper(const struct command *c) {
    return c->takes_paper;
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

static const struct option options[] = {
    {"--json", NULL, "results for other programs", fits_json, set_json},
    {"--paper", "letter|A4", "paper; else A4 where the guide says units: SI",
     fits_paper, set_paper},
};

enum { OPTIONS = sizeof options / sizeof options[0] };

static const struct option *find_option(const char *word, const char **value) {
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

static int unknown_option(const char *word) {
    struct nearest near = nearest_to(text_of(word));
    for (size_t i = 0; i < OPTIONS; i++)
        nearest_offer(&near, text_of(options[i].name));
    nearest_offer(&near, text_of("--help"));
    nearest_offer(&near, text_of("--version"));
    return unknown("option", word, near);
}

/* Takes one option at argv[*at], its value included; STATUS_GOOD or USAGE. */
static int take_option(struct request *r, char **argv, int argc, int *at) {
    const char *value;
    const struct option *o = find_option(argv[*at], &value);
    if (o == NULL)
        return unknown_option(argv[*at]);
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

static int print_help(void) {
    puts("usage: bayleaf COMMAND [OPTION...] [ARGUMENT...]\n\n"
         "Compiles shop procedures, written in Markdown, into checked, "
         "printable guides.\n");
    for (size_t i = 0; i < COMMANDS; i++)
        printf("  bayleaf %-5s %-32s %s\n", commands[i].name,
               commands[i].synopsis, commands[i].meaning);
    puts("\nA GUIDE is a file, or the name of one in procedures/; none: all of "
         "them.\n");
    for (size_t i = 0; i < OPTIONS; i++)
        printf("  %s%s%-*s %s\n", options[i].name,
               options[i].value == NULL ? "" : "=",
               (int)(18 - strlen(options[i].name)),
               options[i].value == NULL ? "" : options[i].value,
               options[i].meaning);
    puts("  --help              this text\n"
         "  --version           name and version\n"
         "  --                  ends the options\n\n"
         "Exit status: 0 all built, 1 a guide was refused, 2 wrong usage or "
         "source,\n3 the system failed. Messages go to standard error, in "
         "colour only on a\nterminal and never with NO_COLOR set.\n\n"
         "Numbers are checked against published tables, not against your "
         "vehicle: local\ncodes, the vehicle maker's figures and licensed "
         "practice come first.");
    return command_flush(STATUS_GOOD);
}

static bool wants_colour(void) {
    const char *no = getenv("NO_COLOR");
    const char *term = getenv("TERM");
    return isatty(STDERR_FILENO) && (no == NULL || no[0] == '\0') &&
           (term == NULL || strcmp(term, "dumb") != 0);
}

/* --help and --version anywhere before `--` win over all else. */
static bool special(int argc, char **argv, int *status) {
    for (int i = 1; i < argc && strcmp(argv[i], "--") != 0; i++) {
        if (strcmp(argv[i], "--help") == 0) {
            *status = print_help();
            return true;
        }
        if (strcmp(argv[i], "--version") == 0) {
            puts("bayleaf " BAYLEAF_VERSION);
            *status = command_flush(STATUS_GOOD);
            return true;
        }
    }
    return false;
}

static int read_line(struct request *r, int argc, char **argv) {
    const char **words =
        arena_alloc(r->arena, (size_t)argc + 1, sizeof(*words));
    bool ended = false;
    for (int i = 1; i < argc; i++) {
        if (!ended && strcmp(argv[i], "--") == 0) {
            ended = true;
        } else if (!ended && argv[i][0] == '-' && argv[i][1] != '\0') {
            int status = take_option(r, argv, argc, &i);
            if (status != STATUS_GOOD)
                return status;
        } else if (r->command == NULL) {
            r->command = command_find(argv[i]);
            if (r->command == NULL)
                return unknown_command(argv[i]);
        } else {
            words[r->word_count++] = argv[i];
        }
    }
    r->word = words;
    return STATUS_GOOD;
}

static int run_request(struct request *r) {
    const struct command *c = r->command;
    if (r->word_count < c->least || r->word_count > c->most)
        return command_usage("usage: bayleaf %s %s", c->name, c->synopsis);
    r->root = shelf_root(r->arena);
    if (r->root == NULL && c->needs_library)
        return command_usage("no library here: a library is a folder with "
                             "procedures/ in it");
    r->colour = wants_colour();
    return command_flush(c->run(r));
}

int command_main(int argc, char **argv) {
    int status;
    if (special(argc, argv, &status))
        return status;
    if (argc < 2) {
        print_help();
        return STATUS_USAGE;
    }
    struct request r = {.arena = arena_new()};
    status = read_line(&r, argc, argv);
    if (status == STATUS_GOOD)
        status = r.command == NULL
                     ? command_usage("no command; see 'bayleaf help'")
                     : run_request(&r);
    arena_free(r.arena);
    return status;
}
