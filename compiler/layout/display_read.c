/* display_read.c - takes a display list back from its full text form (see
 * display.c). Nothing is believed: a line that is not exactly right is named.
 */
#include "layout/display.h"

#include "base/arena.h"
#include "image/image.h"

#include <limits.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

struct reader {
    struct arena *arena;
    struct text dump;
    size_t next;       /* where the line behind this one begins */
    struct text line;  /* what is left of the line at hand */
    size_t line_count; /* lines begun */
    bool bad, cut_short;
    struct pages *pages;
    int page_count; /* as the first line says */
};

static bool next_line(struct reader *r) {
    size_t left = r->dump.len - r->next;
    const char *start = NULL, *end = NULL;
    if (left > 0) {
        start = r->dump.start + r->next;
        end = memchr(start, '\n', left);
    }
    if (end == NULL) {
        r->cut_short = true;
        return false;
    }
    r->line = (struct text){start, (size_t)(end - start)};
    r->next += r->line.len + 1;
    r->line_count++;
    return true;
}

/* The next word; one blank stands before each but the first. */
static struct text word(struct reader *r) {
    if (r->line.len > 0 && r->line.start[0] == ' ')
        r->line = text_part(r->line, 1, r->line.len);
    size_t len = 0;
    while (len < r->line.len && r->line.start[len] != ' ')
        len++;
    struct text w = text_part(r->line, 0, len);
    r->line = text_part(r->line, len, r->line.len);
    r->bad = r->bad || len == 0;
    return w;
}

/* True, and past the word, when it comes next. */
static bool follows(struct reader *r, const char *wanted) {
    struct text line = r->line;
    bool bad = r->bad;
    if (text_is(word(r), wanted))
        return true;
    r->line = line;
    r->bad = bad;
    return false;
}

static void expect(struct reader *r, const char *wanted) {
    if (!follows(r, wanted))
        r->bad = true;
}

/* Digits, sign, point, exponent and no more: strtod() would take "nan", "inf",
 * "0x10" and blanks too. It stops at the end of the word, since a line ends. */
static bool is_decimal(struct text t) {
    for (size_t i = 0; i < t.len; i++) {
        char c = t.start[i];
        if ((c < '0' || c > '9') && c != '.' && c != '-' && c != '+' &&
            c != 'e')
            return false;
    }
    return t.len > 0;
}

static double number(struct reader *r) {
    struct text t = word(r);
    if (is_decimal(t)) {
        char *end;
        double x = strtod(t.start, &end);
        if (end == t.start + t.len && isfinite(x))
            return x;
    }
    r->bad = true;
    return 0;
}

static float small_number(struct reader *r, struct text t) {
    if (is_decimal(t)) {
        char *end;
        float x = strtof(t.start, &end);
        if (end == t.start + t.len && isfinite(x))
            return x;
    }
    r->bad = true;
    return 0;
}

static unsigned long count_of(struct reader *r, struct text t,
                              unsigned long most) {
    unsigned long n = 0;
    if (t.len == 0)
        r->bad = true;
    for (size_t i = 0; i < t.len; i++) {
        if (t.start[i] < '0' || t.start[i] > '9' || n > most / 10) {
            r->bad = true;
            return 0;
        }
        n = n * 10 + (unsigned long)(t.start[i] - '0');
    }
    if (n > most) {
        r->bad = true;
        return 0;
    }
    return n;
}

/* From 1 in the text, from 0 in the list. */
static int page_number(struct reader *r) {
    unsigned long n = count_of(r, word(r), (unsigned long)r->page_count);
    r->bad = r->bad || n == 0;
    return (int)n - 1;
}

static int hex_value(char c) {
    const char *digits = "0123456789ABCDEF", *at = strchr(digits, c);
    return c == '\0' || at == NULL ? -1 : (int)(at - digits);
}

