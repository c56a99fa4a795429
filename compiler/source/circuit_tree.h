/* circuit_tree.h - a circuit as it was written: supplies, states, points, and
 * the elements between them in the order in which the current meets them.
 *
 * Nothing is evaluated here. A branch is what stands between two points:
 * its elements are in series; branches that share points make the circuit. In
 * one variant a branch has those of its elements that are for that variant; a
 * branch without any is not there. */
#ifndef CIRCUIT_TREE_H
#define CIRCUIT_TREE_H

#include "source/tree.h"

#include <stdbool.h>
#include <stddef.h>

enum circuit_part {
    CIRCUIT_FUSE,
    CIRCUIT_BREAKER,
    CIRCUIT_WIRE,
    CIRCUIT_SWITCH,
    CIRCUIT_COIL,      /* of the relay that its name tells */
    CIRCUIT_CONTACT,   /* of the relay that its name tells */
    CIRCUIT_DIODE,     /* the current enters at its anode */
    CIRCUIT_CONNECTOR, /* a cavity of one */
    CIRCUIT_SPLICE,
    CIRCUIT_JOINT, /* ring terminal, ground screw, stud */
    CIRCUIT_LOAD,
    CIRCUIT_PARTS
};

enum { CIRCUIT_NONE = -1 };

struct circuit_element {
    enum circuit_part part;
    struct text name;        /* "K1": the designation that is drawn */
    struct text id;          /* "K1", "K1.coil", "K1.87a": in names of values;
                                unlike any other element's of its variants */
    struct text terminal[2]; /* "30", "87": where the current enters and
                                leaves; absent where none is written */
    struct text *word;       /* between commas: block, size, length, ... */
    size_t word_count;       /* terminals and colours are not among them */
    struct text colour[2];   /* insulation of a wire, its tracer; or absent */
    struct text note;        /* source of the figures, in quotes */
    struct tags tags;        /* variants; none: all */
    const struct entry *choice; /* the line has words that differ by variant:
                                   this is one of its alternatives; or NULL */
    struct span at;             /* the whole line */
    size_t branch;
};

struct circuit_branch {
    size_t from, to;     /* points */
    size_t first, count; /* its elements, in order */
    bool begins;         /* it follows a `from`; else it goes on with the branch
                            before it */
};

struct circuit_point {
    struct text name; /* "lamps", "battery +" */
    struct text id;   /* "lamps", "battery.plus": in names of values */
    int supply;       /* whose post it is; CIRCUIT_NONE */
    bool minus;       /* which post */
    struct span at;   /* where it is met first */
};

struct circuit_supply {
    struct text name;  /* of the `supply` block */
    struct text state; /* "charging", "resting"; absent */
    struct span at;
};

/* `K1 open`, `M1 starting`, `battery resting`, in a state line. */
struct circuit_set {
    int element; /* every element of that name; CIRCUIT_NONE */
    int supply;  /* CIRCUIT_NONE */
    struct text word;
    struct span at;
};

struct circuit_state {
    struct text name; /* "high beam"; absent: no state is written */
    struct text id;   /* "high.beam" */
    struct circuit_set *set;
    size_t set_count;
    struct span at;
};

struct circuit {
    struct circuit_supply *supply;
    size_t supply_count;
    struct circuit_state *state; /* at least one; the first is the usual one */
    size_t state_count;
    struct circuit_point *point;
    size_t point_count;
    struct circuit_branch *branch;
    size_t branch_count;
    struct circuit_element *element;
    size_t element_count;
    bool bad; /* a message was given: it can be neither solved nor drawn */
};

/* The word of the language for a part: "fuse". */
const char *circuit_part_word(enum circuit_part p);
/* Whether a `circuit` is what stands in the vehicle before the job. */
bool circuit_as_found(const struct block *circuit);
/* NULL: none is that. */
const struct circuit_element *circuit_find(const struct circuit *c,
                                           struct text id);

#endif
