/* measured.c - boxes for readings that no row of limits describes. */
#include "checks/measured.h"

#include "base/diag.h"
#include "source/kind.h"
#include "source/suggest.h"
#include "source/tree.h"

static bool has_row(const struct guide *g, struct text id,
                    struct nearest *near) {
    for (size_t i = 0; i < g->block_count; i++) {
        const struct block *b = g->blocks[i];
        if (b->kind->id != KIND_LIMITS)
            continue;
        for (size_t k = 0; k < b->entry_count; k++) {
            const struct cell *cell = tree_cell(b, &b->entries[k], "id");
            if (cell == NULL)
                continue;
            if (text_equal(cell->text, id))
                return true;
            nearest_offer(near, cell->text);
        }
    }
    return false;
}

void measured_find(struct compile *c, const struct guide *g) {
    for (size_t i = 0; i < g->mark_count; i++) {
        const struct mark *m = g->marks[i];
        struct nearest near = nearest_to(text_trim(m->text));
        if (m->kind == MARK_READING && !has_row(g, near.wanted, &near))
            diag_add(c->diags, DIAG_SEE_UNKNOWN, m->at,
                     "'%.*s': no row of limits has this id%s",
                     (int)near.wanted.len, near.wanted.start,
                     suggest(c->arena, near.wanted,
                             (struct text){near.best, near.best_len}));
    }
}
