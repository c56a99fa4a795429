/* landmark.h - what {see NAME} and [words](#NAME) can lead to.
 *
 * A step by its {step NAME}, a row of limits by its id, a table or figure by
 * its name, a section or heading by its title, another guide by its number. A
 * number is one that this guide names itself: in `after` or `before` of its
 * `guide` block or in `references` of a `preliminary` block. So a slip in the
 * id of a reading is never taken for a guide that nobody has. */
#ifndef LANDMARK_H
#define LANDMARK_H

#include "base/text.h"
#include "source/tree.h"

#include <stdbool.h>
#include <stddef.h>

struct arena;

/* In the order in which a name is tried. */
enum landmark_kind {
    LANDMARK_STEP,
    LANDMARK_READING,
    LANDMARK_BLOCK,
    LANDMARK_SECTION, /* by its title; letters may differ in case */
    LANDMARK_SLUG,    /* the same title as a link writes it: for-the-owner */
    LANDMARK_GUIDE,
};

struct landmark {
    enum landmark_kind kind;
    struct text name;
    struct text shown;         /* as the guide writes it */
    const struct node *node;   /* STEP, SECTION, SLUG */
    const struct block *block; /* READING, BLOCK */
    const struct entry *row;   /* READING */
    const struct scope *scope; /* NULL: GUIDE */
    struct span at;
    size_t order;
};

struct landmarks {
    struct arena *arena;
    struct landmark *list; /* by name, kind, scope, order */
    size_t count, room;
};

/* The number in front of an item of `after`, `before` or `references`, that may
 * have words behind it: "HB-004 Battery care". Absent where there is none. */
struct text landmark_guide(struct text item);
struct landmarks *landmark_collect(struct arena *a, const struct guide *g);
/* What a {see} in this scope means: the file's own before those of others. NULL
 * when there is none. */
const struct landmark *landmark_find(const struct landmarks *k,
                                     struct text name,
                                     const struct scope *from);
/* Only a row of limits. */
const struct landmark *landmark_reading(const struct landmarks *k,
                                        struct text id);
/* The next row of the same id: they are for other variants. NULL: no more. */
const struct landmark *landmark_reading_next(const struct landmarks *k,
                                             const struct landmark *row);
/* Behind the '#' of a link: anything on a page of this guide. */
const struct landmark *landmark_link(const struct landmarks *k,
                                     struct text name,
                                     const struct scope *from);
/* The nearest name, for a message; `link`: of those that a link reaches. */
struct text landmark_nearest(const struct landmarks *k, struct text name,
                             bool link);

#endif
