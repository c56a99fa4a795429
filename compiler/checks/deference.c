/* deference.c - work that is left to others: who may do it, and who may not. */
#include "checks/deference.h"

#include "source/kind.h"
#include "source/tree.h"

bool deference_is_released(const struct guide *g) {
    const struct entry *e =
        g->identity == NULL ? NULL : tree_setting(g->identity, "status");
    return e != NULL && e->choice_count > 0 &&
           text_is(text_trim(e->choices[0].text), "released");
}

enum diag_id deference_flag(const struct guide *g) {
    return deference_is_released(g) ? DIAG_FLAG_RELEASED : DIAG_FLAG_DRAFT;
}

const struct mark *deference_mark(const struct node *n, enum mark_kind kind) {
    for (; n != NULL; n = n->parent)
        for (size_t i = 0; i < n->mark_count; i++)
            if (n->marks[i]->kind == kind)
                return n->marks[i];
    return NULL;
}

static bool lies_within(const struct node *n, const struct node *outer) {
    while (n != NULL && n != outer)
        n = n->parent;
    return n != NULL;
}

struct deference deference_of(const struct findings *f,
                              const struct node *step) {
    const struct mark *defer = deference_mark(step, MARK_DEFER);
    struct deference d = {
        .who = defer == NULL ? (struct text){NULL, 0} : text_trim(defer->text),
        .shop_only = deference_mark(step, MARK_SHOP_ONLY) != NULL};
    for (size_t i = 0; i < f->deferral_count; i++) {
        const struct deferral *one = &f->deferral[i];
        if (!lies_within(step, one->step))
            continue;
        d.row = one->row;
        d.shop_only |= one->shop_only;
        if (d.who.start == NULL)
            d.who = text_of(one->who);
    }
    return d;
}

bool deference_is_for_owner(const struct node *n) {
    const struct node *section = tree_section(n);
    return section != NULL && section->text != NULL &&
           text_is(section->text->text, "For the owner");
}

bool deference_is_plain(const struct node *n) {
    return n->kind == NODE_PARAGRAPH && tree_step(n) == NULL;
}

/* What would be read by the wrong one. */
static void check_reader(struct compile *c, const struct mark *m) {
    bool owner = deference_is_for_owner(m->node);
    if (m->kind == MARK_OWNER_ONLY && !owner)
        diag_add(c->diags, DIAG_MARK_MISPLACED, m->at,
                 "'owner only' stands under '## For the owner', which is what "
                 "the owner gets; move it there");
    else if (m->kind == MARK_SHOP_ONLY && owner)
        diag_add(c->diags, DIAG_MARK_MISPLACED, m->at,
                 "'shop only' stands under '## For the owner', which is what "
                 "the owner gets; move it to another section");
}

/* The row that a paragraph's own marks call for and no owner may meet. */
static const struct hazard *row_of_marks(const struct catalogue *k,
                                         const struct node *n) {
    for (size_t m = 0; m < n->mark_count; m++)
        for (size_t w = 0;
             n->marks[m]->kind == MARK_TOUCHES && w < n->marks[m]->list.count;
             w++)
            for (size_t i = 0; i < k->count; i++)
                if ((k->row[i].shop_only || k->row[i].defer != NULL) &&
                    catalogue_lists(&k->row[i].tags, n->marks[m]->list.tag[w]))
                    return &k->row[i];
    return NULL;
}

static void refuse(struct compile *c, const struct node *n, const char *row) {
    diag_add(c->diags, DIAG_OWNER_TASK, n->at,
             "%s; mark it {defer TRADE}, so that it says who does it, or take "
             "it out of the owner's text",
             row);
}

void deference_check(struct compile *c, const struct guide *g,
                     const struct catalogue *k, const struct findings *f) {
    for (size_t i = 0; i < g->mark_count; i++)
        check_reader(c, g->marks[i]);
    for (size_t i = 0; i < g->node_count; i++) {
        const struct node *n = g->nodes[i];
        if ((n->kind != NODE_STEP && !deference_is_plain(n)) ||
            !deference_is_for_owner(n) || deference_mark(n, MARK_DEFER) != NULL)
            continue;
        const struct hazard *h = row_of_marks(k, n);
        struct deference d = deference_of(f, n);
        if (d.row != NULL || h != NULL)
            refuse(c, n, d.row != NULL ? d.row : h->id);
    }
}
