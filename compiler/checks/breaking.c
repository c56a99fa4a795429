/* breaking.c - whose figure it is that a fuse breaks so much. */
#include "checks/breaking.h"

#include "base/diag.h"
#include "checks/deference.h"
#include "source/circuit_tree.h"
#include "source/kind.h"
#include "values/quantity.h"

static void ask(struct compile *c, struct span at, struct text name,
                const char *figure) {
    diag_add(c->diags, DIAG_FLAG_RELEASED, at,
             "nobody is named who says what %.*s breaks; write the source in "
             "quotes behind it: %s \"maker's sheet\"",
             (int)name.len, name.start, figure);
    diag_note(c->diags, (struct span){0},
              "rule source: common practice, no source");
}

/* A fact that it names may have the source. */
static bool has_source(const struct values *v, const struct block *b,
                       const struct entry *e) {
    const struct named *n = values_of(v, b, "interrupt");
    const struct value *value =
        n == NULL ? NULL : &n->by_variant[values_first(v)];
    return e->note.len > 0 || (value != NULL && value->type == VALUE_QUANTITY &&
                               value->quantity->note.len > 0);
}

static bool states_figure(struct text word) {
    return text_starts(word, "breaks ") && word.start[7] >= '0' &&
           word.start[7] <= '9';
}

/* Of a breaker as of a fuse: nothing else breaks a stated current. */
static void check_circuit(struct compile *c, const struct circuit *k) {
    for (size_t i = 0; i < k->element_count; i++) {
        const struct circuit_element *e = &k->element[i];
        for (size_t n = 0; n < e->word_count && e->note.len == 0; n++)
            if (states_figure(e->word[n])) {
                ask(c, e->at, e->name, "breaks 2 kA");
                break;
            }
    }
}

void breaking_check(struct compile *c, const struct guide *g,
                    const struct values *v) {
    if (!deference_is_released(g))
        return;
    for (size_t i = 0; i < g->block_count; i++) {
        const struct block *b = g->blocks[i];
        const struct entry *e =
            b->kind->id == KIND_FUSE ? tree_setting(b, "interrupt") : NULL;
        if (e != NULL && !has_source(v, b, e))
            ask(c, e->at, b->name.len > 0 ? b->name : text_of("each fuse"),
                "interrupt: 2 kA");
        if (b->circuit != NULL)
            check_circuit(c, b->circuit);
    }
}
