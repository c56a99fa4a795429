/* faces.c - what a run keeps of shaping and printing its guides. */
#include "library/faces.h"

#include "layout/shape.h"
#include "print/subset.h"

#include <pthread.h>
#include <stdlib.h>

enum { LOTS_MAX = 64 };

struct faces {
    pthread_mutex_t lock;
    struct shape_kept *lot[LOTS_MAX]; /* that nobody has */
    size_t count;
    struct subset_kept *subsets[LOTS_MAX];
    size_t subsets_count;
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
    for (size_t i = 0; i < f->count; i++)
        shape_kept_free(f->lot[i]);
    for (size_t i = 0; i < f->subsets_count; i++)
        subset_kept_free(f->subsets[i]);
    pthread_mutex_destroy(&f->lock);
    free(f);
}

struct shape_kept *faces_lend(struct faces *f) {
    if (f == NULL)
        return NULL;
    pthread_mutex_lock(&f->lock);
    struct shape_kept *k = f->count > 0 ? f->lot[--f->count] : NULL;
    pthread_mutex_unlock(&f->lock);
    return k == NULL ? shape_kept_new() : k;
}

void faces_return(struct faces *f, struct shape_kept *k) {
    if (f == NULL)
        return;
    pthread_mutex_lock(&f->lock);
    f->lot[f->count++] = k; /* a crew has no more hands */
    pthread_mutex_unlock(&f->lock);
}

struct subset_kept *faces_lend_subsets(struct faces *f) {
    if (f == NULL)
        return NULL;
    pthread_mutex_lock(&f->lock);
    struct subset_kept *k =
        f->subsets_count > 0 ? f->subsets[--f->subsets_count] : NULL;
    pthread_mutex_unlock(&f->lock);
    return k == NULL ? subset_kept_new() : k;
}

void faces_return_subsets(struct faces *f, struct subset_kept *k) {
    if (f == NULL || k == NULL)
        return;
    pthread_mutex_lock(&f->lock);
    f->subsets[f->subsets_count++] = k;
    pthread_mutex_unlock(&f->lock);
}
