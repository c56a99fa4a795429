/* circuits.c - how long a circuit takes to solve: those of the guides, each
 * state of each variant, and one of 1,000 elements at its nominal figures. */
#include "base/arena.h"
#include "base/diag.h"
#include "source/circuit_tree.h"
#include "source/read.h"
#include "stages.h"
#include "values/circuit_solve.h"

#include <stdio.h>
#include <stdlib.h>

#include "circuit_guides.h"
#include "timing.h"

enum { RUNS = 21, BRANCHES = 200, ALLOWED_MS = 50 };

struct timed {
    size_t elements, states, variants;
    double ms; /* median: figures read and all states solved, all variants */
};

static bool solve(struct values *v, const struct block *b) {
    for (size_t k = 0; k < v->variant_count; k++) {
        struct circuit_work *w = circuit_solve_open(v, b, k);
        for (size_t s = 0; w != NULL && s < b->circuit->state_count; s++)
            if (!circuit_solve_state(w, s, NULL))
                return false;
        if (w == NULL)
            return false;
    }
    return true;
}

static struct timed time_of(struct values *v, const struct block *b) {
    double ms[RUNS];
    for (size_t i = 0; i < RUNS; i++) {
        double start = now_ms();
        if (!solve(v, b)) {
            fprintf(stderr, "bench: a circuit has no solution\n");
            exit(1);
        }
        ms[i] = now_ms() - start;
    }
    return (struct timed){b->circuit->element_count, b->circuit->state_count,
                          v->variant_count, median(ms, RUNS)};
}

static double report(struct compile *c, const struct guide *g) {
    struct values *v = values_evaluate(c, g);
    double most = 0;
    for (size_t i = 0; i < g->block_count; i++) {
        const struct block *b = g->blocks[i];
        if (b->circuit == NULL || b->circuit->bad)
            continue;
        struct timed t = time_of(v, b);
        printf("%-10.*s %5zu elements, %zu states, %zu variants %8.3f ms\n",
               (int)b->name.len, b->name.start, t.elements, t.states,
               t.variants, t.ms);
        most = t.ms > most ? t.ms : most;
    }
    return most;
}

static const char *large(struct arena *a) {
    struct buf text = buf_in(a);
    buf_puts(&text, "# Solve a large circuit\n\n```guide\nid: T-1\n"
                    "revision: 1\nstatus: draft\n```\n\n"
                    "```supply battery\nchemistry: flooded\nresting: 12.6 V\n"
                    "charging: 13.8 V\nresistance: 8 mohm\n```\n\n"
                    "```wire\nconductor: AWG stranded\n```\n\n"
                    "```circuit large\nas found: yes\n"
                    "supply: battery charging\nfrom battery +\n"
                    "fuse F0 200 A, class T\nto bus\n");
    for (int i = 1; i <= BRANCHES; i++)
        buf_printf(&text,
                   "from bus\nfuse F%d 5 A\nwire W%d 16 AWG, 2 m, red\n"
                   "switch S%d\nload E%d lamp, 0.5 A at 13.2 V\n"
                   "wire R%d 16 AWG, 2 m, black\nto battery -\n",
                   i, i, i, i, i);
    buf_puts(&text, "```\n");
    return buf_cstr(&text);
}

int main(void) {
    struct compile c = {.library = "."};
    c.arena = arena_new();
    c.diags = diag_new(c.arena);
    for (size_t i = 0; i < CIRCUIT_GUIDES; i++) {
        const struct guide *g = source_read(&c, circuit_guides[i]);
        if (g != NULL)
            report(&c, g);
    }
    double ms =
        report(&c, source_read_text(&c, "large.md", text_of(large(c.arena))));
    arena_free(c.arena);
    if (ms > ALLOWED_MS)
        fprintf(stderr, "bench: 1,000 elements take more than %d ms\n",
                ALLOWED_MS);
    return ms > ALLOWED_MS;
}
