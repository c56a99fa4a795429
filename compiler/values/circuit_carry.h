/* circuit_carry.h - what the parts of a circuit must carry, and bring to their
 * loads. */
#ifndef CIRCUIT_CARRY_H
#define CIRCUIT_CARRY_H

struct circuit_work;

/* Each wire against its ampacity (`ampacity`), each fuse against the wires that
 * it feeds (`H06`) and its load (`share`); each contact against its rating
 * (`contact`, `tab`, `stud`). */
void circuit_carry_require(struct circuit_work *w);
/* What each load loses, and what a source that limits itself is short of
 * (`drop`, `drop-limit`), the voltage that it gets (`voltage`). */
void circuit_drop_require(struct circuit_work *w);
/* A return thinner than its feed (`return`), two circuits under one ground
 * joint (`shared-ground`). */
void circuit_return_require(struct circuit_work *w);

#endif
