/* schematic_draw.c - a circuit that was planned, drawn. */
#include "layout/schematic_draw.h"

#include "base/arena.h"
#include "base/diag.h"
#include "layout/schematic_cut.h"
#include "layout/shape.h"

#include <math.h>

double schematic_width(const struct diagram *d, enum face face, struct text t) {
    return shape_width(d->l->composer.shaper, face, d->size, t);
}

static double column_x(const struct diagram *d, size_t column) {
    return d->x + d->column * (double)(column - d->piece.from) + LINE_AT;
}

static double sheet_y(const struct diagram *d, double y) {
    return d->y + (y - d->piece.top);
}

static bool on_sheet(const struct diagram *d, size_t column) {
    return column >= d->piece.from && column < d->piece.to;
}

static void draw_line(const struct diagram *d, double x, double y, double x2,
                      double y2) {
    slab_rule(&d->l->composer, d->s, x, y, x2, y2, 1);
}

/* Down a rung, as far as the sheet shows it. Heights of the plan. */
static void draw_down(const struct diagram *d, double x, double y, double y2) {
    if (y < y2)
        draw_line(d, x, sheet_y(d, y), x, sheet_y(d, y2));
}

/* An element stands on the sheet that shows its top. */
static bool shows(const struct diagram *d, double y) {
    return y >= d->piece.top && y < d->piece.bottom;
}

/* What is too wide for its column is set smaller, down to this share: below it
 * nobody could read it. */
static const double least_share = 0.72;

static void draw_words(const struct diagram *d, double x, double y,
                       enum face face, struct text t, double most,
                       struct span at) {
    double wide = schematic_width(d, face, t);
    double size = wide > most ? d->size * most / wide : d->size;
    if (size < d->size * least_share)
        diag_add(
            d->l->composer.diags, DIAG_TOO_WIDE, at,
            "'%.*s' in the drawing takes %.0f pt, there are %.0f pt; write "
            "it shorter",
            (int)t.len, t.start, wide, most);
    slab_text(&d->l->composer, d->s, x, y, face, size, style_black(), t);
}

static void draw_terminal(const struct diagram *d, double x, double y,
                          struct text t, struct span at) {
    double wide = schematic_width(d, FACE_REGULAR, t);
    if (t.len > 0)
        draw_words(d, x - 5 - fmin(wide, LINE_AT - 7), y, FACE_REGULAR, t,
                   LINE_AT - 7, at);
}

/* One element in its cell: y to y + height. */
static void draw_item(struct diagram *d, const struct item *it, double x,
                      double y, double height, bool up) {
    const struct composer *c = &d->l->composer;
    const struct schematic_element *e = &it->element;
    double top = y + (height - SIDE) / 2;
    if (e->is_wire && e->coloured) {
        swatch_draw_down(c, d->s, &e->colour, x - 2.6, y + 2, 5.2, height - 4);
        draw_line(d, x, y, x, y + 2);
        draw_line(d, x, y + height - 2, x, y + height);
    } else if (e->is_wire) {
        slab_rule(c, d->s, x, y, x, y + height, 2);
    } else {
        draw_line(d, x, y, x, top);
        draw_line(d, x, top + SIDE, x, y + height);
        schematic_symbol_draw(c, d->s, e->symbol, x - SIDE / 2.0, top, SIDE,
                              up);
    }
    double high = e->symbol == SYMBOL_COIL ? 0.5 : 0.8; /* its box is wide */
    draw_terminal(d, x, top + d->size * high, e->terminal[up ? 1 : 0], e->at);
    draw_terminal(d, x, top + SIDE, e->terminal[up ? 0 : 1], e->at);
    double words = d->leading * (double)it->label.count;
    double base = y + (height - words) / 2 + d->size;
    for (size_t i = 0; i < it->label.count; i++)
        draw_words(d, x - LINE_AT + WORDS_AT, base + d->leading * (double)i,
                   it->label.bold[i] ? FACE_BOLD : FACE_REGULAR,
                   it->label.line[i], d->column - WORDS_AT - 4, e->at);
}

