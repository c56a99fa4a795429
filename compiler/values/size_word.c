/* size_word.c - a wire size that is not of its conductor, or of any: what to
 * write. */
#include "values/size_word.h"

#include "base/arena.h"

#include <string.h>

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

const char *size_word_whole(struct arena *a, struct text size,
                            enum wire_system declared) {
    static const char *const before[] = {"", "SAE ", ""};
    static const char *const behind[] = {" AWG", "", " mm2"};
    size_t digits = 0;
    while (digits < size.len &&
           ((size.start[digits] >= '0' && size.start[digits] <= '9') ||
            size.start[digits] == '/' || size.start[digits] == '.'))
        digits++;
    bool named = declared != WIRE_UNDECLARED && digits > 0;
    for (size_t i = 0; named && i < 3; i++) {
        const struct wire_size *one = NULL;
        const char *whole = arena_printf(a, "%s%.*s%s", before[i], (int)digits,
                                         size.start, behind[i]);
        if (size_read(whole, strlen(whole), declared, &one) == SIZE_FOUND)
            return arena_printf(a, "%s, as the conductor is %s", whole,
                                size_system_name(declared));
    }
    return "`conductor: AWG stranded` (or AWG solid, SAE, ISO 6722, class 2, "
           "class 5, JIS, AU) once, in the facts or the guide";
}
