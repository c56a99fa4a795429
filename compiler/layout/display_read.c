/* display_read.c - takes a display list back from its full text form (see
 * display.c). Nothing is believed: a line that is not exactly right is named.
 */
#include "layout/display.h"

#include "base/arena.h"
#include "image/image.h"
#include "layout/dump.h"

#include <limits.h>
#include <string.h>

struct reader {
    struct dump dump;
    struct pages *pages;
    int page_count; /* as the first line says */
};

/* From 1 in the text, from 0 in the list. */
static int page_number(struct dump *r, int page_count) {
    unsigned long n = dump_count(r, dump_word(r), (unsigned long)page_count);
    r->bad = r->bad || n == 0;
    return (int)n - 1;
}

static void ink(struct dump *r, struct op *op) {
    if (dump_follows(r, "colour")) {
        op->colour.red = dump_small_number(r, dump_word(r));
        op->colour.green = dump_small_number(r, dump_word(r));
        op->colour.blue = dump_small_number(r, dump_word(r));
    }
}

static void style(struct dump *r, struct op *op) {
    if (dump_follows(r, "width"))
        op->line_width = dump_number(r);
    if (dump_follows(r, "dash")) {
        op->dash_on = dump_number(r);
        op->dash_off = dump_number(r);
    }
    ink(r, op);
}

static enum face face(struct dump *r) {
    struct text name = dump_word(r);
    for (int f = 0; f < FACE_COUNT; f++) {
        if (text_is(name, display_face_name((enum face)f)))
            return (enum face)f;
    }
    r->bad = true;
    return FACE_REGULAR;
}

/* Cuts *t at the first `mark`: what stands before it; the rest stays in *t. */
static struct text before(struct dump *r, struct text *t, char mark) {
    const char *at = t->len == 0 ? NULL : memchr(t->start, mark, t->len);
    if (at == NULL) {
        r->bad = true;
        return (struct text){0};
    }
    size_t len = (size_t)(at - t->start);
    struct text head = text_part(*t, 0, len);
    *t = text_part(*t, len + 1, t->len);
    return head;
}

static struct glyph glyph(struct dump *r, size_t text_len) {
    struct glyph g = {0};
    struct text t = dump_word(r);
    g.id = (uint16_t)dump_count(r, before(r, &t, ':'), UINT16_MAX);
    g.start = (uint32_t)dump_count(r, before(r, &t, '+'), UINT32_MAX);
    g.len = (uint32_t)dump_count(r, before(r, &t, '@'), UINT32_MAX);
    if (t.len > 0 && memchr(t.start, ',', t.len) != NULL) {
        g.advance = dump_small_number(r, before(r, &t, ','));
        g.x = dump_small_number(r, before(r, &t, ','));
        g.y = dump_small_number(r, t);
    } else {
        g.advance = dump_small_number(r, t);
    }
    if (g.start > text_len || g.len > text_len - g.start)
        r->bad = true;
    return g;
}

static size_t blanks(struct text t) {
    size_t count = 0;
    for (size_t i = 0; i < t.len; i++)
        count += t.start[i] == ' ';
    return count;
}

static struct text glyph_words(struct text line) {
    const char *at = line.start;
    for (; at + 5 <= line.start + line.len; at++)
        if (memcmp(at, " tag ", 5) == 0)
            return text_part(line, 0, (size_t)(at - line.start));
    return line;
}

static void glyphs(struct dump *r, struct op *op) {
    dump_expect(r, "glyphs");
    /* Two blanks belong to " tag N" at the end. */
    size_t count = blanks(glyph_words(r->line));
    struct glyph *g = arena_alloc(r->arena, count, sizeof *g);
    for (size_t i = 0; i < count && !r->bad; i++)
        g[i] = glyph(r, op->text.len);
    op->glyphs = g;
    op->glyph_count = count;
}

/* One of two words: whether it is the first. */
static bool either(struct dump *r, const char *first, const char *second) {
    if (dump_follows(r, first))
        return true;
    dump_expect(r, second);
    return false;
}

