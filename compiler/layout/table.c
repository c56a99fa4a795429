/* table.c - tables: widths from the content, heads repeated. */
#include "layout/table.h"

#include "base/arena.h"
#include "base/diag.h"
#include "layout/column.h"

#include <math.h>
#include <string.h>

/* A table up to this share of a page is parted only where about two fifths of
 * one would else stay empty. Tried on all guides in both templates: with half a
 * page more tables are parted, with a whole one the gaps grow. One in the least
 * letters is for looking up: it may be parted from this height on. */
static const double short_share = 2.0 / 3, small_height = 180;

/* Between columns. */
static double gutter_of(struct type type) {
    return type.size * 1.1;
}

/* Above and below a row. */
static double pad_of(struct type type) {
    return type.leading * 0.088; /* a row of one line: a line of a step */
}

struct table *table_new(struct arena *a, size_t column_count, struct text name,
                        struct span at) {
    struct table *t = arena_alloc(a, 1, sizeof *t);
    t->column_count = column_count;
    t->head = arena_alloc(a, column_count, sizeof *t->head);
    t->align = arena_alloc(a, column_count, sizeof *t->align);
    t->name = name;
    t->at = at;
    return t;
}

struct table_row *table_add(struct arena *a, struct table *t, struct span at) {
    if (t->count == t->room) {
        size_t room = t->room == 0 ? 8 : t->room * 2;
        t->row = arena_grow(a, t->row, t->count, room, sizeof *t->row);
        t->room = room;
    }
    struct table_row *row = &t->row[t->count++];
    *row = (struct table_row){.at = at};
    row->cell = arena_alloc(a, t->column_count, sizeof *row->cell);
    return row;
}

/* The table measured: words[0] is the head. */
struct measured {
    struct words **words; /* [(row count + 1) * column count] */
    double *width;        /* of each column */
    double scale;
    struct type type; /* after scaling */
};

static struct words *at_cell(const struct table *t, const struct measured *m,
                             size_t row, size_t column) {
    return m->words[row * t->column_count + column];
}

static void measure_words(const struct flow *f, const struct table *t,
                          struct measured *m) {
    size_t columns = t->column_count;
    m->words =
        arena_alloc(f->c->arena, (t->count + 1) * columns, sizeof *m->words);
    for (size_t r = 0; r <= t->count; r++)
        for (size_t k = 0; k < columns; k++)
            m->words[r * columns + k] =
                words_of(f->c, r == 0 ? &t->head[k] : &t->row[r - 1].cell[k]);
}

/* "79 mV; mark 3: 77 mV": more than one figure, which may take two lines. */
static bool is_by_variant(const struct words *w) {
    for (size_t i = 0; i < w->count; i++) {
        struct text t = w->atom[i].run->text;
        if (t.len > 0 && memchr(t.start, ';', t.len) != NULL)
            return true;
    }
    return false;
}

/* "16.5 A to 19.5 A": it has two points, and beside "≤ 0.45 V" neither is its
 * place. In parentheses it hangs on the figure before it. */
static bool is_band(const struct words *w) {
    for (size_t i = 0; i < w->atom_count; i++) {
        struct text t = w->atom[i].run->text;
        if (text_starts(t, "("))
            return false;
        if (text_is(t, "to"))
            return true;
    }
    return false;
}

/* Columns of numbers stand with their points under each other. A dash says that
 * there is none. */
static void align_points(const struct flow *f, const struct table *t,
                         struct measured *m, size_t column) {
    double *point = arena_alloc(f->c->arena, t->count + 1, sizeof *point);
    double most = 0;
    size_t numbers = 0;
    for (size_t r = 1; r <= t->count; r++) {
        const struct words *w = at_cell(t, m, r, column);
        bool none = w->count == 0 || text_is(w->atom[0].run->text, "–");
        point[r - 1] = none ? -1 : words_point(f->c, w);
        if (!none && (point[r - 1] < 0 || is_by_variant(w) || is_band(w)))
            return;
        numbers += !none;
        most = fmax(most, point[r - 1]);
    }
    for (size_t r = 1; numbers > 1 && r <= t->count; r++)
        if (point[r - 1] >= 0)
            words_indent(at_cell(t, m, r, column), most - point[r - 1]);
}

static void scale_words(const struct table *t, struct measured *m,
                        double factor) {
    for (size_t i = 0; i < (t->count + 1) * t->column_count; i++)
        words_scale(m->words[i], factor);
    m->scale *= factor;
}

static bool choose_widths(const struct flow *f, const struct table *t,
                          struct measured *m, double width) {
    struct grid g = {m->words, t->count + 1, t->column_count};
    m->width = arena_alloc(f->c->arena, t->column_count, sizeof *m->width);
    double gutter = gutter_of(m->type);
    double room = width - gutter * (double)(t->column_count - 1);
    for (size_t k = 0; t->share != NULL && k < t->column_count; k++)
        m->width[k] = room * t->share[k];
    return t->share != NULL || column_fit(f->c->arena, &g, room, m->width);
}

