/* shrink.c - area averaging in whole numbers.
 *
 * A row of n samples shrinks to m: cut each sample into m parts, and each n
 * parts in turn are one sample of the result. Rows in the same way. */
#include "image/shrink.h"

#include "base/arena.h"

#include <stdint.h>
#include <string.h>

struct shrink {
    struct shrink_size from, to;
    unsigned channels;
    uint64_t *line; /* sums over the row at hand */
    uint64_t *sum;  /* sums over the rows of the result's row at hand */
    unsigned left;  /* parts that its row still takes */
    unsigned char *out;
    unsigned char *next; /* where its row goes */
};

struct shrink *shrink_new(struct arena *a, struct shrink_size from,
                          struct shrink_size to, unsigned channels) {
    struct shrink *s = arena_alloc(a, 1, sizeof *s);
    size_t row = (size_t)to.width * channels;
    s->from = from;
    s->to = to;
    s->channels = channels;
    s->line = arena_alloc(a, row, sizeof *s->line);
    s->sum = arena_alloc(a, row, sizeof *s->sum);
    s->left = from.height;
    s->out = arena_alloc(a, to.height, row);
    s->next = s->out;
    return s;
}

static void sum_line(struct shrink *s, const unsigned char *row) {
    uint64_t *to = s->line;
    unsigned left = s->from.width;
    memset(s->line, 0, (size_t)s->to.width * s->channels * sizeof *s->line);
    for (unsigned i = 0; i < s->from.width; i++, row += s->channels) {
        unsigned parts = s->to.width;
        while (parts > 0) {
            unsigned taken = parts < left ? parts : left;
            for (unsigned c = 0; c < s->channels; c++)
                to[c] += (uint64_t)taken * row[c];
            parts -= taken;
            left -= taken;
            if (left == 0) {
                to += s->channels;
                left = s->from.width;
            }
        }
    }
}

static void finish_row(struct shrink *s) {
    size_t count = (size_t)s->to.width * s->channels;
    uint64_t parts = (uint64_t)s->from.width * s->from.height;
    for (size_t i = 0; i < count; i++)
        *s->next++ = (unsigned char)((s->sum[i] + parts / 2) / parts);
    memset(s->sum, 0, count * sizeof *s->sum);
    s->left = s->from.height;
}

void shrink_row(struct shrink *s, const unsigned char *row) {
    size_t count = (size_t)s->to.width * s->channels;
    if (s->to.width == s->from.width && s->to.height == s->from.height) {
        memcpy(s->next, row, count);
        s->next += count;
        return;
    }
    sum_line(s, row);
    for (unsigned parts = s->to.height; parts > 0;) {
        unsigned taken = parts < s->left ? parts : s->left;
        for (size_t i = 0; i < count; i++)
            s->sum[i] += taken * s->line[i];
        parts -= taken;
        s->left -= taken;
        if (s->left == 0)
            finish_row(s);
    }
}

const unsigned char *shrink_samples(const struct shrink *s) {
    return s->out;
}
