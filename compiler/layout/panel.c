/* panel.c - caution panels: signal word, safety alert symbol, signs, message.
 */
#include "layout/panel.h"

#include "base/arena.h"
#include "layout/shape.h"

#include <math.h>

/* Signs are 12 mm high. The brief form: its cell ends before the text begins,
 * its hatch is a strip at the right. */
static const double band = 20, word_size = 18, pad = 4, sign_side = 34,
                    sign_step = 39;
static const double brief_size = 11, brief_sign = 15, brief_pad = 3, strip = 13;

/* The brief form is as high as two lines; with large letters it may take three.
 */
enum { BRIEF_LEAST = 2, BRIEF_MOST = 3 };

enum border { BORDER_DOUBLE, BORDER_THICK, BORDER_PLAIN, BORDER_BROKEN };

struct look {
    const char *word;
    bool white; /* letters */
    bool triangle, hatch;
    enum border border;
};

static const struct look looks[] = {
    [PANEL_DANGER] = {"DANGER", true, true, false, BORDER_DOUBLE},
    [PANEL_WARNING] = {"WARNING", false, true, true, BORDER_THICK},
    [PANEL_CAUTION] = {"CAUTION", false, true, false, BORDER_PLAIN},
    [PANEL_NOTICE] = {"NOTICE", true, false, false, BORDER_BROKEN},
};

static struct colour ground(enum panel_signal signal) {
    switch (signal) {
    case PANEL_DANGER:
        return style_red();
    case PANEL_WARNING:
        return style_orange();
    case PANEL_CAUTION:
        return style_yellow();
    case PANEL_NOTICE:
        return style_blue();
    }
    return style_black();
}

const char *panel_word(enum panel_signal signal) {
    return looks[signal].word;
}

static struct colour letters(enum panel_signal signal) {
    return looks[signal].white ? style_white() : style_black();
}

static double border_width(enum border border) {
    switch (border) {
    case BORDER_DOUBLE:
        return 4.5;
    case BORDER_THICK:
        return 3;
    case BORDER_PLAIN:
        return 1.5;
    case BORDER_BROKEN:
        return 1.5;
    }
    return 0;
}

static void draw_border(const struct composer *c, struct slab *s,
                        enum border border, double width, double height) {
    switch (border) {
    case BORDER_DOUBLE:
        slab_box(c, s, 0, 0, width, height, 2);
        slab_box(c, s, 3.5, 3.5, width - 7, height - 7, 1);
        return;
    case BORDER_THICK:
        slab_box(c, s, 0, 0, width, height, 3);
        return;
    case BORDER_PLAIN:
        slab_box(c, s, 0, 0, width, height, 1.5);
        return;
    case BORDER_BROKEN:
        slab_box(c, s, 0, 0, width, height, 1.5);
        s->ops[s->op_count - 1].dash_on = 7;
        s->ops[s->op_count - 1].dash_off = 4;
        return;
    }
}

/* So that what stands below begins one beat of the grid further down, whatever
 * the message: panels neither touch nor drift apart. `give` of the padding may
 * be saved for it. */
static double on_grid(const struct style *style, double height) {
    const double give = 2;
    double grid = style->grid;
    return grid == 0 ? height : ceil((height - give) / grid) * grid;
}

struct corner {
    double x, y;
};

static void draw_bar(const struct composer *c, struct slab *s,
                     const struct corner corner[4]) {
    struct path_point *p = arena_alloc(c->arena, 5, sizeof *p);
    for (int i = 0; i < 5; i++)
        p[i] = (struct path_point){.verb = i == 0   ? PATH_MOVE
                                           : i == 4 ? PATH_CLOSE
                                                    : PATH_LINE,
                                   .x = corner[i % 4].x,
                                   .y = corner[i % 4].y};
    struct op *op = slab_op(c, s, OP_PATH);
    op->path = p;
    op->path_count = 5;
    op->fill = true;
}

static const double hatch_bar = 7, hatch_pitch = 14, strip_bar = 4.5,
                    strip_pitch = 9;

/* Slanted bars from x to the right edge, each as high as the band. */
static void draw_hatch(const struct composer *c, struct slab *s, double x,
                       double right, double y, double height) {
    for (double at = x; at + hatch_bar + height <= right + 0.01;
         at += hatch_pitch)
        draw_bar(c, s,
                 (const struct corner[4]){{at, y + height},
                                          {at + height, y},
                                          {at + height + hatch_bar, y},
                                          {at + hatch_bar, y + height}});
}

/* The same down a strip, each bar as wide as the strip. */
static void draw_hatch_down(const struct composer *c, struct slab *s, double x,
                            double width, double y, double bottom) {
    for (double at = y; at + strip_bar + width <= bottom + 0.01;
         at += strip_pitch)
        draw_bar(c, s,
                 (const struct corner[4]){{x, at + width},
                                          {x + width, at},
                                          {x + width, at + strip_bar},
                                          {x, at + width + strip_bar}});
}

static void draw_band(const struct composer *c, struct slab *s,
                      const struct panel *p, double edge, double width) {
    const struct look *look = &looks[p->signal];
    double right = width - edge, left = c->style->rail;
    slab_fill(c, s, edge, edge, right - edge, band, ground(p->signal));
    double baseline =
        edge + (band + word_size * shape_cap_height(FACE_BOLD)) / 2;
    double end = left + slab_text(c, s, left, baseline, FACE_BOLD, word_size,
                                  letters(p->signal), text_of(look->word));
    if (look->triangle)
        symbol_draw_alert(c, s, left / 2 - 10, edge + (band - 20) / 2, 20,
                          letters(p->signal), ground(p->signal));
    if (look->hatch)
        draw_hatch(c, s, end + 24, right, edge, band);
    slab_rule(c, s, edge, edge + band, right, edge + band, 1);
}

