/* markdown.c - a source file to our own nodes.
 *
 * The Markdown library is met in this file only. A source is parsed twice: once
 * to learn which lines are running text, then with its {...} masked. What comes
 * out is copied into the arena and the library's tree is freed at once.
 *
 * The library parses without recursion; the walk over its tree is ours and
 * stops at MARKDOWN_DEPTH_MAX. */
#include "source/markdown.h"

#include "base/arena.h"
#include "base/diag.h"
#include "source/attach.h"
#include "source/block.h"
#include "source/bounds.h"
#include "source/encoding.h"
#include "source/fence.h"
#include "source/kind.h"
#include "source/link.h"
#include "source/list.h"
#include "source/locate.h"
#include "source/mark.h"
#include "source/mask.h"
#include "stages.h"

#define CMARK_NO_SHORT_NAMES /* they would hide NODE_HEADING and others */
#include <cmark.h>
#include <stdlib.h>
#include <string.h>

struct reader {
    struct compile *c;
    const struct scope *scope;
    unsigned place;
    struct mask *mask;
    struct locator locator;
    bool cut; /* something was left out: marks in it were not met */
};

/* The library has no way to hand on a failure, and its hooks no context. */
static void *checked_calloc(size_t count, size_t size) {
    void *p = calloc(count, size);
    if (p == NULL)
        arena_exhausted();
    return p;
}

static void *checked_realloc(void *old, size_t size) {
    void *p = realloc(old, size);
    if (p == NULL)
        arena_exhausted();
    return p;
}

static cmark_node *parse(struct text t) {
    static cmark_mem memory = {checked_calloc, checked_realloc, free};
    cmark_parser *parser =
        cmark_parser_new_with_mem(CMARK_OPT_DEFAULT, &memory);
    cmark_parser_feed(parser, t.len == 0 ? "" : t.start, t.len);
    cmark_node *root = cmark_parser_finish(parser);
    cmark_parser_free(parser);
    return root;
}

static size_t at_least_one(int n) {
    return n < 1 ? 1 : (size_t)n;
}

/* The lines of paragraphs and headings, in order. */
static struct mask_lines *text_lines(struct compile *c, cmark_node *root,
                                     size_t *count) {
    struct mask_lines *lines = NULL;
    size_t room = 0;
    *count = 0;
    cmark_iter *iter = cmark_iter_new(root);
    for (cmark_event_type event = cmark_iter_next(iter);
         event != CMARK_EVENT_DONE; event = cmark_iter_next(iter)) {
        cmark_node *n = cmark_iter_get_node(iter);
        cmark_node_type type = cmark_node_get_type(n);
        bool text = type == CMARK_NODE_PARAGRAPH || type == CMARK_NODE_HEADING;
        if (event != CMARK_EVENT_ENTER || !text)
            continue;
        lines = list_grown(c->arena, lines, *count, &room, sizeof *lines);
        lines[(*count)++] =
            (struct mask_lines){at_least_one(cmark_node_get_start_line(n)),
                                at_least_one(cmark_node_get_end_line(n))};
    }
    cmark_iter_free(iter);
    return lines;
}

static size_t source_byte(const struct reader *r, size_t byte) {
    return mask_to_source(r->mask, byte);
}

/* Byte of the masked source for a line and column of the library. */
static size_t byte_at(const struct reader *r, int line, int column) {
    const struct source *out = r->mask->out;
    size_t index = at_least_one(line) - 1;
    if (index >= out->line_count)
        return out->text.len;
    size_t byte = out->line_start[index] + at_least_one(column) - 1;
    return byte < out->text.len ? byte : out->text.len;
}

static struct span block_span(const struct reader *r, cmark_node *n) {
    size_t start = byte_at(r, cmark_node_get_start_line(n),
                           cmark_node_get_start_column(n));
    size_t end = byte_at(r, cmark_node_get_end_line(n),
                         cmark_node_get_end_column(n) + 1);
    struct span at = {r->scope->src, source_byte(r, start),
                      source_byte(r, end)};
    if (at.end < at.start)
        at.end = at.start;
    return at;
}

