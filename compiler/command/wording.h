/* wording.h - what the tables of kinds and units say, in words of the trade. */
#ifndef WORDING_H
#define WORDING_H

#include "base/text.h"
#include "source/kind.h"

/* What a setting or cell of this type is: "current (A)", "wire size", "name of
 * a load block, or current (A)". `unit` and `choices` as in the table. */
void wording_value(struct buf *b, enum setting_type type, const char *unit,
                   const char *choices);
/* "wire [NAME]" */
void wording_heading(struct buf *b, const struct kind *k);
/* A meaning of the table, with a capital and a full stop. */
void wording_sentence(struct buf *b, const char *meaning);
/* "guides, facts, shared files" */
void wording_places(struct buf *b, const struct kind *k);
/* A unit of the table as it is printed: "°C" for "degC"; NULL gives "". */
const char *wording_unit(const char *unit);
/* "drop limit" as `bayleaf size` takes it: "drop-limit". */
void wording_dashed(struct buf *b, const char *name);

#endif
