/* link.h - where a link or image may lead. */
#ifndef LINK_H
#define LINK_H

#include "base/place.h"
#include "base/text.h"

struct compile;

/* http, https, mailto, or #name within the guide; a message otherwise. */
void link_check(struct compile *c, struct text url, struct span at);
/* The path of a file from the library's procedures/. */
void link_check_image(struct compile *c, struct text url, struct span at);

#endif