static double draw_row(const struct flow *f, const struct table *t,
                       const struct measured *m, size_t row, struct slab *s,
                       double x, double y) {
    double height = 0;
    struct tagger *tags = f->c->tags;
    size_t outer = tag_open(tags, TAG_ROW, (struct text){NULL, 0});
    for (size_t k = 0; k < t->column_count; k++) {
        size_t line = tag_open(tags, row == 0 ? TAG_HEAD : TAG_CELL,
                               (struct text){NULL, 0});
        const struct lines *l = paragraph_break(
            f->c, at_cell(t, m, row, k), m->width[k] + 0.02, m->type, m->scale);
        for (size_t i = 0; i < l->count; i++) {
            double left = m->width[k] - l->line[i].width;
            double shift = t->align[k] == ALIGN_RIGHT    ? left
                           : t->align[k] == ALIGN_CENTRE ? left / 2
                                                         : 0;
            paragraph_draw(f->c, s, l, i, x + shift,
                           y + paragraph_baseline(l->type) +
                               l->type.leading * (double)i);
        }
        tag_close(tags, line);
        height = fmax(height, paragraph_height(l));
        x += m->width[k] + gutter_of(m->type);
    }
    tag_close(tags, outer);
    return height;
}

static bool has_head(const struct table *t) {
    for (size_t k = 0; k < t->column_count; k++)
        if (!rich_empty(&t->head[k]))
            return true;
    return false;
}

/* The head; where it goes on (not NULL), also the line "NAME, continued" above
 * it. */
static struct slab *make_head(const struct flow *f, const struct table *t,
                              const struct measured *m, double x, double width,
                              const struct text *continued) {
    struct slab *s = slab_new(f->c, 0, t->at);
    double y = 0, pad = pad_of(m->type);
    if (continued != NULL)
        y = flow_continued(f, s, x, *continued) + pad;
    if (has_head(t))
        y += draw_row(f, t, m, 0, s, x, y) + pad;
    slab_rule(f->c, s, x, y, x + width, y, 1.1);
    s->height = y + 1;
    return s;
}

/* The head of a page that begins with a row of that group. */
static const struct slab *head_again(struct flow *f, const struct table *t,
                                     const struct measured *m, double x,
                                     double width, struct text group) {
    struct tagger *tags = f->c->tags;
    struct text name = t->name;
    if (group.len > 0)
        name = text_of(arena_printf(f->c->arena, "%.*s: %.*s", (int)name.len,
                                    name.start, (int)group.len, group.start));
    size_t inner = tag_pause(tags); /* a head that comes again is none */
    const struct slab *again = make_head(f, t, m, x, width, &name);
    tag_close(tags, inner);
    return again;
}

static void add_row(struct flow *f, const struct table *t,
                    const struct measured *m, size_t index, double x,
                    double width, const struct slab *again) {
    const struct table_row *row = &t->row[index];
    bool joined = index + 1 < t->count && t->row[index + 1].again;
    if (row->again)
        flow_bond(f, BOND_FAST);
    else if (index > 0)
        flow_bond(f,
                  index == 1 || index + 1 == t->count ? BOND_CLOSE : BOND_WEAK);
    if (f->passages && !row->again)
        f->passage = ++f->passage_count;
    struct slab *s = flow_slab(f, 0, row->at);
    double pad = pad_of(m->type), top = row->again ? 0 : pad;
    double y = top + draw_row(f, t, m, index + 1, s, x, top);
    if (!joined) {
        y += pad;
        bool last = index + 1 == t->count;
        slab_rule(f->c, s, x, y, x + width, y, last ? 1.1 : 0.4);
    }
    s->height = y;
    s->again = again;
    s->anchor = row->anchor;
}

static bool is_column_empty(const struct table *t, size_t k) {
    for (size_t r = 0; r < t->count; r++)
        if (!rich_empty(&t->row[r].cell[k]))
            return false;
    return true;
}

/* The same table without its empty columns. */
static const struct table *without_empty(const struct flow *f,
                                         const struct table *t) {
    struct arena *a = f->c->arena;
    struct table *kept = table_new(a, t->column_count, t->name, t->at);
    kept->column_count = 0;
    for (size_t r = 0; r < t->count; r++) {
        struct table_row *row = table_add(a, kept, t->row[r].at);
        row->again = t->row[r].again;
        row->group = t->row[r].group;
        row->anchor = t->row[r].anchor;
        row->cell = arena_alloc(a, t->column_count, sizeof *row->cell);
    }
    for (size_t k = 0; k < t->column_count; k++) {
        if (is_column_empty(t, k))
            continue;
        size_t to = kept->column_count++;
        kept->head[to] = t->head[k];
        kept->align[to] = t->align[k];
        for (size_t r = 0; r < t->count; r++)
            kept->row[r].cell[to] = t->row[r].cell[k];
    }
    return kept;
}

