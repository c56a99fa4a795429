/* front.h - what the sheet is: title block, applicability, revision record. */
#ifndef FRONT_H
#define FRONT_H

#include "layout/foot.h"
#include "layout/leaf.h"

void front_set(struct leaf *l);
struct foot front_foot(struct leaf *l);
/* "DRAFT", "NOT ISSUED", "WITHDRAWN": printed on each page. */
const char *front_status(const struct leaf *l);
/* The QR code of identity and code, into the room that front_set left on the
 * first page. Reports a text that no QR code holds. */
void front_draw_code(struct leaf *l, struct page *first, const char *code);

#endif
