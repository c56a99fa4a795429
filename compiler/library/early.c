/* early.c - what the later stages of a guide will need, made early. */
#include "library/early.h"

#include "base/arena.h"
#include "base/diag.h"
#include "base/hand.h"
#include "checks/catalogue.h"
#include "layout/ahead.h"
#include "layout/shape.h"
#include "source/file.h"

struct early {
    struct arena *arena; /* of all that the hand makes */
    struct hand *hand;
    struct compile own; /* that the catalogue is read in */
    struct file_reads reads;
    const struct catalogue *catalogue;
    const struct guide *guide;
    const struct values *values;
    const struct findings *findings;
    struct shape_kept *shapes, *more;      /* `more` beside the first */
    size_t reading, shaping, shaping_more; /* pieces of work */
    atomic_bool enough, enough_more;       /* shaped */
};

static void read_catalogue(void *early) {
    struct early *e = early;
    e->catalogue = catalogue_shared(&e->own);
}

static void shape(void *early) {
    struct early *e = early;
    ahead_shape(e->shapes, e->guide, &e->enough);
}

static void shape_more(void *early) {
    struct early *e = early;
    ahead_shape_findings(e->more, e->findings, e->values, &e->enough_more);
    shape_kept_whole(e->more);
}

struct early *early_begin(const struct compile *c) {
    if (c->hand == NULL)
        return NULL;
    struct arena *a = arena_new();
    struct early *e = arena_alloc(a, 1, sizeof *e);
    e->arena = a;
    e->hand = c->hand;
    e->own = (struct compile){.arena = a,
                              .diags = diag_new(a),
                              .reads = &e->reads,
                              .library = c->library};
    e->reading = hand_give(e->hand, read_catalogue, e);
    return e;
}

void early_shape(struct early *e, const struct guide *g) {
    if (e == NULL)
        return;
    e->guide = g;
    e->shapes = shape_kept_new();
    e->shaping = hand_give(e->hand, shape, e);
}

void early_check(struct early *e, struct compile *c) {
    if (e == NULL)
        return;
    hand_wait(e->hand, e->reading);
    if (e->catalogue == NULL)
        return;
    c->catalogue = e->catalogue;
    file_note_all(c, &e->reads);
}

void early_lay_out(struct early *e, struct compile *c, const struct values *v,
                   const struct findings *f) {
    if (e == NULL || e->shapes == NULL)
        return;
    atomic_store(&e->enough, true);
    hand_wait(e->hand, e->shaping);
    c->shapes = e->shapes;
    e->values = v;
    e->findings = f;
    e->more = shape_kept_beside(e->shapes);
    e->shaping_more = hand_give(e->hand, shape_more, e);
}

void early_print(struct early *e) {
    if (e != NULL)
        atomic_store(&e->enough_more, true);
}

void early_end(struct early *e) {
    if (e == NULL)
        return;
    atomic_store(&e->enough, true);
    atomic_store(&e->enough_more, true);
    hand_wait(e->hand, e->reading);
    hand_wait(e->hand, e->shaping);
    hand_wait(e->hand, e->shaping_more);
    shape_kept_free(e->shapes);
    arena_free(e->arena);
}
