/* paginate.c - a flow of slabs to pages. */
#include "layout/paginate.h"

#include "base/arena.h"
#include "base/diag.h"
#include "layout/pair.h"
#include "layout/reach.h"

#include <math.h>
#include <string.h>

/* Costs of a page break. A page more outweighs any place. White space at the
 * end of a page counts by the square of its share of the page: one page half
 * empty is worse than two with a quarter. Room that could have been filled
 * counts by its share on top: skipping a tenth buys a break before a section in
 * place of one between steps, a quarter one that would else part a paragraph.
 * Tried on all guides in both templates: without the square a page stayed
 * empty by 62 %, with more of it tables were parted to even the pages out.
 *
 * The last page may be as white as it likes, but a few lines on it look like a
 * slip: below a quarter of a page it costs up to what parts a step. A page that
 * is set closer costs nearly what a break inside a paragraph does. */
static const double page_cost = 400, skip_cost = 30, white_cost = 60,
                    torn_cost = 1e6, few_cost = 25, few_share = 0.25,
                    close_cost = 8;
static const double bond_cost[] = {
    [BOND_NONE] = 0,  [BOND_LIGHT] = 3,  [BOND_WEAK] = 9,
    [BOND_FIRM] = 25, [BOND_CLOSE] = 60, [BOND_FAST] = 1e6,
};

/* Of the spaces on a page: all, or what there is room for when it is set
 * closer. */
static const double close_share[] = {1, 0.93, 0.86, 0.79, 0.72};
enum { CLOSEST = sizeof close_share / sizeof close_share[0] - 1 };

/* With spaces set as close as may be, and with all of them. */
enum { CLOSE, WHOLE };
typedef double taken[2];

/* What a page that begins with some slab can hold. */
struct fill {
    size_t stop;   /* the first slab that no longer fits, or the end */
    size_t close;  /* the first one that fits only when it is set closer */
    double height; /* up to the last good break before that */
    bool any;      /* there is one */
    taken *used;   /* [k]: what its first k + 1 slabs take; NULL: not known */
    taken *kept;   /* what `used` was, and of how many it still is */
    size_t known;
};

struct plan {
    double *best; /* [i]: least cost of pages that end before slab i */
    size_t *from; /* where the last of them begins */
    double
        *rest;   /* [i]: the same of pages that begin with slab i, to the end */
    size_t kept; /* from where on `rest` is known */
    double room; /* height of the text on a page */
    double few;  /* few_cost; 0: no drawing moves for the last page's sake */
    struct fill *fill; /* by slab, of a flow whose drawings move; or NULL */
    taken *used;       /* of the page at hand */
};

static double begin_height(const struct slab *s) {
    return s->height + (s->again == NULL ? 0 : s->again->height);
}

/* A good break before slab `end`. */
static void break_at(struct fill *fill, double used, bool full) {
    if (!full || !fill->any)
        fill->height = used;
    fill->any = true;
}

/* Of the first slabs of a page, whose heights are known, so many that the next
 * stands in no columns with them. */
static size_t resumable(const struct flow *f, size_t start, size_t known) {
    const struct pair *in =
        start + known < f->count ? pair_at(f, start + known) : NULL;
    if (in == NULL || in->from >= start + known)
        return known;
    return in->from > start ? in->from - start : 0;
}

static struct pile first_pile(const struct flow *f, const struct plan *p,
                              size_t start, size_t known) {
    struct pile pile = pile_begin(f, start, close_share[CLOSEST]);
    pile_beside(&pile, 1);
    return known == 0
               ? pile
               : pile_resume(&pile, start + known - 1, p->used[known - 1]);
}

/* The heights of its first `known` slabs stand in p->used. */
static struct fill fill_page(const struct flow *f, struct plan *p, size_t start,
                             size_t known) {
    known = resumable(f, start, known);
    struct pile pile = first_pile(f, p, start, known);
    struct fill fill = {.stop = start + 1, .close = f->count, .used = p->used};
    if (known == 0)
        memcpy(p->used[0], pile.used, sizeof *p->used);
    double used = p->used[0][WHOLE];
    bool full = false;
    for (; fill.stop < f->count; fill.stop++) {
        const struct slab *next = f->slab[fill.stop];
        double *now = p->used[fill.stop - start];
        if (next->fresh)
            break;
        if (next->bond != BOND_FAST)
            break_at(&fill, used, full);
        if (fill.stop - start >= known) {
            pile_add(&pile, fill.stop);
            memcpy(now, pile.used, sizeof(taken));
        }
        if (!full && now[WHOLE] > p->room + 0.01) {
            full = true;
            fill.close = fill.stop;
            pile.shares = CLOSE + 1;
        }
        used = now[full ? CLOSE : WHOLE];
        if (used > p->room + 0.01)
            return fill;
    }
    break_at(&fill, used, full);
    return fill;
}

