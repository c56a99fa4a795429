/* fault.h - what is wrong with an image, noted where it is found. */
#ifndef FAULT_H
#define FAULT_H

#include "image/image.h"

/* Notes the fault and its words; false, to be returned on. */
bool fault_note(struct image_report *r, enum image_fault fault,
                const char *words, ...) __attribute__((format(printf, 3, 4)));
/* Notes a size of nought or too large; true when it is neither.
 */
bool fault_size(struct image_report *r, unsigned long width,
                unsigned long height);

#endif