/* The byte behind a backslash at t.start[*i]; -1 when it is no escape. */
static int escaped(struct text t, size_t *i) {
    if (*i + 1 >= t.len)
        return -1;
    char c = t.start[++*i];
    if (c == '"' || c == '\\')
        return c;
    if (c != 'x' || *i + 2 >= t.len)
        return -1;
    int high = hex_value(t.start[*i + 1]), low = hex_value(t.start[*i + 2]);
    *i += 2;
    return high < 0 || low < 0 ? -1 : high * 16 + low;
}

static struct text string(struct reader *r) {
    if (follows(r, "-"))
        return (struct text){0};
    struct text t = r->line;
    struct buf out = buf_in(r->arena);
    size_t i = 2;
    if (t.len < 3 || t.start[0] != ' ' || t.start[1] != '"') {
        r->bad = true;
        return (struct text){0};
    }
    for (; i < t.len && t.start[i] != '"'; i++) {
        int c = (unsigned char)t.start[i];
        if (c == '\\')
            c = escaped(t, &i);
        if (c < 0) {
            r->bad = true;
            return (struct text){0};
        }
        buf_add(&out, &(char){(char)c}, 1);
    }
    if (i >= t.len) {
        r->bad = true;
        return (struct text){0};
    }
    r->line = text_part(t, i + 1, t.len);
    return (struct text){buf_cstr(&out), out.len};
}

static void ink(struct reader *r, struct op *op) {
    if (follows(r, "colour")) {
        op->colour.red = small_number(r, word(r));
        op->colour.green = small_number(r, word(r));
        op->colour.blue = small_number(r, word(r));
    }
}

static void style(struct reader *r, struct op *op) {
    if (follows(r, "width"))
        op->line_width = number(r);
    if (follows(r, "dash")) {
        op->dash_on = number(r);
        op->dash_off = number(r);
    }
    ink(r, op);
}

static enum face face(struct reader *r) {
    struct text name = word(r);
    for (int f = 0; f < FACE_COUNT; f++) {
        if (text_is(name, display_face_name((enum face)f)))
            return (enum face)f;
    }
    r->bad = true;
    return FACE_REGULAR;
}

