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
#include "base/list.h"
#include "source/attach.h"
#include "source/block.h"
#include "source/bounds.h"
#include "source/fence.h"
#include "source/kind.h"
#include "source/link.h"
#include "source/locate.h"
#include "source/mask.h"
#include "source/merge.h"
#include "source/runs.h"
#include "source/slip.h"
#include "stages.h"

#define CMARK_NO_SHORT_NAMES /* they would hide NODE_HEADING and others */
#include <cmark.h>
#include <stdlib.h>
#include <string.h>

struct reader {
    struct runs runs; /* of text: what all of them need */
    unsigned place;
    bool lost; /* a block or a line of one was left out */
    bool html; /* in this paragraph: told once, since a tag has its end */
    bool cut;  /* something was left out: marks in it were not met */
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

struct line_list { /* ranges of lines, in order */
    struct mask_lines *range;
    size_t count, room;
    size_t next; /* the line behind the last of them */
};

static void add_lines(struct compile *c, struct line_list *l, size_t first,
                      size_t last) {
    if (first > last)
        return;
    l->range =
        list_grown(c->arena, l->range, l->count, &l->room, sizeof *l->range);
    l->range[l->count++] = (struct mask_lines){first, last};
}

/* Lines that stand in no paragraph: definitions of links, which leave nothing
 * in the tree, so that a mark in one would be lost without a word. */
static void add_between(struct compile *c, struct line_list *l, size_t end) {
    for (; l->next < end; l->next++)
        add_lines(c, l, l->next, l->next);
}

/* All lines but those of code: a range is a paragraph or heading, or one line.
 */
static void text_lines(struct compile *c, cmark_node *root, size_t line_count,
                       struct line_list *l) {
    l->next = 1;
    cmark_iter *iter = cmark_iter_new(root);
    for (cmark_event_type event = cmark_iter_next(iter);
         event != CMARK_EVENT_DONE; event = cmark_iter_next(iter)) {
        cmark_node *n = cmark_iter_get_node(iter);
        cmark_node_type type = cmark_node_get_type(n);
        bool text = type == CMARK_NODE_PARAGRAPH || type == CMARK_NODE_HEADING;
        bool code =
            type == CMARK_NODE_CODE_BLOCK || type == CMARK_NODE_HTML_BLOCK;
        if (event != CMARK_EVENT_ENTER || (!text && !code))
            continue;
        size_t first = at_least_one(cmark_node_get_start_line(n));
        size_t last = at_least_one(cmark_node_get_end_line(n));
        add_between(c, l, first);
        if (text)
            add_lines(c, l, first, last);
        l->next = last + 1 > l->next ? last + 1 : l->next;
    }
    cmark_iter_free(iter);
    add_between(c, l, line_count + 1);
}

static size_t source_byte(const struct reader *r, size_t byte) {
    return mask_to_source(r->runs.mask, byte);
}

/* Byte of the masked source for a line and column of the library. */
static size_t byte_at(const struct reader *r, int line, int column) {
    const struct source *out = r->runs.mask->out;
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
    struct span at = {r->runs.scope->src, source_byte(r, start),
                      source_byte(r, end)};
    if (at.end < at.start)
        at.end = at.start;
    return at;
}

static struct node *add_node(struct reader *r, struct node *parent,
                             enum node_kind kind, struct span at) {
    struct node *n = arena_alloc(r->runs.c->arena, 1, sizeof *n);
    n->kind = kind;
    n->at = at;
    n->scope = r->runs.scope;
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
    diag_add(r->runs.c->diags, DIAG_NESTING_DEEP, at, "more than %d levels",
             (int)MARKDOWN_DEPTH_MAX);
    r->cut = true;
    return true;
}

/* ---- running text ---- */

static struct span here(const struct reader *r) {
    size_t byte = source_byte(r, r->runs.locator.at);
    return (struct span){r->runs.scope->src, byte, byte};
}

static void report_html(struct reader *r, struct span at) {
    if (r->html)
        return;
    r->html = true;
    diag_add(r->runs.c->diags, DIAG_HTML_REFUSED, at,
             "write Markdown; a comment stands in a block, behind '# '");
    r->cut = true;
}

static void read_inlines(struct reader *r, cmark_node *parent, int depth,
                         struct inlines **out);

static void read_span(struct reader *r, cmark_node *n, enum inline_kind kind,
                      int depth, struct inlines ***end) {
    struct inlines *i = runs_add(&r->runs, end, kind, here(r));
    read_inlines(r, n, depth + 1, &i->first);
    if (i->first != NULL)
        i->at.start = i->first->at.start;
    bool link = kind == INLINE_LINK || kind == INLINE_IMAGE;
    if (link)
        locate_link_end(&r->runs.locator);
    i->at.end = source_byte(r, r->runs.locator.at);
    if (i->at.end < i->at.start)
        i->at.end = i->at.start;
    if (!link)
        return;
    const char *url = cmark_node_get_url(n);
    i->scope = r->runs.scope;
    i->url = text_of(arena_copy(r->runs.c->arena, url, strlen(url)));
    if (kind == INLINE_LINK)
        link_check(r->runs.c, i->url, i->at);
    else
        link_check_image(r->runs.c, i->url, i->at);
}

static void read_inline(struct reader *r, cmark_node *n, int depth,
                        struct inlines ***end) {
    const char *literal = cmark_node_get_literal(n);
    switch ((int)cmark_node_get_type(n)) {
    case CMARK_NODE_TEXT:
        runs_text(&r->runs, text_of(literal), end);
        break;
    case CMARK_NODE_SOFTBREAK:
    case CMARK_NODE_LINEBREAK:
        runs_add(&r->runs, end,
                 cmark_node_get_type(n) == CMARK_NODE_SOFTBREAK ? INLINE_SPACE
                                                                : INLINE_BREAK,
                 here(r));
        locate_line_end(&r->runs.locator);
        break;
    case CMARK_NODE_CODE: {
        struct located found = locate_code(&r->runs.locator);
        struct span at = {r->runs.scope->src, source_byte(r, found.start),
                          source_byte(r, found.end)};
        runs_add(&r->runs, end, INLINE_CODE, at)->text =
            mask_undone(r->runs.c, r->runs.mask, text_of(literal));
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
        struct located found = locate_text(&r->runs.locator, text_of(literal));
        report_html(r, (struct span){r->runs.scope->src,
                                     source_byte(r, found.start),
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

static void read_prose(struct reader *r, cmark_node *n, struct node *into) {
    r->runs.locator.at = byte_at(r, cmark_node_get_start_line(n),
                                 cmark_node_get_start_column(n));
    r->html = false;
    read_inlines(r, n, 0, &into->text);
    attach_marks(r->runs.c, into);
}

static void read_container(struct reader *r, cmark_node *n, int depth,
                           struct node *parent, enum node_kind kind) {
    struct span at = block_span(r, n);
    if (too_deep(r, at, depth))
        return;
    /* A list and its item are one level. */
    bool list = kind == NODE_STEPS || kind == NODE_BULLETS;
    read_children(r, n, list ? depth : depth + 1,
                  add_node(r, parent, kind, at));
}

static void read_code(struct reader *r, cmark_node *n, struct node *parent) {
    struct span at = block_span(r, n);
    struct text literal = text_of(cmark_node_get_literal(n));
    size_t line = at_least_one(cmark_node_get_start_line(n));
    size_t column = at_least_one(cmark_node_get_start_column(n));
    struct block_lines lines;
    switch (fence_read(r->runs.c, r->runs.scope->src, line, column, literal,
                       &lines)) {
    case FENCE_BAD:
        r->lost = true;
        break;
    case FENCE_VERBATIM:
        add_node(r, parent, NODE_VERBATIM, at)->verbatim = (struct text){
            arena_copy(r->runs.c->arena, literal.start, literal.len),
            literal.len};
        break;
    case FENCE_BLOCK: {
        struct block *b =
            block_parse(r->runs.c, r->runs.scope, r->place, &lines);
        r->lost = r->lost || b == NULL || b->lost;
        if (b == NULL)
            break;
        struct node *node = add_node(r, parent, NODE_BLOCK, at);
        node->block = b;
        b->node = node;
        if (b->kind->id == KIND_GUIDE && parent->parent != NULL)
            diag_add(r->runs.c->diags, DIAG_KIND_MISPLACED, b->at,
                     "'guide' stands at the left margin");
        break;
    }
    }
}

static void read_block(struct reader *r, cmark_node *n, int depth,
                       struct node *parent) {
    struct span at = block_span(r, n);
    struct node *made, *before = parent->last;
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
        if (parent->last != NULL && parent->last != before &&
            parent->last->kind == NODE_VERBATIM)
            slip_check_verbatim(r->runs.c, parent->last);
        break;
    case CMARK_NODE_PARAGRAPH:
        made = add_node(r, parent, NODE_PARAGRAPH, at);
        read_prose(r, n, made);
        slip_check(r->runs.c, made, before);
        break;
    case CMARK_NODE_HEADING:
        made = add_node(r, parent, NODE_HEADING, at);
        made->level = cmark_node_get_heading_level(n);
        read_prose(r, n, made);
        break;
    case CMARK_NODE_THEMATIC_BREAK:
        add_node(r, parent, NODE_RULE, at);
        break;
    default: /* HTML_BLOCK; custom nodes are made by no parser */
        r->html = false;
        report_html(r, at);
        break;
    }
}

static void read_children(struct reader *r, cmark_node *parent, int depth,
                          struct node *into) {
    for (cmark_node *n = cmark_node_first_child(parent); n != NULL;
         n = cmark_node_next(n))
        read_block(r, n, depth, into);
    slip_check_indent(r->runs.c, into);
    if (into->kind == NODE_STEP)
        attach_step(r->runs.c, into);
}

/* A mark in the address of a link, or in a link definition, prints nowhere. */
static void report_lost(struct reader *r) {
    for (size_t i = 0; i < r->runs.mask->count && !r->cut; i++) {
        const struct masked *item = &r->runs.mask->items[i];
        if (!item->met)
            diag_add(r->runs.c->diags, DIAG_MARK_LOST,
                     place_of(r->runs.scope->src, item->text),
                     "it stands in the address of a link or image");
    }
}

struct node *markdown_read(struct compile *c, const struct scope *scope,
                           unsigned place, bool *lost) {
    struct reader r = {.runs = {.c = c, .scope = scope}, .place = place};
    const struct source *src = scope->src;
    struct node *root = arena_alloc(c->arena, 1, sizeof *root);
    root->kind = NODE_GUIDE;
    root->scope = scope;
    root->at = (struct span){src, 0, 0};
    if (!merge_check(c->diags, src) || !bounds_check(c->diags, src))
        return NULL;
    cmark_node *tree = parse(src->text);
    struct line_list lines = {0};
    text_lines(c, tree, src->line_count, &lines);
    cmark_node_free(tree);
    r.runs.mask = mask_source(c, src, lines.range, lines.count);
    r.runs.locator.text = r.runs.mask->out->text;
    tree = parse(r.runs.locator.text);
    read_children(&r, tree, 1, root);
    cmark_node_free(tree);
    report_lost(&r);
    *lost = *lost || r.lost;
    return root;
}