/* The same, once as long as the slabs on it stay what they are. */
static struct fill page_at(const struct flow *f, struct plan *p, size_t start) {
    if (p->fill == NULL)
        return fill_page(f, p, start, 0);
    struct fill *fill = &p->fill[start];
    if (fill->used == NULL) {
        size_t known = fill->known;
        if (known > 0)
            memcpy(p->used, fill->kept, known * sizeof *p->used);
        *fill = fill_page(f, p, start, known);
        fill->known = fill->stop - start;
        fill->used = fill->kept =
            arena_same(f->c->arena, p->used, fill->known, sizeof *fill->used);
    }
    return *fill;
}

void paginate_moved(struct plan *p, size_t first, size_t last) {
    for (size_t i = 0; i <= last; i++) {
        struct fill *fill = &p->fill[i];
        size_t same = i < first ? first - i : 0;
        if (fill->stop < first)
            continue;
        fill->used = NULL;
        fill->known = fill->known < same ? fill->known : same;
    }
}

static double white_share(const struct plan *p, double used) {
    return fmax(0, 1 - used / p->room);
}

static double last_cost(const struct plan *p, size_t start, double used) {
    double share = used / p->room;
    return start == 0 ? 0 : p->few * fmax(0, 1 - share / few_share);
}

/* A page of the slabs start..end-1, which costs so much on top of `base`. */
typedef void offer(struct plan *p, size_t start, size_t end, double cost);

/* All pages that may begin with slab `start`. */
static void extend(const struct flow *f, struct plan *p, size_t start,
                   double base, offer *take) {
    struct fill fill = page_at(f, p, start);
    if (!fill.any)
        take(p, start, fill.stop, base + torn_cost);
    for (size_t end = start + 1; end <= fill.stop && fill.any; end++) {
        double used =
            fill.used[end - start - 1][end > fill.close ? CLOSE : WHOLE];
        double skipped = fmax(0, fill.height - used) / p->room;
        double cost = base + page_cost + (end > fill.close ? close_cost : 0);
        if (end == f->count) {
            take(p, start, end, cost + last_cost(p, start, used));
            return;
        }
        const struct slab *next = f->slab[end];
        double white = white_share(p, used);
        cost += white_cost * white * white;
        if (next->fresh) {
            take(p, start, end, cost);
            return;
        }
        if (next->bond != BOND_FAST)
            take(p, start, end,
                 cost + skip_cost * skipped + bond_cost[next->bond]);
    }
}

static void go_on(struct plan *p, size_t start, size_t end, double cost) {
    if (cost < p->best[end]) {
        p->best[end] = cost;
        p->from[end] = start;
    }
}

static void go_back(struct plan *p, size_t start, size_t end, double cost) {
    p->rest[start] = fmin(p->rest[start], cost + p->rest[end]);
}

static double page_room(const struct flow *f) {
    return f->c->style->bottom - f->c->style->top;
}

/* A page that could not be made as it should be. */
static void report(const struct flow *f, size_t from, size_t to) {
    const struct slab *s = f->slab[from];
    double height = begin_height(s);
    if (height > page_room(f) + 0.01)
        diag_add(f->c->diags, DIAG_TOO_TALL, s->at,
                 "it takes %.0f pt, there are %.0f pt; make two of it",
                 ceil(height), floor(page_room(f)));
    else if (to < f->count && f->slab[to]->bond == BOND_FAST &&
             begin_height(f->slab[to]) <= page_room(f) + 0.01)
        diag_add(f->c->diags, DIAG_TOO_TALL, f->slab[to]->at,
                 "a heading, panel or head of a table is never left alone, and "
                 "what stands before this leaves it no room: shorten that");
}

typedef void visit(const struct flow *f, struct pages *out, size_t page,
                   const struct slab *s, double x, double y);

