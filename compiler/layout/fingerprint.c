/* fingerprint.c - the eight-character code of what is printed. */
#include "layout/fingerprint.h"

#include "base/digest.h"
#include "image/picture.h"

#include <math.h>
#include <string.h>

/* Bytes collected before they are hashed; numbers as little-endian thousandths
 * in four bytes, so that the code is the same on every machine. */
struct feed {
    struct digest digest;
    uint8_t bytes[4096];
    size_t count;
};

static void flush(struct feed *f) {
    digest_add(&f->digest, f->bytes, f->count);
    f->count = 0;
}

static void feed_number(struct feed *f, double x) {
    uint32_t n = (uint32_t)(int32_t)lround(x * 1000);
    if (f->count + 4 > sizeof f->bytes)
        flush(f);
    for (int i = 0; i < 4; i++)
        f->bytes[f->count++] = (uint8_t)(n >> (8 * i));
}

static void feed_text(struct feed *f, struct text t) {
    feed_number(f, (double)t.len);
    for (size_t i = 0; i < t.len; i++) {
        if (f->count == sizeof f->bytes)
            flush(f);
        f->bytes[f->count++] = (uint8_t)t.start[i];
    }
}

static void feed_picture(struct feed *f, const struct picture *p) {
    feed_number(f, p->turn);
    feed_text(f, (struct text){(const char *)p->bytes, p->len});
}

static void feed_path(struct feed *f, const struct op *op) {
    feed_number(f, (double)op->path_count);
    for (size_t i = 0; i < op->path_count; i++) {
        const struct path_point *p = &op->path[i];
        feed_number(f, p->verb);
        feed_number(f, p->x);
        feed_number(f, p->y);
        if (p->verb != PATH_CURVE)
            continue;
        feed_number(f, p->x1);
        feed_number(f, p->y1);
        feed_number(f, p->x2);
        feed_number(f, p->y2);
    }
}

static void feed_numbers(struct feed *f, const double *list, size_t count) {
    for (size_t i = 0; i < count; i++)
        feed_number(f, list[i]);
}

static void feed_line(struct feed *f, const struct op *op) {
    feed_number(f, op->line_width);
    feed_number(f, op->dash_on);
    feed_number(f, op->dash_off);
}

static void feed_op(struct feed *f, const struct op *op) {
    const double ink[] = {op->kind,
                          (double)op->colour.red,
                          (double)op->colour.green,
                          (double)op->colour.blue,
                          op->fill,
                          op->x,
                          op->y};
    feed_numbers(f, ink, 7);
    switch (op->kind) {
    case OP_TEXT:
        feed_number(f, op->face);
        feed_number(f, op->size);
        feed_text(f, op->text);
        return;
    case OP_RECT:
        feed_line(f, op);
        feed_number(f, op->width);
        feed_number(f, op->height);
        return;
    case OP_LINE:
        feed_line(f, op);
        feed_number(f, op->x2);
        feed_number(f, op->y2);
        return;
    case OP_PATH:
        feed_line(f, op);
        feed_path(f, op);
        return;
    case OP_IMAGE:
        feed_number(f, op->width);
        feed_number(f, op->height);
        feed_picture(f, op->picture);
        return;
    case OP_LINK:
        return;
    }
}

void fingerprint_make(const struct pages *p, char code[9]) {
    static const char digits[] = "23456789ABCDEFGHJKLMNPQRSTUVWXYZ";
    struct feed f;
    memset(&f, 0, sizeof f);
    digest_open(&f.digest);
    for (size_t i = 0; i < p->count; i++) {
        feed_number(&f, (double)i);
        for (size_t k = 0; k < p->page[i].op_count; k++)
            if (p->page[i].ops[k].kind != OP_LINK)
                feed_op(&f, &p->page[i].ops[k]);
    }
    flush(&f);
    uint8_t hash[DIGEST_BYTES];
    digest_close(&f.digest, hash);
    uint64_t bits = 0;
    for (int i = 0; i < 5; i++)
        bits = bits << 8 | hash[i];
    for (int i = 0; i < 8; i++)
        code[i] = digits[bits >> (35 - 5 * i) & 31];
    code[8] = '\0';
}
