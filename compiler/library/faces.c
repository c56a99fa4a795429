/* faces.c - what a run keeps of shaping and printing its guides. */
#include "library/faces.h"

#include "layout/shape.h"
#include "print/subset.h"

#include <pthread.h>
#include <stdlib.h>

enum { LOTS_MAX = 64 };

struct pool { /* that nobody has */
    void *one[LOTS_MAX];
    size_t count;
};

struct faces {
    pthread_mutex_t lock;
    struct pool shapes, subsets;
};

struct faces *faces_new(void) {
    struct faces *f = calloc(1, sizeof *f);
    if (f != NULL)
        pthread_mutex_init(&f->lock, NULL);
    return f;
}

void faces_free(struct faces *f) {
    if (f == NULL)
        return;
    for (size_t i = 0; i < f->shapes.count; i++)
        shape_kept_free(f->shapes.one[i]);
    for (size_t i = 0; i < f->subsets.count; i++)
        subset_kept_free(f->subsets.one[i]);
    pthread_mutex_destroy(&f->lock);
    free(f);
}

static void *take(struct faces *f, struct pool *p) {
    pthread_mutex_lock(&f->lock);
    void *one = p->count > 0 ? p->one[--p->count] : NULL;
    pthread_mutex_unlock(&f->lock);
    return one;
}

static void give(struct faces *f, struct pool *p, void *one) {
    pthread_mutex_lock(&f->lock);
    p->one[p->count++] = one; /* a crew has no more hands */
    pthread_mutex_unlock(&f->lock);
}

struct shape_kept *faces_lend(struct faces *f) {
    struct shape_kept *k = f == NULL ? NULL : take(f, &f->shapes);
    return f == NULL || k != NULL ? k : shape_kept_new();
}

void faces_return(struct faces *f, struct shape_kept *k) {
    if (f != NULL)
        give(f, &f->shapes, k);
}

struct subset_kept *faces_lend_subsets(struct faces *f) {
    struct subset_kept *k = f == NULL ? NULL : take(f, &f->subsets);
    return f == NULL || k != NULL ? k : subset_kept_new();
}

void faces_return_subsets(struct faces *f, struct subset_kept *k) {
    if (f != NULL && k != NULL)
        give(f, &f->subsets, k);
}
