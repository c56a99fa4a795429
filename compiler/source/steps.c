/* steps.c - one list of steps, numbered through the guide.
 *
 * To Markdown a block at the left margin ends a list. Here it belongs to the
 * step that comes next, and the list goes on. */
#include "source/steps.h"

#include "base/arena.h"
#include "base/diag.h"
#include "stages.h"

/* The list that goes on behind `n`, if nothing but blocks stands between. */
static struct node *list_after(const struct node *n) {
    struct node *k = n->next;
    while (k != NULL && k->kind == NODE_BLOCK)
        k = k->next;
    return k != NULL && k->kind == NODE_STEPS ? k : NULL;
}

/* Moves the nodes from `first` up to `end` to the start of the step. */
static void put_before(struct node *step, struct node *first,
                       struct node *end) {
    if (first == end)
        return;
    struct node *last = first;
    for (struct node *k = first; k != end; k = k->next) {
        k->parent = step;
        last = k;
    }
    last->next = step->first;
    if (step->first == NULL)
        step->last = last;
    step->first = first;
}

static void join_lists(struct node *parent) {
    for (struct node *n = parent->first; n != NULL; n = n->next) {
        struct node *more = NULL;
        while (n->kind == NODE_STEPS && (more = list_after(n)) != NULL) {
            struct node *step = more->first;
            put_before(step, n->next, more);
            for (struct node *k = step; k != NULL; k = k->next)
                k->parent = n;
            n->last->next = step;
            n->last = more->last;
            n->at.end = more->at.src == n->at.src ? more->at.end : n->at.end;
            n->next = more->next;
            if (parent->last == more)
                parent->last = n;
        }
    }
    for (struct node *n = parent->first; n != NULL; n = n->next)
        join_lists(n);
}

struct numbering {
    struct compile *c;
    size_t top; /* steps of the first level so far, in the guide */
};

/* a to z, then aa, ab ... */
static const char *letters(struct compile *c, size_t n) {
    char out[16];
    size_t at = sizeof out;
    out[--at] = '\0';
    for (; n > 0; n = (n - 1) / 26)
        out[--at] = (char)('a' + (n - 1) % 26);
    return arena_printf(c->arena, "%s", out + at);
}

static const char *number_text(struct numbering *g, const char *above,
                               int level, size_t n) {
    if (level == 1)
        return arena_printf(g->c->arena, "%zu", n);
    if (level == 2)
        return arena_printf(g->c->arena, "%s.%zu", above, n);
    return arena_printf(g->c->arena, "%s%s", above, letters(g->c, n));
}

/* Counts on in `count` through all the lists of one step. */
static void number(struct numbering *g, struct node *parent, const char *above,
                   int level, size_t *count) {
    for (struct node *n = parent->first; n != NULL; n = n->next) {
        if (n->kind != NODE_STEP) {
            number(g, n, above, level, count);
            continue;
        }
        if (level > STEPS_LEVELS) {
            diag_add(g->c->diags, DIAG_STEPS_DEEP, n->at,
                     "steps have at most %d levels", (int)STEPS_LEVELS);
            return;
        }
        size_t below = 0;
        n->number = number_text(g, above, level, ++*count);
        number(g, n, n->number, level + 1, &below);
    }
}

void steps_number(struct compile *c, struct node *root) {
    struct numbering g = {c, 0};
    join_lists(root);
    number(&g, root, "", 1, &g.top);
}
