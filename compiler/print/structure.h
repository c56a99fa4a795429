/* structure.h - the tags of the pages as the structure of the document, so that
 * it can be read out: ISO 32000-1, 14.7 and 14.8. */
#ifndef STRUCTURE_H
#define STRUCTURE_H

#include "layout/display.h"
#include "print/object.h"

struct structure;

/* NULL when the pages have no tags: then nothing is marked. */
struct structure *structure_new(struct arena *a, const struct pages *p);
/* Page content from here on belongs to this tag (0: to none): the number to
 * mark it with on its page. The order of the marks is that of reading. */
size_t structure_mark(struct structure *s, size_t page, size_t tag);
const char *structure_name(const struct structure *s, size_t tag); /* "P" */
/* Text of the one goes on in the other: a link and what it stands in, or two
 * links beside each other. */
bool structure_joins(const struct structure *s, size_t tag, size_t next);
/* The link on this page that the tag's text leads by; returns the number that
 * it is found by from the link (its StructParent). */
size_t structure_link(struct structure *s, size_t page, size_t tag,
                      HPDF_Dict link);
/* Makes the objects. `made` holds the PDF's pages. */
void structure_finish(const struct structure *s, struct pdf *pdf,
                      const HPDF_Page *made);

#endif
