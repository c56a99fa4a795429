/* watch.h - for the owner: what to watch after the work, by what was worked on.
 */
#ifndef WATCH_H
#define WATCH_H

#include "layout/leaf.h"

void watch_set(struct leaf *l);

#endif
