/* paragraph.c - words to lines: the best fit over the whole paragraph. */
#include "layout/paragraph.h"

#include "base/arena.h"
#include "base/diag.h"

#include <math.h>
#include <string.h>

/* A last line of one short word looks like a slip: worth a quarter line. */
static const double short_last = 0.14, short_cost = 0.06, poor_cost = 0.04;
/* Of a break that parts a value or an item: that of a line two fifths full;
 * less where it would take a line more than without. */
static const double inner_cost[] = {0.4, 0.1, 0};

/* Cost of a line that holds words from..to-1, of natural width `used`. */
static double line_cost(const struct words *w, size_t to, double used,
                        double width, double inner) {
    if (to == w->count || w->word[to].gap == GAP_FORCED)
        return used < width * short_last ? short_cost : 0;
    double left = (width - used) / width;
    enum gap gap = w->word[to].gap;
    return left * left + (gap == GAP_POOR    ? poor_cost
                          : gap == GAP_INNER ? inner
                                             : 0);
}

/* best[i]: least cost of lines that end before word i; from[i]: where the last
 * of them starts. */
static size_t *breaks_at(const struct composer *c, const struct words *w,
                         double width, double inner) {
    double *best = arena_alloc(c->arena, w->count + 1, sizeof *best);
    size_t *from = arena_alloc(c->arena, w->count + 1, sizeof *from);
    for (size_t i = 1; i <= w->count; i++)
        best[i] = INFINITY;
    for (size_t start = 0; start < w->count; start++) {
        if (isinf(best[start]))
            continue;
        double used = start == 0 ? w->lead : 0;
        bool any = false;
        for (size_t end = start + 1; end <= w->count; end++) {
            const struct word *last = &w->word[end - 1];
            used += last->width + (end - 1 > start ? last->gap_width : 0);
            bool fits = used <= width + 0.01;
            if (!fits && any)
                break;
            if (end < w->count && w->word[end].gap == GAP_WHOLE)
                continue;
            any = true; /* one piece a line at least, also when too wide */
            double cost = best[start] + line_cost(w, end, used, width, inner);
            if (cost < best[end]) {
                best[end] = cost;
                from[end] = start;
            }
            if (end < w->count && w->word[end].gap == GAP_FORCED)
                break;
        }
    }
    return from;
}

static size_t count_lines(const struct words *w, const size_t *from) {
    size_t count = 0;
    for (size_t end = w->count; end > 0; end = from[end])
        count++;
    return count;
}

static bool any_inner(const struct words *w) {
    for (size_t i = 0; i < w->count; i++)
        if (w->word[i].gap == GAP_INNER)
            return true;
    return false;
}

static size_t *choose_breaks(const struct composer *c, const struct words *w,
                             double width) {
    size_t *least = breaks_at(c, w, width, 0);
    for (size_t i = 0; any_inner(w) && inner_cost[i] > 0; i++) {
        size_t *from = breaks_at(c, w, width, inner_cost[i]);
        if (count_lines(w, from) <= count_lines(w, least))
            return from;
    }
    return least;
}

static struct op *line_op(const struct composer *c, struct line *l) {
    if (l->op_count == l->op_room) {
        size_t room = l->op_room == 0 ? 2 : l->op_room * 2;
        l->ops =
            arena_grow(c->arena, l->ops, l->op_count, room, sizeof *l->ops);
        l->op_room = room;
    }
    struct op *op = &l->ops[l->op_count++];
    op->kind = OP_TEXT;
    op->fill = true;
    return op;
}

static bool same_tone(const struct chunk *a, const struct chunk *b) {
    return a->tone.face == b->tone.face && a->tone.size == b->tone.size &&
           memcmp(&a->tone.colour, &b->tone.colour, sizeof a->tone.colour) == 0;
}

/* Where the noughts of a page number begin in the op that is open. */
struct pending {
    struct late *late;
    size_t text, glyph;
};

/* Text and glyphs of one op, gathered from atoms and blanks; those of a line
 * stand one behind the other. */
struct gather {
    char *text;
    size_t len;
    struct glyph *glyph;
    size_t count;
    struct pending *pending;
    size_t pending_count, pending_room;
};

static void gather_late(const struct composer *c, struct gather *g,
                        struct late *late) {
    if (g->pending_count == g->pending_room) {
        size_t room = g->pending_room == 0 ? 2 : g->pending_room * 2;
        g->pending = arena_grow(c->arena, g->pending, g->pending_count, room,
                                sizeof *g->pending);
        g->pending_room = room;
    }
    g->pending[g->pending_count++] = (struct pending){late, g->len, g->count};
}

