/* display.c - builds a display list and writes it as text.
 *
 * The text form, read back by display_read.c; words in brackets are left out
 * when they say nothing (black, no width, solid):
 *
 *   bayleaf pages 1 full|brief COUNT
 *   title|author|subject STRING|-
 *   code STRING
 *   outline LEVEL page N y Y STRING
 *   tag KIND PARENT STRING|-
 *   page WIDTH HEIGHT
 *   text X Y FACE SIZE STRING [INK] [glyphs ID:START+LEN@ADVANCE[,X,Y] ...]
 *   rect X Y WIDTH HEIGHT fill|stroke [STYLE]
 *   line X Y X2 Y2 [STYLE]
 *   path fill|stroke [STYLE] points [M X Y] [L X Y] [C X1 Y1 X2 Y2 X Y] [Z] ...
 *   link X Y WIDTH HEIGHT page N y Y | uri STRING
 *   image X Y WIDTH HEIGHT pixels ACROSS DOWN grey|colour flate|jpeg turn T
 *     STRING [data HEXADECIMAL]
 *   end
 *   Every op may end in: tag N
 *   STYLE = [width W] [dash ON OFF] [INK], INK = colour RED GREEN BLUE
 *
 * Pages and tags count from 1; the brief form has no tags. An op stands on one
 * line, so that a golden file's difference reads well. */
#include "layout/display.h"

#include "base/arena.h"
#include "image/picture.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

void display_reserve(struct arena *a, struct page *p, size_t count) {
    if (count <= p->op_room)
        return;
    p->ops = arena_grow(a, p->ops, p->op_room, count, sizeof *p->ops);
    p->op_room = count;
}

struct op *display_op(struct arena *a, struct page *p, enum op_kind kind) {
    if (p->op_count == p->op_room)
        display_reserve(a, p, p->op_room == 0 ? 64 : p->op_room * 2);
    struct op *op = &p->ops[p->op_count++];
    op->kind = kind;
    if (kind == OP_LINK)
        op->page = -1;
    return op;
}

struct page *display_page(struct arena *a, struct pages *p, double width,
                          double height) {
    if (p->count == p->room) {
        p->room = p->room == 0 ? 8 : p->room * 2;
        p->page = arena_grow(a, p->page, p->count, p->room, sizeof *p->page);
    }
    struct page *page = &p->page[p->count++];
    page->width = width;
    page->height = height;
    return page;
}

const char *display_face_name(enum face face) {
    static const char *const names[FACE_COUNT] = {
        [FACE_REGULAR] = "regular", [FACE_BOLD] = "bold",
        [FACE_OBLIQUE] = "oblique", [FACE_MONO] = "mono",
        [FACE_SYMBOL] = "symbol",
    };
    return names[face];
}

const char *display_tag_name(enum tag_kind kind) {
    static const char *const names[TAG_KINDS] = {
        [TAG_DOCUMENT] = "document",
        [TAG_TITLE] = "title",
        [TAG_SECTION] = "section",
        [TAG_SUBSECTION] = "subsection",
        [TAG_PARAGRAPH] = "paragraph",
        [TAG_QUOTE] = "quote",
        [TAG_PANEL] = "panel",
        [TAG_LIST] = "list",
        [TAG_ITEM] = "item",
        [TAG_LABEL] = "label",
        [TAG_BODY] = "body",
        [TAG_TABLE] = "table",
        [TAG_ROW] = "row",
        [TAG_HEAD] = "head",
        [TAG_CELL] = "cell",
        [TAG_FIGURE] = "figure",
        [TAG_CAPTION] = "caption",
        [TAG_LINK] = "link",
    };
    return names[kind];
}

struct writer {
    FILE *out;
    bool full;
};

/* The shortest decimal that reads back as the same double. */
static void full_number(FILE *out, double x) {
    char text[40];
    for (int digits = 15; digits <= 17; digits++) {
        snprintf(text, sizeof text, "%.*g", digits, x);
        if (strtod(text, NULL) == x)
            break;
    }
    fprintf(out, " %s", text);
}

static void number(const struct writer *w, double x) {
    if (w->full) {
        full_number(w->out, x);
        return;
    }
    double hundredths = round(x * 100);
    fprintf(w->out, " %.10g", hundredths == 0 ? 0 : hundredths / 100);
}

/* In glyphs, where all numbers are floats. */
static void small_number(FILE *out, char before, float x) {
    char text[40];
    for (int digits = 6; digits <= 9; digits++) {
        snprintf(text, sizeof text, "%.*g", digits, (double)x);
        if (strtof(text, NULL) == x)
            break;
    }
    fprintf(out, "%c%s", before, text);
}

static void numbers(const struct writer *w, size_t count, const double *x) {
    for (size_t i = 0; i < count; i++)
        number(w, x[i]);
}

static void string(const struct writer *w, struct text t) {
    if (t.start == NULL) {
        fputs(" -", w->out);
        return;
    }
    fputs(" \"", w->out);
    for (size_t i = 0; i < t.len; i++) {
        unsigned char c = (unsigned char)t.start[i];
        if (c == '"' || c == '\\')
            fprintf(w->out, "\\%c", c);
        else if (c < ' ' || c == 0x7F)
            fprintf(w->out, "\\x%02X", c);
        else
            fputc(c, w->out);
    }
    fputc('"', w->out);
}

static void ink(const struct writer *w, const struct op *op) {
    const float parts[] = {op->colour.red, op->colour.green, op->colour.blue};
    if (parts[0] == 0 && parts[1] == 0 && parts[2] == 0)
        return;
    fputs(" colour", w->out);
    for (int i = 0; i < 3; i++) {
        if (w->full)
            small_number(w->out, ' ', parts[i]);
        else
            fprintf(w->out, " %.3g", (double)parts[i]);
    }
}

