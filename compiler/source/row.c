/* row.c - rows of a block: cells between bars, under the columns that the first
 * row names.
 *
 *   row  := line { "|" line }
 *   line := cell { "|" cell }
 *
 * A bar inside {...} is no bar of the row. The last column may be one that
 * repeats: what is too much for the row then goes on with it. */
#include "source/row.h"

#include "base/arena.h"
#include "base/diag.h"
#include "base/list.h"
#include "source/entry.h"
#include "source/kind.h"
#include "source/mark.h"
#include "source/suggest.h"
#include "stages.h"

#include <string.h>

struct cells {
    struct text *text;
    size_t count, room;
};

static void add_cell(struct compile *c, struct cells *cells, struct text t) {
    cells->text = list_grown(c->arena, cells->text, cells->count, &cells->room,
                             sizeof *cells->text);
    cells->text[cells->count++] = text_trim(t);
}

static void split_line(struct compile *c, struct cells *cells, struct text t) {
    size_t from = 0;
    for (size_t i = 0; i <= t.len; i++) {
        while (i < t.len && t.start[i] == '{')
            i = mark_skip(t, i);
        if (i < t.len && t.start[i] != '|')
            continue;
        add_cell(c, cells, text_part(t, from, i));
        from = i + 1;
    }
}

/* Lines that go on begin with a bar, which is not a cell's end. */
static struct cells split_row(struct compile *c, const struct row_lines *row) {
    struct cells cells = {0};
    for (size_t i = 0; i < row->count; i++) {
        struct text line = row->line[i];
        split_line(c, &cells, i == 0 ? line : text_part(line, 1, line.len));
    }
    return cells;
}

/* "; there are: id, characteristic, limit" */
static const char *columns_there_are(struct compile *c, const struct block *b) {
    struct buf words = buf_in(c->arena);
    for (const struct column *k = b->kind->columns;
         k != NULL && k->name != NULL; k++)
        buf_printf(&words, "%s%s", words.len == 0 ? "; there are: " : ", ",
                   k->name);
    return buf_cstr(&words);
}

static bool known_column(struct compile *c, const struct scope *scope,
                         const struct block *b, struct text name,
                         const struct column **column) {
    *column = NULL;
    if (b->kind->flags & KIND_FREE_COLUMNS)
        return true;
    *column = kind_column(b->kind, name);
    if (*column != NULL)
        return true;
    const char *near = kind_nearest_column(b->kind, name);
    diag_add(c->diags, DIAG_COLUMN_UNKNOWN, place_of(scope->src, name),
             "'%.*s' in '%s'%s%s", (int)name.len, name.start, b->kind->name,
             suggest(c->arena, name, text_of(near)),
             near == NULL ? columns_there_are(c, b) : "");
    return false;
}

static bool missing_columns(struct compile *c, const struct block *b) {
    bool missing = false;
    for (const struct column *k = b->kind->columns;
         k != NULL && k->name != NULL; k++) {
        bool found = !k->required;
        for (size_t i = 0; i < b->column_count; i++)
            found = found || b->column[i] == k;
        if (found)
            continue;
        diag_add(c->diags, DIAG_COLUMN_MISSING, b->at, "'%s' needs '%s'",
                 b->kind->name, k->name);
        missing = true;
    }
    return missing;
}

/* Columns of a table are the author's own: a name stands twice only by mistake,
 * there as here. */
static bool named_before(const struct block *b, size_t at) {
    for (size_t i = 0; i < at; i++)
        if (b->column[i] != NULL ? b->column[i] == b->column[at]
                                 : text_equal(b->columns[i], b->columns[at]))
            return true;
    return false;
}

enum { COLUMNS_MAX = 64 };

