/* foot.h - the foot of every page: what the sheet is, so that a page alone can
 * be matched to its guide. */
#ifndef FOOT_H
#define FOOT_H

#include "layout/flow.h"

struct foot {
    const char *id, *revision; /* "LT-012", "revision 3" */
    const char *title;
    const char *status;   /* "DRAFT", or NULL */
    const char *variants; /* in words */
    struct span at;       /* for messages about it */
};

/* The lines of the foot, set once. */
struct foot_lines;
struct foot_lines *foot_set(const struct composer *c, const struct foot *foot);
/* Its height with the space above it. */
double foot_height(const struct foot_lines *l);
/* Everything but the code, into the frame of a page. */
void foot_draw(const struct composer *c, const struct foot_lines *l,
               struct page *page, size_t number, size_t of);
void foot_draw_code(const struct composer *c, const struct foot_lines *l,
                    struct page *page, const char *code);

#endif
