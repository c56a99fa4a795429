/* panel.h - caution panels: signal word, safety alert symbol, signs, message.
 *
 * The four differ without colour too: danger has a double border and white
 * letters, warning a thick border and a hatched band, caution a plain border,
 * notice a broken border and no triangle. Definitions after ANSI Z535. */
#ifndef PANEL_H
#define PANEL_H

#include "layout/flow.h"
#include "layout/symbol.h"

enum panel_signal { PANEL_DANGER, PANEL_WARNING, PANEL_CAUTION, PANEL_NOTICE };

struct panel {
    enum panel_signal signal;
    const struct symbol **symbol;
    size_t symbol_count;
    struct rich *paragraph; /* of the message, in style->step */
    size_t paragraph_count;
    struct rich brief; /* hazard and avoidance in few words, for one that comes
                          again; or empty */
    struct span at;
};

const char *panel_word(enum panel_signal signal); /* "DANGER" */
/* Over the full width, never split; as high as whole beats of the grid. */
void panel_set(struct flow *f, const struct panel *p);
/* The brief form: word and symbol in a cell at the left, two lines of message,
 * at most three. False when there is none or it takes more: nothing was set. */
bool panel_set_brief(struct flow *f, const struct panel *p);
/* The signal word as a small tag, for the safety summary; height of a line of
 * `type`. Returns the width. */
double panel_tag(const struct composer *c, struct slab *s,
                 enum panel_signal signal, double x, double y,
                 struct type type);

#endif
