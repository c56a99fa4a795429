/* spelling.c - texts of the author's own that are nearly known ones.
 *
 * `condition` and `pattern` of a joint may say anything; some of what they say
 * is known, and means more. */
#include "values/spelling.h"

#include "base/arena.h"
#include "base/diag.h"
#include "source/suggest.h"

enum { ONE_SLIP = 2 }; /* an edit counts 2 */

/* Each letter that is not of ASCII as one byte, so that it counts as one slip:
 * a blank that cannot be seen, a letter that only looks like another. */
static struct text by_letters(struct values *v, struct text t) {
    struct buf b = buf_in(v->c->arena);
    for (size_t i = 0; i < t.len;) {
        uint32_t code = text_next(t, &i);
        char c = code < 0x80 ? (char)code : '?';
        buf_add(&b, &c, 1);
    }
    return buf_as_text(&b);
}

bool spelling_check(struct values *v, struct span at, struct text written,
                    const char *(*known)(size_t index)) {
    struct nearest near = nearest_to(by_letters(v, written));
    const char *one;
    for (size_t i = 0; (one = known(i)) != NULL; i++)
        nearest_offer(&near, text_of(one));
    if (near.best == NULL || near.distance == 0 || near.distance > ONE_SLIP ||
        written.len < 4)
        return true;
    diag_add(
        v->c->diags, DIAG_CHOICE_UNKNOWN, at, "'%.*s'%s", (int)written.len,
        written.start,
        suggest(v->c->arena, written, (struct text){near.best, near.best_len}));
    return false;
}
