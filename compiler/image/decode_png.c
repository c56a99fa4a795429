/* decode_png.c - samples of a PNG. */
#include "image/decode_png.h"

#include "base/arena.h"
#include "image/fault.h"

#include <png.h>
#include <string.h>

/* A file that libpng refuses is told in its words. */
static bool begin(png_image *png, const struct image *im,
                  struct image_report *r) {
    memset(png, 0, sizeof *png);
    png->version = PNG_IMAGE_VERSION;
    if (!png_image_begin_read_from_memory(png, im->bytes, im->len))
        return fault_note(r, IMAGE_DAMAGED, "%s", png->message);
    /* Without it 16 bits a sample count as linear light, and come out pale. */
    png->flags |= PNG_IMAGE_FLAG_16BIT_sRGB;
    return true;
}

bool decode_png_head(struct image *im, struct image_report *r) {
    png_image png;
    if (!begin(&png, im, r))
        return false;
    im->channels = (png.format & PNG_FORMAT_FLAG_COLOR) != 0 ? 3 : 1;
    png_image_free(&png);
    return true;
}

bool decode_png_rows(struct arena *a, const struct image *im, struct shrink *to,
                     struct image_report *r) {
    static const png_color white = {255, 255, 255};
    png_image png;
    if (!begin(&png, im, r))
        return false;
    png.format = im->channels == 3 ? PNG_FORMAT_RGB : PNG_FORMAT_GRAY;
    size_t row = (size_t)im->width * im->channels;
    unsigned char *samples = arena_alloc(a, im->height, row);
    if (!png_image_finish_read(&png, &white, samples, 0, NULL))
        return fault_note(r, IMAGE_DAMAGED, "%s", png.message);
    for (unsigned y = 0; y < im->height; y++)
        shrink_row(to, samples + y * row);
    return true;
}
