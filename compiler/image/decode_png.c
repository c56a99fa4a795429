/* decode_png.c - samples of a PNG. */
#include "image/decode_png.h"
#include "image/chunk.h"

#include "base/arena.h"
#include "image/fault.h"

#include <math.h>
#include <png.h>
#include <string.h>

/* A file that libpng refuses is told in its words. */
static bool begin(png_image *png, const struct image *im,
                  struct image_report *r) {
    memset(png, 0, sizeof *png);
    png->version = PNG_IMAGE_VERSION;
    if (!png_image_begin_read_from_memory(png, im->bytes, im->len))
        return fault_note(r, IMAGE_DAMAGED, "%s", png->message);
    /* Without it codes of 16 bits are taken for light, and come out pale. */
    png->flags |= PNG_IMAGE_FLAG_16BIT_sRGB;
    return true;
}

bool decode_png_head(struct image *im, struct image_report *r) {
    png_image png;
    if (!begin(&png, im, r))
        return false;
    im->channels = (png.format & PNG_FORMAT_FLAG_COLOR) != 0 ? 3 : 1;
    im->passes = chunk_passes(im);
    png_image_free(&png);
    return true;
}

/* The code of each of 65536 shades of light. By the power of 2.2 with which
 * libpng made light of codes, and not by sRGB's own curve, so that a code comes
 * back as it was. */
static unsigned char *codes_of_light(struct arena *a) {
    unsigned char *codes = arena_alloc(a, 65536, 1);
    size_t light = 0;
    for (int code = 0; code < 256; code++) {
        double end = 65535 * pow((code + 0.5) / 255, 2.2); /* nearest so far */
        while (light < 65536 && (code == 255 || (double)light <= end))
            codes[light++] = (unsigned char)code;
    }
    return codes;
}

/* 16 bits a sample, as light with the share that is opaque behind each pixel.
 * To have libpng make 8 bits of them fails where they are interlaced: since the
 * mending of CVE-2025-65018 (1.6.39 of Debian 12 too) each row shows another.
 */
static bool deep_rows(struct arena *a, const struct image *im, png_image *png,
                      struct shrink *to) {
    size_t row = (size_t)im->width * (im->channels + 1);
    png_uint_16 *samples = arena_alloc(a, im->height, row * sizeof *samples);
    unsigned char *eight = arena_alloc(a, im->width, im->channels);
    const unsigned char *codes = codes_of_light(a);
    png->format = im->channels == 3 ? PNG_FORMAT_LINEAR_RGB_ALPHA
                                    : PNG_FORMAT_LINEAR_Y_ALPHA;
    if (!png_image_finish_read(png, NULL, samples, 0, NULL))
        return false;
    for (unsigned y = 0; y < im->height; y++) {
        const png_uint_16 *from = samples + y * row;
        unsigned char *next = eight;
        for (unsigned x = 0; x < im->width; x++, from += im->channels + 1)
            for (unsigned c = 0; c < im->channels; c++) {
                /* The rest is white paper. */
                unsigned light = from[c] + 65535U - from[im->channels];
                *next++ = codes[light < 65535 ? light : 65535];
            }
        shrink_row(to, eight);
    }
    return true;
}

static bool plain_rows(struct arena *a, const struct image *im, png_image *png,
                       struct shrink *to) {
    static const png_color white = {255, 255, 255};
    size_t row = (size_t)im->width * im->channels;
    unsigned char *samples = arena_alloc(a, im->height, row);
    png->format = im->channels == 3 ? PNG_FORMAT_RGB : PNG_FORMAT_GRAY;
    if (!png_image_finish_read(png, &white, samples, 0, NULL))
        return false;
    for (unsigned y = 0; y < im->height; y++)
        shrink_row(to, samples + y * row);
    return true;
}

bool decode_png_rows(struct arena *a, const struct image *im, struct shrink *to,
                     struct image_report *r) {
    png_image png;
    if (!begin(&png, im, r))
        return false;
    bool deep = (png.format & PNG_FORMAT_FLAG_LINEAR) != 0;
    if (!(deep ? deep_rows(a, im, &png, to) : plain_rows(a, im, &png, to)))
        return fault_note(r, IMAGE_DAMAGED, "%s", png.message);
    return true;
}
