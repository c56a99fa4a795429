/* early.c - what the checks of a guide will need, made early. */
#include "library/early.h"

#include "base/arena.h"
#include "base/diag.h"
#include "base/hand.h"
#include "checks/catalogue.h"
#include "source/file.h"

struct early {
    struct arena *arena; /* of all that the hand makes */
    struct hand *hand;
    struct compile own; /* that the catalogue is read in */
    struct file_reads reads;
    const struct catalogue *catalogue;
    size_t reading; /* its piece of work */
};

static void read_catalogue(void *early) {
    struct early *e = early;
    e->catalogue = catalogue_shared(&e->own);
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

void early_check(struct early *e, struct compile *c) {
    if (e == NULL)
        return;
    hand_wait(e->hand, e->reading);
    if (e->catalogue == NULL)
        return;
    c->catalogue = e->catalogue;
    file_note_all(c, &e->reads);
}

void early_end(struct early *e) {
    if (e == NULL)
        return;
    hand_wait(e->hand, e->reading);
    arena_free(e->arena);
}
