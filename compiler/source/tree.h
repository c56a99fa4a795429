/* tree.h - a guide as source_read leaves it: prose, blocks and marks, each with
 * its place. Nothing is evaluated here; values/ and layout/ walk this tree.
 *
 * Texts are slices of the source wherever possible, so that the place of any
 * part of them can be found with place_of(). A slice may run over line ends
 * (continuation lines): readers treat a line end as white space. */
#ifndef TREE_H
#define TREE_H

#include "base/place.h"
#include "base/text.h"

#include <stdbool.h>
#include <stddef.h>

struct arena;
struct circuit;
struct kind;
struct guide;
struct image;

/* The file, or the use of a shared file, in which a name is looked up. Facts
 * are the parent of all. Two scopes with one index are one to a look-up: each
 * file of facts has a struct of its own, with index 0, for the sake of `src`.
 */
struct scope {
    const struct scope *parent; /* NULL for facts */
    const struct source *src;
    const struct block *include; /* the include block that opened it, or NULL */
    size_t index;                /* place in guide->scopes */
};

/* [mark 1, mark 2] behind a row, value or setting; {for mark 3}. Empty: all. */
struct tags {
    struct text *tag; /* "others" among them as written */
    size_t count;
    struct span at;
    /* The alternatives that `others` is the rest of; NULL: it stands alone */
    const struct entry *among;
};

/* One alternative of a setting, definition or cell: 2.6 m [mark 1, mark 2]. */
struct choice {
    struct text text; /* without the tags and the source string */
    struct tags tags;
    struct inlines *prose; /* settings of running text: text and {...} */
    struct cell
        *items; /* settings that are lists: what stands between commas */
    size_t item_count;
};

/* A cell of a row, or an item of a list. Nothing but {...} is read in it: a
 * star is a star. */
struct cell {
    struct text text; /* trimmed; start is NULL where the row is too short */
    struct span at;
    struct inlines *prose;  /* the text with its {...} */
    struct choice *choices; /* of a cell: by variant; one without tags if not */
    size_t choice_count;
    struct cell *next; /* one more for a column that repeats, or NULL */
};

enum entry_kind {
    ENTRY_SETTING,     /* key: choices "note" */
    ENTRY_DEFINITION,  /* key = choices "note" */
    ENTRY_REQUIREMENT, /* the whole comparison as one choice, "note" */
    ENTRY_ROW,         /* cells */
};

struct entry {
    enum entry_kind kind;
    struct span at; /* the whole entry */
    struct text key;
    const struct setting *setting; /* ENTRY_SETTING: its row in the table */
    struct choice *choices;
    size_t choice_count;
    struct text
        note; /* the source or reason in quotes, without them; or absent */
    struct cell *cells; /* ENTRY_ROW: one for each column of the block */
    size_t cell_count;
    struct tags tags; /* ENTRY_ROW: the variants */
    bool bad;         /* a message was given: stay quiet about it */
};

struct block {
    const struct kind *kind;
    struct text
        name;       /* absent when unnamed; for include and override the word */
    struct span at; /* the info string: where messages about the whole point */
    struct entry *entries; /* settings, definitions, requirements, rows; the
                              row that names the columns is not among them */
    size_t entry_count;
    struct text *columns; /* kinds with rows: names as written, in order */
    const struct column **column; /* their rows in the table; NULL if free */
    size_t column_count;
    struct circuit *circuit; /* of a `circuit`: see circuit_tree.h */
    const struct scope *scope;
    const struct node *node; /* where it stands; NULL in facts */
    size_t index;            /* place in guide->blocks */
    bool lost;               /* a line of it was left out, after a message */
};

enum mark_kind {
    MARK_VALUE, /* an expression, with `in UNIT`, `range`, `at QUANTITY` */
    MARK_FOR,
    MARK_TOUCHES,
    MARK_DOES,
    MARK_HOLD,
    MARK_INITIAL,
    MARK_READING,
    MARK_STEP,
    MARK_SEE,
    MARK_DEFER,
    MARK_SHOP_ONLY,
    MARK_OWNER_ONLY,
};

