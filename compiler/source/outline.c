/* outline.c - title and sections. */
#include "source/outline.h"

#include "base/diag.h"
#include "source/mark.h"
#include "source/reading.h"
#include "stages.h"

/* Of {24 V} what is between the braces: what prints is worked out later. */
static struct text inside(struct text mark) {
    return mark.len < 2 ? mark : text_trim(text_part(mark, 1, mark.len - 1));
}

static void add_plain(struct buf *b, const struct inlines *list) {
    for (const struct inlines *i = list; i != NULL; i = i->next) {
        if (i->kind == INLINE_SPACE || i->kind == INLINE_BREAK)
            buf_puts(b, " ");
        else if (i->kind == INLINE_MARK)
            buf_text(b, inside(place_text(i->at)));
        else
            buf_text(b, i->text);
        add_plain(b, i->first);
    }
}

static void take_title(struct reading *r, struct node *heading) {
    struct guide *g = r->guide;
    if (g->title_text != NULL) {
        diag_add(r->c->diags, DIAG_TITLE_TWICE, heading->at,
                 "a section begins with '##'");
        return;
    }
    for (size_t i = 0; i < heading->mark_count; i++)
        diag_add(r->c->diags, DIAG_MARK_MISPLACED, heading->marks[i]->at,
                 "'%s' cannot stand in the title",
                 mark_word(heading->marks[i]->kind));
    struct buf plain = buf_in(r->c->arena);
    add_plain(&plain, heading->text);
    g->title = text_squeezed(r->c->arena, buf_as_text(&plain));
    g->title_text = heading->text;
}

static void append(struct node *parent, struct node *n) {
    n->parent = parent;
    n->next = NULL;
    if (parent->last == NULL)
        parent->first = n;
    else
        parent->last->next = n;
    parent->last = n;
}

/* A heading in a list or quotation would end nothing and begin nothing. */
static void refuse_headings(struct reading *r, const struct node *n) {
    for (const struct node *k = n->first; k != NULL; k = k->next) {
        if (k->kind == NODE_HEADING)
            diag_add(r->c->diags, DIAG_HEADING_PLACE, k->at,
                     "a heading stands at the left margin");
        refuse_headings(r, k);
    }
}

void outline_make(struct reading *r) {
    struct node *root = r->guide->root, *section = root, *next;
    struct node *n = root->first;
    root->first = root->last = NULL;
    for (; n != NULL; n = next) {
        next = n->next;
        if (n->kind != NODE_HEADING) {
            refuse_headings(r, n);
            append(section, n);
        } else if (n->level == 1) {
            take_title(r, n);
        } else if (n->level == 2) {
            n->kind = NODE_SECTION;
            append(root, n);
            section = n;
        } else {
            append(section, n);
        }
    }
    if (r->guide->title.len == 0)
        diag_add(r->c->diags, DIAG_TITLE_MISSING,
                 (struct span){r->guide->src, 0, 0},
                 "begin with '# ', a verb and its object");
}
