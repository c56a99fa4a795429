/* warn.h - caution panels: those of the author and those that the rules call
 * for. */
#ifndef WARN_H
#define WARN_H

#include "layout/panel.h"
#include "layout/prose.h"

/* The signal of a block that the author wrote; false: it is no panel. */
bool warn_is_panel(const struct block *b, enum panel_signal *signal);
enum panel_signal warn_signal(enum signal signal);
/* A panel block of the author, kept with what follows; false: another kind. */
bool warn_set_block(struct leaf *l, const struct block *b,
                    const struct spot *spot);
/* Panels before a step: those that the rules call for and those of the author
 * that stand at its head, the highest word first. Returns their number. */
size_t warn_set_before(struct leaf *l, const struct node *step,
                       const struct spot *spot);

#endif