/* A, B, to Z, then AA, AB; without I and O, which look like figures. */
static const char *mark_name(struct arena *a, size_t number) {
    static const char letters[] = "ABCDEFGHJKLMNPQRSTUVWXYZ";
    enum { LETTERS = sizeof letters - 1 };
    char name[16], *at = name + sizeof name - 1;
    *at = '\0';
    for (number++; number > 0; number = (number - 1) / LETTERS)
        *--at = letters[(number - 1) % LETTERS];
    return arena_printf(a, "%s", at);
}

/* The letter at both sides of a cut, from that of the first column on. */
static void draw_mark(struct diagram *d, size_t rung, bool below, double y) {
    size_t number = below ? d->piece.below : d->piece.above;
    double cut = below ? d->piece.bottom : d->piece.top;
    for (size_t r = 0; r < d->plan.rung_count; r++)
        number += on_sheet(d, d->plan.rung[r].column) &&
                  d->plan.rung[r].column < d->plan.rung[rung].column &&
                  !isnan(schematic_cut_rung(d, r, cut));
    struct text name = text_of(mark_name(d->l->composer.arena, number));
    double x = column_x(d, d->plan.rung[rung].column), at = sheet_y(d, y);
    double wide = schematic_width(d, FACE_BOLD, name);
    draw_words(d, x - wide / 2, below ? at + d->size + 1 : at - 3, FACE_BOLD,
               name, d->column, d->block->at);
    if (!below)
        return;
    draw_line(d, x, at, x - 3, at - 5);
    draw_line(d, x, at, x + 3, at - 5);
}

static void draw_rung(struct diagram *d, size_t rung) {
    const struct plan_rung *r = &d->plan.rung[rung];
    if (!on_sheet(d, r->column))
        return;
    double x = column_x(d, r->column);
    double above = schematic_cut_rung(d, rung, d->piece.top);
    double below = schematic_cut_rung(d, rung, d->piece.bottom);
    double first = isnan(above) ? d->piece.top : above;
    double last = isnan(below) ? d->piece.bottom : below;
    for (size_t k = 0; k < r->count; k++) {
        const struct plan_span *s = &r->span[k];
        const struct item *it = &d->item[s->first];
        double from = d->plan.point[s->from].y, to = d->plan.point[s->to].y;
        double y = fmin(from, to), bottom = fmax(from, to);
        for (size_t i = 0; i < s->count; i++) {
            size_t e = s->up ? s->count - 1 - i : i;
            draw_down(d, x, fmax(y, first), fmin(s->y[e], last));
            if (shows(d, s->y[e]))
                draw_item(d, &it[e], x, sheet_y(d, s->y[e]), s->height[e],
                          s->up);
            y = s->y[e] + s->height[e];
        }
        draw_down(d, x, fmax(y, first), fmin(bottom, last));
    }
    if (!isnan(above))
        draw_mark(d, rung, false, above);
    if (!isnan(below))
        draw_mark(d, rung, true, below);
}

/* The sides from which lines come together at a column of a bar. */
static int sides_at(const struct diagram *d, size_t point, size_t column) {
    const struct plan_point *p = &d->plan.point[point];
    int up = 0, down = 0;
    for (size_t r = 0; r < d->plan.rung_count; r++)
        for (size_t k = 0;
             d->plan.rung[r].column == column && k < d->plan.rung[r].count;
             k++) {
            const struct plan_span *s = &d->plan.rung[r].span[k];
            if (s->from != point && s->to != point)
                continue;
            double other = d->plan.point[s->from == point ? s->to : s->from].y;
            up |= other < p->y;
            down |= other > p->y;
        }
    if (up + down == 0)
        return 0;
    return up + down + (column > p->first) + (column < p->last);
}

static void draw_arrow(const struct diagram *d, double x, double y,
                       double way) {
    draw_line(d, x, y, x - 5 * way, y - 3);
    draw_line(d, x, y, x - 5 * way, y + 3);
}

/* A test point: a ring where a meter goes, its name above, its voltage below.
 */
