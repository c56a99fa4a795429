/* display.h - pages as a display list: what layout leaves and print draws.
 *
 * Points (1/72 in), origin at the top left corner, y downward. Everything is
 * placed and shaped; print/ decides nothing. `bayleaf dump display` writes this
 * list in full and display_read() takes it back. */
#ifndef DISPLAY_H
#define DISPLAY_H

#include "base/text.h"

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>

struct arena;
struct picture; /* image/picture.h */

enum face {
    FACE_REGULAR,
    FACE_BOLD,
    FACE_OBLIQUE,
    FACE_MONO,
    FACE_SYMBOL, /* for characters that the others lack */
    FACE_COUNT
};

/* One shaped glyph. `start` and `len` are its cluster: the bytes of the run's
 * text that it stands for (len 0: belongs to the glyph before). */
struct glyph {
    uint16_t id; /* in the whole face */
    uint32_t start, len;
    float advance; /* of the em: times size for points, kerning included */
    float x, y;    /* offset of the em */
};

struct colour {
    float red, green, blue; /* 0 to 1 */
};

/* What a piece of a page is (ISO 32000-1, 14.8.4); tag.h opens them. */
enum tag_kind {
    TAG_DOCUMENT,
    TAG_TITLE,
    TAG_SECTION,    /* its heading */
    TAG_SUBSECTION, /* the same */
    TAG_PARAGRAPH,
    TAG_QUOTE,
    TAG_PANEL, /* words: its signal word */
    TAG_LIST,
    TAG_ITEM,
    TAG_LABEL, /* number or bullet of an item */
    TAG_BODY,  /* the rest of it */
    TAG_TABLE,
    TAG_ROW,
    TAG_HEAD, /* of a column */
    TAG_CELL,
    TAG_FIGURE, /* words: what stands in its place when it is read out */
    TAG_CAPTION,
    TAG_LINK, /* text that leads elsewhere; its OP_LINK carries it too */
};

enum { TAG_KINDS = TAG_LINK + 1 };

struct tag {
    enum tag_kind kind;
    size_t parent; /* its number, from 1, less than the tag's; 0: the root */
    struct text words;
};

enum op_kind {
    OP_TEXT,  /* one run in one face, baseline at x, y */
    OP_RECT,  /* x, y, width, height: filled or stroked */
    OP_LINE,  /* x, y to x2, y2 */
    OP_PATH,  /* filled or stroked; points in path */
    OP_LINK,  /* x, y, width, height; page >= 0 and target y, or uri */
    OP_IMAGE, /* x, y, width, height: as it is looked at; text describes it */
};

enum path_verb { PATH_MOVE, PATH_LINE, PATH_CURVE, PATH_CLOSE };

struct path_point {
    enum path_verb verb;
    double x1, y1, x2, y2, x, y; /* control points for CURVE only */
};

/* Thousands of them are copied for a guide: what only one kind has shares its
 * place with what only another has, so look at the kind first. */
struct op {
    enum op_kind kind;
    enum face face; /* OP_TEXT */
    struct colour colour;
    bool fill;  /* OP_RECT, OP_PATH: else stroke with line_width */
    size_t tag; /* from 1, in pages->tag; 0: furniture of the page */
    double x, y;
    union {
        struct { /* OP_RECT, OP_LINK, OP_IMAGE */
            double width, height;
        };
        struct { /* OP_LINE */
            double x2, y2;
        };
    };
    union {
        struct { /* OP_TEXT, OP_IMAGE */
            struct text text;
            union {
                struct { /* OP_TEXT */
                    double size;
                    const struct glyph *glyphs;
                    size_t glyph_count;
                };
                const struct picture *picture; /* OP_IMAGE; in the dump without
                                                  `full`, only its sizes */
            };
        };
        struct { /* OP_RECT, OP_LINE, OP_PATH */
            double line_width;
            double dash_on, dash_off;      /* 0: solid */
            const struct path_point *path; /* OP_PATH */
            size_t path_count;
        };
        struct { /* OP_LINK */
            struct text uri;
            double target_y;
            int page; /* from 0, or -1 */
        };
    };
};

struct page {
    double width, height;
    struct op *ops;
    size_t op_count, op_room;
};

struct outline { /* in reading order */
    struct text title;
    int level; /* from 1 */
    int page;  /* from 0 */
    double y;
};

struct pages {
    struct page *page;
    size_t count, room;
    struct outline *outline;
    size_t outline_count, outline_room;
    struct tag *tag; /* in the order in which they were opened */
    size_t tag_count, tag_room;
    struct text title, author, subject; /* document information */
    bool issued;                        /* no page says that it is not */
    char code[9]; /* the printed code: of what is printed */
};

/* A new op at the end of the page, all zero but for the `page` of a link, which
 * is -1. The pointer holds until the next op is added. */
struct op *display_op(struct arena *a, struct page *p, enum op_kind kind);
/* Room for that many ops in all. */
void display_reserve(struct arena *a, struct page *p, size_t count);
/* A new page; the pointer holds until the next one is added. */
struct page *display_page(struct arena *a, struct pages *p, double width,
                          double height);
/* Text form: one op a line. In full, with glyphs and all digits (for replay),
 * or brief (for people and golden files: coordinates to 0.01 pt, no glyphs). */
void display_write(const struct pages *p, bool full, FILE *out);
/* The full form read back, bit for bit; NULL and *line on a malformed line. */
struct pages *display_read(struct arena *a, struct text dump, size_t *line);
const char *display_face_name(enum face face); /* "regular", in the text form */
const char *display_tag_name(enum tag_kind kind);

#endif
