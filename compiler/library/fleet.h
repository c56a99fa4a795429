/* fleet.h - a table of jobs, one a row, as a spreadsheet writes it (RFC 4180).
 *
 * The first row names the columns: settings of `job`, `set NAME`, and the
 * readings as `R1 found` and `R1 left`. Each row becomes the text of a job
 * file; messages about it name the row and the column. */
#ifndef FLEET_H
#define FLEET_H

#include "base/place.h"

#include <stdbool.h>
#include <stddef.h>

struct compile;
struct fleet;

/* Opens the table and checks its columns. NULL after a message. */
struct fleet *fleet_open(struct compile *c, const char *path);
/* The next row as a job, in the arena of c; *row is its number in the table,
 * from 1, the columns' own not counted. NULL with *end at the end, else after a
 * message: the row is bad, those behind it are not. */
struct source *fleet_next(struct fleet *f, struct compile *c, size_t *row,
                          bool *end);
const char *fleet_path(const struct fleet *f);
void fleet_close(struct fleet *f);

#endif
