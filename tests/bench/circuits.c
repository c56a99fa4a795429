/* circuits.c - what circuits cost. First each at its nominal figures, all its
 * states and variants, and one of 1,000 elements. Then all that the circuits of
 * a guide add to its build: every result that the guide asks for with its worst
 * ends, what they must hold, their tables; and their drawings, as the time that
 * layout takes with them and without. */
#include "base/arena.h"
#include "base/diag.h"
#include "base/heap.h"
#include "source/circuit_tree.h"
#include "source/read.h"
#include "stages.h"
#include "values/circuit_given.h"
#include "values/circuit_require.h"
#include "values/circuit_sheet.h"
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
        double start = cpu_ms();
        if (!solve(v, b)) {
            fprintf(stderr, "bench: a circuit has no solution\n");
            exit(1);
        }
        ms[i] = cpu_ms() - start;
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

static struct compile compile_new(void) {
    struct compile c = {.library = ".", .arena = arena_new()};
    c.diags = diag_new(c.arena);
    return c;
}

static bool applies(const struct values *v, size_t variant) {
    return v->applies >> variant & 1;
}

static bool is_asked(const struct values *v) {
    for (size_t i = 0; i < v->guide->block_count; i++)
        for (size_t k = 0; k < v->variant_count; k++)
            if (v->guide->blocks[i]->circuit != NULL &&
                v->of_block[i].state[k] != SLOT_UNTOUCHED)
                return true;
    return false;
}

static void evaluate_one(struct values *v, size_t slot) {
    for (size_t k = 0; k < v->variant_count; k++)
        if (applies(v, k))
            evaluate_slot(v, &v->slot[slot], k);
}

/* By name of the guide: whether a circuit is asked for it, which each name is
 * evaluated for alone. */
static bool *names_that_ask(const char *path, size_t count) {
    bool *asks = calloc(count, sizeof *asks);
    for (size_t i = 0; i < count; i++) {
        struct compile own = compile_new();
        struct values *v = evaluate_open(&own, source_read(&own, path));
        evaluate_one(v, i);
        asks[i] = is_asked(v);
        arena_free(own.arena);
    }
    return asks;
}

static void evaluate_others(struct values *v, const bool *asks) {
    for (size_t i = 0; i < v->slot_count; i++)
        if (!asks[i])
            evaluate_one(v, i);
    if (is_asked(v)) {
        fprintf(stderr, "bench: a name asks a circuit\n");
        exit(1);
    }
}

/* The results that `built` needed, in each variant, and what follows from them;
 * how many. */
static size_t evaluate_circuits(struct values *v, const struct values *built,
                                const bool *asks) {
    size_t results = 0;
    for (size_t i = 0; i < v->slot_count; i++)
        for (size_t k = 0; k < v->variant_count; k++)
            if (asks[i] && built->slot[i].state[k] == SLOT_DONE) {
                evaluate_slot(v, &v->slot[i], k);
                results++;
            }
    circuit_given_check(v);
    circuit_require(v);
    circuit_sheet_fill(v);
    for (size_t i = 0; i < v->requirement_count; i++)
        if (v->requirement[i].block->circuit != NULL)
            requirement_met(&v->maker, &v->requirement[i]);
    return results;
}

static double time_of_layout(struct compile *c, const struct guide *g,
                             const struct values *v, const struct findings *f) {
    double start = cpu_ms();
    if (layout_pages(c, g, v, f) == NULL)
        exit(1);
    return cpu_ms() - start;
}

/* Circuits that are bad are not drawn. */
static void hide(const struct guide *g, bool hidden) {
    for (size_t i = 0; i < g->block_count; i++)
        if (g->blocks[i]->circuit != NULL)
            g->blocks[i]->circuit->bad = hidden;
}

static void report_guide(const char *path) {
    double solving[RUNS], drawing[RUNS];
    struct compile c = compile_new();
    struct guide *g = source_read(&c, path);
    struct values *v = values_evaluate(&c, g);
    struct findings *f = checks_run(&c, g, v);
    bool *asks = names_that_ask(path, v->slot_count);
    size_t results = 0;
    for (size_t i = 0; i < RUNS; i++) {
        struct compile own = compile_new();
        struct values *fresh = evaluate_open(&own, source_read(&own, path));
        evaluate_others(fresh, asks);
        double start = cpu_ms();
        results = evaluate_circuits(fresh, v, asks);
        solving[i] = cpu_ms() - start;
        arena_free(own.arena);
    }
    for (size_t i = 0; i < RUNS; i++) {
        drawing[i] = time_of_layout(&c, g, v, f);
        hide(g, true);
        drawing[i] -= time_of_layout(&c, g, v, f);
        hide(g, false);
    }
    printf("%-32s %4zu results, evaluated %7.3f ms, drawn %7.3f ms\n", path,
           results, median(solving, RUNS), median(drawing, RUNS));
    free(asks);
    arena_free(c.arena);
}

int main(void) {
    heap_keep(); /* as the program does */
    struct compile c = compile_new();
    for (size_t i = 0; i < CIRCUIT_GUIDES; i++) {
        const struct guide *g = source_read(&c, circuit_guides[i]);
        if (g != NULL)
            report(&c, g);
    }
    double ms =
        report(&c, source_read_text(&c, "large.md", text_of(large(c.arena))));
    arena_free(c.arena);
    for (size_t i = 0; i < CIRCUIT_GUIDES; i++)
        report_guide(circuit_guides[i]);
    if (ms > ALLOWED_MS)
        fprintf(stderr, "bench: 1,000 elements take more than %d ms\n",
                ALLOWED_MS);
    return ms > ALLOWED_MS;
}
