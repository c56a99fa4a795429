/* command_help.c - help: the commands, or one kind of block from the table. */
#include "base/arena.h"
#include "command/command.h"
#include "command/forms.h"
#include "command/lookup.h"
#include "command/wording.h"
#include "source/kind.h"

#include <stdio.h>
#include <string.h>

/* A row of the table, and below it what may be written there. */
static void print_row(const char *name, const char *meaning, const char *marks,
                      const char *value) {
    printf("    %-18s %s%s\n      %s\n", name, meaning, marks, value);
}

static const char *marks_of(bool required, bool repeats) {
    if (required)
        return repeats ? " (required; may be repeated)" : " (required)";
    return repeats ? " (may be repeated)" : "";
}

static void print_settings(struct arena *a, const struct kind *k) {
    if (k->settings == NULL)
        return;
    puts("\n  settings (name: value)");
    for (const struct setting *s = k->settings; s->name != NULL; s++) {
        struct buf value = buf_in(a);
        wording_value(&value, s->type, s->unit, s->choices);
        print_row(s->name, s->meaning, marks_of(s->required, s->repeats),
                  buf_cstr(&value));
    }
}

static void print_fields(const struct kind *k) {
    if (k->fields == NULL)
        return;
    puts("\n  values that it gives (NAME.value)");
    for (const struct field *f = k->fields; f->name != NULL; f++)
        printf("    %-18s %s%s%s%s\n", f->name, f->meaning,
               f->unit == NULL ? "" : " [", f->unit == NULL ? "" : f->unit,
               f->unit == NULL ? "" : "]");
}

static void print_columns(struct arena *a, const struct kind *k) {
    if (k->columns == NULL)
        return;
    puts("\n  columns (the first row names them)");
    for (const struct column *c = k->columns; c->name != NULL; c++) {
        struct buf value = buf_in(a);
        wording_value(&value, c->type, c->unit, NULL);
        print_row(c->name, c->meaning, marks_of(c->required, c->repeats),
                  buf_cstr(&value));
    }
}

static void print_kind(struct arena *a, const struct kind *k) {
    static const char *const naming[] = {"", " [NAME]", " NAME"};
    printf("```%s%s\n  %s\n", k->name, naming[k->naming], k->meaning);
    if (k->flags & KIND_HOLDS_DEFINITIONS)
        puts("\n  definitions: name = value  \"source\"");
    if (k->flags & KIND_HOLDS_REQUIREMENTS)
        puts("\n  requirements: left <= right  \"why\"");
    if (k->flags & KIND_FREE_COLUMNS)
        puts("\n  rows with columns of your own: cell | cell");
    print_settings(a, k);
    print_columns(a, k);
    print_fields(k);
}

/* What `bayleaf size` computes, and what it looks up. */
static void print_sizes(void) {
    puts("\n  of wire, fuse and torque: settings as 'bayleaf help KIND' lists "
         "them,\n  a hyphen for each blank: drop-limit=\"3 %\"\n\n"
         "  or looked up, by these settings");
    const struct lookup *l;
    for (size_t i = 0; (l = lookup_at(i)) != NULL; i++)
        printf("    %-12s %s\n      %s\n", l->name, l->meaning, l->wanted);
}

static void print_kinds(void) {
    puts("usage: bayleaf COMMAND [OPTION...] [ARGUMENT...]\n");
    const struct command *c;
    for (size_t i = 0; (c = command_at(i)) != NULL; i++)
        command_print(c);
    puts("\nKinds of block; 'bayleaf help KIND' tells more\n");
    for (int i = 0; i < KIND_COUNT; i++) {
        const struct kind *k = kind_by_id((enum kind_id)i);
        printf("  %-12s %s\n", k->name, k->meaning);
    }
}

/* All of the tables at once, for a file. */
static int print_form(const struct request *r) {
    struct buf b = buf_in(r->arena);
    if (r->word_count > 0)
        return command_usage("--as tells of all kinds; write no KIND");
    switch (r->form) {
    case FORM_PLAIN:
        break;
    case FORM_MANUAL:
        manual_write(&b);
        break;
    case FORM_COMPLETION:
        completion_write(&b);
        break;
    case FORM_REFERENCE:
        reference_write(&b);
        break;
    }
    fwrite(b.bytes, 1, b.len, stdout);
    return STATUS_GOOD;
}

int command_help(const struct request *r) {
    if (r->form != FORM_PLAIN)
        return print_form(r);
    if (r->word_count == 0) {
        print_kinds();
        return STATUS_GOOD;
    }
    struct text name = text_of(r->word[0]);
    const struct kind *k = kind_find(name);
    if (k != NULL) {
        print_kind(r->arena, k);
        return STATUS_GOOD;
    }
    const struct command *c = command_find(r->word[0]);
    if (c != NULL) {
        printf("bayleaf %s %s\n  %s\n", c->name, c->synopsis, c->meaning);
        if (c->run == command_size)
            print_sizes();
        return STATUS_GOOD;
    }
    struct nearest near = nearest_to(name);
    for (int i = 0; i < KIND_COUNT; i++)
        nearest_offer(&near, text_of(kind_by_id((enum kind_id)i)->name));
    if (near.best != NULL)
        return command_usage("no kind '%s' (did you mean '%.*s'?)", r->word[0],
                             (int)near.best_len, near.best);
    return command_usage("no kind '%s'; 'bayleaf help' lists them", r->word[0]);
}