static void draw_point(struct diagram *d, size_t point) {
    const struct composer *c = &d->l->composer;
    const struct plan_point *p = &d->plan.point[point];
    if (p->ends == 0 || p->last < d->piece.from || p->first >= d->piece.to ||
        !(p->y >= d->piece.top && p->y <= d->piece.bottom))
        return;
    double y = sheet_y(d, p->y);
    size_t first = p->first < d->piece.from ? d->piece.from : p->first;
    size_t last = p->last >= d->piece.to ? d->piece.to - 1 : p->last;
    double x = column_x(d, first), x2 = column_x(d, last);
    double left = p->first < d->piece.from ? d->x : x;
    double right =
        p->last >= d->piece.to
            ? d->x + d->column * (double)(d->piece.to - d->piece.from)
            : x2;
    if (right > left)
        slab_rule(c, d->s, left, y, right, y, 1.4);
    if (p->first < d->piece.from)
        draw_arrow(d, left, y, -1);
    if (p->last >= d->piece.to)
        draw_arrow(d, right, y, 1);
    for (size_t k = first; k <= last; k++)
        if (sides_at(d, point, k) >= 3)
            slab_disc(c, d->s, column_x(d, k), y, 2.6, 0, style_black());
    struct text name = schematic_point_name(d->l, d->block, point);
    const char *voltage = schematic_voltage(d->l, d->block, point);
    double most = d->column - 14;
    if (sides_at(d, point, first) < 3) {
        slab_disc(c, d->s, x, y, 2.8, 0, style_white());
        slab_disc(c, d->s, x, y, 2.8, 1, style_black());
    }
    struct span at = d->block->circuit->point[point].at;
    draw_words(d, x + 6, y - 4, FACE_BOLD, name, most, at);
    if (voltage != NULL)
        draw_words(d, x + 6, y + d->size + 2, FACE_REGULAR, text_of(voltage),
                   most, at);
}

/* Side of a symbol of the key, between two of them, between two rows. */
static const double key_side = 15, key_gap = 16, key_row = 20;

/* The next symbol that is used; where it stands in the row, or in a new one. */
static bool next_in_key(const struct diagram *d, double width, int *symbol,
                        double *x, double *y, double *end) {
    while (*symbol < SCHEMATIC_SYMBOLS && !d->used[*symbol])
        ++*symbol;
    if (*symbol == SCHEMATIC_SYMBOLS)
        return false;
    struct text name =
        text_of(schematic_symbol_name((enum schematic_symbol) * symbol));
    double wide = key_side + 4 + schematic_width(d, FACE_REGULAR, name);
    *x = *end > 0 ? *end + key_gap : 0;
    if (*x > 0 && *x + wide > width) {
        *x = 0;
        *y += key_row;
    }
    *end = *x + wide;
    return true;
}

double schematic_key_height(const struct diagram *d, double width) {
    double x, y = 0, end = 0;
    for (int i = 0; next_in_key(d, width, &i, &x, &y, &end); i++)
        continue;
    return y + key_side;
}

double schematic_draw_key(struct diagram *d, double y, double width) {
    double x, end = 0;
    for (int i = 0; next_in_key(d, width, &i, &x, &y, &end); i++) {
        enum schematic_symbol symbol = (enum schematic_symbol)i;
        schematic_symbol_draw(&d->l->composer, d->s, symbol, x, y, key_side,
                              false);
        draw_words(d, x + key_side + 4, y + key_side / 2 + d->size * 0.36,
                   FACE_REGULAR, text_of(schematic_symbol_name(symbol)), width,
                   d->block->at);
    }
    return y + key_side;
}

void schematic_draw(struct diagram *d) {
    struct tagger *tags = d->l->composer.tags;
    size_t outer = tag_open(tags, TAG_FIGURE, schematic_aloud(d->l, d->block));
    for (size_t i = 0; i < d->plan.rung_count; i++)
        draw_rung(d, i);
    for (size_t i = 0; i < d->plan.point_count; i++)
        draw_point(d, i);
    tag_close(tags, outer);
}
