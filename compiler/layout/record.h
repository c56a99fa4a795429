/* record.h - boxes that a pen fills in: ticks, readings, initials, signatures.
 */
#ifndef RECORD_H
#define RECORD_H

#include "layout/flow.h"

struct field_box { /* one box of a row, with its caption inside */
    const char *caption;
    double share;      /* of the width, against the other boxes of the row */
    struct text value; /* already known, or absent */
};

/* A row of boxes as a slab; rows that follow without space share their line. */
struct slab *record_row(struct flow *f, const struct field_box *box,
                        size_t count, double x, double width, double height,
                        struct span at);
void record_boxes(const struct composer *c, struct slab *s,
                  const struct field_box *box, size_t count, double x, double y,
                  double width, double height);
enum record_when { RECORD_FOUND, RECORD_LEFT, RECORD_ONCE };
/* A reading: what and its limit on the left, then a box to write in. */
void record_reading(struct flow *f, const struct rich *what,
                    enum record_when when, double x, double width,
                    struct span at);
/* A hold point: stop, a second person signs. */
void record_hold(struct flow *f, double x, double width, struct span at);
/* The tick box of a step whose first line box begins at y. */
void record_tick(const struct composer *c, struct slab *s, double x, double y,
                 struct type type);

#endif