static void points(struct dump *r, struct op *op) {
    dump_expect(r, "points");
    struct path_point *p = arena_alloc(r->arena, blanks(r->line), sizeof *p);
    op->path = p;
    for (; glyph_words(r->line).len > 0 && !r->bad; p++) {
        if (dump_follows(r, "Z")) {
            p->verb = PATH_CLOSE;
            continue;
        }
        if (dump_follows(r, "M")) {
            p->verb = PATH_MOVE;
        } else if (dump_follows(r, "L")) {
            p->verb = PATH_LINE;
        } else {
            dump_expect(r, "C");
            p->verb = PATH_CURVE;
            p->x1 = dump_number(r);
            p->y1 = dump_number(r);
            p->x2 = dump_number(r);
            p->y2 = dump_number(r);
        }
        p->x = dump_number(r);
        p->y = dump_number(r);
    }
    op->path_count = (size_t)(p - op->path);
}

static void bytes(struct dump *r, struct picture *p) {
    struct text t = dump_word(r);
    unsigned char *out = arena_alloc(r->arena, t.len / 2, 1);
    r->bad = r->bad || t.len % 2 != 0;
    for (size_t i = 0; i + 1 < t.len && !r->bad; i += 2) {
        int high = dump_hex(t.start[i]), low = dump_hex(t.start[i + 1]);
        r->bad = high < 0 || low < 0;
        out[i / 2] = (unsigned char)(high * 16 + low);
    }
    p->bytes = out;
    p->len = t.len / 2;
}

static void picture(struct dump *r, struct op *op) {
    struct picture *p = arena_alloc(r->arena, 1, sizeof *p);
    dump_expect(r, "pixels");
    p->width = (unsigned)dump_count(r, dump_word(r), IMAGE_SIDE_MAX);
    p->height = (unsigned)dump_count(r, dump_word(r), IMAGE_SIDE_MAX);
    p->channels = either(r, "grey", "colour") ? 1 : 3;
    p->coding = dump_follows(r, "png")       ? PICTURE_PNG
                : either(r, "jpeg", "flate") ? PICTURE_JPEG
                                             : PICTURE_FLATE;
    dump_expect(r, "turn");
    p->turn = (unsigned)dump_count(r, dump_word(r), 8);
    op->text = dump_string(r);
    dump_expect(r, "data");
    bytes(r, p);
    r->bad = r->bad || p->width == 0 || p->height == 0 || p->turn == 0;
    op->picture = p;
}

static void box(struct dump *r, struct op *op) {
    op->x = dump_number(r);
    op->y = dump_number(r);
    op->width = dump_number(r);
    op->height = dump_number(r);
}

static void read_op(struct dump *r, struct op *op, int page_count) {
    switch (op->kind) {
    case OP_TEXT:
        op->x = dump_number(r);
        op->y = dump_number(r);
        op->face = face(r);
        op->size = dump_number(r);
        op->text = dump_string(r);
        ink(r, op);
        glyphs(r, op);
        break;
    case OP_RECT:
        box(r, op);
        op->fill = either(r, "fill", "stroke");
        style(r, op);
        break;
    case OP_LINE:
        op->x = dump_number(r);
        op->y = dump_number(r);
        op->x2 = dump_number(r);
        op->y2 = dump_number(r);
        style(r, op);
        break;
    case OP_PATH:
        op->fill = either(r, "fill", "stroke");
        style(r, op);
        points(r, op);
        break;
    case OP_LINK:
        box(r, op);
        if (dump_follows(r, "page")) {
            op->page = page_number(r, page_count);
            dump_expect(r, "y");
            op->target_y = dump_number(r);
        } else {
            dump_expect(r, "uri");
            op->uri = dump_string(r);
        }
        break;
    case OP_IMAGE:
        box(r, op);
        picture(r, op);
        break;
    }
}

static void read_outline(struct reader *of) {
    struct dump *r = &of->dump;
    struct pages *p = of->pages;
    if (p->outline_count == p->outline_room) {
        size_t room = p->outline_room == 0 ? 32 : p->outline_room * 2;
        p->outline = arena_grow(r->arena, p->outline, p->outline_count, room,
                                sizeof *p->outline);
        p->outline_room = room;
    }
    struct outline *o = &p->outline[p->outline_count++];
    o->level = (int)dump_count(r, dump_word(r), INT_MAX);
    dump_expect(r, "page");
    o->page = page_number(r, of->page_count);
    dump_expect(r, "y");
    o->y = dump_number(r);
    o->title = dump_string(r);
    r->bad = r->bad || p->count > 0 || o->level == 0;
}

