/* other_print.h - a sheet in the hand that is none of the usual prints: a guide
 * for one vehicle, or by another template. */
#ifndef OTHER_PRINT_H
#define OTHER_PRINT_H

#include "command/command.h"
#include "library/issued.h"

/* A guide as it stands, or a revision as it was issued. */
struct other_base {
    const char *path;            /* of the guide */
    const struct issued *issued; /* NULL: as it stands */
};

/* Lays out every base by every template of the library, for each of its
 * vehicles and for all, until one has this code. */
struct other_print {
    size_t base;
    const char *template; /* NULL: the usual one */
    const char *only;     /* NULL: for all */
    bool issued;          /* its revision */
};
bool other_print_find(const struct request *r, const struct other_base *base,
                      size_t count, const char *code, struct other_print *out);

#endif
