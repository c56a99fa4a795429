/* variant_range.h - inside values/: model years and identification numbers in
 * which a variant was made. */
#ifndef VARIANT_RANGE_H
#define VARIANT_RANGE_H

#include "values/model.h"

/* The variants whose cell of that column, `years` or `numbers`, holds a year or
 * a number. */
variant_set variant_range_of(const struct values *v, struct text wanted,
                             const char *column);
/* Reports what no year and no number can be in. */
void variant_range_check(const struct values *v, const struct block *vehicle,
                         const struct entry *row);

#endif
