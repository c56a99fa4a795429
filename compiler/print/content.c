/* content.c - one page's operators, ISO 32000-1 clause 8 and 9.
 *
 * Positions are kept in whole thousandths of a point, so that text moved from
 * word to word (Td is relative) does not drift. */
#include "print/content.h"

#include "image/picture.h"
#include "print/object.h"
#include "print/real.h"

#include <math.h>

struct content {
    struct buf *out;
    struct fonts *fonts;
    struct xobjects *images;
    struct structure *structure;
    size_t index; /* of the page */
    double page_height;
    const char *fault;
    /* Graphics state, to write only what changes. */
    struct colour fill, stroke;
    double line_width, dash_on, dash_off;
    enum face face;
    double size; /* 0: no font yet */
    double rise;
    bool in_text, in_mark;
    bool spoken;         /* the mark has text so far, */
    double spoken_y;     /* its last line here */
    size_t tag;          /* that is marked */
    long text_x, text_y; /* thousandths: where the last Td led */
};

static void put(struct content *c, double x, int decimals) {
    if (!real_put(c->out, x, decimals))
        c->fault = "a number is not finite or beyond 32767 pt";
}

static void put_point(struct content *c, double x, double y) {
    put(c, x, 3);
    put(c, c->page_height - y, 3);
}

static void operator(struct content *c, const char *name) {
    buf_puts(c->out, name);
}

static void leave_text(struct content *c) {
    if (c->in_text)
        operator(c, " ET");
    c->in_text = false;
}

static bool in_range(float part) {
    return part >= 0 && part <= 1;
}

static void set_colour(struct content *c, struct colour *now,
                       struct colour wanted, const char *grey,
                       const char *mixed) {
    if (!in_range(wanted.red) || !in_range(wanted.green) ||
        !in_range(wanted.blue)) {
        c->fault = "a colour is outside 0 to 1";
        return;
    }
    if (wanted.red == now->red && wanted.green == now->green &&
        wanted.blue == now->blue)
        return;
    *now = wanted;
    put(c, (double)wanted.red, 4);
    if (wanted.red == wanted.green && wanted.green == wanted.blue) {
        operator(c, grey);
        return;
    }
    put(c, (double)wanted.green, 4);
    put(c, (double)wanted.blue, 4);
    operator(c, mixed);
}

static void set_line(struct content *c, const struct op *op) {
    if (!(op->line_width >= 0 && op->dash_on >= 0 && op->dash_off >= 0)) {
        c->fault = "a line has no width or dash that can be drawn";
        return;
    }
    if (op->line_width != c->line_width) {
        put(c, op->line_width, 3);
        operator(c, " w");
        c->line_width = op->line_width;
    }
    if (op->dash_on != c->dash_on || op->dash_off != c->dash_off) {
        operator(c, " [");
        if (op->dash_on + op->dash_off > 0) {
            put(c, op->dash_on, 3);
            put(c, op->dash_off, 3);
        }
        operator(c, "] 0 d");
        c->dash_on = op->dash_on;
        c->dash_off = op->dash_off;
    }
    set_colour(c, &c->stroke, op->colour, " G", " RG");
}

static void set_pen(struct content *c, const struct op *op) {
    leave_text(c);
    if (op->fill)
        set_colour(c, &c->fill, op->colour, " g", " rg");
    else
        set_line(c, op);
}

static void set_font(struct content *c, const struct op *op) {
    if (!(op->size > 0)) {
        c->fault = "a text has no size";
        return;
    }
    if (c->size == op->size && c->face == op->face)
        return;
    buf_printf(c->out, " /F%d", (int)op->face + 1);
    put(c, op->size, 3);
    operator(c, " Tf");
    c->face = op->face;
    c->size = op->size;
}

static void move_text(struct content *c, const struct op *op) {
    double x = op->x, y = c->page_height - op->y;
    if (!real_fits(x) || !real_fits(y)) {
        put(c, x, 3);
        put(c, y, 3);
        return;
    }
    long to_x = lround(x * 1000), to_y = lround(y * 1000);
    if (!c->in_text) {
        operator(c, " BT");
        c->in_text = true;
        c->text_x = c->text_y = 0;
    }
    put(c, (double)(to_x - c->text_x) / 1000, 3);
    put(c, (double)(to_y - c->text_y) / 1000, 3);
    operator(c, " Td");
    c->text_x = to_x;
    c->text_y = to_y;
}

/* Two bytes of a string. */
static void put_code(struct content *c, uint16_t code) {
    char out[4];
    size_t len = 0;
    const char bytes[2] = {(char)(code >> 8), (char)(code & 0xFF)};
    for (int i = 0; i < 2; i++) {
        char b = bytes[i];
        if (b == '(' || b == ')' || b == '\\' || b == '\r')
            out[len++] = '\\';
        out[len++] = b == '\r' ? 'r' : b; /* a bare one would be read as \n */
    }
    buf_add(c->out, out, len);
}

