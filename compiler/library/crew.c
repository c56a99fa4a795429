/* crew.c - many pieces of work on all processors, results in their order. */
#include "library/crew.h"

#include "base/hand.h"

#include <pthread.h>
#include <stdbool.h>
#include <stdlib.h>

/* Pieces done ahead of what was taken: they wait in memory. */
enum { HANDS_MAX = 64, AHEAD = 2 };

struct crew {
    crew_work *work;
    const void *context;
    size_t pieces, hands;
    pthread_t hand[HANDS_MAX];
    pthread_mutex_t lock;
    pthread_cond_t moved; /* a piece was done, or taken */
    size_t next, taken; /* the first piece that nobody began, that is wanted */
    void **result;
    bool *done;
};

static void *work(void *argument) {
    struct crew *c = argument;
    pthread_mutex_lock(&c->lock);
    for (;;) {
        while (c->next < c->pieces && c->next >= c->taken + c->hands * AHEAD)
            pthread_cond_wait(&c->moved, &c->lock);
        if (c->next >= c->pieces)
            break;
        size_t i = c->next++;
        pthread_mutex_unlock(&c->lock);
        void *result = c->work(c->context, i);
        pthread_mutex_lock(&c->lock);
        c->result[i] = result;
        c->done[i] = true;
        pthread_cond_broadcast(&c->moved);
    }
    pthread_mutex_unlock(&c->lock);
    return NULL;
}

static size_t hands_for(size_t pieces) {
    size_t hands = hand_processors();
    if (hands > HANDS_MAX)
        hands = HANDS_MAX;
    return hands < pieces ? hands : pieces;
}

struct crew *crew_start(size_t pieces, crew_work *work_on,
                        const void *context) {
    struct crew *c = calloc(1, sizeof *c);
    if (c == NULL)
        return NULL;
    c->work = work_on;
    c->context = context;
    c->pieces = pieces;
    c->result = calloc(pieces + 1, sizeof(*c->result));
    c->done = calloc(pieces + 1, sizeof *c->done);
    if (c->result == NULL || c->done == NULL) {
        free(c->result);
        free(c->done);
        free(c);
        return NULL;
    }
    pthread_mutex_init(&c->lock, NULL);
    pthread_cond_init(&c->moved, NULL);
    size_t wanted = hands_for(pieces);
    c->hands = wanted > 1 ? wanted : 0;
    for (size_t i = 0; i < c->hands; i++)
        if (pthread_create(&c->hand[i], NULL, work, c) != 0) {
            /* The others do it all; with none it is done when it is taken. */
            pthread_mutex_lock(&c->lock);
            c->hands = i;
            pthread_mutex_unlock(&c->lock);
            break;
        }
    return c;
}

void *crew_take(struct crew *c, size_t i) {
    if (c->hands == 0)
        return c->work(c->context, i);
    pthread_mutex_lock(&c->lock);
    c->taken = i;
    pthread_cond_broadcast(&c->moved);
    while (!c->done[i])
        pthread_cond_wait(&c->moved, &c->lock);
    void *result = c->result[i];
    pthread_mutex_unlock(&c->lock);
    return result;
}

void crew_end(struct crew *c) {
    for (size_t i = 0; i < c->hands; i++)
        pthread_join(c->hand[i], NULL);
    pthread_cond_destroy(&c->moved);
    pthread_mutex_destroy(&c->lock);
    free(c->result);
    free(c->done);
    free(c);
}