/* What the signs take at the right end: all but the first. */
static double signs_width(const struct panel *p) {
    return p->symbol_count < 2 ? 0 : sign_step * (double)(p->symbol_count - 1);
}

/* The first sign in the left cell, the others at the right end. */
static void draw_signs(const struct composer *c, struct slab *s,
                       const struct panel *p, double right, double top) {
    for (size_t i = 0; i < p->symbol_count; i++) {
        double x = i == 0 ? (c->style->rail - sign_side) / 2
                          : right - sign_step * (double)i;
        symbol_draw(c, s, p->symbol[i], x, top, sign_side);
    }
}

void panel_set(struct flow *f, const struct panel *p) {
    const struct composer *c = f->c;
    const struct style *style = c->style;
    double width = style->right - style->left;
    double edge = border_width(looks[p->signal].border);
    struct slab *s = slab_new(c, 0, p->at);
    double wide = width - style->rail - edge - 6 - signs_width(p);
    const struct lines **lines =
        arena_alloc(c->arena, p->paragraph_count + 1, sizeof(*lines));
    double message = 0;
    for (size_t i = 0; i < p->paragraph_count; i++) {
        const struct words *w = words_of(c, &p->paragraph[i]);
        lines[i] = paragraph_break(c, w, wide, style->step, 1);
        message += paragraph_height(lines[i]);
    }
    double high = fmax(message, p->symbol_count > 0 ? sign_side + 2 : 0);
    double head = edge + band, least = head + pad + high + pad + edge;
    s->height = on_grid(style, least);
    double top = head + (s->height - head - edge - high) / 2;
    draw_band(c, s, p, edge, width);
    draw_signs(c, s, p, width - edge, top + 1);
    for (size_t i = 0; i < p->paragraph_count; i++)
        top += paragraph_draw_all(c, s, lines[i], style->rail, top);
    draw_border(c, s, looks[p->signal].border, width, s->height);
    flow_add(f, s);
}

/* The cell at the left: symbol over word, on the ground of the signal. */
static void draw_cell(const struct composer *c, struct slab *s,
                      enum panel_signal signal, double edge, double height) {
    const struct look *look = &looks[signal];
    double right = c->style->rail - pad;
    double sign = look->triangle ? brief_sign + 3 : 0;
    double letters_high = brief_size * shape_cap_height(FACE_BOLD);
    double top = (height - sign - letters_high) / 2;
    slab_fill(c, s, edge, edge, right - edge, height - 2 * edge,
              ground(signal));
    double wide =
        shape_width(c->shaper, FACE_BOLD, brief_size, text_of(look->word));
    double middle = (edge + right) / 2;
    slab_text(c, s, middle - wide / 2, top + sign + letters_high, FACE_BOLD,
              brief_size, letters(signal), text_of(look->word));
    if (look->triangle)
        symbol_draw_alert(c, s, middle - brief_sign / 2, top, brief_sign,
                          letters(signal), ground(signal));
    slab_rule(c, s, right, edge, right, height - edge, 1);
}

bool panel_set_brief(struct flow *f, const struct panel *p) {
    const struct composer *c = f->c;
    const struct style *style = c->style;
    const struct look *look = &looks[p->signal];
    double width = style->right - style->left;
    double edge = border_width(look->border);
    double right = width - edge - (look->hatch ? strip : 0);
    if (rich_empty(&p->brief))
        return false;
    const struct lines *l = paragraph_break(
        c, words_of(c, &p->brief), right - style->rail - 6, style->step, 1);
    if (l->count > BRIEF_MOST)
        return false;
    double rows = fmax(BRIEF_LEAST, (double)l->count);
    double height =
        on_grid(style, 2 * (edge + brief_pad) + style->step.leading * rows);
    struct slab *s = slab_new(c, height, p->at);
    draw_cell(c, s, p->signal, edge, height);
    paragraph_draw_all(c, s, l, style->rail,
                       (height - paragraph_height(l)) / 2);
    if (look->hatch) {
        slab_fill(c, s, right, edge, strip, height - 2 * edge,
                  ground(p->signal));
        draw_hatch_down(c, s, right, strip, edge, height - edge);
    }
    draw_border(c, s, look->border, width, height);
    flow_add(f, s);
    return true;
}

double panel_tag(const struct composer *c, struct slab *s,
                 enum panel_signal signal, double x, double y,
                 struct type type) {
    const struct look *look = &looks[signal];
    const double size = 9, high = 13, inset = 4;
    double wide = shape_width(c->shaper, FACE_BOLD, size, text_of(look->word));
    double top = y + (type.leading - high) / 2;
    double tag = wide + 2 * inset;
    slab_fill(c, s, x, top, tag, high, ground(signal));
    slab_box(c, s, x, top, tag, high, looks[signal].white ? 0.5 : 1);
    slab_text(c, s, x + inset,
              top + (high + size * shape_cap_height(FACE_BOLD)) / 2, FACE_BOLD,
              size, letters(signal), text_of(look->word));
    return tag;
}
