/* print.h - print_pdf() (stages.h) in memory of the caller's choice: a test
 * hands in memory that runs out. */
#ifndef PRINT_H
#define PRINT_H

#include "stages.h"

struct object_memory;

const unsigned char *print_pdf_in(struct compile *c, const struct pages *p,
                                  size_t *len,
                                  const struct object_memory *memory);

#endif
