/* geometry.h - what must hold on every page, whatever stands on it: all ops
 * finite and inside the margins, no text over another text. */
#ifndef GEOMETRY_H
#define GEOMETRY_H

#include "layout/display.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

struct geometry_box {
    double left, top, right, bottom;
};

static inline struct geometry_box geometry_of(const struct op *op) {
    struct geometry_box b = {op->x, op->y, op->x, op->y};
    double advance = 0;
    switch (op->kind) {
    case OP_TEXT:
        for (size_t i = 0; i < op->glyph_count; i++)
            advance += (double)op->glyphs[i].advance;
        b.right = op->x + advance * op->size;
        b.top = op->y - op->size * 0.72; /* capitals */
        b.bottom = op->y + op->size * 0.1;
        break;
    case OP_RECT:
    case OP_LINK:
    case OP_IMAGE:
        b.right = op->x + op->width;
        b.bottom = op->y + op->height;
        break;
    case OP_LINE:
        b = (struct geometry_box){fmin(op->x, op->x2), fmin(op->y, op->y2),
                                  fmax(op->x, op->x2), fmax(op->y, op->y2)};
        break;
    case OP_PATH:
        for (size_t i = 0; i < op->path_count; i++) {
            const struct path_point *p = &op->path[i];
            if (i == 0)
                b = (struct geometry_box){p->x, p->y, p->x, p->y};
            b.left = fmin(b.left, p->x);
            b.right = fmax(b.right, p->x);
            b.top = fmin(b.top, p->y);
            b.bottom = fmax(b.bottom, p->y);
        }
        break;
    }
    return b;
}

static inline bool geometry_overlap(struct geometry_box a,
                                    struct geometry_box b) {
    const double slack = 0.3;
    return a.left + slack < b.right && b.left + slack < a.right &&
           a.top + slack < b.bottom && b.top + slack < a.bottom;
}

/* The first fault as words, or NULL. */
static inline const char *geometry_page(const struct page *page, double left,
                                        double top, double right, double bottom,
                                        char *why, size_t why_len) {
    for (size_t i = 0; i < page->op_count; i++) {
        const struct op *op = &page->ops[i];
        struct geometry_box b = geometry_of(op);
        if (!isfinite(b.left + b.top + b.right + b.bottom)) {
            snprintf(why, why_len, "op %zu is not finite", i);
            return why;
        }
        if (b.left < left - 1 || b.right > right + 1 || b.top < top - 1 ||
            b.bottom > bottom + 1) {
            struct text t = {"", 0};
            if (op->kind == OP_TEXT)
                t = op->text;
            snprintf(why, why_len,
                     "op %zu (%.*s) reaches from %.1f %.1f to %.1f %.1f", i,
                     (int)t.len, t.start, b.left, b.top, b.right, b.bottom);
            return why;
        }
        for (size_t k = 0; op->kind == OP_TEXT && k < i; k++) {
            const struct op *other = &page->ops[k];
            if (other->kind != OP_TEXT ||
                !geometry_overlap(b, geometry_of(other)))
                continue;
            snprintf(why, why_len, "'%.*s' over '%.*s' at %.1f %.1f",
                     (int)op->text.len, op->text.start, (int)other->text.len,
                     other->text.start, op->x, op->y);
            return why;
        }
    }
    return NULL;
}

/* Over all pages: margins of the common frame, on either paper. */
static inline const char *geometry_check(const struct pages *p, char *why,
                                         size_t why_len) {
    for (size_t i = 0; i < p->count; i++) {
        double down = p->page[i].height > 800 ? 25 : 0;
        char what[400];
        if (geometry_page(&p->page[i], 54, 37 + down, 558, 755 + down, what,
                          sizeof what) == NULL)
            continue;
        snprintf(why, why_len, "page %zu: %s", i + 1, what);
        return why;
    }
    return NULL;
}

/* First page (from 0) that holds this text as the whole of an op or its start;
 * -1: none. */
static inline int geometry_find(const struct pages *p, const char *start) {
    for (size_t i = 0; i < p->count; i++)
        for (size_t k = 0; k < p->page[i].op_count; k++)
            if (p->page[i].ops[k].kind == OP_TEXT &&
                text_starts(p->page[i].ops[k].text, start))
                return (int)i;
    return -1;
}

static inline size_t geometry_count(const struct page *page,
                                    const char *start) {
    size_t count = 0;
    for (size_t k = 0; k < page->op_count; k++)
        count += page->ops[k].kind == OP_TEXT &&
                 text_starts(page->ops[k].text, start);
    return count;
}

/* Whether a figure that is drawn has these words to be read out. */
static inline bool geometry_figure(const struct pages *p, const char *words) {
    for (size_t i = 0; i < p->count; i++)
        for (size_t k = 0; k < p->page[i].op_count; k++) {
            size_t tag = p->page[i].ops[k].tag;
            if (tag > 0 && p->tag[tag - 1].kind == TAG_FIGURE &&
                text_is(p->tag[tag - 1].words, words))
                return true;
        }
    return false;
}

#endif
