/* record.c - boxes that a pen fills in: ticks, readings, initials, signatures.
 */
#include "layout/record.h"

#include "layout/shape.h"

#include <math.h>

static const double line_width = 0.8, inset = 4, pen_height = 24;

void record_tick(const struct composer *c, struct slab *s, double x, double y,
                 struct type type) {
    const double side = type.size * 13 / 12;
    double middle = y + paragraph_baseline(type) -
                    type.size * shape_cap_height(FACE_REGULAR) / 2;
    slab_box(c, s, x, middle - side / 2, side, side, 1.2);
}

/* A caption is made smaller rather than cut where its box is narrow. */
static double fitted(const struct composer *c, enum face face, double size,
                     struct text text, double room) {
    double wide = shape_width(c->shaper, face, size, text);
    return wide > room ? size * room / wide : size;
}

static void draw_box(const struct composer *c, struct slab *s,
                     const struct field_box *box, double x, double y,
                     double width, double height) {
    const struct style *style = c->style;
    slab_box(c, s, x, y, width, height, line_width);
    struct text caption = text_of(box->caption);
    double room = width - 2 * inset;
    double small = fitted(c, FACE_REGULAR, style->foot.size, caption, room);
    double large = fitted(c, FACE_BOLD, style->table.size, box->value, room);
    slab_text(c, s, x + inset, y + 2 + style->foot.size, FACE_REGULAR, small,
              style_black(), caption);
    if (box->value.len > 0)
        slab_text(c, s, x + inset, y + height - 5, FACE_BOLD, large,
                  style_black(), box->value);
}

void record_boxes(const struct composer *c, struct slab *s,
                  const struct field_box *box, size_t count, double x, double y,
                  double width, double height) {
    double shares = 0;
    for (size_t i = 0; i < count; i++)
        shares += box[i].share;
    double unit = (width + line_width * (double)(count - 1)) / shares;
    for (size_t i = 0; i < count; i++) {
        double wide = unit * box[i].share;
        draw_box(c, s, &box[i], x, y, wide, height);
        x += wide - line_width; /* neighbours share a line */
    }
}

struct slab *record_row(struct flow *f, const struct field_box *box,
                        size_t count, double x, double width, double height,
                        struct span at) {
    double high = height * f->c->style->scale;
    struct slab *s = flow_slab(f, high - line_width, at);
    record_boxes(f->c, s, box, count, x, 0, width, high);
    return s;
}

void record_reading(struct flow *f, const struct rich *what,
                    enum record_when when, double x, double width,
                    struct span at) {
    static const struct field_box boxes[] = {
        [RECORD_FOUND] = {"as found", 1, {NULL, 0}},
        [RECORD_LEFT] = {"as left", 1, {NULL, 0}},
        [RECORD_ONCE] = {"reading", 1, {NULL, 0}}};
    const struct composer *c = f->c;
    const double boxes_width = 120, pen = pen_height * c->style->scale;
    struct type type = c->style->table;
    const struct lines *l = paragraph_break(c, words_of(c, what),
                                            width - boxes_width - 10, type, 1);
    double text = paragraph_height(l);
    double height = fmax(pen, text + 6);
    struct slab *s = flow_slab(f, height - line_width, at);
    slab_box(c, s, x, 0, width - boxes_width + line_width, height, line_width);
    paragraph_draw_all(c, s, l, x + inset + 1, (height - text) / 2);
    record_boxes(c, s, &boxes[when], 1, x + width - boxes_width, 0, boxes_width,
                 height);
}

void record_hold(struct flow *f, double x, double width, struct span at) {
    static const struct field_box boxes[] = {
        {"checked by (not the person who did it)", 3, {NULL, 0}},
        {"signature", 3, {NULL, 0}},
        {"date, time", 2, {NULL, 0}}};
    const struct composer *c = f->c;
    const double scale = c->style->scale, head = 18 * scale;
    const double pen = pen_height * scale, clear = 4 * scale;
    struct type type = c->style->table;
    /* Space of its own: on the grid there would be much above and, since it is
     * a little lower than whole beats, hardly any below. */
    struct slab *s = flow_slab(f, clear + head + pen, at);
    slab_fill(c, s, x, clear, width, head, style_black());
    double baseline =
        clear + (head + type.size * shape_cap_height(FACE_BOLD)) / 2;
    double wide = slab_text(c, s, x + inset + 2, baseline, FACE_BOLD,
                            12 * scale, style_white(), text_of("HOLD"));
    slab_text(c, s, x + inset + 2 + wide + 10, baseline, FACE_REGULAR,
              type.size, style_white(),
              text_of("Stop here until a second person has signed."));
    record_boxes(c, s, boxes, 3, x, clear + head - line_width, width, pen);
}