struct mark {
    enum mark_kind kind;
    struct span at; /* with the braces */
    struct text
        text; /* VALUE: the expression; else the words behind the first */
    struct tags list;   /* FOR, TOUCHES, DOES: the words between commas */
    struct text reason; /* TOUCHES nothing: reason */
    struct text unit;   /* VALUE: behind `in`, or absent */
    struct text supply; /* VALUE: behind `at`, or absent */
    bool range;         /* VALUE: `range` */
    const struct scope *scope;
    const struct node
        *node;    /* heading, paragraph, step or block it stands in */
    size_t index; /* place in guide->marks */
};

enum inline_kind {
    INLINE_TEXT,
    INLINE_SPACE, /* a soft line end */
    INLINE_BREAK, /* a hard line end */
    INLINE_CODE,
    INLINE_EMPHASIS, /* children */
    INLINE_STRONG,   /* children */
    INLINE_LINK,     /* children, url */
    INLINE_IMAGE,    /* children: alternate text; url */
    INLINE_MARK,
};

struct inlines {
    enum inline_kind kind;
    struct span at;
    struct inlines *next, *first; /* sibling, child */
    struct text text;             /* TEXT, CODE */
    struct text url;
    const struct scope *scope; /* LINK: where its #name is looked up */
    struct mark *mark;
};

enum node_kind {
    NODE_GUIDE,   /* children: what stands before the first section, sections */
    NODE_SECTION, /* level-2 heading and all below it */
    NODE_HEADING, /* level 3 and deeper, inside a section */
    NODE_PARAGRAPH,
    NODE_STEPS, /* ordered list; children: steps. Lists that are parted only
                   by blocks are one */
    NODE_STEP,  /* children: blocks that belong before it, paragraphs, substeps
                 */
    NODE_BULLETS, /* children: bullets */
    NODE_BULLET,
    NODE_QUOTE,
    NODE_VERBATIM, /* fenced code without a kind: text */
    NODE_BLOCK,    /* block */
    NODE_RULE,     /* thematic break */
};

struct node {
    enum node_kind kind;
    struct span at;
    struct node *parent, *next, *first, *last;
    int level;            /* HEADING, SECTION */
    struct inlines *text; /* HEADING, SECTION, PARAGRAPH; marks left out of
                             `marks` only if they print in place */
    struct mark **marks;  /* HEADING, SECTION, PARAGRAPH, STEP: those at its
                             start (for, touches, does, hold, step, defer,
                             shop only, owner only) */
    size_t mark_count;
    const char *number;   /* STEP: "14", "14.2", "14.2a" */
    struct text verbatim; /* VERBATIM */
    struct block *block;  /* BLOCK */
    const struct scope *scope;
    size_t index; /* order in the guide, from 0 */
};

struct hanging {               /* an image of the library */
    struct text path;          /* from its procedures/, as the guide names it */
    const struct image *image; /* NULL after a message */
};

struct guide {
    const struct source *src;
    struct text title; /* level-1 heading as plain text */
    struct inlines *title_text;
    const char *stem; /* "headlamp-relay" */
    struct node *root;
    const struct block *identity; /* the `guide` block */
    const struct block *job;      /* that it was carried out for; or NULL */
    struct block **blocks; /* facts first, in the order of `uses`, then the
                              guide's and its includes' as they stand */
    size_t block_count;
    struct scope **scopes; /* [0] facts, [1] the guide, then each include */
    size_t scope_count;
    struct mark **marks; /* each mark of guide and includes */
    size_t mark_count;
    struct node **nodes; /* by index */
    size_t node_count;
    const struct source **files; /* every file read, in order: for hashes */
    size_t file_count;
    struct hanging *hangings; /* see gallery.h */
    size_t hanging_count;
    bool incomplete; /* a file, block or line could not be read: names that are
                        not known are no mistakes, and nothing can be computed
                      */
};

/* First entry of a setting by its name, or NULL. */
const struct entry *tree_setting(const struct block *b, const char *name);
/* Cell of a row by the name of its column, or NULL. */
const struct cell *tree_cell(const struct block *b, const struct entry *row,
                             const char *column);
/* The nearest step (or the node itself) that holds n; NULL outside a step. */
const struct node *tree_step(const struct node *n);
const struct node *tree_section(const struct node *n);
/* Running text without marks, emphasis and links: a title. */
struct text tree_plain(struct arena *a, const struct inlines *text);
/* The image that is all there is in a paragraph, or NULL. */
const struct inlines *tree_image(const struct node *n);

#endif