/* The state of showing one run: [(...) 18 (...)] TJ. */
struct show {
    bool open, in_string;
    double pen;    /* where the reader's pen is, thousandths of the em */
    double wanted; /* where it should be */
};

static void end_string(struct content *c, struct show *s) {
    if (s->in_string)
        operator(c, ")");
    s->in_string = false;
}

static void end_show(struct content *c, struct show *s) {
    end_string(c, s);
    if (s->open)
        operator(c, "]TJ");
    s->open = false;
}

static void show_glyph(struct content *c, struct show *s, const struct op *op,
                       const struct glyph *g) {
    if (g->start > op->text.len || g->len > op->text.len - g->start) {
        c->fault = "a glyph stands for text that is not there";
        return;
    }
    struct text text = {0};
    if (g->len > 0)
        text = text_part(op->text, g->start, g->start + (size_t)g->len);
    uint16_t code = font_code(c->fonts, op->face, g->id, text);
    if (code == 0) {
        c->fault = "a glyph is not in the font";
        return;
    }
    double rise = (double)g->y * op->size;
    if (rise != c->rise) {
        end_show(c, s);
        put(c, rise, 3);
        operator(c, " Ts");
        c->rise = rise;
    }
    if (!s->open)
        operator(c, "[");
    s->open = true;
    /* What rounding leaves is carried, never summed. */
    double gap = round(s->wanted + (double)g->x * 1000 - s->pen);
    if (gap != 0) {
        end_string(c, s);
        put(c, -gap, 0);
        s->pen += gap;
    }
    if (!s->in_string)
        operator(c, "(");
    s->in_string = true;
    put_code(c, code);
    s->pen += font_width(c->fonts, op->face, code);
    s->wanted += (double)g->advance * 1000;
}

/* Whether a glyph is drawn back over the one before: a mark that the face
 * places nowhere itself. */
static bool is_drawn_back(const struct glyph *g) {
    return g->x < 0 && g->advance == 0;
}

/* One glyph, or a letter with the marks that are drawn back over it: readers
 * take a step back for the end of a word, so what they spell stands beside them
 * as ActualText (14.9.4). Returns how many there were. */
static size_t show_letter(struct content *c, struct show *s,
                          const struct op *op, size_t from) {
    size_t to = from + 1;
    while (to < op->glyph_count && is_drawn_back(&op->glyphs[to]))
        to++;
    const struct glyph *last = &op->glyphs[to - 1];
    size_t start = op->glyphs[from].start,
           end = last->start + (size_t)last->len;
    bool marked = to > from + 1 && start < end && end <= op->text.len;
    if (marked) {
        end_show(c, s);
        operator(c, " /Span<</ActualText");
        object_put_text(c->out, text_part(op->text, start, end));
        operator(c, ">>BDC");
    }
    for (size_t i = from; i < to && c->fault == NULL; i++)
        show_glyph(c, s, op, &op->glyphs[i]);
    if (marked) {
        end_show(c, s);
        operator(c, " EMC");
    }
    return to - from;
}

/* A paragraph's lines are read out as one: without a blank between them the
 * last word of one would run into the first of the next. */
static void part_lines(struct content *c, const struct op *op) {
    bool part = c->in_mark && c->spoken && c->in_text && c->tag != 0 &&
                op->y > c->spoken_y;
    uint16_t code = part ? font_blank(c->fonts, c->face) : 0;
    if (code != 0) {
        operator(c, "(");
        put_code(c, code);
        operator(c, ")Tj");
    }
    c->spoken = true;
    c->spoken_y = op->y;
}

static void write_text(struct content *c, const struct op *op) {
    struct show s = {0};
    if ((unsigned)op->face >= FACE_COUNT) {
        c->fault = "a text has no face";
        return;
    }
    if (op->glyph_count == 0)
        return;
    part_lines(c, op);
    set_colour(c, &c->fill, op->colour, " g", " rg");
    set_font(c, op);
    if (c->fault == NULL)
        move_text(c, op);
    for (size_t i = 0; i < op->glyph_count && c->fault == NULL;)
        i += show_letter(c, &s, op, i);
    end_show(c, &s);
}

