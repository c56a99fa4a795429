/* order.c - which guide is done before which. */
#include "library/order.h"

#include "base/arena.h"

/* A guide that one comes after, among those that are left; NULL: it may begin.
 */
static const struct census_guide *first_before(const struct census *s,
                                               const struct census_guide *g,
                                               const bool *left) {
    for (size_t i = 0; i < g->tie_count; i++) {
        const struct census_guide *other = census_guide_of(s, g->tie[i].id);
        if (g->tie[i].after && other != NULL && left[other - s->guide])
            return other;
    }
    for (size_t i = 0; i < s->guide_count; i++)
        for (size_t k = 0; left[i] && k < s->guide[i].tie_count; k++)
            if (!s->guide[i].tie[k].after &&
                text_is(g->now.id, s->guide[i].tie[k].id))
                return &s->guide[i];
    return NULL;
}

/* Those that may begin are taken away, and those that only waited for them;
 * each that is left waits for another that is. */
static size_t take_away(const struct census *s, bool *left) {
    size_t count = s->guide_count, before;
    do {
        before = count;
        for (size_t i = 0; i < s->guide_count; i++)
            if (left[i] && first_before(s, &s->guide[i], left) == NULL) {
                left[i] = false;
                count--;
            }
    } while (count < before);
    return count;
}

struct circle order_circle(const struct census *s) {
    bool *left = arena_alloc(s->arena, s->guide_count + 1, sizeof *left);
    struct circle c = {NULL, 0};
    for (size_t i = 0; i < s->guide_count; i++)
        left[i] = true;
    if (take_away(s, left) == 0)
        return c;
    size_t first = 0;
    while (!left[first])
        first++;
    /* As many steps back as there are guides end in a circle. */
    const struct census_guide *g = &s->guide[first];
    for (size_t i = 0; i < s->guide_count; i++)
        g = first_before(s, g, left);
    const struct census_guide *least = g, *at = g;
    do {
        if (text_compare(at->now.id, least->now.id) < 0)
            least = at;
        at = first_before(s, at, left);
        c.count++;
    } while (at != g);
    /* They are met from the last to the first. */
    c.guide = arena_alloc(s->arena, c.count, sizeof(*c.guide));
    c.guide[0] = at = least;
    for (size_t i = c.count; --i > 0;)
        c.guide[i] = at = first_before(s, at, left);
    return c;
}

const char *order_words(struct arena *a, const struct circle *c) {
    struct buf b = buf_in(a);
    for (size_t i = 0; i < c->count; i++) {
        buf_puts(&b, i == 0 ? "" : ", ");
        buf_text(&b, c->guide[i]->now.id);
    }
    return buf_cstr(&b);
}
