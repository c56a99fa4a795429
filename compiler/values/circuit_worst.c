/* circuit_worst.c - the state of a circuit in which a part carries most. */
#include "values/circuit_worst.h"

#include "base/arena.h"
#include "values/range.h"

#include <math.h>

const struct quantity *circuit_worst_figure(const struct circuit_work *w,
                                            size_t part, size_t state,
                                            const char *what) {
    struct arena *a = w->v->c->arena;
    const struct block *b = w->b;
    struct text name = b->circuit->state[state].id;
    const char *id = w->part[part].name;
    const char *full =
        state == 0 /* which needs no name */
            ? arena_printf(a, "%.*s.%s.%s", (int)b->name.len, b->name.start, id,
                           what)
            : arena_printf(a, "%.*s.%.*s.%s.%s", (int)b->name.len,
                           b->name.start, (int)name.len, name.start, id, what);
    struct slot *s = names_find(w->v, b->scope, text_of(full));
    if (s == NULL)
        return NULL;
    const struct value *value = evaluate_slot(w->v, s, w->variant);
    return value->type == VALUE_QUANTITY ? value->quantity : NULL;
}

static double size_of(const struct quantity *q) {
    struct ends e = range_ends(q);
    return fmax(fabs(e.low), fabs(e.high));
}

bool circuit_worst_is_short(const struct circuit_state *s) {
    for (size_t i = 0; i < s->set_count; i++)
        if (text_is(s->set[i].word, "starting") ||
            text_is(s->set[i].word, "stalled"))
            return true;
    return false;
}

static struct circuit_worst find_worst(const struct circuit_work *w,
                                       size_t part) {
    struct circuit_worst worst = {NULL, 0};
    for (size_t s = 0; s < w->c->state_count; s++) {
        if (circuit_worst_is_short(&w->c->state[s]))
            continue;
        const struct quantity *q = circuit_worst_figure(w, part, s, "current");
        if (q == NULL ||
            (worst.current != NULL && size_of(q) <= size_of(worst.current)))
            continue;
        worst = (struct circuit_worst){q, s};
    }
    if (worst.current != NULL)
        worst.current = quantity_abs(&w->v->maker, worst.current);
    return worst;
}

struct circuit_worst circuit_worst_of(const struct circuit_work *w,
                                      size_t part) {
    struct circuit_worst **known = &w->worst[part];
    if (*known == NULL) {
        *known = arena_alloc(w->v->c->arena, 1, sizeof **known);
        **known = find_worst(w, part);
    }
    return **known;
}

const char *circuit_worst_words(const struct circuit_work *w, size_t state) {
    struct text name = w->c->state[state].name;
    return name.len == 0 ? ""
                         : arena_printf(w->v->c->arena, ", %.*s", (int)name.len,
                                        name.start);
}
