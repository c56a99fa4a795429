/* circuit_part.h - what an element of a circuit is in one variant: its figures,
 * and the law that they give. */
#ifndef CIRCUIT_PART_H
#define CIRCUIT_PART_H

#include "calc/circuit_law.h"
#include "calc/wire.h"
#include "source/circuit_tree.h"
#include "values/model.h"

enum { PART_FIGURES = 4, WIRE_CRANKED = 4 };

struct contact;

struct circuit_piece {
    const struct circuit_element *element; /* NULL: a supply */
    const char *name;
    enum circuit_law law;
    /* RESISTANCE R, or I and U; SUPPLY E, R; LIMITED E, R, L; WIRE length,
     * ohm/m, ambient and, of a wire through which an engine is cranked, for how
     * long; LAMP I, U; CURRENT I, U; POWER I, U; DIODE none */
    const struct quantity *figure[PART_FIGURES];
    size_t figure_count;
    double warm; /* A, of a wire with a time: what it carries for long, in the
                    state where that is most */
    const struct wire_run *run;           /* of a wire */
    const struct quantity *starting, *at; /* of a load: peak, at this */
    const struct quantity *rating;        /* of a fuse or breaker; or NULL */
};

/* Figures of the elements that are for the variant, in the order of the tree;
 * those that are not have law LAWS. False after a message. */
bool circuit_part_read(struct values *v, const struct block *b, size_t variant,
                       struct circuit_piece *part);
/* A supply of the circuit in a state of its own or as `word` says. */
bool circuit_part_supply(struct values *v, const struct block *b,
                         size_t variant, const struct circuit_supply *s,
                         struct text word, struct circuit_piece *out);
/* The row of the table of contacts whose name a word of a switch, contact,
 * connector, splice or joint begins with; else the usual one of such a part. */
const struct contact *circuit_part_contact(const struct circuit_element *e);
/* Whether a word is a kind of load: "lamp". */
bool circuit_part_is_kind(struct text word);
/* Whether a circuit is `as found`: shown as it was, and not judged. */
bool circuit_part_is_found(struct values *v, const struct block *circuit,
                           size_t variant);
/* Whether a load is a resistor that is there to lose volts: `resistive, 0.5
 * ohm, dropping`. */
bool circuit_part_dropping(const struct circuit_element *e);
/* Whether a wire is `sheathed`. */
bool circuit_part_sheathed(const struct circuit_piece *p);
/* Whether it is `existing`: in the vehicle already, and no part of the job. */
bool circuit_part_existing(const struct circuit_piece *p);
/* The law at these figures. */
struct circuit_part_law circuit_part_law(const struct circuit_piece *p,
                                         const double *figure);
/* K, of a wire before an engine is cranked: steady, by what it carries for
 * long. */
double circuit_part_before(const struct circuit_piece *p, const double *figure);
/* How the current moves with figure k, at u volts: A for one unit of it. `law`
 * is that at these figures. */
double circuit_part_moves(const struct circuit_piece *p, const double *figure,
                          size_t k, double u,
                          const struct circuit_part_law *law);

#endif
