/* command_size.c - size: one calculation without a document.
 *
 * The settings become a guide of one block, written in the source language, and
 * run through the same stages: what a guide would print is what this prints. */
#include "base/arena.h"
#include "base/diag.h"
#include "checks/findings.h"
#include "command/command.h"
#include "command/lookup.h"
#include "command/result.h"
#include "source/kind.h"
#include "source/read.h"
#include "source/tree.h"
#include "stages.h"
#include "values/figure.h"
#include "values/working.h"

#include <stdio.h>
#include <string.h>

/* `drop-limit` on the command line is `drop limit` in a block. */
static const struct setting *find_setting(const struct kind *k,
                                          struct text key) {
    for (const struct setting *s = k->settings; s != NULL && s->name != NULL;
         s++) {
        bool same = strlen(s->name) == key.len;
        for (size_t i = 0; same && i < key.len; i++)
            same = s->name[i] == key.start[i] ||
                   (s->name[i] == ' ' && key.start[i] == '-');
        if (same)
            return s;
    }
    return NULL;
}

struct writing {
    const struct kind *kind, *wire;
    struct buf block, run; /* settings of the block, and of a fuse's wire */
    const char **block_name, **run_name; /* of each of their lines */
    size_t block_lines, run_lines;
};

static int report_setting(const struct writing *w, struct text key) {
    struct nearest near = nearest_to(key);
    for (const struct setting *s = w->kind->settings; s->name != NULL; s++)
        nearest_offer(&near, text_of(s->name));
    if (near.best != NULL)
        return command_usage("%s has no setting '%.*s' (did you mean '%.*s'?)",
                             w->kind->name, (int)key.len, key.start,
                             (int)near.best_len, near.best);
    return command_usage("%s has no setting '%.*s'; see 'bayleaf help %s'",
                         w->kind->name, (int)key.len, key.start, w->kind->name);
}

/* A value with a line end could smuggle in lines of its own. */
static bool is_one_line(const char *s) {
    for (; *s != '\0'; s++)
        if ((unsigned char)*s < 0x20)
            return false;
    return true;
}

static int add_word(struct writing *w, const char *word) {
    const char *equals = strchr(word, '=');
    if (equals == NULL || equals == word)
        return command_usage("'%s' is not SETTING=VALUE", word);
    if (!is_one_line(word))
        return command_usage("a value stands on one line");
    struct text key = {word, (size_t)(equals - word)};
    bool of_wire = text_starts(key, "wire.");
    if (of_wire)
        key = text_part(key, 5, key.len);
    /* One wire is behind it: what that carries the fuse does, too. */
    bool both = w->kind->id == KIND_FUSE && text_is(key, "load");
    const struct setting *s =
        of_wire || both ? NULL : find_setting(w->kind, key);
    struct buf *to = &w->block;
    const char *written =
        arena_copy(w->block.arena, word, (size_t)(equals - word));
    bool in_run = false;
    if (s == NULL && w->kind->id == KIND_FUSE) {
        s = find_setting(w->wire, key);
        to = &w->run;
        in_run = true;
    }
    if (s == NULL)
        return report_setting(w, key);
    buf_printf(to, "%s: %s\n", s->name, equals + 1);
    if (in_run)
        w->run_name[w->run_lines++] = written;
    else
        w->block_name[w->block_lines++] = written;
    return STATUS_GOOD;
}

/* The guide, whose lines are called as the settings are on the command line. */
static struct source *write_guide(const struct request *r, struct writing *w) {
    static const char head[] = "# One calculation\n\n```guide\nid: size\n"
                               "revision: 1\nstatus: draft\n```\n\n";
    enum { HEAD = 9, BETWEEN = 4 }; /* with the fence of the block */
    struct buf b = buf_in(r->arena);
    const char **name = arena_alloc(
        r->arena, HEAD + BETWEEN + w->run_lines + w->block_lines + 2,
        sizeof(*name));
    size_t line = HEAD;
    buf_puts(&b, head);
    if (w->kind->id == KIND_FUSE) {
        buf_printf(&b, "```wire run\n%s```\n\n", buf_cstr(&w->run));
        for (size_t i = 0; i < w->run_lines; i++)
            name[line + i] = w->run_name[i];
        line += w->run_lines + BETWEEN;
    }
    buf_printf(&b, "```%s %s\n", w->kind->name, w->kind->name);
    if (w->kind->id == KIND_FUSE)
        buf_puts(&b, "protects: run\n");
    buf_printf(&b, "%s```\n", buf_cstr(&w->block));
    for (size_t i = 0; i < w->block_lines; i++)
        name[line + i] = w->block_name[i];
    struct source *src = place_source(r->arena, "size", buf_as_text(&b));
    src->line_name = name;
    return src;
}

static void print_line(const char *label, const char *text) {
    if (text == NULL || text[0] == '\0')
        return;
    printf("    %s", label);
    figure_write(stdout, text);
    putchar('\n');
}

static const struct block *main_block(const struct guide *g) {
    for (size_t i = 0; i < g->block_count; i++)
        if (text_is(g->blocks[i]->name, g->blocks[i]->kind->name))
            return g->blocks[i];
    return NULL;
}

