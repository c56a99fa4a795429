/* fuse_circuit.h - the faults of a fuse block whose fuse stands in a circuit.
 */
#ifndef FUSE_CIRCUIT_H
#define FUSE_CIRCUIT_H

#include "values/fuse_input.h"

/* False: no circuit has the fuse. Else its faults wait until they are asked
 * for, by fuse_block_faults(): the circuit needs the rating first. */
bool fuse_circuit_waits(struct values *v, const struct fuse_inputs *f,
                        const struct quantity *place, double amp);
/* fuse_block.c: by the block alone, from its source to the far end of its
 * wires. */
void fuse_circuit_alone(struct values *v, const struct fuse_inputs *f,
                        const struct quantity *place, double amp);

#endif
