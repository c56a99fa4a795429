/* fleet.c - a table of jobs, one a row. */
#include "library/fleet.h"

#include "base/arena.h"
#include "base/diag.h"
#include "source/encoding.h"
#include "source/kind.h"
#include "source/suggest.h"
#include "stages.h"

#include <errno.h>
#include <stdio.h>
#include <string.h>

enum { CELLS_MAX = 200, ROW_BYTES_MAX = 64 * 1024 };

enum column_kind { COLUMN_SETTING, COLUMN_SET, COLUMN_FOUND, COLUMN_LEFT };

struct fleet_column {
    enum column_kind kind;
    struct text name; /* of the setting, the figure, the reading */
    struct text title;
};

struct fleet {
    const char *path;
    FILE *in;
    size_t row;
    bool broken; /* a read failed: nothing comes any more */
    struct fleet_column column[CELLS_MAX];
    size_t column_count;
};

/* Cells of a row; what is wrong with it, or NULL. */
struct cells {
    struct text cell[CELLS_MAX];
    size_t count;
    const char *wrong;
};

/* --- the table --- */

/* One row, its line ends inside quotes with it; absent at the end. Quotes open
 * at the beginning of a cell only: one inside it is a slip of this row alone.
 * Where a read fails the table does not end: that is a wrong row, the last. */
static struct text read_row(struct fleet *f, struct arena *a,
                            const char **wrong) {
    struct buf b = buf_in(a);
    bool quoted = false, any = false, begins = true;
    for (int c; !f->broken && (c = getc(f->in)) != EOF;) {
        any = true;
        if (c == '\n' && !quoted)
            break;
        if (c == '"' && (quoted || begins))
            quoted = !quoted;
        begins = !quoted && (c == ',' || c == '"'); /* a doubled one goes on */
        if (b.len < ROW_BYTES_MAX)
            buf_add(&b, &(char){(char)c}, 1);
        else
            *wrong = "it is longer than a row can be";
    }
    if (quoted)
        *wrong = "a quotation mark is not closed";
    if (!f->broken && ferror(f->in)) {
        *wrong = arena_printf(a, "reading stopped: %s", strerror(errno));
        any = f->broken = true;
    }
    if (!any)
        return (struct text){NULL, 0};
    struct text t = buf_as_text(&b);
    if (t.len > 0 && t.start[t.len - 1] == '\r')
        t.len--;
    return t;
}

/* A cell up to the comma behind it; false at the end of the row. */
static bool next_cell(struct arena *a, struct text *rest, struct text *cell,
                      const char **wrong) {
    struct buf b = buf_in(a);
    size_t at = 0;
    bool quoted = rest->len > 0 && rest->start[0] == '"';
    for (at = quoted ? 1 : 0; at < rest->len; at++) {
        char c = rest->start[at];
        if (quoted && c == '"') {
            if (at + 1 < rest->len && rest->start[at + 1] == '"') {
                buf_add(&b, "\"", 1);
                at++;
                continue;
            }
            at++;
            break;
        }
        if (!quoted && c == ',')
            break;
        if (!quoted && c == '"')
            *wrong = "a quotation mark stands inside a cell without quotes";
        buf_add(&b, &c, 1);
    }
    if (at < rest->len && rest->start[at] != ',')
        *wrong = "something stands behind a cell in quotes";
    *cell = text_trim(buf_as_text(&b));
    bool more = at < rest->len && rest->start[at] == ',';
    *rest = text_part(*rest, at + (more ? 1 : 0), rest->len);
    return more;
}

static bool read_cells(struct fleet *f, struct arena *a, struct cells *out) {
    *out = (struct cells){.wrong = NULL};
    struct text row = read_row(f, a, &out->wrong);
    if (row.start == NULL)
        return false;
    for (bool more = true; more && out->wrong == NULL; out->count++) {
        if (out->count == CELLS_MAX)
            out->wrong = "it has more than 200 cells";
        else
            more = next_cell(a, &row, &out->cell[out->count], &out->wrong);
    }
    return true;
}

/* --- its columns --- */

static bool ends_in(struct text t, const char *word, struct text *front) {
    size_t len = strlen(word);
    if (t.len <= len || !text_is(text_part(t, t.len - len, t.len), word))
        return false;
    *front = text_trim(text_part(t, 0, t.len - len));
    return front->len > 0;
}

/* What parts the cells of a table that is none of commas; or NULL. */
static const char *parted_by(struct text title) {
    return memchr(title.start, ';', title.len) != NULL    ? "semicolons"
           : memchr(title.start, '\t', title.len) != NULL ? "tabs"
                                                          : NULL;
}

