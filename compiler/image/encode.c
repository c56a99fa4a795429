/* encode.c - samples to what a PDF holds. libjpeg fails here only when memory
 * is gone, which ends the program as in any arena. */
#include "image/encode.h"

#include "base/arena.h"
#include "base/pack.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <jpeglib.h>

unsigned char *encode_flate(struct arena *a, struct encode_rows rows,
                            size_t *len) {
    size_t size = (size_t)rows.width * rows.height * rows.channels;
    return pack_deflate(a, rows.samples, size, len);
}

static void give_up(j_common_ptr info) {
    (void)info;
    arena_exhausted();
}

unsigned char *encode_jpeg(struct arena *a, struct encode_rows rows,
                           size_t *len) {
    struct jpeg_compress_struct info;
    struct jpeg_error_mgr errors;
    unsigned char *made = NULL;
    unsigned long made_len = 0;
    size_t row_len = (size_t)rows.width * rows.channels;
    unsigned char *row =
        arena_alloc(a, row_len, 1); /* libjpeg wants it writable */
    info.err = jpeg_std_error(&errors);
    errors.error_exit = give_up;
    jpeg_create_compress(&info);
    jpeg_mem_dest(&info, &made, &made_len);
    info.image_width = rows.width;
    info.image_height = rows.height;
    info.input_components = (int)rows.channels;
    info.in_color_space = rows.channels == 1 ? JCS_GRAYSCALE : JCS_RGB;
    jpeg_set_defaults(&info);
    jpeg_set_quality(&info, 85, TRUE);
    info.optimize_coding = TRUE;
    jpeg_start_compress(&info, TRUE);
    for (unsigned y = 0; y < rows.height; y++) {
        memcpy(row, rows.samples + y * row_len, row_len);
        jpeg_write_scanlines(&info, &row, 1);
    }
    jpeg_finish_compress(&info);
    jpeg_destroy_compress(&info);
    unsigned char *out = arena_alloc(a, made_len, 1);
    memcpy(out, made, made_len);
    *len = made_len;
    free(made);
    return out;
}
