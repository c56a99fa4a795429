/* runs.c - running text with its placeholders -> text and marks, each with its
 * place. */
#include "source/runs.h"

#include "base/arena.h"
#include "base/diag.h"
#include "source/encoding.h"
#include "source/mark.h"
#include "source/mask.h"
#include "stages.h"

struct text_run { /* pieces that become one INLINE_TEXT */
    struct buf copy;
    struct text slice;
    struct span at;
    bool any, copied;
};

static void run_add(struct runs *r, struct text_run *run, struct text piece,
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

struct inlines *runs_add(struct runs *r, struct inlines ***end,
                         enum inline_kind kind, struct span at) {
    struct inlines *i = arena_alloc(r->c->arena, 1, sizeof *i);
    i->kind = kind;
    i->at = at;
    **end = i;
    *end = &i->next;
    return i;
}

static void run_flush(struct runs *r, struct text_run *run,
                      struct inlines ***end) {
    if (!run->any)
        return;
    struct inlines *i = runs_add(r, end, INLINE_TEXT, run->at);
    i->text = run->copied ? buf_as_text(&run->copy) : run->slice;
    *run = (struct text_run){0};
}

/* Entities can name what a source may not hold. Private-use ones are reported
 * where they stand, by mask.c. */
static void check_characters(struct runs *r, struct text t, struct span at) {
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

static void add_piece(struct runs *r, struct text_run *run, struct text piece) {
    if (piece.len == 0)
        return;
    struct located found = locate_text(&r->locator, piece);
    size_t start = mask_to_source(r->mask, found.start);
    size_t end = mask_to_source(r->mask, found.end);
    struct text text =
        found.same
            ? text_part(r->scope->src->text, start, start + piece.len)
            : (struct text){arena_copy(r->c->arena, piece.start, piece.len),
                            piece.len};
    if (!found.same)
        check_characters(r, text, (struct span){r->scope->src, start, end});
    run_add(r, run, text, start, end);
}

static void add_masked(struct runs *r, struct text_run *run,
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
        runs_add(r, end, INLINE_MARK, at)->mark = m;
}

void runs_text(struct runs *r, struct text t, struct inlines ***end) {
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
