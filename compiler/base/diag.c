/* diag.c - messages about the author's document: collect, sort, print. */
#include "base/diag.h"

#include "base/arena.h"
#include "base/list.h"
#include "base/shown.h"

#include <ctype.h>
#include <stdarg.h>
#include <stdlib.h>
#include <string.h>

struct diag_row {
    const char *name;
    enum diag_level level;
    const char *wording;
};

static const struct diag_row rows[] = {
#define DIAG(id, level, wording) {#id, level, wording},
#include "base/messages.def"
};

_Static_assert(sizeof rows / sizeof rows[0] == DIAG_COUNT,
               "each message has its row");

struct note {
    struct note *next;
    struct span at;
    const char *text;
};

struct diag {
    enum diag_id id;
    struct span at;
    const char *detail;
    struct note *notes;
    size_t order; /* as added: keeps the sort stable */
};

struct diags {
    struct arena *arena;
    struct diag *list;
    size_t count, room;
};

struct diags *diag_new(struct arena *a) {
    struct diags *d = arena_alloc(a, 1, sizeof *d);
    d->arena = a;
    return d;
}

/* Control characters of the author's text must not reach a terminal. */
static void make_printable(char *s) {
    for (; *s != '\0'; s++)
        if (iscntrl((unsigned char)*s))
            *s = ' ';
}

__attribute__((format(printf, 2, 0))) static char *
format_detail(struct arena *a, const char *format, va_list args) {
    char *out = arena_vprintf(a, format, args);
    make_printable(out);
    return out;
}

void diag_add(struct diags *d, enum diag_id id, struct span at,
              const char *detail, ...) {
    d->list =
        list_grown(d->arena, d->list, d->count, &d->room, sizeof *d->list);
    struct diag *one = &d->list[d->count];
    *one = (struct diag){.id = id, .at = at, .order = d->count};
    d->count++;
    if (detail == NULL)
        return;
    va_list args;
    va_start(args, detail);
    one->detail = format_detail(d->arena, detail, args);
    va_end(args);
}

void diag_note(struct diags *d, struct span at, const char *text, ...) {
    if (d->count == 0)
        return;
    struct note *n = arena_alloc(d->arena, 1, sizeof *n);
    n->at = at;
    va_list args;
    va_start(args, text);
    n->text = format_detail(d->arena, text, args);
    va_end(args);
    struct note **end = &d->list[d->count - 1].notes;
    while (*end != NULL)
        end = &(*end)->next;
    *end = n;
}

int diag_status(const struct diags *d) {
    int worst = 0;
    for (size_t i = 0; i < d->count; i++)
        if ((int)rows[d->list[i].id].level > worst)
            worst = (int)rows[d->list[i].id].level;
    return worst;
}

int diag_status_outside(const struct diags *d, const char *folder) {
    int worst = 0;
    for (size_t i = 0; i < d->count; i++) {
        const struct source *src = d->list[i].at.src;
        if ((src == NULL || !text_starts(text_of(src->path), folder)) &&
            (int)rows[d->list[i].id].level > worst)
            worst = (int)rows[d->list[i].id].level;
    }
    return worst;
}

size_t diag_count(const struct diags *d, enum diag_level at_least) {
    size_t count = 0;
    for (size_t i = 0; i < d->count; i++)
        count += rows[d->list[i].id].level >= at_least;
    return count;
}

/* By file, then place, then order of arrival; those without a place first. */
static int compare(const void *left, const void *right) {
    const struct diag *a = left, *b = right;
    const char *path_a = a->at.src == NULL ? "" : a->at.src->path;
    const char *path_b = b->at.src == NULL ? "" : b->at.src->path;
    int order = strcmp(path_a, path_b);
    if (order != 0)
        return order;
    if (a->at.start != b->at.start)
        return a->at.start < b->at.start ? -1 : 1;
    return a->order < b->order ? -1 : 1;
}

static bool same_message(const struct diag *a, const struct diag *b) {
    if (a->id != b->id || a->at.src != b->at.src || a->at.start != b->at.start)
        return false;
    if (a->detail == NULL || b->detail == NULL)
        return a->detail == b->detail;
    return strcmp(a->detail, b->detail) == 0;
}

/* The same message at the same place, as from each variant of a guide. */
static bool was_given(const struct diags *d, size_t at) {
    for (size_t i = at; i-- > 0;) {
        if (d->list[i].at.src != d->list[at].at.src ||
            d->list[i].at.start != d->list[at].at.start)
            return false;
        if (same_message(&d->list[i], &d->list[at]))
            return true;
    }
    return false;
}

static void print_place(struct span at, FILE *out) {
    if (at.src == NULL) {
        fputs("bayleaf: ", out);
        return;
    }
    struct position p = place_position(at.src, at.start);
    if (at.src->line_name != NULL) {
        const char *name = at.src->line_name[p.line - 1];
        fprintf(out, "bayleaf: %s%s", name == NULL ? "" : name,
                name == NULL ? "" : ": ");
        return;
    }
    /* A file's name may hold anything. */
    for (const char *s = at.src->path; *s != '\0'; s++)
        fputc(iscntrl((unsigned char)*s) ? '?' : *s, out);
    fprintf(out, ":%zu:%zu: ", p.line, p.column);
}

