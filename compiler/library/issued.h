/* issued.h - a revision that was issued: what was printed, and the sources that
 * it was printed from.
 *
 * One file a revision, procedures/issued/ID-REVISION.txt: readable, never
 * changed, so that two branches of a library merge cleanly. Its text is data:
 *
 *     bayleaf issued revision, form 1
 *     id HB-004
 *     revision 2
 *     guide house-battery-feed
 *     title Feed the house battery from the alternator
 *     author M. Arkle
 *     approver J. Thorne
 *     code 7WQ2XK4M                  of the pages, by the template shop
 *
 *     printed 41                     what changes as one: place, TAB, words
 *     | step 3	Run 10 AWG red ...
 *     values 57                      name, TAB, as it prints
 *     | feed.drop	0.31 V
 *     source procedures/house-battery-feed.md 214
 *     | # Feed the house battery ...
 *     end 5f1d...                    SHA-256 of all bytes above
 */
#ifndef ISSUED_H
#define ISSUED_H

#include "layout/layout.h"
#include "source/file.h"

#include <stdbool.h>
#include <stddef.h>

struct arena;

enum { ISSUED_FORM = 1 };

struct issued_value {
    struct text name, printed;
};

struct issued {
    struct text id, guide, title, author, approver, code;
    size_t revision;
    struct passages printed;
    const struct issued_value *value;
    size_t value_count;
    const struct file_text *source; /* [0] is the guide */
    size_t source_count;
};

/* "procedures/issued/HB-004-2.txt", from the library's root. NULL when the id
 * is no name of a file: letters, digits, '.', '_' and '-', not '.' in front. */
const char *issued_path(struct arena *a, struct text id, size_t revision);
/* The largest revision of an id below `below` whose file is there; 0: none. */
size_t issued_before(struct arena *a, const char *root, struct text id,
                     size_t below);
/* All files of procedures/issued/, in the order of their names. */
size_t issued_all(struct arena *a, const char *root, const char *const **list);

/* The bytes of the file. */
struct text issued_write(struct arena *a, const struct issued *i);
/* NULL with *missing when there is no such file, else NULL after a message. */
const struct issued *issued_read(struct compile *c, const char *path,
                                 bool *missing);

/* Whether two print the same, places and page numbers aside; else the place of
 * the first difference, "step 4" or "title". */
const char *issued_difference(struct arena *a, const struct issued *was,
                              const struct issued *now);

#endif
