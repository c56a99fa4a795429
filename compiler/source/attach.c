/* attach.c - marks at the start of a heading, paragraph or step are its own. */
#include "source/attach.h"

#include "base/arena.h"
#include "base/diag.h"
#include "base/list.h"
#include "source/mark.h"
#include "stages.h"

#include <string.h>

static bool is_blank(char c) {
    return c == ' ' || c == '\t' || c == '\n' || c == '\r';
}

/* Blanks between marks, and between the last one and the text, do not print. */
static struct inlines *without_blanks(struct inlines *i) {
    while (i != NULL) {
        if (i->kind == INLINE_TEXT) {
            while (i->text.len > 0 && is_blank(i->text.start[0])) {
                i->text.start++;
                i->text.len--;
                i->at.start++;
            }
            if (i->text.len > 0)
                return i;
        } else if (i->kind != INLINE_SPACE && i->kind != INLINE_BREAK) {
            return i;
        }
        i = i->next;
    }
    return NULL;
}

static void report_misplaced(struct compile *c, const struct inlines *list) {
    for (const struct inlines *i = list; i != NULL; i = i->next) {
        if (i->kind == INLINE_MARK && mark_leads(i->mark->kind))
            mark_misplaced(c, i->mark);
        report_misplaced(c, i->first);
    }
}

/* Two of them would leave what is in both. */
static void report_second_for(struct compile *c, const struct node *n) {
    bool one = false;
    for (size_t i = 0; i < n->mark_count; i++) {
        if (n->marks[i]->kind != MARK_FOR)
            continue;
        if (one)
            diag_add(c->diags, DIAG_MARK_SURPLUS, n->marks[i]->at,
                     "one 'for' names all variants, with commas");
        one = true;
    }
}

void attach_marks(struct compile *c, struct node *n) {
    size_t room = 0;
    struct inlines *i = n->text;
    while (i != NULL && i->kind == INLINE_MARK && mark_leads(i->mark->kind)) {
        n->marks = list_grown(c->arena, n->marks, n->mark_count, &room,
                              sizeof(struct mark *));
        n->marks[n->mark_count++] = i->mark;
        i = without_blanks(i->next);
    }
    n->text = i;
    report_second_for(c, n);
    report_misplaced(c, i);
    bool step = n->kind == NODE_PARAGRAPH && n->parent != NULL &&
                n->parent->kind == NODE_STEP && n->parent->first == n;
    if (n->mark_count > 0 && i == NULL && !step)
        diag_add(c->diags, DIAG_MARK_ALONE, n->marks[0]->at,
                 "write it at the start of the text that it is about");
}

void attach_step(struct compile *c, struct node *step) {
    struct node *first = step->first;
    if (first != NULL && first->kind == NODE_PARAGRAPH) {
        step->marks = first->marks;
        step->mark_count = first->mark_count;
        first->marks = NULL;
        first->mark_count = 0;
        if (first->text == NULL) {
            step->first = first->next;
            if (step->last == first)
                step->last = NULL;
        }
    }
    if (step->first == NULL)
        diag_add(c->diags, DIAG_STEP_EMPTY, step->at, "a step says what to do");
}