static struct node *add_node(struct reader *r, struct node *parent,
                             enum node_kind kind, struct span at) {
    struct node *n = arena_alloc(r->c->arena, 1, sizeof *n);
    n->kind = kind;
    n->at = at;
    n->scope = r->scope;
    n->parent = parent;
    if (parent->last == NULL)
        parent->first = n;
    else
        parent->last->next = n;
    parent->last = n;
    return n;
}

static bool too_deep(struct reader *r, struct span at, int depth) {
    if (depth <= MARKDOWN_DEPTH_MAX)
        return false;
    diag_add(r->c->diags, DIAG_NESTING_DEEP, at, "more than %d levels",
             (int)MARKDOWN_DEPTH_MAX);
    r->cut = true;
    return true;
}

/* ---- running text ---- */

struct text_run { /* pieces that become one INLINE_TEXT */
    struct buf copy;
    struct text slice;
    struct span at;
    bool any, copied;
};

static void run_add(struct reader *r, struct text_run *run, struct text piece,
                    size_t start, size_t end) {
    bool goes_on = run->any && !run->copied &&
                   run->slice.start + run->slice.len == piece.start;
    if (!run->any) {
        *run = (struct text_run){buf_in(r->c->arena),
                                 piece,
                                 {r->scope->src, start, end},
                                 true,
                                 false};
    } else if (goes_on) {
        run->slice.len += piece.len;
    } else {
        if (!run->copied)
            buf_text(&run->copy, run->slice);
        buf_text(&run->copy, piece);
        run->copied = true;
    }
    run->at.end = end;
}

static struct inlines *add_inline(struct reader *r, struct inlines ***end,
                                  enum inline_kind kind, struct span at) {
    struct inlines *i = arena_alloc(r->c->arena, 1, sizeof *i);
    i->kind = kind;
    i->at = at;
    **end = i;
    *end = &i->next;
    return i;
}

static void run_flush(struct reader *r, struct text_run *run,
                      struct inlines ***end) {
    if (!run->any)
        return;
    struct inlines *i = add_inline(r, end, INLINE_TEXT, run->at);
    i->text = run->copied ? buf_as_text(&run->copy) : run->slice;
    *run = (struct text_run){0};
}

/* Entities can name what a source may not hold. Private-use ones are reported
 * where they stand, by mask.c. */
static void check_characters(struct reader *r, struct text t, struct span at) {
    for (size_t i = 0; i < t.len;) {
        if ((unsigned char)t.start[i] >= 0x20 &&
            (unsigned char)t.start[i] < 0x7F) {
            i++;
            continue;
        }
        uint32_t code = text_next(t, &i);
        const char *why = encoding_refuses(code);
        if (why == NULL || code == '\t' || encoding_is_private(code))
            continue;
        diag_add(r->c->diags, DIAG_CHARACTER_REFUSED, at, "U+%04X: %s",
                 (unsigned)code, why);
        return;
    }
}

static void add_piece(struct reader *r, struct text_run *run,
                      struct text piece) {
    if (piece.len == 0)
        return;
    struct located found = locate_text(&r->locator, piece);
    size_t start = source_byte(r, found.start);
    size_t end = source_byte(r, found.end);
    struct text text =
        found.same
            ? text_part(r->scope->src->text, start, start + piece.len)
            : (struct text){arena_copy(r->c->arena, piece.start, piece.len),
                            piece.len};
    if (!found.same)
        check_characters(r, text, (struct span){r->scope->src, start, end});
    run_add(r, run, text, start, end);
}

static void add_masked(struct reader *r, struct text_run *run,
                       const struct masked *item, struct inlines ***end) {
    struct span at = place_of(r->scope->src, item->text);
    r->locator.at = item->end;
    if (item->brace) {
        run_add(r, run, text_part(item->text, 0, 1), at.start, at.end);
        return;
    }
    run_flush(r, run, end);
    struct mark *m = mark_parse(r->c, r->scope, item->text);
    if (m != NULL)
        add_inline(r, end, INLINE_MARK, at)->mark = m;
}

/* Text of the library, with placeholders, to TEXT and MARK. */
static void read_text(struct reader *r, struct text t, struct inlines ***end) {
    struct text_run run = {0};
    size_t from = 0;
    for (size_t i = 0; i < t.len;) {
        size_t start = i;
        const struct masked *item = mask_item(r->mask, t, &i);
        if (item == NULL) {
            i++;
            continue;
        }
        add_piece(r, &run, text_part(t, from, start));
        add_masked(r, &run, item, end);
        from = i;
    }
    add_piece(r, &run, text_part(t, from, t.len));
    run_flush(r, &run, end);
}