static void print_fields(const struct request *r, const struct values *v,
                         const struct block *b) {
    for (const struct field *f = b->kind->fields; f->name != NULL; f++) {
        const struct named *n = values_of(v, b, f->name);
        if (n == NULL || !n->computed)
            continue;
        printf("%-12s ", f->name);
        figure_write(stdout, values_print(v, r->arena, n, 0, PRINT_RANGE));
        putchar('\n');
    }
}

static void print_rejected(const struct request *r, const struct values *v,
                           const struct block *b) {
    const char *s = working_rejected(v, b, 0);
    if (*s != '\0')
        puts("\nsmaller sizes fail");
    while (*s != '\0') {
        size_t len = strcspn(s, "\n");
        fputs("  ", stdout);
        figure_write(stdout, arena_copy(r->arena, s, len));
        putchar('\n');
        s += len + (s[len] == '\n');
    }
}

static void print_verdicts(const struct findings *f) {
    if (f->verdict_count > 0)
        puts("\nchecks");
    for (size_t i = 0; i < f->verdict_count; i++) {
        const struct verdict *one = &f->verdict[i];
        printf("  %-7s ", one->holds ? "holds" : one->flag ? "doubt" : "FAILS");
        figure_write(stdout, one->what);
        if (one->value[0] != '\0')
            fputs(": ", stdout);
        figure_write(stdout, one->value);
        if (one->limit != NULL) {
            fputs(" against ", stdout);
            figure_write(stdout, one->limit);
        }
        if (one->margin != NULL && one->margin[0] != '\0') {
            fputs(one->holds        ? ", margin "
                  : one->too_little ? ", short by "
                                    : ", over by ",
                  stdout);
            figure_write(stdout, one->margin);
        }
        putchar('\n');
        print_line("", one->source);
    }
}

static void print_working(const struct request *r, const struct values *v,
                          const struct block *b) {
    const struct working *row;
    size_t count = values_working(v, r->arena, b, 0, &row);
    if (count > 0)
        puts("\nworking");
    for (size_t i = 0; i < count; i++) {
        printf("  %s = ", row[i].what);
        figure_write(stdout, row[i].result);
        putchar('\n');
        print_line("", row[i].formula);
        print_line("with ", row[i].numbers);
        print_line("source: ", row[i].source);
    }
    const struct assumption *assumed;
    count = values_assumptions(v, &assumed);
    if (count > 0)
        puts("\nassumed, because it was not said");
    for (size_t i = 0; i < count; i++) {
        printf("  %s: ", assumed[i].what);
        figure_write(stdout, assumed[i].value);
        printf(" (%s)\n", assumed[i].source);
    }
}

static void print_json(const struct values *v, const struct block *b) {
    struct results *results = result_begin();
    for (const struct field *f = b->kind->fields; f->name != NULL; f++) {
        const struct named *n = values_of(v, b, f->name);
        if (n == NULL || !n->computed)
            continue;
        struct named field = *n; /* "drop": the block has no name here */
        field.name = text_of(f->name);
        result_value(results, v, &field, 0);
    }
    result_end(results, stdout);
}

static int calculate(const struct request *r, struct source *source) {
    struct compile c = {.arena = r->arena,
                        .diags = diag_new(r->arena),
                        .single = true,
                        .library = r->root == NULL ? "." : r->root};
    const struct guide *g = source_read_made(&c, source);
    const struct values *v = values_evaluate(&c, g);
    const struct findings *f = checks_run(&c, g, v);
    const struct block *b = main_block(g);
    int status = diag_status(c.diags);
    if (b != NULL && status <= STATUS_REFUSED) {
        if (r->json) {
            print_json(v, b);
        } else {
            print_fields(r, v, b);
            print_rejected(r, v, b);
            print_verdicts(f);
            print_working(r, v, b);
        }
    }
    fflush(stdout);
    diag_print(c.diags, stderr, r->colour);
    return status;
}

int command_size(const struct request *r) {
    struct writing w = {.kind = kind_find(text_of(r->word[0])),
                        .wire = kind_by_id(KIND_WIRE),
                        .block = buf_in(r->arena),
                        .run = buf_in(r->arena)};
    w.block_name = arena_alloc(r->arena, r->word_count, sizeof(*w.block_name));
    w.run_name = arena_alloc(r->arena, r->word_count, sizeof(*w.run_name));
    const struct lookup *lookup = lookup_find(r->word[0]);
    if (lookup != NULL)
        return lookup_run(lookup, r);
    if (w.kind == NULL || w.kind->fields == NULL) {
        struct buf b = buf_in(r->arena);
        for (size_t i = 0; lookup_at(i) != NULL; i++)
            buf_printf(&b, "%s%s", i == 0 ? "" : ", ", lookup_at(i)->name);
        return command_usage("size computes wire, fuse, torque, and looks up "
                             "%s; not '%s'",
                             buf_cstr(&b), r->word[0]);
    }
    for (size_t i = 1; i < r->word_count; i++) {
        int status = add_word(&w, r->word[i]);
        if (status != STATUS_GOOD)
            return status;
    }
    return calculate(r, write_guide(r, &w));
}
