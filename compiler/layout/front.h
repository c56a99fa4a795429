/* front.h - what the sheet is: title block, applicability, revision record. */
#ifndef FRONT_H
#define FRONT_H

#include "layout/foot.h"
#include "layout/leaf.h"

/* With the shop's own head above it. */
void front_set_title(struct leaf *l);
void front_set_particulars(struct leaf *l);
bool front_any_applicability(const struct leaf *l);
void front_set_applicability(struct leaf *l);
/* Modification state and what this revision changed. */
void front_set_changes(struct leaf *l);
struct foot front_foot(struct leaf *l);
/* "DRAFT", "NOT ISSUED", "WITHDRAWN": printed on each page; NULL: issued. */
const char *front_status(const struct leaf *l);
/* The QR code of identity and code, into the room that the title left. Reports
 * a text that no QR code holds. */
void front_draw_code(struct leaf *l, struct pages *out, const char *code);

#endif