/* Cuts *t at the first `mark`: what stands before it; the rest stays in *t. */
static struct text before(struct reader *r, struct text *t, char mark) {
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

static struct glyph glyph(struct reader *r, size_t text_len) {
    struct glyph g = {0};
    struct text t = word(r);
    g.id = (uint16_t)count_of(r, before(r, &t, ':'), UINT16_MAX);
    g.start = (uint32_t)count_of(r, before(r, &t, '+'), UINT32_MAX);
    g.len = (uint32_t)count_of(r, before(r, &t, '@'), UINT32_MAX);
    if (t.len > 0 && memchr(t.start, ',', t.len) != NULL) {
        g.advance = small_number(r, before(r, &t, ','));
        g.x = small_number(r, before(r, &t, ','));
        g.y = small_number(r, t);
    } else {
        g.advance = small_number(r, t);
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

static void glyphs(struct reader *r, struct op *op) {
    expect(r, "glyphs");
    /* Two blanks belong to " tag N" at the end. */
    size_t count = blanks(glyph_words(r->line));
    struct glyph *g = arena_alloc(r->arena, count, sizeof *g);
    for (size_t i = 0; i < count && !r->bad; i++)
        g[i] = glyph(r, op->text.len);
    op->glyphs = g;
    op->glyph_count = count;
}

/* One of two words: whether it is the first. */
static bool either(struct reader *r, const char *first, const char *second) {
    if (follows(r, first))
        return true;
    expect(r, second);
    return false;
}

static void points(struct reader *r, struct op *op) {
    expect(r, "points");
    struct path_point *p = arena_alloc(r->arena, blanks(r->line), sizeof *p);
    op->path = p;
    for (; glyph_words(r->line).len > 0 && !r->bad; p++) {
        if (follows(r, "Z")) {
            p->verb = PATH_CLOSE;
            continue;
        }
        if (follows(r, "M")) {
            p->verb = PATH_MOVE;
        } else if (follows(r, "L")) {
            p->verb = PATH_LINE;
        } else {
            expect(r, "C");
            p->verb = PATH_CURVE;
            p->x1 = number(r);
            p->y1 = number(r);
            p->x2 = number(r);
            p->y2 = number(r);
        }
        p->x = number(r);
        p->y = number(r);
    }
    op->path_count = (size_t)(p - op->path);
}

static void bytes(struct reader *r, struct picture *p) {
    struct text t = word(r);
    unsigned char *out = arena_alloc(r->arena, t.len / 2, 1);
    r->bad = r->bad || t.len % 2 != 0;
    for (size_t i = 0; i + 1 < t.len && !r->bad; i += 2) {
        int high = hex_value(t.start[i]), low = hex_value(t.start[i + 1]);
        r->bad = high < 0 || low < 0;
        out[i / 2] = (unsigned char)(high * 16 + low);
    }
    p->bytes = out;
    p->len = t.len / 2;
}

static void picture(struct reader *r, struct op *op) {
    struct picture *p = arena_alloc(r->arena, 1, sizeof *p);
    expect(r, "pixels");
    p->width = (unsigned)count_of(r, word(r), IMAGE_SIDE_MAX);
    p->height = (unsigned)count_of(r, word(r), IMAGE_SIDE_MAX);
    p->channels = either(r, "grey", "colour") ? 1 : 3;
    p->coding = follows(r, "png")            ? PICTURE_PNG
                : either(r, "jpeg", "flate") ? PICTURE_JPEG
                                             : PICTURE_FLATE;
    expect(r, "turn");
    p->turn = (unsigned)count_of(r, word(r), 8);
    op->text = string(r);
    expect(r, "data");
    bytes(r, p);
    r->bad = r->bad || p->width == 0 || p->height == 0 || p->turn == 0;
    op->picture = p;
}

static void box(struct reader *r, struct op *op) {
    op->x = number(r);
    op->y = number(r);
    op->width = number(r);
    op->height = number(r);
}

static void read_op(struct reader *r, struct op *op) {
    switch (op->kind) {
    case OP_TEXT:
        op->x = number(r);
        op->y = number(r);
        op->face = face(r);
        op->size = number(r);
        op->text = string(r);
        ink(r, op);
        glyphs(r, op);
        break;
    case OP_RECT:
        box(r, op);
        op->fill = either(r, "fill", "stroke");
        style(r, op);
        break;
    case OP_LINE:
        op->x = number(r);
        op->y = number(r);
        op->x2 = number(r);
        op->y2 = number(r);
        style(r, op);
        break;
    case OP_PATH:
        op->fill = either(r, "fill", "stroke");
        style(r, op);
        points(r, op);
        break;
    case OP_LINK:
        box(r, op);
        if (follows(r, "page")) {
            op->page = page_number(r);
            expect(r, "y");
            op->target_y = number(r);
        } else {
            expect(r, "uri");
            op->uri = string(r);
        }
        break;
    case OP_IMAGE:
        box(r, op);
        picture(r, op);
        break;
    }
}

static void read_outline(struct reader *r) {
    struct pages *p = r->pages;
    if (p->outline_count == p->outline_room) {
        size_t room = p->outline_room == 0 ? 32 : p->outline_room * 2;
        p->outline = arena_grow(r->arena, p->outline, p->outline_count, room,
                                sizeof *p->outline);
        p->outline_room = room;
    }
    struct outline *o = &p->outline[p->outline_count++];
    o->level = (int)count_of(r, word(r), INT_MAX);
    expect(r, "page");
    o->page = page_number(r);
    expect(r, "y");
    o->y = number(r);
    o->title = string(r);
    r->bad = r->bad || p->count > 0 || o->level == 0;
}

static void read_tag(struct reader *r) {
    struct pages *p = r->pages;
    if (p->tag_count == p->tag_room) {
        size_t room = p->tag_room == 0 ? 256 : p->tag_room * 2;
        p->tag =
            arena_grow(r->arena, p->tag, p->tag_count, room, sizeof *p->tag);
        p->tag_room = room;
    }
    struct tag *tag = &p->tag[p->tag_count++];
    struct text name = word(r);
    int kind = 0;
    while (kind < TAG_KINDS &&
           !text_is(name, display_tag_name((enum tag_kind)kind)))
        kind++;
    r->bad = r->bad || kind == TAG_KINDS || p->count > 0;
    tag->kind = kind == TAG_KINDS ? TAG_DOCUMENT : (enum tag_kind)kind;
    tag->parent = count_of(r, word(r), p->tag_count - 1);
    tag->words = string(r);
}

static void read_entry(struct reader *r) {
    static const char *const names[] = {
        [OP_TEXT] = "text", [OP_RECT] = "rect", [OP_LINE] = "line",
        [OP_PATH] = "path", [OP_LINK] = "link", [OP_IMAGE] = "image",
    };
    struct text name = word(r);
    if (text_is(name, "outline")) {
        read_outline(r);
        return;
    }
    if (text_is(name, "tag")) {
        read_tag(r);
        return;
    }
    if (text_is(name, "page")) {
        double width = number(r), height = number(r);
        display_page(r->arena, r->pages, width, height);
        return;
    }
    for (size_t k = 0; k < sizeof names / sizeof *names; k++) {
        if (text_is(name, names[k]) && r->pages->count > 0) {
            struct page *page = &r->pages->page[r->pages->count - 1];
            struct op *op = display_op(r->arena, page, (enum op_kind)k);
            read_op(r, op);
            if (follows(r, "tag"))
                op->tag = count_of(r, word(r), r->pages->tag_count);
            return;
        }
    }
    r->bad = true;
}

static bool head_line(struct reader *r, const char *name) {
    if (!next_line(r))
        return false;
    expect(r, name);
    return true;
}

static struct text head_string(struct reader *r, const char *name) {
    struct text t = {0};
    if (r->bad || !head_line(r, name)) {
        r->bad = true;
        return t;
    }
    t = string(r);
    r->bad = r->bad || r->line.len > 0;
    return t;
}

static void read_head(struct reader *r) {
    static const char *const words[] = {"pages", "1", "full"};
    if (!head_line(r, "bayleaf")) {
        r->bad = true;
        return;
    }
    for (size_t i = 0; i < sizeof words / sizeof *words; i++)
        expect(r, words[i]);
    r->page_count = (int)count_of(r, word(r), INT_MAX);
    r->bad = r->bad || r->line.len > 0;
    r->pages->title = head_string(r, "title");
    r->pages->author = head_string(r, "author");
    r->pages->subject = head_string(r, "subject");
    struct text code = head_string(r, "code");
    if (code.len >= sizeof r->pages->code)
        r->bad = true;
    else if (code.len > 0)
        memcpy(r->pages->code, code.start, code.len);
}

struct pages *display_read(struct arena *a, struct text dump, size_t *line) {
    struct reader r = {.arena = a, .dump = dump};
    bool ended = false;
    r.pages = arena_alloc(a, 1, sizeof *r.pages);
    read_head(&r);
    while (!r.bad && !ended && next_line(&r)) {
        ended = follows(&r, "end");
        if (!ended)
            read_entry(&r);
        r.bad = r.bad || r.line.len > 0;
    }
    if (r.bad || !ended || r.next != dump.len ||
        r.pages->count != (size_t)r.page_count) {
        /* A dump that stops short fails on the line that is not there. */
        *line = r.line_count + (r.cut_short ? 1 : 0);
        return NULL;
    }
    return r.pages;
}