/* Slabs from..to-1 of one page, in their columns. */
static void walk_pair(const struct flow *f, const struct pair *p, size_t from,
                      size_t to, struct pages *out, size_t page, double top,
                      visit *what) {
    size_t right = pair_part(f, p, from, to).right;
    double y = top;
    for (size_t i = from; i < to; i++) {
        const struct slab *s = f->slab[i];
        if (i == right)
            y = top;
        else if (i > from)
            y += s->space;
        what(f, out, page, s, i < right ? 0 : p->shift, y);
        y += s->height;
    }
}

/* How many of the slabs of a page, from here on, stand in one pair. */
static size_t in_pair(const struct flow *f, size_t from, size_t end) {
    const struct pair *p = pair_at(f, from);
    return p == NULL ? 0 : (p->to < end ? p->to : end) - from;
}

/* How much of their spaces they have room for. */
static double share_of(const struct flow *f, size_t begin, size_t end) {
    for (int i = 0; i < CLOSEST; i++) {
        struct pile pile = pile_begin(f, begin, close_share[i]);
        for (size_t k = begin + 1; k < end; k++)
            pile_add(&pile, k);
        if (pile.used[0] <= page_room(f) + 0.01)
            return close_share[i];
    }
    return close_share[CLOSEST];
}

static void walk_page(const struct flow *f, size_t begin, size_t end,
                      struct pages *out, size_t page, visit *what) {
    double top = f->c->style->top;
    struct pile pile = pile_begin(f, begin, share_of(f, begin, end));
    if (f->slab[begin]->again != NULL)
        what(f, out, page, f->slab[begin]->again, 0, top);
    for (size_t i = begin; i < end;) {
        double y = i == begin ? pile.top[0] : pile_add(&pile, i);
        size_t count = in_pair(f, i, end);
        if (count == 0) {
            what(f, out, page, f->slab[i++], 0, top + y);
            continue;
        }
        walk_pair(f, pair_at(f, i), i, i + count, out, page, top + y, what);
        for (size_t k = 1; k < count; k++)
            pile_add(&pile, i + k);
        i += count;
    }
}

static void walk(const struct flow *f, const size_t *starts, size_t count,
                 struct pages *out, visit *what) {
    for (size_t page = 0; page < count; page++)
        walk_page(f, starts[page],
                  page + 1 < count ? starts[page + 1] : f->count, out, page,
                  what);
}

static void tell(const struct flow *f, struct pages *out, size_t page,
                 const struct slab *s, double x, double y) {
    (void)f;
    (void)out;
    (void)x;
    if (s->anchor != NULL)
        *s->anchor = (struct anchor){(int)page, y};
}

static struct plan *new_plan(const struct flow *f) {
    struct arena *a = f->c->arena;
    struct plan *p = arena_alloc(a, 1, sizeof *p);
    p->best = arena_alloc(a, f->count + 1, sizeof *p->best);
    p->from = arena_alloc(a, f->count + 1, sizeof *p->from);
    p->rest = arena_alloc(a, f->count + 1, sizeof *p->rest);
    p->used = arena_alloc(a, f->count + 1, sizeof *p->used);
    p->room = page_room(f);
    return p;
}

/* The pages that begin with the slabs before `to`. */
static void choose(const struct flow *f, struct plan *p, size_t to) {
    for (size_t i = 1; i <= f->count; i++)
        p->best[i] = INFINITY;
    p->best[0] = 0;
    for (size_t i = 0; i < to; i++)
        if (isfinite(p->best[i]))
            extend(f, p, i, p->best[i], go_on);
}

struct plan *paginate_plan(const struct flow *f, size_t kept) {
    struct plan *p = new_plan(f);
    p->fill = arena_alloc(f->c->arena, f->count + 1, sizeof *p->fill);
    p->kept = kept;
    for (size_t i = f->count; i-- > kept;) {
        p->rest[i] = INFINITY; /* no page begins with what is held fast */
        if (f->slab[i]->fresh || f->slab[i]->bond != BOND_FAST)
            extend(f, p, i, 0, go_back);
    }
    return p;
}

double paginate_cost(const struct flow *f, struct plan *p) {
    double least = INFINITY;
    choose(f, p, p->kept);
    for (size_t i = p->kept; i <= f->count; i++)
        least = fmin(least, p->best[i] + p->rest[i]);
    return least;
}

