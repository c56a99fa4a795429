/* mask.h - {...} taken out of a source before Markdown reads it.
 *
 * Each {...} outside code becomes U+E000, its decimal index, U+E001; `{{`
 * becomes the same, for a brace. No source holds private-use characters
 * (encoding.h), so these are found again without doubt. */
#ifndef MASK_H
#define MASK_H

#include "base/place.h"
#include "base/text.h"

#include <stdbool.h>
#include <stddef.h>

struct compile;

/* Lines `first` to `last`, from 1, in which {...} is looked for: a paragraph or
 * heading, since a code span does not reach beyond one. */
struct mask_lines {
    size_t first, last;
};

struct masked {
    struct text text; /* "{feed.drop}", or "{{" */
    size_t at;        /* of its placeholder in mask->text */
    size_t end;
    bool brace;
    bool met; /* Markdown gave it back */
};

struct mask {
    const struct source *src;
    struct source *out; /* the source that Markdown reads */
    struct masked *items;
    size_t count, room;
};

struct mask *mask_source(struct compile *c, const struct source *src,
                         const struct mask_lines *lines, size_t count);

/* The placeholder that starts at t.start[*at], stepped over; NULL when there is
 * none. */
struct masked *mask_item(const struct mask *m, struct text t, size_t *at);
/* The byte of src for a byte of out. */
size_t mask_to_source(const struct mask *m, size_t byte);
/* A copy in which placeholders are the author's text again: for code. They
 * count as met. */
struct text mask_undone(struct compile *c, const struct mask *m, struct text t);

#endif
