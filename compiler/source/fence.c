/* fence.c - a fenced block back in its source, line by line.
 *
 * Markdown takes the indentation of the fence away from each line of a block,
 * so line k of its text is the tail of source line `line + 1 + k`. A tab in
 * front breaks this, since it may be taken away in part: it is refused. */
#include "source/fence.h"

#include "base/arena.h"
#include "base/diag.h"
#include "source/kind.h"
#include "stages.h"

#include <string.h>

/* The line at *at without its line end; *at goes behind that. */
static struct text next_line(struct text t, size_t *at) {
    size_t from = *at, end = from;
    while (end < t.len && t.start[end] != '\n')
        end++;
    *at = end < t.len ? end + 1 : end;
    if (end > from && t.start[end - 1] == '\r')
        end--;
    return text_part(t, from, end);
}

static bool ends_with(struct text line, struct text tail) {
    return tail.len <= line.len &&
           text_equal(text_part(line, line.len - tail.len, line.len), tail);
}

static size_t count_lines(struct text literal) {
    size_t count = 0;
    for (size_t at = 0; at < literal.len; count++)
        next_line(literal, &at);
    return count;
}

/* Length of the run of one fence sign at the start of t; 0 when too short. */
static size_t fence_run(struct text t) {
    if (t.len < 3 || (t.start[0] != '`' && t.start[0] != '~'))
        return 0;
    size_t len = 1;
    while (len < t.len && t.start[len] == t.start[0])
        len++;
    return len < 3 ? 0 : len;
}

/* Indented code may itself begin with what looks like a fence: then it is the
 * first line of the code as well, and not the second of the source. */
static bool is_indented(const struct source *src, size_t line,
                        struct text opening, struct text literal) {
    if (fence_run(opening) == 0)
        return true;
    size_t at = 0;
    struct text first = next_line(literal, &at);
    return literal.len > 0 && text_equal(first, opening) &&
           !ends_with(place_line(src, line + 1), first);
}

static bool closes(struct text line, struct text opening) {
    size_t skip = 0;
    while (skip < line.len && strchr(" \t>", line.start[skip]) != NULL)
        skip++;
    line = text_trim(text_part(line, skip, line.len));
    size_t run = fence_run(line);
    return run == line.len && run >= fence_run(opening) &&
           line.start[0] == opening.start[0];
}

static bool has_tab(struct text line, struct text tail) {
    size_t before = line.len - tail.len;
    for (size_t i = 0; i < line.len; i++) {
        if (line.start[i] == '\t')
            return true;
        if (i >= before && line.start[i] != ' ')
            return false;
    }
    return false;
}

static bool take_line(struct compile *c, const struct source *src, size_t line,
                      struct text found, struct text *out) {
    struct text whole = place_line(src, line);
    bool same = whole.start != NULL && ends_with(whole, found);
    if (!same || has_tab(whole, found)) {
        diag_add(c->diags, DIAG_TAB_REFUSED, place_of(src, whole),
                 "indent lines of a block with blanks");
        return false;
    }
    *out = text_part(whole, whole.len - found.len, whole.len);
    return true;
}

static bool in_quote(const struct source *src, size_t line, size_t column) {
    struct text before = text_part(place_line(src, line), 0, column - 1);
    return before.len > 0 && memchr(before.start, '>', before.len) != NULL;
}

/* A line of the block that cannot be one: another fence with a word behind it,
 * or the heading of a section. */
static bool begins_other(struct text line, struct text opening) {
    if (text_starts(line, "## "))
        return true;
    line = text_trim(line);
    size_t run = fence_run(line);
    return run > 0 && run < line.len && line.start[0] == opening.start[0];
}

/* ```KIND in a fence without a word: one that should close the block above was
 * taken for one that opens. */
static bool opens_block(struct text line, struct text opening) {
    line = text_trim(line);
    size_t run = fence_run(line), end = run;
    while (end < line.len && line.start[end] != ' ')
        end++;
    return run >= fence_run(opening) && line.start[0] == opening.start[0] &&
           kind_find(text_part(line, run, end)) != NULL;
}

/* A fence that was forgotten: what follows would be taken for lines of this
 * block. */
static bool is_whole(struct compile *c, const struct source *src, size_t line,
                     struct text opening, struct text literal) {
    size_t run = fence_run(opening);
    bool plain = text_trim(text_part(opening, run, opening.len)).len == 0;
    for (size_t at = 0, k = 1; at < literal.len; k++) {
        struct text found = next_line(literal, &at);
        if (!(plain ? opens_block : begins_other)(found, opening))
            continue;
        if (plain)
            diag_add(c->diags, DIAG_BLOCK_OPEN, place_of(src, opening),
                     "a fence of its own, and a block begins in line %zu: one "
                     "was forgotten above",
                     line + k);
        else
            diag_add(c->diags, DIAG_BLOCK_OPEN, place_of(src, opening),
                     "close it before line %zu with a line of '%.*s'", line + k,
                     (int)run, opening.start);
        return false;
    }
    return true;
}

enum fence fence_read(struct compile *c, const struct source *src, size_t line,
                      size_t column, struct text literal,
                      struct block_lines *out) {
    struct text whole = place_line(src, line);
    if (column > whole.len + 1)
        return FENCE_VERBATIM;
    struct text opening = text_part(whole, column - 1, whole.len);
    if (is_indented(src, line, opening, literal))
        return FENCE_VERBATIM;
    size_t run = fence_run(opening), count = count_lines(literal);
    struct text info = text_trim(text_part(opening, run, opening.len));
    if (!is_whole(c, src, line, opening, literal))
        return FENCE_BAD;
    struct text last = place_line(src, line + count + 1);
    if (last.start == NULL || !closes(last, opening)) {
        diag_add(c->diags, DIAG_BLOCK_OPEN, place_of(src, opening),
                 "close it with a line of '%.*s'", (int)run, opening.start);
        return FENCE_BAD;
    }
    if (info.len == 0)
        return FENCE_VERBATIM;
    if (in_quote(src, line, column)) {
        diag_add(c->diags, DIAG_KIND_MISPLACED, place_of(src, info),
                 "a block cannot stand in a quotation");
        return FENCE_BAD;
    }
    *out = (struct block_lines){.info = info};
    out->line = arena_alloc(c->arena, count + 1, sizeof *out->line);
    for (size_t at = 0; out->count < count; out->count++)
        if (!take_line(c, src, line + 1 + out->count, next_line(literal, &at),
                       &out->line[out->count]))
            return FENCE_BAD;
    return FENCE_BLOCK;
}
