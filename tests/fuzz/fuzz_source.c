/* fuzz_source.c - any bytes as a whole source: they are read or refused, and
 * what comes of them can be printed. */
#include "base/arena.h"
#include "base/diag.h"
#include "source/dump.h"
#include "source/read.h"
#include "source/tree.h"
#include "stages.h"

#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

/* What every reader of the tree counts on. */
static void check_tree(const struct guide *g) {
    for (size_t i = 0; i < g->node_count; i++) {
        const struct node *n = g->nodes[i];
        if (n->index != i || n->at.start > n->at.end ||
            n->at.end > n->at.src->text.len || n->scope == NULL)
            abort();
        if (n->parent == NULL && n != g->root)
            abort();
        if (n->last != NULL && n->last->next != NULL)
            abort();
        for (const struct node *k = n->first; k != NULL; k = k->next)
            if (k->parent != n || (k->next == NULL && k != n->last))
                abort();
    }
    for (size_t i = 0; i < g->mark_count; i++) {
        const struct mark *m = g->marks[i];
        if (m->index != i || place_text(m->at).start[0] != '{' ||
            m->node == NULL)
            abort();
    }
    for (size_t i = 0; i < g->block_count; i++) {
        const struct block *b = g->blocks[i];
        if (b->index != i || b->node == NULL || b->kind == NULL)
            abort();
        for (size_t k = 0; k < b->entry_count; k++)
            if (b->entries[k].kind == ENTRY_ROW &&
                b->entries[k].cell_count != b->column_count)
                abort();
    }
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size) {
    struct compile c = {.arena = arena_new(), .library = "/nonexistent"};
    c.diags = diag_new(c.arena);
    const char *copy = arena_copy(c.arena, (const char *)data, size);
    const struct guide *g =
        source_read_text(&c, "fuzz.md", (struct text){copy, size});
    check_tree(g);
    FILE *out = fopen("/dev/null", "w");
    if (out != NULL) {
        tree_dump(g, out);
        diag_print(c.diags, out, false);
        fclose(out);
    }
    arena_free(c.arena);
    return 0;
}