static struct span here(const struct reader *r) {
    size_t byte = source_byte(r, r->locator.at);
    return (struct span){r->scope->src, byte, byte};
}

static void report_html(struct reader *r, struct span at) {
    diag_add(r->c->diags, DIAG_HTML_REFUSED, at,
             "write Markdown; a comment stands in a block, behind '# '");
    r->cut = true;
}

static void read_inlines(struct reader *r, cmark_node *parent, int depth,
                         struct inlines **out);

static void read_span(struct reader *r, cmark_node *n, enum inline_kind kind,
                      int depth, struct inlines ***end) {
    struct inlines *i = add_inline(r, end, kind, here(r));
    read_inlines(r, n, depth + 1, &i->first);
    if (i->first != NULL)
        i->at.start = i->first->at.start;
    bool link = kind == INLINE_LINK || kind == INLINE_IMAGE;
    if (link)
        locate_link_end(&r->locator);
    i->at.end = source_byte(r, r->locator.at);
    if (i->at.end < i->at.start)
        i->at.end = i->at.start;
    if (!link)
        return;
    const char *url = cmark_node_get_url(n);
    i->url = text_of(arena_copy(r->c->arena, url, strlen(url)));
    if (kind == INLINE_LINK)
        link_check(r->c, i->url, i->at);
    else
        link_check_image(r->c, i->url, i->at);
}

static void read_inline(struct reader *r, cmark_node *n, int depth,
                        struct inlines ***end) {
    const char *literal = cmark_node_get_literal(n);
    switch ((int)cmark_node_get_type(n)) {
    case CMARK_NODE_TEXT:
        read_text(r, text_of(literal), end);
        break;
    case CMARK_NODE_SOFTBREAK:
    case CMARK_NODE_LINEBREAK:
        add_inline(r, end,
                   cmark_node_get_type(n) == CMARK_NODE_SOFTBREAK
                       ? INLINE_SPACE
                       : INLINE_BREAK,
                   here(r));
        locate_line_end(&r->locator);
        break;
    case CMARK_NODE_CODE: {
        struct located found = locate_code(&r->locator);
        struct span at = {r->scope->src, source_byte(r, found.start),
                          source_byte(r, found.end)};
        add_inline(r, end, INLINE_CODE, at)->text =
            mask_undone(r->c, r->mask, text_of(literal));
        break;
    }
    case CMARK_NODE_EMPH:
        read_span(r, n, INLINE_EMPHASIS, depth, end);
        break;
    case CMARK_NODE_STRONG:
        read_span(r, n, INLINE_STRONG, depth, end);
        break;
    case CMARK_NODE_LINK:
        read_span(r, n, INLINE_LINK, depth, end);
        break;
    case CMARK_NODE_IMAGE:
        read_span(r, n, INLINE_IMAGE, depth, end);
        break;
    default: { /* HTML_INLINE; custom nodes are made by no parser */
        struct located found = locate_text(&r->locator, text_of(literal));
        report_html(r, (struct span){r->scope->src, source_byte(r, found.start),
                                     source_byte(r, found.end)});
        break;
    }
    }
}

static void read_inlines(struct reader *r, cmark_node *parent, int depth,
                         struct inlines **out) {
    if (too_deep(r, here(r), depth))
        return;
    struct inlines **end = out;
    for (cmark_node *n = cmark_node_first_child(parent); n != NULL;
         n = cmark_node_next(n))
        read_inline(r, n, depth, &end);
}

/* ---- blocks ---- */

static void read_children(struct reader *r, cmark_node *parent, int depth,
                          struct node *into);

static void read_prose(struct reader *r, cmark_node *n, int depth,
                       struct node *into) {
    r->locator.at = byte_at(r, cmark_node_get_start_line(n),
                            cmark_node_get_start_column(n));
    read_inlines(r, n, depth, &into->text);
    attach_marks(r->c, into);
}

static void read_container(struct reader *r, cmark_node *n, int depth,
                           struct node *parent, enum node_kind kind) {
    struct span at = block_span(r, n);
    if (too_deep(r, at, depth))
        return;
    read_children(r, n, depth + 1, add_node(r, parent, kind, at));
}

