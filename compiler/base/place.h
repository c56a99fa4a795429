/* place.h - source files in memory and places in them. */
#ifndef PLACE_H
#define PLACE_H

#include "base/text.h"

#include <stddef.h>

struct arena;

/* Byte range in one source file; line and column are found when printing. */
struct span {
    const struct source *src; /* NULL: no place, the message is about a run */
    size_t start, end;
};

enum { PLACE_STEP = 256, PLACE_LONG = 128 * 1024 };

struct source {
    const char *path; /* as the user would type it: shown in messages */
    struct text text;
    size_t *line_start; /* byte offset of each line */
    size_t line_count;
    size_t *characters; /* of a long text, before each PLACE_STEP-th byte: a
                           line may be long */
    struct span included_at; /* where an include or `uses` named this file */
    /* By line what the user calls it, for text that is no file: "ambient" of
     * a command line; NULL where it is none of his. NULL: a file. */
    const char *const *line_name;
};

struct position {
    size_t line, column; /* from 1; columns count characters */
};

/* Builds the line table. The text is not copied. */
struct source *place_source(struct arena *a, const char *path,
                            struct text text);
struct position place_position(const struct source *src, size_t byte);
struct text place_line(const struct source *src, size_t line); /* from 1 */
/* The place of a slice of src->text; the source as a whole where it is a slice
 * of another. */
struct span place_of(const struct source *src, struct text slice);
struct text place_text(struct span at);

#endif