static void gather_run(struct gather *g, const struct run *run) {
    for (size_t i = 0; i < run->glyph_count; i++) {
        struct glyph *one = &g->glyph[g->count++];
        *one = run->glyphs[i];
        one->start = (uint16_t)(one->start + g->len);
    }
    memcpy(g->text + g->len, run->text.start, run->text.len);
    g->len += run->text.len;
}

static void finish_op(const struct composer *c, struct line *l,
                      struct gather *g, const struct chunk *k, enum face face,
                      double x, double scale, size_t link) {
    if (g->count == 0)
        return;
    struct op *op = line_op(c, l);
    op->x = x;
    op->tag = link;
    op->face = face;
    op->size = k->tone.size * scale;
    op->colour = k->tone.colour;
    op->text = (struct text){g->text, g->len};
    op->glyphs = g->glyph;
    op->glyph_count = g->count;
    for (size_t i = 0; i < g->pending_count; i++)
        late_add(c->arena, g->pending[i].late,
                 (struct late_place){g->text + g->pending[i].text,
                                     g->glyph + g->pending[i].glyph, face});
    *g =
        (struct gather){.text = g->text + g->len, .glyph = g->glyph + g->count};
}

static bool has_link(const struct chunk *k) {
    return k->to != NULL || k->uri.len > 0;
}

static bool same_link(const struct chunk *a, const struct chunk *b) {
    return a->to == b->to && text_equal(a->uri, b->uri);
}

static void add_link(const struct composer *c, struct line *l,
                     const struct chunk *k, double x, double width) {
    if (l->link_count > 0) {
        struct link *last = &l->links[l->link_count - 1];
        bool touches = x - (last->x + last->width) < k->tone.size;
        if (touches && last->to == k->to && text_equal(last->uri, k->uri)) {
            last->width = x + width - last->x;
            return;
        }
    }
    if (l->link_count == l->link_room) {
        size_t room = l->link_room == 0 ? 1 : l->link_room * 2;
        l->links = arena_grow(c->arena, l->links, l->link_count, room,
                              sizeof *l->links);
        l->link_room = room;
    }
    l->links[l->link_count++] =
        (struct link){.x = x, .width = width, .to = k->to, .uri = k->uri};
}

enum { OP_TEXT_MAX = 30000 }; /* clusters are 16-bit offsets */

/* The line under construction: one op is open. */
struct setter {
    const struct composer *c;
    struct line *line;
    struct gather g;
    const struct chunk *open; /* whose tone the op has; NULL: no op */
    size_t link;              /* that the op belongs to, from 1; 0: none */
    enum face face;           /* of the op */
    double x, op_x, scale;
};

static void add_run(struct setter *s, const struct chunk *k,
                    const struct run *run, double width) {
    bool fits = s->g.len + run->text.len < OP_TEXT_MAX;
    bool alike = s->open != NULL && same_tone(s->open, k) &&
                 same_link(s->open, k) && s->face == run->face;
    if (s->open != NULL && (!alike || !fits)) {
        finish_op(s->c, s->line, &s->g, s->open, s->face, s->op_x, s->scale,
                  s->link);
        s->link = 0;
    }
    if (s->g.count == 0)
        s->op_x = s->x;
    s->open = k;
    s->face = run->face;
    if (k->late != NULL)
        gather_late(s->c, &s->g, k->late);
    gather_run(&s->g, run);
    s->x += width;
}

/* Of the words from..to-1: NULL before the first, or where nothing parts two.
 */
static const struct run *blank_before(const struct composer *c,
                                      const struct words *w, size_t from,
                                      size_t i) {
    const struct chunk *blank = w->word[i].blank;
    if (i == from || blank == NULL)
        return NULL;
    return shape_word(c->shaper, blank->tone.face, text_of(" "));
}

/* Room for all that the line holds. */
static struct gather gather_open(const struct composer *c,
                                 const struct words *w, size_t from,
                                 size_t to) {
    size_t len = 0, count = 0;
    for (size_t i = from; i < to; i++) {
        const struct word *word = &w->word[i];
        const struct run *blank = blank_before(c, w, from, i);
        len += blank == NULL ? 0 : blank->text.len;
        count += blank == NULL ? 0 : blank->glyph_count;
        for (size_t k = word->first; k < word->first + word->count; k++) {
            len += w->atom[k].run->text.len;
            count += w->atom[k].run->glyph_count;
        }
    }
    return (struct gather){
        .text = arena_alloc(c->arena, len, 1),
        .glyph = arena_alloc(c->arena, count, sizeof(struct glyph)),
    };
}

