/* leads.c - names of steps are their own, and references lead somewhere. */
#include "checks/leads.h"

#include "base/diag.h"
#include "source/landmark.h"
#include "source/suggest.h"

#include <string.h>

static const char nothing[] = ": no step, reading, table, figure or section";

struct leads {
    struct compile *c;
    const struct landmarks *known;
};

/* One of another place; the same one twice is a shared file used twice. */
static bool is_other(const struct landmark *a, const struct landmark *b) {
    return a->at.start != b->at.start ||
           strcmp(a->at.src->path, b->at.src->path) != 0;
}

static void check_steps(const struct leads *k) {
    const struct landmark *first = NULL;
    for (size_t i = 0; i < k->known->count; i++) {
        const struct landmark *one = &k->known->list[i];
        if (one->kind != LANDMARK_STEP)
            continue;
        if (first == NULL || !text_equal(first->name, one->name)) {
            first = one;
        } else if (is_other(first, one)) {
            diag_add(k->c->diags, DIAG_NAME_TWICE, one->at, "step '%.*s'",
                     (int)one->name.len, one->name.start);
            diag_note(k->c->diags, first->at, "the other one is here");
        }
    }
}

/* Looks like the number of a guide: letters first, a figure in it. */
static bool is_number(struct text name) {
    bool figure = false;
    for (size_t i = 0; i < name.len; i++)
        figure |= name.start[i] >= '0' && name.start[i] <= '9';
    return figure && name.len > 0 && name.start[0] >= 'A' &&
           name.start[0] <= 'Z';
}

static void check_see(const struct leads *k, const struct mark *see) {
    struct text name = text_trim(see->text);
    if (landmark_find(k->known, name, see->scope) != NULL)
        return;
    struct text near = landmark_nearest(k->known, name, false);
    diag_add(k->c->diags, DIAG_SEE_UNKNOWN, see->at, "'%.*s'%s%s",
             (int)name.len, name.start,
             near.len > 0 ? suggest(k->c->arena, name, near) : nothing,
             is_number(name) ? "; the number of another guide stands under "
                               "'references', 'after' or 'before' as well"
                             : "");
}

static void check_links(const struct leads *k, const struct inlines *list,
                        const struct scope *from) {
    for (const struct inlines *i = list; i != NULL; i = i->next) {
        check_links(k, i->first, from);
        if (i->kind != INLINE_LINK || !text_starts(i->url, "#"))
            continue;
        struct text name = text_part(i->url, 1, i->url.len);
        if (name.len == 0 || landmark_link(k->known, name, from) != NULL)
            continue; /* a bare # was refused as an address */
        struct text near = landmark_nearest(k->known, name, true);
        diag_add(k->c->diags, DIAG_SEE_UNKNOWN, i->at, "'#%.*s'%s",
                 (int)name.len, name.start,
                 near.len > 0 ? suggest(k->c->arena, name, near) : nothing);
    }
}

static void check_mark(const struct leads *k, const struct mark *m) {
    if (m->kind == MARK_SEE)
        check_see(k, m);
    else if (m->kind == MARK_STEP && tree_step(m->node) == NULL)
        diag_add(k->c->diags, DIAG_MARK_MISPLACED, m->at,
                 "'step' stands at the start of a numbered step");
}

void leads_check(struct compile *c, const struct guide *g) {
    struct leads k = {c, landmark_collect(c->arena, g)};
    check_steps(&k);
    for (size_t i = 0; i < g->mark_count; i++)
        check_mark(&k, g->marks[i]);
    check_links(&k, g->title_text, g->root->scope);
    for (size_t i = 0; i < g->node_count; i++)
        check_links(&k, g->nodes[i]->text, g->nodes[i]->scope);
}
