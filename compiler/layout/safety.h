/* safety.h - the safety summary: who may do the work, which hazards it has. */
#ifndef SAFETY_H
#define SAFETY_H

#include "layout/leaf.h"

void safety_set(struct leaf *l);

#endif
