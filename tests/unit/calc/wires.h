/* wires.h - wires to test with. */
#ifndef WIRES_H
#define WIRES_H

#include "calc/ampacity.h"

#include "check.h"

static inline const struct wire_size *wire(const char *text,
                                           enum wire_system system) {
    const struct wire_size *s = NULL;
    if (size_read(text, strlen(text), system, &s) != SIZE_FOUND)
        fail_msg("no size '%s'", text);
    return s;
}

static inline const struct wire_size *awg(const char *text) {
    return wire(text, WIRE_AWG_STRANDED);
}

static inline struct ampacity ampacity(enum ampacity_table table,
                                       const struct wire_size *s,
                                       double insulation_c, int bundled,
                                       bool engine_space) {
    struct ampacity_use use = {table,           s,
                               MATERIAL_COPPER, CELSIUS(insulation_c),
                               bundled,         engine_space};
    struct ampacity a;
    const char *why = NULL;
    if (!ampacity_find(&use, &a, &why))
        fail_msg("%s in %s: %s", s->name, ampacity_table_name(table), why);
    return a;
}

#endif
