/* leaf.h - one guide on its way to pages: what the files of the guide layer
 * share. The files above this one in the list (slab ... record) know nothing of
 * guides; those below set one part of a guide each. */
#ifndef LEAF_H
#define LEAF_H

#include "checks/findings.h"
#include "layout/flow.h"
#include "layout/part.h"
#include "source/kind.h"
#include "source/landmark.h"
#include "source/tree.h"
#include "stages.h"
#include "values/values.h"

/* The places that "step 14 (page 3)" may name: nodes by index, then rows of
 * `limits` blocks, then the sections that layout adds. */
struct targets {
    struct anchor *anchor;
    size_t *figures; /* of its page number; 0: it is not printed */
    size_t count;
    size_t *first_row; /* by block: the index of its first row */
    struct landmarks *known;
    struct late **late; /* the page numbers set in this pass */
    size_t late_count, late_room;
};

struct sheet;
struct plate_store;
struct warn_store;
struct revision;
struct passages;

struct leaf {
    struct composer composer;
    struct style style; /* the composer's: bottom is above the foot */
    struct flow flow;
    const struct sheet *sheet;
    const struct guide *guide;
    const struct values *values;
    const struct findings *findings;
    struct targets targets;
    struct plate_store *plates;    /* images opened so far */
    struct warn_store *warned;     /* panels printed in full in this pass */
    struct revision *revision;     /* passages, and which of them changed */
    const struct passages *issued; /* that they are compared with; or NULL */
    variant_set applies;
    bool frozen;              /* the revision is issued */
    struct anchor code_place; /* of the title, with its room for the code */
};

struct tone leaf_tone(struct type type, enum face face);

double leaf_width(const struct leaf *l); /* of the page */
double leaf_body(const struct leaf *l);  /* right of the rail */

/* A setting of the `guide` block as one line of text; absent when not written.
 */
struct text leaf_setting(const struct leaf *l, const char *name);
/* Any block's setting, first alternative. */
struct text leaf_block_setting(const struct leaf *l, const struct block *b,
                               const char *name);
/* The same kind of block after b (NULL: the first) that stands in the guide or
 * in what it includes; NULL at the end. */
const struct block *leaf_next(const struct leaf *l, const struct block *b,
                              enum kind_id kind);

/* Section heading over the full width; its anchor may be NULL. */
struct slab *leaf_heading(struct leaf *l, struct text title,
                          struct anchor *anchor, struct span at);
/* Heading inside a section, at x; its anchor may be NULL. */
void leaf_subheading(struct leaf *l, struct text title, double x,
                     struct anchor *anchor, struct span at);
/* Behind the title of a table: the table stands close below it. */
void leaf_join_title(struct leaf *l);
/* What the template writes above a part; absent where it writes nothing. */
struct text leaf_part_name(const struct leaf *l, enum part_id part);
/* Where a page begins with a slab of a part, added since flow->count was
 * `from` and not the first, it says which part goes on. */
void leaf_continued(struct leaf *l, size_t from, enum part_id part);
/* Bold words in the rail, beside the slab's first line of `type`. */
void leaf_label(struct leaf *l, struct slab *s, const char *label,
                struct type type);
/* Our own words as a paragraph in the body. */
struct slab *leaf_say(struct leaf *l, struct type type, struct text text);
/* Adds our own words to a rich text. */
void leaf_add(struct leaf *l, struct rich *r, struct type type, enum face face,
              const char *text);
/* A value as printed: kept whole. NULL adds a dash. */
void leaf_add_value(struct leaf *l, struct rich *r, struct type type,
                    enum face face, const char *value);
/* Adds " (petrol only)" where it is not for all readers. */
void leaf_add_readers(struct leaf *l, struct rich *r, struct type type,
                      variant_set in, variant_set of);

#endif
