/* command_why.c - why: how a value came about, in each variant. */
#include "base/arena.h"
#include "base/diag.h"
#include "command/command.h"
#include "library/guidework.h"
#include "library/shelf.h"
#include "source/tree.h"
#include "values/figure.h"
#include "values/working.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const struct named *find_value(const struct guidework *w,
                                      const char *name, struct nearest *near) {
    for (size_t i = 0; i < values_count(w->values); i++) {
        const struct named *n = values_at(w->values, i);
        if (text_is(n->name, name)) {
            values_demand(w->values, i);
            return n;
        }
        nearest_offer(near, n->name);
        if (n->block != NULL)
            nearest_offer(near, n->block->name);
    }
    return NULL;
}

static const char *explanation(const struct request *r,
                               const struct guidework *w, const struct named *n,
                               size_t variant) {
    char *text = NULL;
    size_t len = 0;
    FILE *out = open_memstream(&text, &len);
    if (out == NULL)
        arena_exhausted();
    working_explain(w->values, r->arena, n, variant, out);
    if (fclose(out) != 0)
        arena_exhausted();
    const char *copy = arena_copy(r->arena, text, len);
    free(text);
    return copy;
}

/* Variants in which it came about alike are told once, by name where there are
 * others. */
static void explain(const struct request *r, const struct guidework *w,
                    const struct named *n) {
    const struct variant *list;
    size_t count = values_variants(w->values, &list);
    variant_set applies = values_applies(w->values), left = applies;
    const char **text = arena_alloc(r->arena, count, sizeof(*text));
    for (size_t i = 0; i < count; i++)
        if (applies >> i & 1)
            text[i] = explanation(r, w, n, i);
    for (size_t i = 0; i < count; i++) {
        variant_set alike = 0;
        for (size_t k = i; k < count; k++)
            if ((left >> i & 1) != 0 && (left >> k & 1) != 0 &&
                strcmp(text[i], text[k]) == 0)
                alike |= (variant_set)1 << k;
        if (alike == 0)
            continue;
        printf("%s%.*s", left == applies ? "" : "\n", (int)n->name.len,
               n->name.start);
        if (alike != applies)
            printf(" [%s]", values_variant_names(w->values, r->arena, alike));
        printf(" = %s", text[i]);
        left &= ~alike;
    }
}

static bool is_of_block(struct text name, struct text block) {
    return name.len > block.len + 1 && name.start[block.len] == '.' &&
           text_equal(text_part(name, 0, block.len), block);
}

/* The values of a block, or of names with this first word; how many. */
static size_t list_block(const struct request *r, const struct guidework *w,
                         struct text block) {
    variant_set applies = values_applies(w->values);
    size_t count = 0;
    for (size_t i = 0; i < values_count(w->values); i++) {
        const struct named *n = values_at(w->values, i);
        if (!is_of_block(n->name, block))
            continue;
        values_demand(w->values, i);
        const char *text =
            values_print_over(w->values, r->arena, n, applies, PRINT_RANGE);
        if (text == NULL)
            continue;
        printf("%.*s = ", (int)n->name.len, n->name.start);
        figure_write(stdout, text);
        putchar('\n');
        count++;
    }
    return count;
}

int command_why(const struct request *r) {
    const char *root = shelf_root_of(r->arena, r->root, r->word[0]);
    const char *path = shelf_guide(r->arena, root, r->word[0]);
    struct guidework *w = guidework_run(root, path, STAGE_VALUES, &r->layout);
    diag_print(w->compile.diags, stderr, r->colour);
    int status = guidework_status(w);
    if (w->values != NULL) {
        struct nearest near = nearest_to(text_of(r->word[1]));
        const struct named *n = find_value(w, r->word[1], &near);
        if (n != NULL)
            explain(r, w, n);
        else if (list_block(r, w, text_of(r->word[1])) > 0)
            status = guidework_status(w);
        else if (near.best != NULL)
            status =
                command_usage("%s has no value '%s' (did you mean "
                              "'%.*s'?)",
                              path, r->word[1], (int)near.best_len, near.best);
        else
            status = command_usage("%s has no value '%s'; see 'bayleaf dump "
                                   "values'",
                                   path, r->word[1]);
    }
    guidework_end(w);
    return status;
}
