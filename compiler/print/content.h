/* content.h - one page's operators: text, rectangles, lines, paths, images. */
#ifndef CONTENT_H
#define CONTENT_H

#include "layout/display.h"
#include "print/font.h"
#include "print/structure.h"
#include "print/xobject.h"

/* Why a page cannot be written: in words, and the op. */
struct content_fault {
    const char *words; /* NULL: none */
    const struct op *op;
};

struct content_into { /* what a page's content adds to */
    struct fonts *fonts;
    struct xobjects *images;
    struct structure *structure; /* NULL: nothing is marked */
};

/* Appends the content stream of the page with this index. Links are no content:
 * see navigation.h. */
struct content_fault content_write(struct buf *out, const struct page *page,
                                   size_t index,
                                   const struct content_into *into);

#endif
