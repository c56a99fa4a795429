/* bars.c - a reading before and after the work as two bars and its limit.
 *
 * Before is an outline, after is solid, the limit a line across both: no colour
 * is needed to tell them apart. */
#include "layout/bars.h"

#include "base/arena.h"
#include "layout/shape.h"

#include <math.h>

static const double high = 11, gap = 3, word_width = 40, figure_width = 62,
                    rise = 1.5;

static double text_y(struct type type, double top) {
    return top + (high + type.size * shape_cap_height(FACE_REGULAR)) / 2;
}

/* Where the limit lies: a line across both bars at each end, which stays below
 * the words above them, a thick one below the bars for what it allows, its
 * words below that. */
static void draw_limit(const struct composer *c, struct slab *s,
                       const struct bars *b, double from, double room,
                       double scale, double top) {
    struct type type = c->style->foot;
    double y = top + 2 * high + gap + 3;
    double low = isfinite(b->low) ? fmax(b->low, 0) * scale : 0;
    double upto = isfinite(b->high) ? fmax(b->high, 0) * scale : room;
    if (isfinite(b->low))
        slab_rule(c, s, from + low, top - rise, from + low, y, 1.6);
    if (isfinite(b->high))
        slab_rule(c, s, from + upto, top - rise, from + upto, y, 1.6);
    slab_rule(c, s, from + low, y, from + upto, y, 2.4);
    struct text words = text_of(arena_printf(
        c->arena, "limit %.*s", (int)b->limit_text.len, b->limit_text.start));
    double wide = shape_width(c->shaper, FACE_REGULAR, type.size, words);
    double x = fmin(from + (low + upto - wide) / 2, from + room - wide);
    slab_text(c, s, fmax(x, from), y + 2 + type.size, FACE_REGULAR, type.size,
              style_black(), words);
}

static struct text spoken(const struct composer *c, const struct bars *b) {
    return text_of(arena_printf(
        c->arena, "%.*s: %.*s before, %.*s after%s%.*s; limit %.*s",
        (int)b->label.len, b->label.start, (int)b->found_text.len,
        b->found_text.start, (int)b->left_text.len, b->left_text.start,
        b->verdict.len > 0 ? ", " : "", (int)b->verdict.len,
        b->verdict.len > 0 ? b->verdict.start : "", (int)b->limit_text.len,
        b->limit_text.start));
}

/* Of the limit, as far as it is drawn: above the lower end alone there is room
 * to see that it goes on. */
static double furthest(const struct bars *b) {
    return isfinite(b->high) ? b->high : isfinite(b->low) ? 1.15 * b->low : 0;
}

void bars_set(struct flow *f, const struct bars *b, double x, double width,
              struct span at) {
    const struct composer *c = f->c;
    struct type type = c->style->table, small = c->style->foot;
    double room = width - word_width - figure_width, top = type.leading + 2;
    bool limited = isfinite(b->high) || isfinite(b->low);
    double most = fmax(fmax(b->found, b->left), furthest(b));
    double scale = most > 0 ? room / most : 0, from = x + word_width;
    struct slab *s = flow_slab(f, top + 2 * high + gap + 8 + type.size, at);
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
    slab_text(c, s, from + room + 6, top + 2 * high + gap + 5 + type.size,
              FACE_BOLD, type.size, style_black(), b->verdict);
    if (limited && scale > 0)
        draw_limit(c, s, b, from, room, scale, top);
    tag_close(c->tags, outer);
}
