/* fuzz_image.c - PNG and JPEG files: opened, and decoded to two sizes. */
#include "base/arena.h"
#include "image/image.h"

#include <stdint.h>
#include <stdlib.h>
#include <string.h>
#include <zlib.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

/* A picture that is let in must be one that a PDF can hold. */
static void look_at(struct arena *a, const struct image *im, unsigned side) {
    struct image_report report;
    struct picture *p = image_fit(a, im, side, side, &report);
    if ((p == NULL) != (report.fault != IMAGE_GOOD))
        __builtin_trap();
    if (p == NULL)
        return;
    if (p->width < 1 || p->width > im->width || p->height < 1 ||
        p->height > im->height || (p->channels != 1 && p->channels != 3) ||
        p->turn < 1 || p->turn > 8 || p->len == 0)
        __builtin_trap();
    if (p->coding != PICTURE_JPEG)
        return;
    /* What is kept of a JPEG is a JPEG of the same size. */
    struct image *again = image_open(a, p->bytes, p->len, &report);
    if (again == NULL || !again->passes || again->turn != 1 ||
        again->width != p->width || again->height != p->height)
        __builtin_trap();
}

static void open_bytes(const uint8_t *data, size_t size) {
    struct arena *a = arena_new();
    struct image_report report;
    const struct image *im = image_open(a, data, size, &report);
    if ((im == NULL) != (report.fault != IMAGE_GOOD))
        __builtin_trap();
    /* Large ones of few bytes are only slow. */
    if (im != NULL && (uint64_t)im->width * im->height < 1000000) {
        look_at(a, im, 16);
        look_at(a, im, IMAGE_SIDE_MAX);
    }
    arena_free(a);
}

/* Checksums made right, or no change in a PNG would come past them. */
static void mend(uint8_t *data, size_t size) {
    for (size_t at = 8; size - at >= 12;) {
        size_t len = (size_t)data[at] << 24 | (size_t)data[at + 1] << 16 |
                     (size_t)data[at + 2] << 8 | data[at + 3];
        if (len > size - at - 12)
            return;
        uLong sum = crc32(0, data + at + 4, (uInt)len + 4);
        for (int i = 0; i < 4; i++)
            data[at + 8 + len + (size_t)i] = (uint8_t)(sum >> (24 - 8 * i));
        at += len + 12;
    }
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size) {
    open_bytes(data, size);
    if (size < 8 || data[0] != 0x89)
        return 0;
    uint8_t *copy = malloc(size);
    if (copy == NULL)
        return 0;
    memcpy(copy, data, size);
    mend(copy, size);
    open_bytes(copy, size);
    free(copy);
    return 0;
}