bool row_head(struct compile *c, const struct scope *scope, struct block *b,
              const struct row_lines *row) {
    struct cells cells = split_row(c, row);
    if (cells.count > COLUMNS_MAX) {
        diag_add(c->diags, DIAG_CELL_SURPLUS,
                 place_of(scope->src, cells.text[COLUMNS_MAX]),
                 "a block holds at most %d columns", (int)COLUMNS_MAX);
        return false;
    }
    b->columns = cells.text;
    b->column = arena_alloc(c->arena, cells.count, sizeof *b->column);
    b->column_count = cells.count;
    bool good = true;
    for (size_t i = 0; i < cells.count; i++) {
        struct text name = cells.text[i];
        struct span at = place_of(scope->src, name);
        if (name.len == 0) {
            diag_add(c->diags, DIAG_COLUMN_UNKNOWN, at,
                     "the first row names the columns");
            good = false;
        } else if (!known_column(c, scope, b, name, &b->column[i])) {
            good = false;
        } else if (named_before(b, i)) {
            diag_add(c->diags, DIAG_COLUMN_TWICE, at, "'%.*s'", (int)name.len,
                     name.start);
            good = false;
        }
    }
    return good && !missing_columns(c, b);
}

/* One list of variants behind the row is the row's; more of them are
 * alternatives of the last cell. */
static bool take_tags(struct compile *c, const struct scope *scope,
                      struct text *last, struct tags *tags) {
    if (last->len == 0 || last->start[last->len - 1] != ']')
        return true;
    const char *open = memchr(last->start, '[', last->len);
    const char *close = memchr(last->start, ']', last->len);
    if (open == NULL || close < open || close != last->start + last->len - 1)
        return true;
    size_t from = (size_t)(open - last->start);
    struct text list = text_trim(text_part(*last, from + 1, last->len - 1));
    *last = text_trim(text_part(*last, 0, from));
    if (list.len > 0)
        return entry_tags(c, scope->src, list, tags);
    diag_add(c->diags, DIAG_LIST_FORM,
             (struct span){scope->src, (size_t)(open - scope->src->text.start),
                           (size_t)(close - scope->src->text.start) + 1},
             "name the variants");
    return false;
}

/* A required cell may not be left empty; the count says how many are there. */
static bool missing_cells(struct compile *c, const struct block *b,
                          const struct entry *e) {
    for (size_t i = 0; i < b->column_count; i++) {
        if (b->column[i] == NULL || !b->column[i]->required ||
            e->cells[i].text.len > 0)
            continue;
        diag_add(c->diags, DIAG_CELL_MISSING, e->at, "'%s' is empty",
                 b->column[i]->name);
        return true;
    }
    return false;
}

static bool add_more(struct compile *c, const struct scope *scope,
                     struct cell **end, struct text t) {
    struct cell *more = arena_alloc(c->arena, 1, sizeof *more);
    (*end)->next = more;
    *end = more;
    return entry_cell(c, scope, t, more);
}

bool row_read(struct compile *c, const struct scope *scope,
              const struct block *b, const struct row_lines *row,
              struct entry *e) {
    struct cells cells = split_row(c, row);
    bool good = take_tags(c, scope, &cells.text[cells.count - 1], &e->tags);
    const struct column *last = b->column[b->column_count - 1];
    bool repeats = last != NULL && last->repeats;
    if (cells.count > b->column_count && !repeats) {
        diag_add(c->diags, DIAG_CELL_SURPLUS,
                 place_of(scope->src, cells.text[b->column_count]),
                 "%zu cells under %zu columns", cells.count, b->column_count);
        return false;
    }
    e->cells = arena_alloc(c->arena, b->column_count, sizeof *e->cells);
    e->cell_count = b->column_count;
    struct cell *end = &e->cells[b->column_count - 1];
    for (size_t i = 0; i < cells.count; i++)
        good = (i < b->column_count
                    ? entry_cell(c, scope, cells.text[i], &e->cells[i])
                    : add_more(c, scope, &end, cells.text[i])) &&
               good;
    return good && !missing_cells(c, b, e);
}
