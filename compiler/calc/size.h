/* size.h - wire sizes: a gauge or a nominal area is a name, never a quantity.
 *
 * 10 AWG, SAE 10 and 6 mm2 are three different conductors. A size belongs to
 * one system and is ordered by its area of metal within that system; it is
 * never turned into the nearest size of another. */
#ifndef SIZE_H
#define SIZE_H

#include <stdbool.h>
#include <stddef.h>

enum wire_system {
    WIRE_AWG_SOLID,
    WIRE_AWG_STRANDED,
    WIRE_SAE,
    WIRE_ISO6722,
    WIRE_CLASS2, /* IEC 60228 class 2, stranded */
    WIRE_CLASS5, /* IEC 60228 class 5, flexible */
    WIRE_JIS,    /* JIS C 3406 AV: the name is not the area */
    WIRE_AU,     /* Australian "mm": the name is about the outside diameter */
    WIRE_SYSTEMS,
    WIRE_UNDECLARED = WIRE_SYSTEMS
};

enum material {
    MATERIAL_COPPER,
    MATERIAL_TINNED, /* tin-coated copper */
    MATERIAL_ALUMINIUM,
    MATERIALS
};

struct wire_size {
    enum wire_system system;
    const char *name;  /* ASCII, as written: "10 AWG", "SAE 10", "2.5 mm2" */
    const char *label; /* as printed: "2.5 mm²" */
    double area;       /* m2 of metal; for SAE the least allowed */
    bool usual;        /* drawn and sold as cable; others are winding wire */
    /* Largest resistance, ohm/m at 20 degC, that the standard allows for each
     * material; NAN where the standard gives none. */
    double most[MATERIALS];
    const char *source; /* of area and resistance */
};

/* "AWG stranded", "SAE", "class 5", ... as the `conductor` setting writes it.
 */
const char *size_system_name(enum wire_system s);
/* WIRE_UNDECLARED when there is no such system. */
enum wire_system size_system_find(const char *name, size_t len);

/* The sizes of a system by rising area, all of them; NULL past the end. */
const struct wire_size *size_at(enum wire_system s, size_t index);
/* The next larger and next smaller usual size of the same system, or NULL. */
const struct wire_size *size_up(const struct wire_size *s);
const struct wire_size *size_down(const struct wire_size *s);
/* The smallest usual size of a system with at least this area, m2, or NULL. */
const struct wire_size *size_of_area(enum wire_system s, double area);
/* By area; sizes of different systems compare by area too. <0, 0, >0. */
int size_compare(const struct wire_size *a, const struct wire_size *b);

enum size_found {
    SIZE_FOUND,
    SIZE_UNREADABLE, /* not a wire size at all */
    SIZE_AMBIGUOUS,  /* several systems write it so and none is declared; or a
                        bare gauge number ("10 gauge"), which is never enough */
    SIZE_UNKNOWN,    /* readable, but the system has no such size */
    SIZE_MISMATCH,   /* names another system than the declared one */
};

/* Reads "10 AWG", "AWG 10", "2/0 AWG", "00 AWG", "SAE 10", "10 SAE", "2.5 mm2",
 * "2.5 mm²", "AV 3", "AV 0.5f" (JIS), "6 mm" (AU), with or without the blank.
 * With WIRE_UNDECLARED only a spelling that one system alone uses is found:
 * SAE, AV and "mm". */
enum size_found size_read(const char *text, size_t len,
                          enum wire_system declared,
                          const struct wire_size **out);

#endif
