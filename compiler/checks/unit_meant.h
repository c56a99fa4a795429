/* unit_meant.h - units as service sheets and tired fingers write them. */
#ifndef UNIT_MEANT_H
#define UNIT_MEANT_H

#include "base/text.h"

/* The bytes at the beginning of `rest`, behind a number, that name a unit in
 * other capitals than its own, with dots, or with an s behind its sign: "NM",
 * "FT LBS", "p.s.i.", "kgs"; *meant is then a spelling that is read. 0: none.
 * No word of a sentence may be taken for one: of single letters only v and w,
 * and "a" before a fuse. */
size_t unit_meant(struct text rest, const char **meant);

#endif
