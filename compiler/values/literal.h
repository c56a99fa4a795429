/* literal.h - numbers, units, tolerances and ranges as the trade writes them.
 *
 *   number    = [-] digits [. digits] | [-] [digits blank] digits / digits
 *   quantity  = number [unit]
 *   literal   = quantity
 *             | quantity (± | +/-) quantity-or-percent
 *             | quantity `to` quantity
 *             | quantity ( quantity `to` quantity )
 */
#ifndef LITERAL_H
#define LITERAL_H

#include "values/quantity.h"
#include "values/scan.h"

#include <stdbool.h>

/* At a number (scan_at_number): reads the literal, makes its root. NULL after a
 * message. A temperature with a scale is a point, its tolerance a difference.
 */
struct quantity *literal_read(struct scan *s, struct quantity_maker *m);

#endif
