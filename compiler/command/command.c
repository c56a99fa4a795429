/* command.c - the table of commands, and the command line read against it. */
#include "command/command.h"

#include "base/arena.h"
#include "base/text.h"
#include "base/version.h"
#include "command/option.h"
#include "library/shelf.h"
#include "source/encoding.h"

#include <errno.h>
#include <stdarg.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

static const struct command commands[] = {
    {.name = "build",
     .synopsis = "[GUIDE...]",
     .meaning = "compile guides to build/NAME.pdf",
     .most = SIZE_MAX,
     .needs_library = true,
     .takes_json = true,
     .takes_paper = true,
     .takes_vehicle = true,
     .run = command_build},
    {.name = "check",
     .synopsis = "[GUIDE...]",
     .meaning = "the same without printing",
     .most = SIZE_MAX,
     .needs_library = true,
     .takes_json = true,
     .takes_paper = true,
     .takes_vehicle = true,
     .run = command_check},
    {.name = "why",
     .synopsis = "GUIDE VALUE",
     .meaning = "how a value came about, down to its sources",
     .least = 2,
     .most = 2,
     .needs_library = true,
     .run = command_why},
    {.name = "sheet",
     .synopsis = "[JOB...]",
     .meaning = "print what the owner keeps of a job to build/jobs/",
     .most = SIZE_MAX,
     .needs_library = true,
     .takes_json = true,
     .takes_paper = true,
     .takes_fleet = true,
     .run = command_sheet},
    {.name = "issue",
     .synopsis = "GUIDE...",
     .meaning = "freeze a released revision under procedures/issued/",
     .least = 1,
     .most = SIZE_MAX,
     .needs_library = true,
     .run = command_issue},
    {.name = "register",
     .synopsis = "",
     .meaning = "every figure, its source, where it is printed; conflicts",
     .most = 0,
     .needs_library = true,
     .takes_paper = true,
     .takes_register = true,
     .run = command_register},
    {.name = "size",
     .synopsis = "KIND SETTING=VALUE...",
     .meaning = "one calculation, no document",
     .least = 1,
     .most = SIZE_MAX,
     .takes_json = true,
     .run = command_size},
    {.name = "start",
     .synopsis = "library|guide NAME, or job GUIDE",
     .meaning = "a small true example to begin with",
     .least = 2,
     .most = 2,
     .run = command_start},
    {.name = "dump",
     .synopsis = "tree|values|cautions|pages|display|faults GUIDE",
     .meaning = "what a stage left, as text",
     .least = 2,
     .most = 2,
     .needs_library = true,
     .takes_json = true,
     .takes_paper = true,
     .takes_vehicle = true,
     .run = command_dump},
    {.name = "help",
     .synopsis = "[KIND]",
     .meaning = "the commands, or what a kind of block may hold",
     .most = 1,
     .takes_form = true,
     .run = command_help},
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

/* What steers a terminal, cannot be seen there, or is no UTF-8. */
static bool is_refused(struct text t, size_t from, size_t to) {
    size_t at = from;
    uint32_t code = text_next(t, &at);
    return code < 0x20 || encoding_refuses(code) != NULL ||
           (code == 0xFFFD && to - from == 1);
}

/* What was typed is repeated, but steers no terminal. */
int command_usage(const char *text, ...) {
    struct arena *a = arena_new();
    va_list args;
    va_start(args, text);
    char *line = arena_vprintf(a, text, args);
    va_end(args);
    struct text t = text_of(line);
    fputs("bayleaf: ", stderr);
    for (size_t at = 0, to = 0; at < t.len; at = to) {
        text_next(t, &to);
        if (is_refused(t, at, to))
            fputc('?', stderr);
        else
            fwrite(line + at, 1, to - at, stderr);
    }
    fputc('\n', stderr);
    arena_free(a);
    return STATUS_USAGE;
}

bool command_is_plain(const char *word) {
    struct text t = text_of(word);
    for (size_t at = 0, to = 0; at < t.len; at = to) {
        text_next(t, &to);
        if (is_refused(t, at, to))
            return false;
    }
    return true;
}

int command_flush(int status) {
    if (fflush(stdout) == 0 && !ferror(stdout))
        return status;
    fprintf(stderr, "bayleaf: cannot write: standard output: %s\n",
            strerror(errno));
    return STATUS_SYSTEM;
}

int command_unknown(const char *what, const char *word, struct nearest near) {
    if (near.best != NULL)
        return command_usage("unknown %s '%s' (did you mean '%.*s'?)", what,
                             word, (int)near.best_len, near.best);
    return command_usage("unknown %s '%s'; see 'bayleaf help'", what, word);
}

static int unknown_command(const char *word) {
    struct nearest near = nearest_to(text_of(word));
    for (size_t i = 0; i < COMMANDS; i++)
        nearest_offer(&near, text_of(commands[i].name));
    return command_unknown("command", word, near);
}

/* What is longer than its column has the meaning below it. */
void command_print(const struct command *c) {
    enum { COLUMN = 38 };
    int used = printf("  bayleaf %s %s", c->name, c->synopsis) - 10;
    printf("%s%*s %s\n", used > COLUMN ? "\n" : "",
           used > COLUMN ? COLUMN + 10 : COLUMN - used, "", c->meaning);
}

static int print_help(void) {
    puts("usage: bayleaf COMMAND [OPTION...] [ARGUMENT...]\n\n"
         "Compiles shop procedures, written in Markdown, into checked, "
         "printable guides.\n");
    for (size_t i = 0; i < COMMANDS; i++)
        command_print(&commands[i]);
    puts("\nA GUIDE is a file, or the name of one in procedures/; none: all of "
         "them. A JOB is\none in procedures/jobs/.\n");
    const struct option *o;
    for (size_t i = 0; (o = option_at(i)) != NULL; i++)
        printf("  %s%s%-*s %s\n", o->name, o->value == NULL ? "" : "=",
               (int)(18 - strlen(o->name)), o->value == NULL ? "" : o->value,
               o->meaning);
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
            int status = option_take(r, argv, argc, &i);
            if (status != STATUS_GOOD)
                return status;
        } else if (r->command == NULL) {
            r->command = command_find(argv[i]);
            if (r->command == NULL)
                return unknown_command(argv[i]);
        } else if (!command_is_plain(argv[i])) {
            return command_usage("no plain text: '%s'", argv[i]);
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
    if (r->word_count > 0) /* that of a guide's or job's path before that */
        r->root = shelf_root_of(r->arena, r->root, r->word[0]);
    if (r->root == NULL && c->needs_library)
        return command_usage("no library here: a library is a folder with "
                             "procedures/ in it; 'bayleaf start library NAME' "
                             "makes one");
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
