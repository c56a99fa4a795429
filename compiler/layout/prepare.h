/* prepare.h - "Before you start": the seven lists, each of which says `none`
 * where there is nothing. */
#ifndef PREPARE_H
#define PREPARE_H

#include "layout/leaf.h"

void prepare_set(struct leaf *l);

#endif
