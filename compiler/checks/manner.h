/* manner.h - steps that are hard to follow: long, many in one, half-hearted. */
#ifndef MANNER_H
#define MANNER_H

#include "checks/catalogue.h"

/* Warnings by the style rules of the catalogue, less those that the guide or
 * its shop names under `style off`. */
void manner_check(struct compile *c, const struct guide *g,
                  const struct catalogue *k);

#endif
