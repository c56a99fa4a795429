/* template.c - what a template may hold beside its blocks. */
#include "source/template.h"

#include "base/diag.h"
#include "source/tree.h"
#include "stages.h"

static void refuse(struct compile *c, struct span at, const char *what) {
    diag_add(c->diags, DIAG_TEMPLATE_FORM, at, "%s", what);
}

static void check_node(struct compile *c, const struct node *n) {
    if (n->kind == NODE_STEPS)
        refuse(c, n->at, "steps belong to guides; use a list with '-'");
    else if (tree_image(n) != NULL)
        refuse(c, n->at, "an image; the logo is a setting of 'page'");
}

static void check_block(struct compile *c, const struct block *b) {
    for (size_t i = 0; i < b->entry_count; i++)
        for (size_t k = 0; k < b->entries[i].choice_count; k++) {
            const struct tags *tags = &b->entries[i].choices[k].tags;
            if (tags->count > 0)
                refuse(c, tags->at, "it serves all vehicles alike");
        }
}

void template_check(struct compile *c, const struct guide *t) {
    for (size_t i = 0; i < t->mark_count; i++)
        refuse(c, t->marks[i]->at, "values and marks belong to guides");
    for (size_t i = 0; i < t->node_count; i++)
        check_node(c, t->nodes[i]);
    for (size_t i = 0; i < t->block_count; i++)
        check_block(c, t->blocks[i]);
}
