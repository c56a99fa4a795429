/* bars.c - a reading before and after the work as two bars and its limit.
 *
 * Before is an outline, after is solid, the limit a line across both: no colour
 * is needed to tell them apart. */
#include "layout/bars.h"

#include "base/arena.h"
#include "layout/shape.h"

#include <math.h>

static const double high = 11, gap = 3, word_width = 40, figure_width = 62;

static double text_y(struct type type, double top) {
    return top + (high + type.size * shape_cap_height(FACE_REGULAR)) / 2;
}

/* A line through both bars, its words below. */
static void draw_limit(const struct composer *c, struct slab *s, double x,
                       double top, double least, struct text words) {
    struct type type = c->style->foot;
    double y = top + 2 * high + gap;
    slab_rule(c, s, x, top - 3, x, y + 3, 1.6);
    double wide = shape_width(c->shaper, FACE_REGULAR, type.size, words);
    slab_text(c, s, fmax(x - wide / 2, least), y + 4 + type.size, FACE_REGULAR,
              type.size, style_black(), words);
}

static struct text spoken(const struct composer *c, const struct bars *b) {
    return text_of(arena_printf(
        c->arena, "%.*s: %.*s before, %.*s after; limit %.*s",
        (int)b->label.len, b->label.start, (int)b->found_text.len,
        b->found_text.start, (int)b->left_text.len, b->left_text.start,
        (int)b->limit_text.len, b->limit_text.start));
}

void bars_set(struct flow *f, const struct bars *b, double x, double width,
              struct span at) {
    const struct composer *c = f->c;
    struct type type = c->style->table, small = c->style->foot;
    double room = width - word_width - figure_width, top = type.leading + 2;
    double limit = isfinite(b->high) ? b->high : isfinite(b->low) ? b->low : 0;
    double most = fmax(fmax(b->found, b->left), fabs(limit));
    double scale = most > 0 ? room / most : 0, from = x + word_width;
    struct slab *s = flow_slab(f, top + 2 * high + gap + 6 + small.size, at);
    size_t outer = tag_open(c->tags, TAG_FIGURE, spoken(c, b));
    slab_text(c, s, x, paragraph_baseline(type), FACE_BOLD, type.size,
              style_black(), b->label);
    for (size_t i = 0; i < 2; i++) {
        struct text text = i == 0 ? b->found_text : b->left_text;
        double y = top + (double)i * (high + gap);
        double bar = fmax((i == 0 ? b->found : b->left) * scale, 1.5);
        slab_text(c, s, x, text_y(small, y), FACE_REGULAR, small.size,
                  style_black(), text_of(i == 0 ? "before" : "after"));
        if (i == 0)
            slab_box(c, s, from, y, bar, high, 1);
        else
            slab_fill(c, s, from, y, bar, high, style_black());
        slab_text(c, s, from + room + 6, text_y(type, y), FACE_BOLD, type.size,
                  style_black(), text);
    }
    if (limit != 0)
        draw_limit(
            c, s, from + fabs(limit) * scale, top, from,
            text_of(arena_printf(c->arena, "limit %.*s", (int)b->limit_text.len,
                                 b->limit_text.start)));
    tag_close(c->tags, outer);
}