static void set_line(const struct composer *c, const struct words *w,
                     size_t from, size_t to, double scale, struct line *l) {
    struct setter s = {.c = c,
                       .line = l,
                       .g = gather_open(c, w, from, to),
                       .x = from == 0 ? w->lead : 0,
                       .scale = scale};
    for (size_t i = from; i < to; i++) {
        const struct word *word = &w->word[i];
        const struct run *blank = blank_before(c, w, from, i);
        if (blank != NULL)
            add_run(&s, word->blank, blank, word->gap_width);
        for (size_t k = word->first; k < word->first + word->count; k++) {
            const struct atom *atom = &w->atom[k];
            if (has_link(atom->chunk))
                add_link(c, l, atom->chunk, s.x, atom->width);
            add_run(&s, atom->chunk, atom->run, atom->width);
            s.link = has_link(atom->chunk) ? l->link_count : 0;
        }
    }
    if (s.open != NULL)
        finish_op(c, l, &s.g, s.open, s.face, s.op_x, scale, s.link);
    l->width = s.x;
}

enum { QUOTED_MAX = 40 }; /* letters of a long word that a message repeats */

static void report_width(const struct composer *c, const struct atom *first,
                         double wide, double width) {
    struct text t = first->run->text;
    size_t end = 0;
    for (size_t letters = 0; letters < QUOTED_MAX && end < t.len; letters++)
        text_next(t, &end);
    diag_add(c->diags, DIAG_TOO_WIDE, first->chunk->at,
             "'%.*s%s' takes %.0f pt, there are %.0f pt", (int)end, t.start,
             end < t.len ? "…" : "", ceil(wide), floor(width));
}

struct lines *paragraph_break(const struct composer *c, const struct words *w,
                              double width, struct type type, double scale) {
    struct lines *l = arena_alloc(c->arena, 1, sizeof *l);
    l->type = type;
    if (w->count == 0)
        return l;
    size_t *from = choose_breaks(c, w, width);
    l->count = count_lines(w, from);
    l->line = arena_alloc(c->arena, l->count, sizeof *l->line);
    size_t index = l->count;
    for (size_t end = w->count; end > 0; end = from[end]) {
        struct line *line = &l->line[--index];
        set_line(c, w, from[end], end, scale, line);
        if (line->width <= width + 0.01)
            continue;
        line->wide = true;
        report_width(c, &w->atom[w->word[from[end]].first], line->width, width);
    }
    return l;
}

/* What two lines of one link have in common, and no other link. */
static const void *target_of(const struct link *link) {
    return link->to != NULL ? (const void *)link->to : link->uri.start;
}

/* Returns its tag. */
static size_t draw_op(const struct composer *c, struct slab *s,
                      const struct op *text, const struct link *link, double x,
                      double baseline) {
    size_t outer = c->tags->now;
    if (link == NULL)
        tag_leave_link(c->tags);
    else
        tag_open_link(c->tags, target_of(link));
    struct op *op = slab_op(c, s, OP_TEXT);
    size_t tag = op->tag;
    *op = slab_moved(c->arena, text, x, baseline);
    op->tag = tag;
    tag_close(c->tags, outer);
    return tag;
}

static void draw_link(const struct composer *c, struct slab *s,
                      const struct lines *l, const struct link *drawn,
                      size_t tag, double x, double baseline) {
    struct link link = *drawn;
    link.x += x;
    link.y = baseline - l->type.size * 0.85;
    link.height = l->type.size * 1.15;
    link.tag = tag;
    slab_link(c, s, link);
}

void paragraph_draw(const struct composer *c, struct slab *s,
                    const struct lines *l, size_t index, double x,
                    double baseline) {
    const struct line *line = &l->line[index];
    s->told |= line->wide;
    size_t drawn = 0;
    for (size_t i = 0; i < line->op_count; i++) {
        size_t link = line->ops[i].tag;
        size_t tag =
            draw_op(c, s, &line->ops[i],
                    link == 0 ? NULL : &line->links[link - 1], x, baseline);
        for (; drawn < link; drawn++)
            draw_link(c, s, l, &line->links[drawn], tag, x, baseline);
    }
}

double paragraph_draw_all(const struct composer *c, struct slab *s,
                          const struct lines *l, double x, double y) {
    double baseline = y + paragraph_baseline(l->type);
    size_t outer = tag_open_text(c->tags);
    for (size_t i = 0; i < l->count; i++)
        paragraph_draw(c, s, l, i, x, baseline + l->type.leading * (double)i);
    tag_close(c->tags, outer);
    return paragraph_height(l);
}

double paragraph_height(const struct lines *l) {
    return l->type.leading * (double)l->count;
}

double paragraph_baseline(struct type type) {
    return (type.leading + type.size * shape_cap_height(FACE_REGULAR)) / 2;
}
