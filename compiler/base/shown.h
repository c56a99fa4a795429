/* shown.h - messages that a run has printed already, for another guide. */
#ifndef SHOWN_H
#define SHOWN_H

#include "base/text.h"

struct arena;
struct shown;

struct shown *shown_new(struct arena *a);
/* Whether this message was there before; else it is from now on. */
bool shown_before(struct shown *s, struct text message);

#endif
