/* size_word.c - a wire size that is not of its conductor: what to write. */
#include "values/size_word.h"

#include "base/arena.h"

const char *size_word_cure(struct arena *a, struct text size,
                           enum wire_system declared, const char *where) {
    struct buf b = buf_in(a);
    size_t systems = 0;
    double area = 0; /* of the systems' the largest */
    for (int s = 0; s < WIRE_SYSTEMS; s++) {
        const struct wire_size *one = NULL;
        if (size_read(size.start, size.len, (enum wire_system)s, &one) !=
            SIZE_FOUND)
            continue;
        buf_printf(&b, "%s%s",
                   systems == 0   ? "; write conductor: "
                   : systems == 1 ? ", or "
                                  : ", ",
                   size_system_name((enum wire_system)s));
        systems++;
        area = one->area > area ? one->area : area;
    }
    if (systems == 0)
        return "";
    buf_printf(&b, ", %s", where);
    const struct wire_size *next = size_of_area(declared, area);
    if (next != NULL)
        buf_printf(&b, "; or %s, the next that is no thinner", next->label);
    return buf_cstr(&b);
}
