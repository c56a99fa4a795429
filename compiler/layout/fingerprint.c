/* fingerprint.c - the eight-character code of what is printed. */
#include "layout/fingerprint.h"

#include <math.h>
#include <sha256.h>
#include <string.h>
#include <sys/types.h>

/* Bytes collected before they are hashed; numbers as little-endian thousandths,
 * so that the code is the same on every machine. */
struct feed {
    SHA2_CTX sha;
    uint8_t bytes[4096];
    size_t count;
};

static void flush(struct feed *f) {
    SHA256Update(&f->sha, f->bytes, f->count);
    f->count = 0;
}

static void feed_number(struct feed *f, double x) {
    int64_t n = (int64_t)llround(x * 1000);
    if (f->count + 8 > sizeof f->bytes)
        flush(f);
    for (int i = 0; i < 8; i++)
        f->bytes[f->count++] = (uint8_t)((uint64_t)n >> (8 * i));
}

static void feed_text(struct feed *f, struct text t) {
    feed_number(f, (double)t.len);
    flush(f);
    if (t.len > 0)
        SHA256Update(&f->sha, (const uint8_t *)t.start, t.len);
}

static void feed_op(struct feed *f, const struct op *op) {
    const double numbers[] = {op->kind,
                              op->x,
                              op->y,
                              op->width,
                              op->height,
                              op->x2,
                              op->y2,
                              (double)op->colour.red,
                              (double)op->colour.green,
                              (double)op->colour.blue,
                              op->fill,
                              op->line_width,
                              op->dash_on,
                              op->dash_off};
    for (size_t i = 0; i < sizeof numbers / sizeof numbers[0]; i++)
        feed_number(f, numbers[i]);
    if (op->kind == OP_TEXT) {
        feed_number(f, op->face);
        feed_number(f, op->size);
        feed_text(f, op->text);
    }
    for (size_t i = 0; i < op->path_count; i++) {
        const struct path_point *p = &op->path[i];
        const double points[] = {p->verb, p->x1, p->y1, p->x2,
                                 p->y2,   p->x,  p->y};
        for (size_t k = 0; k < sizeof points / sizeof points[0]; k++)
            feed_number(f, points[k]);
    }
}

void fingerprint_make(const struct pages *p, char code[9]) {
    static const char digits[] = "23456789ABCDEFGHJKLMNPQRSTUVWXYZ";
    struct feed f;
    memset(&f, 0, sizeof f);
    SHA256Init(&f.sha);
    for (size_t i = 0; i < p->count; i++) {
        feed_number(&f, (double)i);
        for (size_t k = 0; k < p->page[i].op_count; k++)
            if (p->page[i].ops[k].kind != OP_LINK)
                feed_op(&f, &p->page[i].ops[k]);
    }
    flush(&f);
    uint8_t hash[SHA256_DIGEST_LENGTH];
    SHA256Final(hash, &f.sha);
    uint64_t bits = 0;
    for (int i = 0; i < 5; i++)
        bits = bits << 8 | hash[i];
    for (int i = 0; i < 8; i++)
        code[i] = digits[bits >> (35 - 5 * i) & 31];
    code[8] = '\0';
}
