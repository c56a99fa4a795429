/* shown.c - messages that a run has printed already, for another guide.
 *
 * A slip in the facts is one slip, however many guides rest on them. */
#include "base/shown.h"

#include "base/arena.h"

#include <string.h>

enum { CHAINS = 1024 };

/* A fleet has one a row, so it is small. */
struct link {
    struct link *next;
    char message[]; /* with its NUL */
};

struct shown {
    struct arena *arena;
    struct link *chain[CHAINS];
};

struct shown *shown_new(struct arena *a) {
    struct shown *s = arena_alloc(a, 1, sizeof *s);
    s->arena = a;
    return s;
}

/* FNV-1a; which chain it is shows nowhere. */
static size_t chain_of(struct text t) {
    uint32_t hash = 2166136261u;
    for (size_t i = 0; i < t.len; i++)
        hash = (hash ^ (unsigned char)t.start[i]) * 16777619u;
    return hash % CHAINS;
}

bool shown_before(struct shown *s, struct text message) {
    struct link **chain = &s->chain[chain_of(message)];
    for (const struct link *k = *chain; k != NULL; k = k->next)
        if (text_is(message, k->message))
            return true;
    struct link *k = arena_alloc(s->arena, 1, sizeof *k + message.len + 1);
    k->next = *chain;
    if (message.len > 0)
        memcpy(k->message, message.start, message.len);
    *chain = k;
    return false;
}