static void read_code(struct reader *r, cmark_node *n, struct node *parent) {
    struct span at = block_span(r, n);
    struct text literal = text_of(cmark_node_get_literal(n));
    size_t line = at_least_one(cmark_node_get_start_line(n));
    size_t column = at_least_one(cmark_node_get_start_column(n));
    struct block_lines lines;
    switch (fence_read(r->c, r->scope->src, line, column, literal, &lines)) {
    case FENCE_BAD:
        break;
    case FENCE_VERBATIM:
        add_node(r, parent, NODE_VERBATIM, at)->verbatim = (struct text){
            arena_copy(r->c->arena, literal.start, literal.len), literal.len};
        break;
    case FENCE_BLOCK: {
        struct block *b = block_parse(r->c, r->scope, r->place, &lines);
        if (b == NULL)
            break;
        struct node *node = add_node(r, parent, NODE_BLOCK, at);
        node->block = b;
        b->node = node;
        if (b->kind->id == KIND_GUIDE && parent->parent != NULL)
            diag_add(r->c->diags, DIAG_KIND_MISPLACED, b->at,
                     "'guide' stands at the left margin");
        break;
    }
    }
}

static void read_block(struct reader *r, cmark_node *n, int depth,
                       struct node *parent) {
    struct span at = block_span(r, n);
    struct node *made;
    switch ((int)cmark_node_get_type(n)) {
    case CMARK_NODE_BLOCK_QUOTE:
        read_container(r, n, depth, parent, NODE_QUOTE);
        break;
    case CMARK_NODE_LIST:
        read_container(r, n, depth, parent,
                       cmark_node_get_list_type(n) == CMARK_ORDERED_LIST
                           ? NODE_STEPS
                           : NODE_BULLETS);
        break;
    case CMARK_NODE_ITEM:
        read_container(r, n, depth, parent,
                       parent->kind == NODE_STEPS ? NODE_STEP : NODE_BULLET);
        break;
    case CMARK_NODE_CODE_BLOCK:
        read_code(r, n, parent);
        break;
    case CMARK_NODE_PARAGRAPH:
        made = add_node(r, parent, NODE_PARAGRAPH, at);
        read_prose(r, n, depth, made);
        break;
    case CMARK_NODE_HEADING:
        made = add_node(r, parent, NODE_HEADING, at);
        made->level = cmark_node_get_heading_level(n);
        read_prose(r, n, depth, made);
        break;
    case CMARK_NODE_THEMATIC_BREAK:
        add_node(r, parent, NODE_RULE, at);
        break;
    default: /* HTML_BLOCK; custom nodes are made by no parser */
        report_html(r, at);
        break;
    }
}

static void read_children(struct reader *r, cmark_node *parent, int depth,
                          struct node *into) {
    for (cmark_node *n = cmark_node_first_child(parent); n != NULL;
         n = cmark_node_next(n))
        read_block(r, n, depth, into);
    if (into->kind == NODE_STEP)
        attach_step(r->c, into);
}

/* A mark in the address of a link, or in a link definition, prints nowhere. */
static void report_lost(struct reader *r) {
    for (size_t i = 0; i < r->mask->count && !r->cut; i++) {
        const struct masked *item = &r->mask->items[i];
        if (!item->met)
            diag_add(r->c->diags, DIAG_MARK_LOST,
                     place_of(r->scope->src, item->text),
                     "it stands in the address of a link or image");
    }
}

struct node *markdown_read(struct compile *c, const struct scope *scope,
                           unsigned place) {
    struct reader r = {.c = c, .scope = scope, .place = place};
    const struct source *src = scope->src;
    struct node *root = arena_alloc(c->arena, 1, sizeof *root);
    root->kind = NODE_GUIDE;
    root->scope = scope;
    root->at = (struct span){src, 0, 0};
    if (!bounds_check(c->diags, src))
        return root;
    cmark_node *tree = parse(src->text);
    size_t count;
    struct mask_lines *lines = text_lines(c, tree, &count);
    cmark_node_free(tree);
    r.mask = mask_source(c, src, lines, count);
    r.locator.text = r.mask->out->text;
    tree = parse(r.locator.text);
    read_children(&r, tree, 1, root);
    cmark_node_free(tree);
    report_lost(&r);
    return root;
}
