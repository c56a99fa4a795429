/* encoding.h - which bytes and characters a source may hold. */
#ifndef ENCODING_H
#define ENCODING_H

#include "base/place.h"

#include <stdbool.h>
#include <stdint.h>

struct diags;

/* Reports what makes the text unfit to be read: not UTF-8, control characters,
 * a byte-order mark, characters that cannot be seen or that turn the order of
 * reading. False when there is any. */
bool encoding_check(struct diags *d, const struct source *src);

/* Why a character is refused ("changes the direction of text"), or NULL. */
const char *encoding_refuses(uint32_t code);
/* Whether it is one of those that mask.c uses for its own ends. */
bool encoding_is_private(uint32_t code);

#endif
