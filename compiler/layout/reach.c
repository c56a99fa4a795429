/* reach.c - how far an op of a page reaches. */
#include "layout/reach.h"

#include <math.h>

double reach_text(const struct op *op) {
    double advance = 0;
    for (size_t i = 0; i < op->glyph_count; i++)
        advance += (double)op->glyphs[i].advance;
    return advance * op->size;
}

bool reach_is_finite(const struct op *op) {
    double sum = op->x + op->y;
    switch (op->kind) {
    case OP_TEXT:
        sum += op->size;
        break;
    case OP_RECT:
        sum += op->width + op->height + op->line_width;
        break;
    case OP_LINK:
    case OP_IMAGE:
        sum += op->width + op->height;
        break;
    case OP_LINE:
        sum += op->x2 + op->y2 + op->line_width;
        break;
    case OP_PATH:
        sum += op->line_width;
        for (size_t i = 0; i < op->path_count; i++) {
            const struct path_point *p = &op->path[i];
            sum += p->x + p->y + p->x1 + p->y1 + p->x2 + p->y2;
        }
        break;
    }
    return isfinite(sum) != 0;
}

double reach_right(const struct op *op) {
    double right = op->x;
    switch (op->kind) {
    case OP_TEXT:
        return op->x + reach_text(op);
    case OP_RECT:
    case OP_LINK:
    case OP_IMAGE:
        return op->x + op->width;
    case OP_LINE:
        return op->x > op->x2 ? op->x : op->x2;
    case OP_PATH:
        for (size_t i = 0; i < op->path_count; i++)
            right = op->path[i].x > right || i == 0 ? op->path[i].x : right;
        return right;
    }
    return right;
}
