/* fuse_circuit.c - the faults of a fuse block whose fuse stands in a circuit:
 * one figure on one sheet, that of the circuit, which knows every source and
 * each part of the way. What they must hold the circuit asks itself. */
#include "values/fuse_circuit.h"

#include "base/arena.h"
#include "values/circuit_guard.h"
#include "values/fuse_time.h"

#include <math.h>

/* What is left to do once the circuit of a fuse can be asked. */
struct fuse_waiting {
    struct fuse_inputs inputs;
    const struct quantity *place;
    double amp;
};

static struct quantity *by_circuit(struct values *v, double ampere) {
    return electrical_fault(block_table(
        v, ampere, (struct ends){ampere, ampere}, "A", "",
        "the circuit: open voltage over the resistance that feeds the short"));
}

void fuse_block_faults(struct values *v, const struct block *b,
                       size_t variant) {
    struct fuse_waiting **waiting = v->of_block[b->index].waiting;
    struct fuse_waiting *w = waiting == NULL ? NULL : waiting[variant];
    double high, low;
    if (w == NULL)
        return;
    waiting[variant] = NULL;
    const struct fuse_inputs *f = &w->inputs;
    if (!circuit_guard_faults(v, b, variant, &high, &low)) {
        fuse_circuit_alone(v, f, w->place, w->amp);
        return;
    }
    struct fuse_case at = {b,      variant,      f->style,
                           w->amp, low / w->amp, f->use_at};
    block_quantity(v, b, "fault.high", variant,
                   "fault current at its load side, at the most",
                   by_circuit(v, high));
    if (isnan(low))
        at.from = 0;
    else
        block_quantity(v, b, "fault.low", variant,
                       "fault current at the far end, at the least",
                       by_circuit(v, low));
    for (size_t i = 0; i < f->wire_count; i++)
        fuse_time_require(v, &at, f->wire[i], f->outcome[i]);
}

bool fuse_circuit_waits(struct values *v, const struct fuse_inputs *f,
                        const struct quantity *place, double amp) {
    struct block_slots *own = &v->of_block[f->block->index];
    if (!circuit_guard_knows(v, f->block, f->variant))
        return false;
    if (own->waiting == NULL)
        own->waiting =
            arena_alloc(v->c->arena, v->variant_count, sizeof(*own->waiting));
    own->waiting[f->variant] =
        arena_alloc(v->c->arena, 1, sizeof *own->waiting[0]);
    *own->waiting[f->variant] = (struct fuse_waiting){*f, place, amp};
    return true;
}