enum { SHOWN_COLUMNS = 100 };

/* The line with the place in it, and a caret line below. Long lines are cut to
 * a window around the place. */
static void print_line(struct span at, FILE *out, bool colour) {
    if (at.src == NULL || at.src->text.len == 0)
        return;
    struct position p = place_position(at.src, at.start);
    if (at.src->line_name != NULL && at.src->line_name[p.line - 1] == NULL)
        return;
    struct text line = place_line(at.src, p.line);
    size_t first = 1, byte = 0;
    if (p.column > 70) { /* back from the place: the line may be very long */
        byte = at.start - at.src->line_start[p.line - 1];
        byte = byte < line.len ? byte : line.len;
        for (first = p.column; first > p.column - 60 && byte > 0; byte--)
            first -= ((unsigned char)line.start[byte - 1] & 0xC0) != 0x80;
    }
    fputs("  ", out);
    for (size_t shown = 0; byte < line.len && shown < SHOWN_COLUMNS; shown++) {
        size_t start = byte;
        uint32_t code = text_next(line, &byte);
        if (code < 0x20 || code == 0x7F || (code >= 0x80 && code < 0xA0) ||
            code == 0xFFFD || (code >= 0x200B && code <= 0x200F) ||
            (code >= 0x202A && code <= 0x202E) ||
            (code >= 0x2060 && code <= 0x206F) || code == 0xFEFF)
            fputc(code == '\t' ? ' ' : '?', out);
        else
            fwrite(line.start + start, 1, byte - start, out);
    }
    fprintf(out, "\n  %*s%s^", (int)(p.column - first), "",
            colour ? "\033[1;32m" : "");
    struct position end = place_position(at.src, at.end);
    size_t line_end = at.src->line_start[p.line - 1] + line.len;
    size_t last = end.line == p.line
                      ? end.column
                      : place_position(at.src, line_end).column + 1;
    for (size_t c = p.column + 1; c < last && c < first + SHOWN_COLUMNS; c++)
        fputc('~', out);
    fprintf(out, "%s\n", colour ? "\033[0m" : "");
}

static void print_one(const struct diag *one, FILE *out, bool colour) {
    static const char *const words[] = {"warning", "error", "error", "error"};
    static const char *const shades[] = {"\033[1;35m", "\033[1;31m",
                                         "\033[1;31m", "\033[1;31m"};
    const struct diag_row *row = &rows[one->id];
    print_place(one->at, out);
    fprintf(out, "%s%s:%s %s", colour ? shades[row->level] : "",
            words[row->level], colour ? "\033[0m" : "", row->wording);
    if (one->detail != NULL)
        fprintf(out, ": %s", one->detail);
    fputc('\n', out);
    print_line(one->at, out, colour);
    for (const struct note *n = one->notes; n != NULL; n = n->next) {
        if (n->at.src != NULL) {
            print_place(n->at, out);
            fprintf(out, "note: %s\n", n->text);
        } else {
            fprintf(out, "  %s\n", n->text);
        }
    }
    const struct source *src = one->at.src;
    for (int depth = 0;
         src != NULL && src->included_at.src != NULL && depth < 32; depth++) {
        print_place(src->included_at, out);
        fputs("note: named here\n", out);
        src = src->included_at.src;
    }
}

enum { SHOWN_MESSAGES = 200 }; /* enough to mend before the next run */

static bool is_known(const struct diags *d, const struct diag *one,
                     struct shown *known) {
    if (known == NULL || one->at.src == NULL)
        return false;
    return shown_before(
        known, text_of(arena_printf(d->arena, "%s:%zu:%d:%s", one->at.src->path,
                                    one->at.start, (int)one->id,
                                    one->detail == NULL ? "" : one->detail)));
}

void diag_print(struct diags *d, FILE *out, bool colour) {
    diag_print_new(d, NULL, out, colour);
}

size_t diag_print_new(struct diags *d, struct shown *known, FILE *out,
                      bool colour) {
    size_t shown = 0, more = 0, before = 0;
    if (d->count > 1)
        qsort(d->list, d->count, sizeof *d->list, compare);
    for (size_t i = 0; i < d->count; i++) {
        if (was_given(d, i))
            continue;
        if (is_known(d, &d->list[i], known)) {
            before++;
            continue;
        }
        if (shown == SHOWN_MESSAGES) {
            more++;
            continue;
        }
        print_one(&d->list[i], out, colour);
        shown++;
    }
    if (more > 0)
        fprintf(out, "bayleaf: and %zu more messages\n", more);
    return before;
}

const char *diag_wording(enum diag_id id) {
    return rows[id].wording;
}

void diag_name(enum diag_id id, char out[DIAG_NAME_MAX]) {
    size_t len = 0;
    for (const char *s = rows[id].name; *s != '\0' && len + 1 < DIAG_NAME_MAX;
         s++)
        out[len++] = *s == '_' ? '-' : (char)tolower((unsigned char)*s);
    out[len] = '\0';
}
