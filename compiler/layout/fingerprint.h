/* fingerprint.h - the eight-character code of what is printed. */
#ifndef FINGERPRINT_H
#define FINGERPRINT_H

#include "layout/display.h"

/* SHA-256 over every op (coordinates to 1/1000 pt, links and glyph numbers left
 * out: they depend on libraries, the text does not); its first 40 bits in base
 * 32, with letters and digits that do not look alike in print (no 0 1 I O). */
void fingerprint_make(const struct pages *p, char code[9]);

#endif