static void read_tag(struct reader *of) {
    struct dump *r = &of->dump;
    struct pages *p = of->pages;
    if (p->tag_count == p->tag_room) {
        size_t room = p->tag_room == 0 ? 256 : p->tag_room * 2;
        p->tag =
            arena_grow(r->arena, p->tag, p->tag_count, room, sizeof *p->tag);
        p->tag_room = room;
    }
    struct tag *tag = &p->tag[p->tag_count++];
    struct text name = dump_word(r);
    int kind = 0;
    while (kind < TAG_KINDS &&
           !text_is(name, display_tag_name((enum tag_kind)kind)))
        kind++;
    r->bad = r->bad || kind == TAG_KINDS || p->count > 0;
    tag->kind = kind == TAG_KINDS ? TAG_DOCUMENT : (enum tag_kind)kind;
    tag->parent = dump_count(r, dump_word(r), p->tag_count - 1);
    tag->words = dump_string(r);
}

static void read_entry(struct reader *of) {
    struct dump *r = &of->dump;
    struct pages *p = of->pages;
    static const char *const names[] = {
        [OP_TEXT] = "text", [OP_RECT] = "rect", [OP_LINE] = "line",
        [OP_PATH] = "path", [OP_LINK] = "link", [OP_IMAGE] = "image",
    };
    struct text name = dump_word(r);
    if (text_is(name, "outline")) {
        read_outline(of);
        return;
    }
    if (text_is(name, "tag")) {
        read_tag(of);
        return;
    }
    if (text_is(name, "page")) {
        double width = dump_number(r), height = dump_number(r);
        display_page(r->arena, p, width, height);
        return;
    }
    for (size_t k = 0; k < sizeof names / sizeof *names; k++) {
        if (text_is(name, names[k]) && p->count > 0) {
            struct page *page = &p->page[p->count - 1];
            struct op *op = display_op(r->arena, page, (enum op_kind)k);
            read_op(r, op, of->page_count);
            if (dump_follows(r, "tag"))
                op->tag = dump_count(r, dump_word(r), p->tag_count);
            return;
        }
    }
    r->bad = true;
}

static bool head_line(struct dump *r, const char *name) {
    if (!dump_line(r))
        return false;
    dump_expect(r, name);
    return true;
}

static struct text head_string(struct dump *r, const char *name) {
    struct text t = {0};
    if (r->bad || !head_line(r, name)) {
        r->bad = true;
        return t;
    }
    t = dump_string(r);
    r->bad = r->bad || r->line.len > 0;
    return t;
}

static void read_head(struct reader *of) {
    struct dump *r = &of->dump;
    struct pages *p = of->pages;
    static const char *const words[] = {"pages", "1", "full"};
    if (!head_line(r, "bayleaf")) {
        r->bad = true;
        return;
    }
    for (size_t i = 0; i < sizeof words / sizeof *words; i++)
        dump_expect(r, words[i]);
    of->page_count = (int)dump_count(r, dump_word(r), INT_MAX);
    r->bad = r->bad || r->line.len > 0;
    p->title = head_string(r, "title");
    p->author = head_string(r, "author");
    p->subject = head_string(r, "subject");
    struct text code = head_string(r, "code");
    if (code.len >= sizeof p->code)
        r->bad = true;
    else if (code.len > 0)
        memcpy(p->code, code.start, code.len);
}

struct pages *display_read(struct arena *a, struct text text, size_t *line) {
    struct reader of = {.dump = {.arena = a, .text = text}};
    struct dump *r = &of.dump;
    bool ended = false;
    of.pages = arena_alloc(a, 1, sizeof *of.pages);
    read_head(&of);
    while (!r->bad && !ended && dump_line(r)) {
        ended = dump_follows(r, "end");
        if (!ended)
            read_entry(&of);
        r->bad = r->bad || r->line.len > 0;
    }
    if (r->bad || !ended || r->next != text.len ||
        of.pages->count != (size_t)of.page_count) {
        /* A dump that stops short fails on the line that is not there. */
        *line = r->line_count + (r->cut_short ? 1 : 0);
        return NULL;
    }
    return of.pages;
}
