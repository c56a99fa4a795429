/* panel.c - caution panels: signal word, safety alert symbol, signs, message.
 */
#include "layout/panel.h"

#include "base/arena.h"
#include "layout/shape.h"

#include <math.h>

static const double band = 25, word_size = 18, pad = 8, sign_side = 36;

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

/* Slanted bars from x to the right edge, each as high as the band. */
static void draw_hatch(const struct composer *c, struct slab *s, double x,
                       double right, double y, double height) {
    const double bar = 7, pitch = 14;
    for (double at = x; at + bar + height <= right + 0.01; at += pitch) {
        struct path_point *p = arena_alloc(c->arena, 5, sizeof *p);
        p[0] = (struct path_point){.verb = PATH_MOVE, .x = at, .y = y + height};
        p[1] = (struct path_point){.verb = PATH_LINE, .x = at + height, .y = y};
        p[2] = (struct path_point){
            .verb = PATH_LINE, .x = at + height + bar, .y = y};
        p[3] = (struct path_point){
            .verb = PATH_LINE, .x = at + bar, .y = y + height};
        p[4] =
            (struct path_point){.verb = PATH_CLOSE, .x = at, .y = y + height};
        struct op *op = slab_op(c, s, OP_PATH);
        op->path = p;
        op->path_count = 5;
        op->fill = true;
    }
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

void panel_set(struct flow *f, const struct panel *p) {
    const struct composer *c = f->c;
    const struct style *style = c->style;
    double width = style->right - style->left;
    double edge = border_width(looks[p->signal].border);
    struct slab *s = slab_new(c, 0, p->at);
    double top = edge + band + pad, message = 0;
    draw_band(c, s, p, edge, width);
    for (size_t i = 0; i < p->paragraph_count; i++) {
        const struct words *w = words_of(c, &p->paragraph[i]);
        const struct lines *l = paragraph_break(
            c, w, width - style->rail - edge - 14, style->step, 1);
        message += paragraph_draw_all(c, s, l, style->rail, top + message);
    }
    double signs = (sign_side + 5) * (double)p->symbol_count - 5;
    for (size_t i = 0; i < p->symbol_count; i++)
        symbol_draw(c, s, p->symbol[i], (style->rail - sign_side) / 2,
                    top + 1 + (sign_side + 5) * (double)i, sign_side);
    s->height = top + fmax(message, signs + 2) + pad + edge - 1;
    draw_border(c, s, looks[p->signal].border, width, s->height);
    flow_add(f, s);
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