/* In its own letters, else in those of a table on the usual page, else in the
 * least. */
static bool fit(const struct flow *f, const struct table *t, struct measured *m,
                double width) {
    const struct type tries[] = {m->type, style_standard()->table,
                                 f->c->style->least};
    for (size_t i = 0; i < sizeof tries / sizeof tries[0]; i++) {
        if (tries[i].size > m->type.size)
            continue;
        scale_words(t, m, tries[i].size / m->type.size);
        m->type = tries[i];
        if (choose_widths(f, t, m, width))
            return true;
    }
    return false;
}

/* The widest piece of a cell that cannot be broken. */
struct piece {
    const struct words *of;
    size_t from, to; /* words */
    double width;
};

static struct piece widest_piece(const struct words *w) {
    struct piece best = {.of = w};
    for (size_t i = 0; i < w->count;) {
        struct piece p = {.of = w, .from = i, .width = w->word[i].width};
        for (i++; i < w->count && w->word[i].gap == GAP_WHOLE; i++)
            p.width += w->word[i].gap_width + w->word[i].width;
        p.to = i;
        if (p.width > best.width)
            best = p;
    }
    return best;
}

enum { QUOTED_MAX = 40 }; /* letters of it that a message repeats */

static const char *words_in(struct arena *a, struct piece p) {
    struct buf b = buf_in(a);
    for (size_t i = p.from; i < p.to; i++) {
        const struct word *word = &p.of->word[i];
        if (i > p.from && word->gap_width > 0)
            buf_puts(&b, " ");
        for (size_t k = 0; k < word->count; k++)
            buf_text(&b, p.of->atom[word->first + k].run->text);
    }
    struct text t = buf_as_text(&b);
    size_t end = 0;
    for (size_t letters = 0; letters < QUOTED_MAX && end < t.len; letters++)
        text_next(t, &end);
    return arena_printf(a, "%.*s%s", (int)end, t.start, end < t.len ? "…" : "");
}

/* By how much, and where most is to be gained. */
static void report_width(const struct flow *f, const struct table *t,
                         const struct measured *m, double width) {
    struct piece worst = {0};
    double gutters = gutter_of(m->type) * (double)(t->column_count - 1);
    double needed = gutters;
    for (size_t k = 0; k < t->column_count; k++) {
        double least = 0;
        for (size_t r = 0; r <= t->count; r++) {
            const struct words *w = at_cell(t, m, r, k);
            struct piece p = widest_piece(w);
            least = fmax(least, w->widest);
            worst = p.width > worst.width ? p : worst;
        }
        needed += least;
    }
    struct span at = t->at;
    if (worst.of != NULL && worst.to > worst.from)
        at = worst.of->atom[worst.of->word[worst.from].first].chunk->at;
    diag_add(f->c->diags, DIAG_TOO_WIDE, at.src == NULL ? t->at : at,
             "the table takes %.0f pt at %g pt letters, there are %.0f pt; its "
             "widest word is '%s': shorten it, or leave out a column",
             ceil(needed), f->c->style->least.size, floor(width),
             worst.of == NULL ? "" : words_in(f->c->arena, worst));
}

void table_set(struct flow *f, const struct table *t, double x, double width,
               struct type type) {
    if (t->count == 0)
        return;
    if (t->drop_empty)
        t = without_empty(f, t);
    struct measured m = {.scale = 1, .type = type};
    measure_words(f, t, &m);
    for (size_t k = 0; k < t->column_count; k++)
        if (t->align[k] == ALIGN_LEFT)
            align_points(f, t, &m, k);
    if (!fit(f, t, &m, width)) {
        report_width(f, t, &m, width);
        return;
    }
    struct tagger *tags = f->c->tags;
    size_t outer = tag_open(tags, TAG_TABLE, t->name), from = f->count;
    f->passage = 0;
    flow_add(f, make_head(f, t, &m, x, width, NULL));
    flow_bond(f, BOND_FAST);
    const struct slab *again = NULL;
    for (size_t i = 0; i < t->count; i++) {
        struct text group = t->row[i].group;
        if (i == 0 || !text_equal(group, t->row[i - 1].group))
            again = head_again(f, t, &m, x, width, group);
        add_row(f, t, &m, i, x, width, again);
    }
    tag_close(tags, outer);
    f->passage = 0;
    const struct style *style = f->c->style;
    double most = type.size > style->least.size
                      ? (style->bottom - style->top) * short_share
                      : small_height;
    if (flow_height(f, from) <= most)
        flow_together(f, from, BOND_FIRM);
}
