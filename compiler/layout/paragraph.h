/* paragraph.h - words to lines: the best fit over the whole paragraph, ragged
 * on the right. */
#ifndef PARAGRAPH_H
#define PARAGRAPH_H

#include "layout/words.h"

struct line {
    struct op *ops; /* x from the start of the line, baseline at 0; tag: the
                       link that it belongs to, from 1, or 0 */
    size_t op_count, op_room;
    struct link *links; /* y and height left 0 */
    size_t link_count, link_room;
    double width;
    bool wide; /* reported as wider than its room */
};

struct lines {
    struct line *line;
    size_t count;
    struct type type;
};

/* Breaks into lines no longer than width, so that the sum of the squares of
 * what is left over, the last line apart, is least. `scale` as given to
 * words_scale() (1 when it was not). A piece that cannot be broken and is wider
 * is reported. Source of the method: from memory, the total-fit line breaking
 * of Knuth and Plass (1981), with the ragged-right cost only. */
struct lines *paragraph_break(const struct composer *c, const struct words *w,
                              double width, struct type type, double scale);
/* One line drawn into a slab. */
void paragraph_draw(const struct composer *c, struct slab *s,
                    const struct lines *l, size_t index, double x,
                    double baseline);
/* All lines, the first with its line box at y; returns the height. */
double paragraph_draw_all(const struct composer *c, struct slab *s,
                          const struct lines *l, double x, double y);
double paragraph_height(const struct lines *l);
/* From the top of a line's box to its baseline: capitals stand in the middle.
 */
double paragraph_baseline(struct type type);

#endif
