/* circuit_require.c - what a circuit must hold, by the rules of the trade. */
#include "values/circuit_require.h"

#include "source/circuit_tree.h"
#include "values/circuit_carry.h"
#include "values/circuit_coil.h"
#include "values/circuit_dead.h"
#include "values/circuit_extreme.h"
#include "values/circuit_forgotten.h"
#include "values/circuit_ground.h"
#include "values/circuit_guard.h"
#include "values/circuit_ohm.h"
#include "values/circuit_peak.h"
#include "values/circuit_solve.h"
#include "values/circuit_start.h"

void circuit_require(struct values *v) {
    for (size_t i = 0; i < v->guide->block_count; i++) {
        const struct block *b = v->guide->blocks[i];
        if (b->circuit == NULL || b->circuit->bad)
            continue;
        for (size_t variant = 0; variant < v->variant_count; variant++) {
            struct circuit_work *w = v->of_block[i].circuit[variant];
            if ((v->applies >> variant & 1) == 0 || w == NULL)
                continue;
            circuit_extreme_add(w);
            if (circuit_part_is_found(v, b, variant))
                continue;
            circuit_ground_require(w);
            circuit_ohm_require(w);
            circuit_dead_require(w);
            circuit_carry_require(w);
            circuit_peak_require(w);
            circuit_coil_require(w);
            circuit_guard_require(w);
            circuit_start_require(w);
            circuit_drop_require(w);
            circuit_return_require(w);
            circuit_forgotten_require(w);
        }
    }
}
