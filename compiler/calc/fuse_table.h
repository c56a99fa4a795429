/* fuse_table.h - the rows behind fuse.c. */
#ifndef FUSE_TABLE_H
#define FUSE_TABLE_H

#include "calc/fuse.h"

extern const struct fuse_style fuse_style_table[]; /* ends with a NULL name */
extern const struct fuse_rule fuse_rule_table[];   /* likewise */
extern const struct fuse_place fuse_place_table[]; /* ends with most 0 */

#endif
