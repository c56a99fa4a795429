#define _GNU_SOURCE /* sched_getcpu(), pthread_setaffinity_np() */
/* hand.c - a second pair of hands.
 *
 * The thread is begun once and waits: one that begins when there is work for it
 * is often put on the processor of its owner, and does nothing till he waits.
 */
#include "base/hand.h"

#include "base/heap.h"

#include <pthread.h>
#include <sched.h>
#include <stdbool.h>
#include <stdlib.h>
#include <unistd.h>

enum { ROOM = 4 << 20 }; /* that its work takes, about */

struct piece {
    hand_work *work; /* NULL: it is done */
    void *context;
};

struct hand {
    pthread_t thread;
    bool threaded, end;
    pthread_mutex_t lock;
    pthread_cond_t moved;          /* something was given, or done */
    struct piece piece[HAND_ROOM]; /* by number, in turn */
    size_t given, begun, done;     /* done: and all before it */
};

/* The next piece that nobody has begun, without the lock meanwhile. */
static void do_next(struct hand *h) {
    struct piece *p = &h->piece[h->begun++ % HAND_ROOM];
    pthread_mutex_unlock(&h->lock);
    p->work(p->context);
    pthread_mutex_lock(&h->lock);
    p->work = NULL;
    while (h->done < h->begun && h->piece[h->done % HAND_ROOM].work == NULL)
        h->done++;
    pthread_cond_broadcast(&h->moved);
}

/* Returns when that piece is done, and all before it. What nobody has begun the
 * owner does himself: the other processor has something else to do, then. */
static void wait_for(struct hand *h, size_t piece) {
    while (h->done < piece)
        if (h->begun < piece && h->begun < h->given)
            do_next(h);
        else
            pthread_cond_wait(&h->moved, &h->lock);
}

static void *run(void *argument) {
    struct hand *h = argument;
    void *gap = heap_large_pages(ROOM);
    pthread_mutex_lock(&h->lock);
    while (!h->end)
        if (h->begun < h->given)
            do_next(h);
        else
            pthread_cond_wait(&h->moved, &h->lock);
    pthread_mutex_unlock(&h->lock);
    free(gap);
    return NULL;
}

struct hand *hand_new(void) {
    struct hand *h = calloc(1, sizeof *h);
    if (h == NULL)
        return NULL;
    pthread_mutex_init(&h->lock, NULL);
    pthread_cond_init(&h->moved, NULL);
    h->threaded = pthread_create(&h->thread, NULL, run, h) == 0;
    return h;
}

void hand_free(struct hand *h) {
    if (h == NULL)
        return;
    pthread_mutex_lock(&h->lock);
    h->end = true;
    pthread_cond_broadcast(&h->moved);
    pthread_mutex_unlock(&h->lock);
    if (h->threaded)
        pthread_join(h->thread, NULL);
    pthread_cond_destroy(&h->moved);
    pthread_mutex_destroy(&h->lock);
    free(h);
}

/* A system may wake a thread on the processor of the one who wakes it, and
 * leave the idle one asleep: virtual machines do. */
static void keep_apart(struct hand *h) {
    cpu_set_t set;
    int own = sched_getcpu();
    if (own < 0 || sched_getaffinity(0, sizeof set, &set) != 0 ||
        !CPU_ISSET((unsigned)own, &set) || CPU_COUNT(&set) < 2)
        return;
    CPU_CLR((unsigned)own, &set);
    pthread_setaffinity_np(h->thread, sizeof set, &set);
}

size_t hand_give(struct hand *h, hand_work *work, void *context) {
    if (h->threaded)
        keep_apart(h);
    pthread_mutex_lock(&h->lock);
    if (h->given - h->done == HAND_ROOM)
        wait_for(h, h->done + 1);
    h->piece[h->given % HAND_ROOM] = (struct piece){work, context};
    size_t number = ++h->given;
    pthread_cond_broadcast(&h->moved);
    pthread_mutex_unlock(&h->lock);
    return number;
}

void hand_wait(struct hand *h, size_t piece) {
    pthread_mutex_lock(&h->lock);
    wait_for(h, piece);
    pthread_mutex_unlock(&h->lock);
}

size_t hand_processors(void) {
    long count = sysconf(_SC_NPROCESSORS_ONLN);
    return count < 1 ? 1 : (size_t)count;
}