size_t paginate_break(const struct flow *f, const size_t **starts) {
    struct plan *p = f->plan != NULL ? f->plan : new_plan(f);
    p->few = few_cost;
    choose(f, p, f->count);
    size_t count = 0;
    for (size_t i = f->count; i > 0; i = p->from[i])
        count++;
    size_t *first = arena_alloc(f->c->arena, count + 1, sizeof *first);
    size_t index = count;
    for (size_t i = f->count; i > 0; i = p->from[i])
        first[--index] = p->from[i];
    *starts = first;
    walk(f, first, count, NULL, tell);
    return count;
}

/* One message a slab: what else reaches too far does so for the same reason. */
static void place_ops(const struct flow *f, struct page *page,
                      const struct slab *s, double x, double y) {
    const struct style *style = f->c->style;
    double over = 0;
    for (size_t i = 0; i < s->op_count; i++) {
        struct op moved =
            slab_moved(f->c->arena, &s->ops[i], style->left + x, y);
        if (!reach_is_finite(&moved)) {
            diag_add(f->c->diags, DIAG_NOT_FINITE, s->at, NULL);
            continue;
        }
        over = fmax(over, reach_right(&moved) - style->right);
        *display_op(f->c->arena, page, moved.kind) = moved;
    }
    if (over > 0.6 && !s->told)
        diag_add(f->c->diags, DIAG_TOO_WIDE, s->at, "by %.0f pt", ceil(over));
}

static void place_links(const struct flow *f, struct page *page,
                        const struct slab *s, double x, double y) {
    for (size_t i = 0; i < s->link_count; i++) {
        const struct link *link = &s->links[i];
        if (link->to != NULL && link->to->page < 0)
            continue; /* its target is not printed */
        struct op *op = display_op(f->c->arena, page, OP_LINK);
        op->tag = link->tag;
        op->x = link->x + f->c->style->left + x;
        op->y = link->y + y;
        op->width = link->width;
        op->height = link->height;
        op->page = link->to == NULL ? -1 : link->to->page;
        op->target_y = link->to == NULL ? 0 : link->to->y;
        op->uri = link->uri;
    }
}

static void add_outline(struct arena *a, struct pages *out,
                        const struct slab *s, int page, double y) {
    if (out->outline_count == out->outline_room) {
        size_t room = out->outline_room == 0 ? 16 : out->outline_room * 2;
        out->outline = arena_grow(a, out->outline, out->outline_count, room,
                                  sizeof *out->outline);
        out->outline_room = room;
    }
    out->outline[out->outline_count++] =
        (struct outline){s->outline, s->outline_level, page, y};
}

/* In the outer margin, clear of the text. */
static void place_bar(const struct flow *f, struct page *page,
                      const struct slab *s, double y) {
    struct op *op = display_op(f->c->arena, page, OP_RECT);
    op->x = f->c->style->right + 7;
    op->y = fmax(y - s->bar_above, f->c->style->top);
    op->width = 2.2;
    op->height = y + s->height - op->y;
    op->fill = true;
}

/* So far as room only. */
static void count(const struct flow *f, struct pages *out, size_t page,
                  const struct slab *s, double x, double y) {
    (void)f;
    (void)x;
    (void)y;
    out->page[page].op_room += s->op_count + s->link_count + (s->bar ? 1 : 0);
}

static void reserve(const struct flow *f, const size_t *starts, size_t pages,
                    struct pages *out) {
    enum { FOOT_OPS = 16 }; /* as many as a foot adds, or more */
    walk(f, starts, pages, out, count);
    for (size_t page = 0; page < pages; page++) {
        size_t room = out->page[page].op_room;
        out->page[page].op_room = 0;
        display_reserve(f->c->arena, &out->page[page], room + FOOT_OPS);
    }
}

static void draw(const struct flow *f, struct pages *out, size_t page,
                 const struct slab *s, double x, double y) {
    place_ops(f, &out->page[page], s, x, y);
    place_links(f, &out->page[page], s, x, y);
    if (s->bar)
        place_bar(f, &out->page[page], s, y);
    if (s->outline.len > 0)
        add_outline(f->c->arena, out, s, (int)page, y);
}

void paginate_place(const struct flow *f, const size_t *starts, size_t count,
                    struct pages *out) {
    for (size_t page = 0; page < count; page++)
        display_page(f->c->arena, out, f->c->style->width, f->c->style->height);
    for (size_t page = 0; page < count; page++)
        report(f, starts[page], page + 1 < count ? starts[page + 1] : f->count);
    reserve(f, starts, count, out);
    walk(f, starts, count, out, draw);
}
