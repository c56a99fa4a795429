/* xobject.h - the images of one document, each once however often it is shown.
 */
#ifndef XOBJECT_H
#define XOBJECT_H

#include "print/object.h"

#include <stddef.h>

struct picture;
struct xobjects;

struct xobjects *xobject_new(struct arena *a);
/* The number, from 1, by which page content shows it as /I1: the same for equal
 * pictures. */
size_t xobject_number(struct xobjects *x, const struct picture *p);
/* Makes the image objects; the entries for an /XObject resource, "/I1 5 0 R".
 * NULL when there are none. */
const char *xobject_finish(const struct xobjects *x, struct pdf *pdf);

#endif