static void style(const struct writer *w, const struct op *op) {
    if (op->line_width != 0) {
        fputs(" width", w->out);
        number(w, op->line_width);
    }
    if (op->dash_on != 0 || op->dash_off != 0) {
        fputs(" dash", w->out);
        number(w, op->dash_on);
        number(w, op->dash_off);
    }
    ink(w, op);
}

static void glyphs(FILE *out, const struct op *op) {
    fputs(" glyphs", out);
    for (size_t i = 0; i < op->glyph_count; i++) {
        const struct glyph *g = &op->glyphs[i];
        fprintf(out, " %u:%lu+%lu", (unsigned)g->id, (unsigned long)g->start,
                (unsigned long)g->len);
        small_number(out, '@', g->advance);
        if (g->x == 0 && g->y == 0)
            continue;
        small_number(out, ',', g->x);
        small_number(out, ',', g->y);
    }
}

static void points(const struct writer *w, const struct op *op) {
    fputs(" points", w->out);
    for (size_t i = 0; i < op->path_count; i++) {
        const struct path_point *p = &op->path[i];
        switch (p->verb) {
        case PATH_MOVE:
            fputs(" M", w->out);
            numbers(w, 2, (double[]){p->x, p->y});
            break;
        case PATH_LINE:
            fputs(" L", w->out);
            numbers(w, 2, (double[]){p->x, p->y});
            break;
        case PATH_CURVE:
            fputs(" C", w->out);
            numbers(w, 6, (double[]){p->x1, p->y1, p->x2, p->y2, p->x, p->y});
            break;
        case PATH_CLOSE:
            fputs(" Z", w->out);
            break;
        }
    }
}

static void picture(const struct writer *w, const struct op *op) {
    static const char digits[] = "0123456789ABCDEF";
    const struct picture *p = op->picture;
    fprintf(w->out, " pixels %u %u %s %s turn %u", p->width, p->height,
            p->channels == 1 ? "grey" : "colour",
            p->coding == PICTURE_JPEG  ? "jpeg"
            : p->coding == PICTURE_PNG ? "png"
                                       : "flate",
            p->turn);
    string(w, op->text);
    if (!w->full)
        return;
    fputs(" data ", w->out);
    for (size_t i = 0; i < p->len; i++) {
        fputc(digits[p->bytes[i] >> 4], w->out);
        fputc(digits[p->bytes[i] & 15], w->out);
    }
}

static void write_tags(const struct writer *w, const struct pages *p) {
    for (size_t i = 0; i < p->tag_count; i++) {
        const struct tag *tag = &p->tag[i];
        fprintf(w->out, "tag %s %zu", display_tag_name(tag->kind), tag->parent);
        string(w, tag->words);
        fputc('\n', w->out);
    }
}

static void write_op(const struct writer *w, const struct op *op) {
    const double at[] = {op->x, op->y}, size[] = {op->width, op->height};
    const double end[] = {op->x2, op->y2};
    switch (op->kind) {
    case OP_TEXT:
        fputs("text", w->out);
        numbers(w, 2, at);
        fprintf(w->out, " %s", display_face_name(op->face));
        number(w, op->size);
        string(w, op->text);
        ink(w, op);
        if (w->full)
            glyphs(w->out, op);
        break;
    case OP_RECT:
        fputs("rect", w->out);
        numbers(w, 2, at);
        numbers(w, 2, size);
        fputs(op->fill ? " fill" : " stroke", w->out);
        style(w, op);
        break;
    case OP_LINE:
        fputs("line", w->out);
        numbers(w, 2, at);
        numbers(w, 2, end);
        style(w, op);
        break;
    case OP_PATH:
        fputs(op->fill ? "path fill" : "path stroke", w->out);
        style(w, op);
        points(w, op);
        break;
    case OP_LINK:
        fputs("link", w->out);
        numbers(w, 2, at);
        numbers(w, 2, size);
        if (op->page >= 0) {
            fprintf(w->out, " page %d y", op->page + 1);
            number(w, op->target_y);
        } else {
            fputs(" uri", w->out);
            string(w, op->uri);
        }
        break;
    case OP_IMAGE:
        fputs("image", w->out);
        numbers(w, 2, at);
        numbers(w, 2, size);
        picture(w, op);
        break;
    }
    if (w->full && op->tag != 0)
        fprintf(w->out, " tag %zu", op->tag);
    fputc('\n', w->out);
}

static void write_head(const struct writer *w, const struct pages *p) {
    fprintf(w->out, "bayleaf pages 1 %s %zu\ntitle", w->full ? "full" : "brief",
            p->count);
    string(w, p->title);
    fputs("\nauthor", w->out);
    string(w, p->author);
    fputs("\nsubject", w->out);
    string(w, p->subject);
    fputs("\ncode", w->out);
    string(w, text_of(p->code));
    fputc('\n', w->out);
    for (size_t i = 0; i < p->outline_count; i++) {
        const struct outline *o = &p->outline[i];
        fprintf(w->out, "outline %d page %d y", o->level, o->page + 1);
        number(w, o->y);
        string(w, o->title);
        fputc('\n', w->out);
    }
    if (w->full)
        write_tags(w, p);
}

void display_write(const struct pages *p, bool full, FILE *out) {
    struct writer w = {.out = out, .full = full};
    write_head(&w, p);
    for (size_t i = 0; i < p->count; i++) {
        const struct page *page = &p->page[i];
        fputs("page", out);
        number(&w, page->width);
        number(&w, page->height);
        fputc('\n', out);
        for (size_t k = 0; k < page->op_count; k++)
            write_op(&w, &page->ops[k]);
    }
    fputs("end\n", out);
}
