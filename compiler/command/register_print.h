/* register_print.h - the register on paper. */
#ifndef REGISTER_PRINT_H
#define REGISTER_PRINT_H

#include "command/command.h"
#include "library/order.h"

/* Prints figures, conflicts and missing guides to build/register/figures.pdf;
 * the status of that alone. */
int register_print(const struct request *r, const struct census *s,
                   const struct circle *circle);

#endif