static bool read_column(struct text title, struct fleet_column *out) {
    const struct setting *s = kind_setting(kind_by_id(KIND_JOB), title);
    out->title = title;
    if (parted_by(title) != NULL)
        return false; /* all of its titles are in this cell */
    if (s != NULL && !s->repeats) {
        out->kind = COLUMN_SETTING;
        out->name = title;
        return true;
    }
    if (text_starts(title, "set ")) {
        out->kind = COLUMN_SET;
        out->name = text_trim(text_part(title, 4, title.len));
        return out->name.len > 0;
    }
    out->kind = COLUMN_FOUND;
    if (ends_in(title, " found", &out->name))
        return true;
    out->kind = COLUMN_LEFT;
    return ends_in(title, " left", &out->name);
}

static struct source *row_source(struct fleet *f, struct arena *a) {
    struct source *src = place_source(a, f->path, text_of(""));
    const char **name = arena_alloc(a, src->line_count + 1, sizeof(*name));
    name[0] = f->row == 0 ? arena_printf(a, "%s", f->path)
                          : arena_printf(a, "%s row %zu", f->path, f->row);
    src->line_name = name;
    return src;
}

static void refuse(struct fleet *f, struct compile *c, const char *why) {
    diag_add(c->diags, DIAG_FLEET, (struct span){row_source(f, c->arena), 0, 0},
             "%s", why);
}

/* Of two columns of one name the cells of one would be lost. */
static bool is_twice(const struct fleet *f, const struct fleet_column *k) {
    for (const struct fleet_column *o = f->column; o < k; o++)
        if (o->kind == k->kind && text_equal(o->name, k->name))
            return true;
    return false;
}

/* What is wrong with the title of the next column; NULL: nothing. */
static const char *add_column(struct fleet *f, struct arena *a,
                              struct text title) {
    struct fleet_column *k = &f->column[f->column_count++];
    int len = (int)title.len;
    if (read_column(title, k))
        return is_twice(f, k)
                   ? arena_printf(a,
                                  "'%.*s' is the name of two columns; delete "
                                  "one of them",
                                  len, title.start)
                   : NULL;
    const char *near = kind_nearest_setting(kind_by_id(KIND_JOB), title);
    const char *parted = parted_by(title);
    struct text shown = text_squeezed(a, title);
    return arena_printf(
        a,
        "'%.*s' is no column%s; settings of a job, `set pump.run`, `R1 found`, "
        "`R1 left` are%s%s%s",
        (int)shown.len, shown.start, suggest(a, title, text_of(near)),
        parted == NULL ? "" : "; its cells are parted by ",
        parted == NULL ? "" : parted,
        parted == NULL ? "" : ": save it with commas");
}

static bool read_columns(struct fleet *f, struct compile *c) {
    struct cells cells;
    if (!read_cells(f, c->arena, &cells))
        cells.wrong = "it is empty; the first row names the columns";
    if (cells.wrong != NULL) {
        refuse(f, c, cells.wrong);
        return false;
    }
    if (cells.count > 0 && text_starts(cells.cell[0], "\xEF\xBB\xBF"))
        cells.cell[0] = text_part(cells.cell[0], 3, cells.cell[0].len);
    bool good = true;
    for (size_t i = 0; i < cells.count; i++) {
        const char *wrong = add_column(f, c->arena, cells.cell[i]);
        if (wrong == NULL)
            continue;
        refuse(f, c, wrong);
        good = false;
    }
    return good;
}

/* --- a row as a job --- */

/* What a spreadsheet would compute is no figure of a vehicle. */
static bool is_formula(struct text t) {
    if (t.len == 0 || strchr("=@+-\t\r", t.start[0]) == NULL)
        return false;
    bool sign = t.start[0] == '-' || t.start[0] == '+';
    return !(sign && t.len > 1 && t.start[1] >= '0' && t.start[1] <= '9');
}

/* The text of a job, with the column that each line came from. */
struct job_text {
    struct buf text;
    const char **line;
    size_t lines;
    struct fleet *fleet;
    struct arena *arena;
};

static void add_line(struct job_text *j, const struct fleet_column *k) {
    struct fleet *f = j->fleet;
    buf_puts(&j->text, "\n");
    /* Both readings of one name stand in one line. */
    struct text title = k == NULL ? (struct text){NULL, 0}
                        : k->kind == COLUMN_FOUND || k->kind == COLUMN_LEFT
                            ? k->name
                            : k->title;
    j->line[j->lines++] =
        k == NULL ? arena_printf(j->arena, "%s row %zu", f->path, f->row)
                  : arena_printf(j->arena, "%s row %zu, %.*s", f->path, f->row,
                                 (int)title.len, title.start);
}

static void add_cell(struct job_text *j, struct text cell) {
    buf_text(&j->text, text_squeezed(j->arena, cell));
}

