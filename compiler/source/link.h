/* link.h - where a link or image may lead. */
#ifndef LINK_H
#define LINK_H

#include "base/place.h"
#include "base/text.h"

#include <stdbool.h>

struct compile;

/* http, https, mailto, or #name within the guide; a message otherwise. */
void link_check(struct compile *c, struct text url, struct span at);
/* Whether a text that is printed as it is written, with its {...}, has a link
 * in Markdown's form; a message then. */
bool link_refuse_in(struct compile *c, const struct source *src, struct text t);
/* The path of a file from the library's procedures/. */
void link_check_image(struct compile *c, struct text url, struct span at);

#endif
