/* image.c - PNG and JPEG files of the library: known, checked, made small. */
#include "image/image.h"

#include "base/arena.h"
#include "image/chunk.h"
#include "image/decode_jpeg.h"
#include "image/decode_png.h"
#include "image/encode.h"
#include "image/fault.h"
#include "image/segment.h"

#include <string.h>

static bool begins(const unsigned char *bytes, size_t len, size_t at,
                   const char *with) {
    size_t count = strlen(with);
    return len >= at + count && memcmp(bytes + at, with, count) == 0;
}

/* What else it may be: the cure is to save it in another way. */
static bool refuse_unknown(const unsigned char *bytes, size_t len,
                           struct image_report *r) {
    static const struct {
        size_t at;
        const char *with, *name;
    } others[] = {
        {0, "GIF8", "GIF"}, {8, "WEBP", "WebP"}, {0, "BM", "BMP"},
        {0, "II*", "TIFF"}, {0, "MM", "TIFF"},   {4, "ftyp", "HEIC or AVIF"},
        {0, "%PDF", "PDF"}, {0, "<svg", "SVG"},  {0, "<?xml", "XML"},
    };
    if (len == 0)
        return fault_note(r, IMAGE_UNKNOWN, "it is empty");
    for (size_t i = 0; i < sizeof others / sizeof *others; i++)
        if (begins(bytes, len, others[i].at, others[i].with))
            return fault_note(r, IMAGE_UNKNOWN, "it looks like %s",
                              others[i].name);
    return fault_note(r, IMAGE_UNKNOWN, "its first bytes are of neither");
}

static bool check(struct arena *a, struct image *im, struct image_report *r) {
    if (im->len > IMAGE_BYTES_MAX)
        return fault_note(r, IMAGE_LARGE, "%zu bytes; at most %d MiB", im->len,
                          IMAGE_BYTES_MAX / (1024 * 1024));
    if (begins(im->bytes, im->len, 0, "\xFF\xD8\xFF")) {
        im->format = IMAGE_JPEG;
        return decode_jpeg_check(a, im, r);
    }
    if (begins(im->bytes, im->len, 0, "\x89PNG")) {
        im->format = IMAGE_PNG;
        return chunk_check(im, r) && fault_size(r, im->width, im->height) &&
               decode_png_head(im, r);
    }
    return refuse_unknown(im->bytes, im->len, r);
}

struct image *image_open(struct arena *a, const unsigned char *bytes,
                         size_t len, struct image_report *report) {
    struct image im = {.bytes = bytes, .len = len, .turn = 1};
    struct arena *own = arena_new();
    *report = (struct image_report){.fault = IMAGE_GOOD};
    bool good = check(own, &im, report);
    arena_free(own);
    if (!good)
        return NULL;
    struct image *out = arena_alloc(a, 1, sizeof *out);
    *out = im;
    return out;
}

static bool on_its_side(const struct image *im) {
    return im->turn >= 5;
}

unsigned image_width(const struct image *im) {
    return on_its_side(im) ? im->height : im->width;
}

unsigned image_height(const struct image *im) {
    return on_its_side(im) ? im->width : im->height;
}

static unsigned at_most(unsigned x, unsigned most) {
    return x < most ? x : most < 1 ? 1 : most;
}

/* A third of the bytes where three channels say the same. */
static void drop_colours(struct arena *a, struct encode_rows *rows) {
    size_t count = (size_t)rows->width * rows->height;
    const unsigned char *s = rows->samples;
    if (rows->channels != 3)
        return;
    for (size_t i = 0; i < count; i++)
        if (s[3 * i] != s[3 * i + 1] || s[3 * i] != s[3 * i + 2])
            return;
    unsigned char *grey = arena_alloc(a, count, 1);
    for (size_t i = 0; i < count; i++)
        grey[i] = s[3 * i];
    rows->samples = grey;
    rows->channels = 1;
}

static bool fit(struct arena *a, struct arena *own, const struct image *im,
                struct picture *p, struct image_report *r) {
    struct shrink_size from = {im->width, im->height};
    struct shrink_size to = {p->width, p->height};
    struct shrink *s = shrink_new(own, from, to, im->channels);
    bool jpeg = im->format == IMAGE_JPEG;
    if (!(jpeg ? decode_jpeg_rows(own, im, s, r)
               : decode_png_rows(own, im, s, r)))
        return false;
    struct encode_rows rows = {shrink_samples(s), to.width, to.height,
                               im->channels};
    drop_colours(own, &rows);
    p->channels = rows.channels;
    if (!jpeg && im->passes && to.width == from.width &&
        to.height == from.height && p->channels == im->channels) {
        p->coding = PICTURE_PNG; /* decoded all the same: nothing is damaged */
        p->bytes = chunk_samples(a, im, &p->len);
        return true;
    }
    p->coding = jpeg ? PICTURE_JPEG : PICTURE_FLATE;
    p->bytes =
        jpeg ? encode_jpeg(a, rows, &p->len) : encode_flate(a, rows, &p->len);
    return true;
}

struct picture *image_fit(struct arena *a, const struct image *im,
                          unsigned width, unsigned height,
                          struct image_report *report) {
    struct picture *p = arena_alloc(a, 1, sizeof *p);
    *report = (struct image_report){.fault = IMAGE_GOOD};
    p->width = at_most(im->width, on_its_side(im) ? height : width);
    p->height = at_most(im->height, on_its_side(im) ? width : height);
    p->turn = im->turn;
    if (im->format == IMAGE_JPEG && im->passes && p->width == im->width &&
        p->height == im->height) {
        p->coding = PICTURE_JPEG;
        p->channels = im->channels;
        p->bytes = segment_strip(a, im->bytes, im->len, &p->len);
        return p;
    }
    struct arena *own = arena_new();
    bool good = fit(a, own, im, p, report);
    arena_free(own);
    return good ? p : NULL;
}
