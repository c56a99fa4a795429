/* circuit_shown.c - what stands beside an element in the drawing of its
 * circuit.
 */
#include "values/circuit_shown.h"

#include "base/arena.h"
#include "values/circuit_part.h"
#include "values/circuit_solve.h"

/* Texts by variant, each once. */
struct texts {
    const char *text[64];
    variant_set set[64];
    size_t count;
};

static void add(struct texts *t, const char *text, size_t variant) {
    variant_set bit = (variant_set)1 << variant;
    for (size_t i = 0; i < t->count; i++)
        if (text_equal(text_of(t->text[i]), text_of(text))) {
            t->set[i] |= bit;
            return;
        }
    t->text[t->count] = text;
    t->set[t->count++] = bit;
}

/* "10 AWG" is not parted. */
static const char *held(struct arena *a, const char *label) {
    struct buf b = buf_in(a);
    for (; *label != '\0'; label++)
        buf_add(&b, *label == ' ' ? "\xC2\xA0" : label, *label == ' ' ? 2 : 1);
    return buf_cstr(&b);
}

static const char *joined(const struct values *v, struct arena *a,
                          const struct texts *t) {
    struct buf b = buf_in(a);
    for (size_t i = 0; i < t->count; i++) {
        if (i > 0)
            buf_printf(&b, "; %s: ", values_variant_names(v, a, t->set[i]));
        buf_puts(&b, t->text[i]);
    }
    return t->count == 0 ? NULL : buf_cstr(&b);
}

/* The least and the most of a figure over the variants. */
struct extent {
    const struct quantity *low, *high;
};

static void widen(struct extent *e, const struct quantity *q) {
    if (q == NULL)
        return;
    if (e->low == NULL || q->nominal < e->low->nominal)
        e->low = q;
    if (e->high == NULL || q->nominal > e->high->nominal)
        e->high = q;
}

static const char *extent_words(struct arena *a, const struct extent *e) {
    if (e->low == NULL)
        return NULL;
    const char *low = figure_of(a, e->low, FIGURE_PLAIN);
    const char *high = figure_of(a, e->high, FIGURE_PLAIN);
    return text_equal(text_of(low), text_of(high))
               ? low
               : arena_printf(a, "%s to %s", low, high);
}

static const struct quantity *current_of(const struct circuit_piece *p) {
    bool coil = p->element->part == CIRCUIT_COIL;
    if ((p->element->part != CIRCUIT_LOAD && !coil) || p->figure_count < 2)
        return NULL;
    return p->figure[0];
}

struct circuit_shown circuit_shown(const struct values *v, struct arena *a,
                                   const struct block *b, size_t element,
                                   variant_set set) {
    struct texts size = {.count = 0}, rating = {.count = 0};
    struct extent length = {NULL, NULL}, current = {NULL, NULL};
    for (size_t k = 0; k < v->variant_count; k++) {
        const struct circuit_work *w = v->of_block[b->index].circuit == NULL
                                           ? NULL
                                           : v->of_block[b->index].circuit[k];
        if ((set >> k & 1) == 0 || w == NULL)
            continue;
        const struct circuit_piece *p = &w->part[element];
        if (p->element == NULL || p->law == LAWS)
            continue; /* not for this variant */
        if (p->run != NULL) {
            add(&size, held(a, p->run->ampacity.use.size->label), k);
            widen(&length, p->figure[0]);
        }
        if (p->rating != NULL)
            add(&rating, figure_of(a, p->rating, FIGURE_PLAIN), k);
        widen(&current, current_of(p));
    }
    return (struct circuit_shown){joined(v, a, &size), extent_words(a, &length),
                                  joined(v, a, &rating),
                                  extent_words(a, &current)};
}
