/* navigation.h - what a reader finds the way by: links, outline, page labels,
 * title. */
#ifndef NAVIGATION_H
#define NAVIGATION_H

#include "layout/display.h"
#include "print/object.h"
#include "print/structure.h"

/* Links of the page with this index, and in the structure, unless that is NULL;
 * `made` holds the PDF's pages. Returns what is wrong with one of them, in
 * words, or NULL. */
const char *navigation_links(struct pdf *pdf, const struct pages *p,
                             size_t index, const HPDF_Page *made,
                             struct structure *structure);
/* The outline; the same. Entries below the eighth level stand on the eighth. */
const char *navigation_outline(struct pdf *pdf, const struct pages *p,
                               const HPDF_Page *made);
/* Document information, language, page labels. */
void navigation_document(struct pdf *pdf, const struct pages *p);

#endif
