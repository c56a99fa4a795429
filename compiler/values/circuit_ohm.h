/* circuit_ohm.h - stated resistances of contacts that no sound contact has. */
#ifndef CIRCUIT_OHM_H
#define CIRCUIT_OHM_H

struct circuit_work;

/* Asks about a contact, connector, splice or joint whose stated resistance is
 * above all of the table's aged range: 90 mohm where 9 mohm was meant. Not
 * where it is `measured`, or its line has a source. */
void circuit_ohm_require(struct circuit_work *w);

#endif
