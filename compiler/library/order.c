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

size_t order_circle(const struct census *s, const struct census_guide **list) {
    bool *left = arena_alloc(s->arena, s->guide_count + 1, sizeof *left);
    for (size_t i = 0; i < s->guide_count; i++)
        left[i] = true;
    if (take_away(s, left) == 0)
        return 0;
    size_t first = 0, count = 0;
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
    } while (at != g);
    at = least;
    do {
        list[count++] = at;
        at = first_before(s, at, left);
    } while (at != least);
    /* They were met from the last to the first. */
    for (size_t i = 1; i < count - i; i++) {
        const struct census_guide *swap = list[i];
        list[i] = list[count - i];
        list[count - i] = swap;
    }
    return count;
}
