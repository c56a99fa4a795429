/* thread_word.c - a thread that is none as it is written: what to write. */
#include "values/thread_word.h"

#include "base/arena.h"
#include "calc/thread.h"

/* As it may have been meant: with a point for a comma; of millimetres with an M
 * in front; of inches without blanks, and a hyphen for the x. */
static struct text meant(struct arena *a, struct text t, bool millimetres,
                         bool inches) {
    struct buf b = buf_in(a);
    buf_puts(&b, millimetres ? "M" : "");
    for (size_t i = 0; i < t.len; i++) {
        char c = t.start[i];
        if (inches && (c == ' ' || c == '"'))
            continue;
        c = c == ',' ? '.' : inches && c == 'x' ? '-' : c;
        buf_add(&b, &c, 1);
    }
    return buf_as_text(&b);
}

const char *thread_word_cure(struct arena *a, struct text name) {
    struct text mm = {NULL, 0}, t = name;
    if (t.len > 2)
        mm = text_part(t, t.len - 2, t.len);
    if (text_is(mm, "mm"))
        t = text_trim(text_part(t, 0, t.len - 2));
    for (int way = 0; way < 3; way++) {
        struct text one = meant(a, t, way == 1, way == 2);
        struct thread found;
        if (thread_read(one.start, one.len, &found) == THREAD_FOUND)
            return arena_printf(a, "write %s", found.name);
    }
    return "write M8 x 1.25, 5/16-18, #10-32, or a tapping screw: ST4.2, #8 AB";
}