static void write_path(struct content *c, const struct op *op) {
    if (op->path_count == 0)
        return;
    if (op->path[0].verb != PATH_MOVE) {
        c->fault = "a path has no start";
        return;
    }
    set_pen(c, op);
    for (size_t i = 0; i < op->path_count && c->fault == NULL; i++) {
        const struct path_point *p = &op->path[i];
        switch (p->verb) {
        case PATH_MOVE:
            put_point(c, p->x, p->y);
            operator(c, " m");
            break;
        case PATH_LINE:
            put_point(c, p->x, p->y);
            operator(c, " l");
            break;
        case PATH_CURVE:
            put_point(c, p->x1, p->y1);
            put_point(c, p->x2, p->y2);
            put_point(c, p->x, p->y);
            operator(c, " c");
            break;
        case PATH_CLOSE:
            operator(c, " h");
            break;
        }
    }
    operator(c, op->fill ? " f" : " S");
}

/* The unit square with the image upright in it (its first row at the top) to
 * its place: where the right and the upper edge lead, and the lower left
 * corner, each in parts of the width or height. By Exif's words (CIPA
 * DC-008, 4.6.4, tag Orientation) for where row 0 and column 0 are seen. */
static void write_image(struct content *c, const struct op *op) {
    static const signed char turns[][6] = {
        {1, 0, 0, 1, 0, 0},   /* top, left */
        {-1, 0, 0, 1, 1, 0},  /* top, right */
        {-1, 0, 0, -1, 1, 1}, /* bottom, right */
        {1, 0, 0, -1, 0, 1},  /* bottom, left */
        {0, -1, -1, 0, 1, 1}, /* left, top */
        {0, -1, 1, 0, 0, 1},  /* right, top */
        {0, 1, 1, 0, 0, 0},   /* right, bottom */
        {0, 1, -1, 0, 1, 0},  /* left, bottom */
    };
    const struct picture *p = op->picture;
    if (p == NULL || p->turn < 1 || p->turn > 8) {
        c->fault = "an image has no samples or cannot be turned";
        return;
    }
    const signed char *turn = turns[p->turn - 1];
    leave_text(c);
    operator(c, " q");
    put(c, turn[0] * op->width, 3);
    put(c, turn[1] * op->height, 3);
    put(c, turn[2] * op->width, 3);
    put(c, turn[3] * op->height, 3);
    put(c, op->x + turn[4] * op->width, 3);
    put(c, c->page_height - op->y - op->height + turn[5] * op->height, 3);
    buf_printf(c->out, " cm /I%zu Do Q", xobject_number(c->images, p));
}

static void write_op(struct content *c, const struct op *op) {
    switch (op->kind) {
    case OP_TEXT:
        write_text(c, op);
        break;
    case OP_RECT:
        set_pen(c, op);
        put_point(c, op->x, op->y + op->height);
        put(c, op->width, 3);
        put(c, op->height, 3);
        operator(c, op->fill ? " re f" : " re S");
        break;
    case OP_LINE:
        leave_text(c);
        set_line(c, op);
        put_point(c, op->x, op->y);
        operator(c, " m");
        put_point(c, op->x2, op->y2);
        operator(c, " l S");
        break;
    case OP_PATH:
        write_path(c, op);
        break;
    case OP_IMAGE:
        write_image(c, op);
        break;
    case OP_LINK:
        return;
    }
    buf_puts(c->out, "\n");
}

static void leave_mark(struct content *c) {
    if (!c->in_mark)
        return;
    leave_text(c);
    operator(c, " EMC\n");
    c->in_mark = false;
}

/* Neighbours of one tag share a mark: ISO 32000-1, 14.6. */
static void set_mark(struct content *c, const struct op *op) {
    if (c->structure == NULL || op->kind == OP_LINK ||
        (c->in_mark && c->tag == op->tag))
        return;
    if (op->kind == OP_TEXT && c->in_mark &&
        structure_joins(c->structure, c->tag, op->tag))
        part_lines(c, op);
    leave_mark(c);
    c->in_mark = true;
    c->spoken = false;
    c->tag = op->tag;
    if (op->tag == 0)
        operator(c, " /Artifact BMC");
    else
        buf_printf(c->out, " /%s<</MCID %zu>>BDC",
                   structure_name(c->structure, op->tag),
                   structure_mark(c->structure, c->index, op->tag));
}

struct content_fault content_write(struct buf *out, const struct page *page,
                                   size_t index,
                                   const struct content_into *into) {
    struct content c = {
        .out = out,
        .fonts = into->fonts,
        .images = into->images,
        .structure = into->structure,
        .index = index,
        .page_height = page->height,
        .line_width = 1, /* as a page begins */
    };
    for (size_t i = 0; i < page->op_count; i++) {
        set_mark(&c, &page->ops[i]);
        write_op(&c, &page->ops[i]);
        if (c.fault != NULL)
            return (struct content_fault){c.fault, &page->ops[i]};
    }
    leave_mark(&c);
    leave_text(&c);
    return (struct content_fault){0};
}