static void add_settings(struct job_text *j, const struct cells *cells) {
    for (size_t i = 0; i < cells->count; i++) {
        const struct fleet_column *k = &j->fleet->column[i];
        if (cells->cell[i].len == 0 ||
            (k->kind != COLUMN_SETTING && k->kind != COLUMN_SET))
            continue;
        if (k->kind == COLUMN_SET)
            buf_puts(&j->text, "set: ");
        buf_text(&j->text, k->name);
        buf_puts(&j->text, k->kind == COLUMN_SET ? " = " : ": ");
        add_cell(j, cells->cell[i]);
        add_line(j, k);
    }
}

/* A reading once, with what stands in both of its columns. */
static void add_readings(struct job_text *j, const struct cells *cells) {
    const struct fleet *f = j->fleet;
    bool any = false;
    for (size_t i = 0; i < cells->count; i++) {
        const struct fleet_column *k = &f->column[i];
        bool first = k->kind == COLUMN_FOUND || k->kind == COLUMN_LEFT;
        struct text found = {NULL, 0}, left = {NULL, 0};
        for (size_t n = 0; n < cells->count && first; n++) {
            const struct fleet_column *o = &f->column[n];
            if (!text_equal(o->name, k->name))
                continue;
            first =
                n >= i || (o->kind != COLUMN_FOUND && o->kind != COLUMN_LEFT);
            found = o->kind == COLUMN_FOUND ? cells->cell[n] : found;
            left = o->kind == COLUMN_LEFT ? cells->cell[n] : left;
        }
        if (!first || found.len + left.len == 0)
            continue;
        if (!any) {
            add_line(j, NULL);
            buf_puts(&j->text, "reading | found | left");
            add_line(j, NULL);
        }
        any = true;
        buf_text(&j->text, k->name);
        buf_puts(&j->text, " | ");
        add_cell(j, found);
        buf_puts(&j->text, " | ");
        add_cell(j, left);
        add_line(j, k);
    }
}

static struct source *job_of(struct fleet *f, struct compile *c,
                             const struct cells *cells) {
    struct job_text j = {
        .text = buf_in(c->arena), .fleet = f, .arena = c->arena};
    j.line = arena_alloc(c->arena, cells->count * 2 + 8, sizeof(*j.line));
    buf_puts(&j.text, "```job");
    add_line(&j, NULL);
    add_settings(&j, cells);
    add_readings(&j, cells);
    buf_puts(&j.text, "```");
    add_line(&j, NULL);
    j.line[j.lines] = j.line[0];
    struct source *src = place_source(c->arena, f->path, buf_as_text(&j.text));
    src->line_name = j.line;
    return encoding_check(c->diags, src) ? src : NULL;
}

static const char *wrong_in(struct arena *a, const struct fleet *f,
                            const struct cells *cells) {
    if (cells->wrong != NULL)
        return cells->wrong;
    if (cells->count != f->column_count)
        return arena_printf(a, "%zu cells where %zu columns are named",
                            cells->count, f->column_count);
    for (size_t i = 0; i < cells->count; i++) {
        struct text t = cells->cell[i], title = f->column[i].title;
        if (is_formula(t))
            return arena_printf(a, "%.*s holds a formula: '%.*s'",
                                (int)title.len, title.start, (int)t.len,
                                t.start);
        if (memchr(t.start, '|', t.len) != NULL)
            return arena_printf(a, "%.*s holds a bar, which parts readings",
                                (int)title.len, title.start);
    }
    return NULL;
}

/* An empty line, or commas alone, as spreadsheets leave them at the end. */
static bool is_empty(const struct cells *cells) {
    for (size_t i = 0; i < cells->count; i++)
        if (cells->cell[i].len > 0)
            return false;
    return cells->wrong == NULL;
}

struct source *fleet_next(struct fleet *f, struct compile *c, size_t *row,
                          bool *end) {
    struct cells *cells = arena_alloc(c->arena, 1, sizeof *cells);
    do {
        *end = !read_cells(f, c->arena, cells);
        f->row++;
    } while (!*end && is_empty(cells));
    *row = f->row;
    if (*end)
        return NULL;
    const char *wrong = wrong_in(c->arena, f, cells);
    if (wrong == NULL)
        return job_of(f, c, cells);
    refuse(f, c, wrong);
    return NULL;
}

struct fleet *fleet_open(struct compile *c, const char *path) {
    struct fleet *f = arena_alloc(c->arena, 1, sizeof *f);
    f->path = path;
    f->in = fopen(path, "rb");
    if (f->in == NULL) {
        diag_add(c->diags,
                 errno == ENOENT ? DIAG_FILE_MISSING : DIAG_CANNOT_READ,
                 (struct span){0}, "%s: %s", path, strerror(errno));
        return NULL;
    }
    if (read_columns(f, c)) {
        f->row = 1; /* as a spreadsheet counts */
        return f;
    }
    fclose(f->in);
    return NULL;
}

const char *fleet_path(const struct fleet *f) {
    return f->path;
}

void fleet_close(struct fleet *f) {
    fclose(f->in);
}
