/* spelling.c - texts of the author's own that are nearly known ones.
 *
 * `condition` and `pattern` of a joint may say anything; some of what they say
 * is known, and means more. */
#include "values/spelling.h"

#include "base/diag.h"
#include "source/suggest.h"

enum { ONE_SLIP = 2 }; /* an edit counts 2 */

bool spelling_check(struct values *v, struct span at, struct text written,
                    const char *(*known)(size_t index)) {
    struct nearest near = nearest_to(written);
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
