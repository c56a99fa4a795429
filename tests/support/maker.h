/* maker.h - makes PNG and JPEG files for tests, good ones and bad ones.
 *
 * A PNG is put together by hand, chunk by chunk, so that it owes nothing to the
 * library that reads it; a JPEG by libjpeg. */
#ifndef MAKER_H
#define MAKER_H

#include "base/arena.h"
#include "base/text.h"

#include <stdbool.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <jpeglib.h>
#include <zlib.h>

/* A sample of the picture, 0 to 1, at a place from 0 to 1: nothing in it is the
 * same turned or mirrored. Channel 3 is how opaque it is. */
static inline double maker_sample(double x, double y, unsigned channel) {
    switch (channel) {
    case 0:
        return 0.9 * x;
    case 1:
        return 0.8 * y;
    case 2:
        return x > 0.5 ? 1 : 0.2;
    default:
        return y > 0.5 ? 1 : x;
    }
}

/* --- PNG --- */

enum maker_colour {
    MAKER_GREY = 0,
    MAKER_RGB = 2,
    MAKER_PALETTE = 3,
    MAKER_GREY_ALPHA = 4,
    MAKER_RGB_ALPHA = 6,
};

struct maker_png {
    uint32_t width, height;
    unsigned depth;
    enum maker_colour colour;
    bool interlaced;
    bool filtered;                /* rows by the five filters, in turn */
    bool gamma;                   /* a gAMA chunk: codes are light itself */
    const unsigned char *palette; /* 3 bytes each */
    size_t palette_len;
    const unsigned char *clear; /* the data of tRNS, or NULL */
    size_t clear_len;
};

static inline void maker_put32(struct buf *out, uint32_t n) {
    const char bytes[4] = {(char)(n >> 24), (char)(n >> 16), (char)(n >> 8),
                           (char)n};
    buf_add(out, bytes, 4);
}

static inline void maker_chunk(struct buf *out, const char *type,
                               const void *data, size_t len) {
    struct buf body = buf_in(out->arena);
    buf_add(&body, type, 4);
    if (len > 0)
        buf_add(&body, data, len);
    maker_put32(out, (uint32_t)len);
    buf_add(out, body.bytes, body.len);
    maker_put32(out,
                (uint32_t)crc32(0, (const Bytef *)body.bytes, (uInt)body.len));
}

static inline unsigned maker_channels(enum maker_colour colour) {
    switch (colour) {
    case MAKER_GREY:
    case MAKER_PALETTE:
        return 1;
    case MAKER_RGB:
        return 3;
    case MAKER_GREY_ALPHA:
        return 2;
    case MAKER_RGB_ALPHA:
        return 4;
    }
    return 0;
}

/* As a whole number of `depth` bits, as the file holds it. */
static inline unsigned maker_coded(const struct maker_png *p, uint32_t x,
                                   uint32_t y, unsigned channel) {
    unsigned most = (1U << p->depth) - 1;
    if (p->colour == MAKER_PALETTE)
        return (unsigned)((x + y * 3) % (p->palette_len / 3));
    if (p->colour == MAKER_GREY_ALPHA && channel == 1)
        channel = 3;
    double s =
        maker_sample((x + 0.5) / p->width, (y + 0.5) / p->height, channel);
    return (unsigned)(s * most + 0.5);
}

/* The rows of one pass: every dx-th pixel from x0, every dy-th row from y0. */
static inline void maker_pass(struct buf *out, const struct maker_png *p,
                              uint32_t x0, uint32_t y0, uint32_t dx,
                              uint32_t dy) {
    if (x0 >= p->width)
        return;
    for (uint32_t y = y0; y < p->height; y += dy) {
        unsigned bits = 0, held = 0;
        buf_add(out, "", 1); /* no filter */
        for (uint32_t x = x0; x < p->width; x += dx)
            for (unsigned c = 0; c < maker_channels(p->colour); c++) {
                unsigned coded = maker_coded(p, x, y, c);
                if (p->depth == 16)
                    buf_add(out, &(char){(char)(coded >> 8)}, 1);
                held = held << (p->depth & 15) | (coded & 0xFF);
                bits += p->depth == 16 ? 8 : p->depth;
                if (bits == 8) {
                    buf_add(out, &(char){(char)held}, 1);
                    bits = held = 0;
                }
            }
        if (bits > 0)
            buf_add(out, &(char){(char)(held << (8 - bits))}, 1);
    }
}

/* The rows of a plain image of 8 bits, filtered: ISO/IEC 15948, 9. */
static inline void maker_filter(struct buf *rows, const struct maker_png *p) {
    size_t step = maker_channels(p->colour), row = p->width * step;
    unsigned char *old = arena_alloc(rows->arena, p->height, row);
    for (size_t y = 0; y < p->height; y++)
        memcpy(old + y * row, rows->bytes + y * (row + 1) + 1, row);
    for (size_t y = 0; y < p->height; y++) {
        char *to = rows->bytes + y * (row + 1);
        int filter = *to++ = (char)(y % 5);
        for (size_t x = 0; x < row; x++) {
            const unsigned char *at = old + y * row + x;
            int a = x >= step ? at[-(ptrdiff_t)step] : 0;
            int b = y > 0 ? at[-(ptrdiff_t)row] : 0;
            int c = x >= step && y > 0 ? at[-(ptrdiff_t)(row + step)] : 0;
            int pa = abs(b - c), pb = abs(a - c), pc = abs(a + b - 2 * c);
            int paeth = pa <= pb && pa <= pc ? a : pb <= pc ? b : c;
            int less[] = {0, a, b, (a + b) / 2, paeth};
            to[x] = (char)(*at - less[filter]);
        }
    }
}

static inline void maker_head(struct buf *out, const struct maker_png *p) {
    struct buf head = buf_in(out->arena);
    buf_add(out, "\x89PNG\r\n\x1A\n", 8);
    maker_put32(&head, p->width);
    maker_put32(&head, p->height);
    const char rest[5] = {(char)p->depth, (char)p->colour, 0, 0,
                          (char)p->interlaced};
    buf_add(&head, rest, 5);
    maker_chunk(out, "IHDR", head.bytes, head.len);
    if (p->gamma)
        maker_chunk(out, "gAMA", (const unsigned char *)"\0\1\x86\xA0", 4);
    if (p->palette_len > 0)
        maker_chunk(out, "PLTE", p->palette, p->palette_len);
    if (p->clear_len > 0)
        maker_chunk(out, "tRNS", p->clear, p->clear_len);
}

static inline struct text maker_png(struct arena *a, struct maker_png p) {
    /* The order of Adam7 (ISO/IEC 15948, 8.2). */
    static const uint32_t passes[7][4] = {
        {0, 0, 8, 8}, {4, 0, 8, 8}, {0, 4, 4, 8}, {2, 0, 4, 4},
        {0, 2, 2, 4}, {1, 0, 2, 2}, {0, 1, 1, 2}};
    struct buf out = buf_in(a), rows = buf_in(a);
    maker_head(&out, &p);
    if (!p.interlaced)
        maker_pass(&rows, &p, 0, 0, 1, 1);
    for (int i = 0; p.interlaced && i < 7; i++)
        maker_pass(&rows, &p, passes[i][0], passes[i][1], passes[i][2],
                   passes[i][3]);
    if (p.filtered)
        maker_filter(&rows, &p);
    uLongf len = compressBound((uLong)rows.len);
    unsigned char *packed = arena_alloc(a, len, 1);
    compress2(packed, &len, (const Bytef *)rows.bytes, (uLong)rows.len, 9);
    maker_chunk(&out, "IDAT", packed, len);
    maker_chunk(&out, "IEND", NULL, 0);
    return buf_as_text(&out);
}

/* --- JPEG --- */

struct maker_jpeg {
    unsigned width, height;
    int channels;                      /* 1, 3; 4 is CMYK */
    bool progressive, arithmetic, rgb; /* rgb: not turned into YCbCr */
    bool adobe;                        /* with Adobe's segment */
    int fine; /* one channel, progressive: 1 for 64 scans, 2 for 127 */
    const unsigned char *exif; /* the data of APP1, or NULL */
    unsigned exif_len;
    const char *remark; /* in COM, or NULL */
};

static inline void maker_jpeg_row(const struct maker_jpeg *p, unsigned y,
                                  unsigned char *row) {
    for (unsigned x = 0; x < p->width; x++)
        for (int c = 0; c < p->channels; c++)
            *row++ = (unsigned char)(maker_sample((x + 0.5) / p->width,
                                                  (y + 0.5) / p->height,
                                                  (unsigned)c) *
                                         255 +
                                     0.5);
}

/* One scan for each coefficient, and another for the last bit of each. */
static inline int maker_scans(jpeg_scan_info out[127], int fine) {
    int count = 0;
    for (int pass = 0; pass < fine; pass++)
        for (int k = pass; k < 64; k++)
            out[count++] = (jpeg_scan_info){
                1, {0}, k, k, pass, k > 0 && pass + 1 < fine ? 1 : 0};
    return count;
}

static inline struct text maker_jpeg(struct arena *a, struct maker_jpeg p) {
    struct jpeg_compress_struct info;
    struct jpeg_error_mgr errors;
    unsigned char *made = NULL;
    unsigned long len = 0;
    unsigned char *row = arena_alloc(a, p.width, (size_t)p.channels);
    info.err = jpeg_std_error(&errors);
    jpeg_create_compress(&info);
    jpeg_mem_dest(&info, &made, &len);
    info.image_width = p.width;
    info.image_height = p.height;
    info.input_components = p.channels;
    info.in_color_space = p.channels == 1   ? JCS_GRAYSCALE
                          : p.channels == 3 ? JCS_RGB
                                            : JCS_CMYK;
    jpeg_set_defaults(&info);
    if (p.rgb)
        jpeg_set_colorspace(&info, JCS_RGB);
    jpeg_set_quality(&info, 92, TRUE);
    info.arith_code = p.arithmetic;
    if (p.progressive)
        jpeg_simple_progression(&info);
    jpeg_scan_info scans[127];
    if (p.fine > 0) {
        info.num_scans = maker_scans(scans, p.fine);
        info.scan_info = scans;
    }
    info.write_Adobe_marker = p.adobe || p.rgb;
    jpeg_start_compress(&info, TRUE);
    if (p.exif != NULL)
        jpeg_write_marker(&info, JPEG_APP0 + 1, p.exif, p.exif_len);
    if (p.remark != NULL)
        jpeg_write_marker(&info, JPEG_COM, (const JOCTET *)p.remark,
                          (unsigned)strlen(p.remark));
    for (unsigned y = 0; y < p.height; y++) {
        maker_jpeg_row(&p, y, row);
        jpeg_write_scanlines(&info, &row, 1);
    }
    jpeg_finish_compress(&info);
    jpeg_destroy_compress(&info);
    struct text out = {arena_copy(a, (const char *)made, len), len};
    free(made);
    return out;
}

/* The data of an Exif segment that states a turn, after two other entries. */
enum { MAKER_EXIF_LEN = 6 + 8 + 2 + 3 * 12 + 4 };
static inline void maker_exif(unsigned char out[MAKER_EXIF_LEN], bool little,
                              unsigned turn) {
    static const unsigned entries[3][4] = {/* tag, type, count, value */
                                           {0x010F, 2, 3, 0},
                                           {0x0110, 2, 3, 0},
                                           {0x0112, 3, 1, 0}};
    unsigned char *at = out + 6;
    memset(out, 0, MAKER_EXIF_LEN);
    memcpy(out, "Exif\0\0", 6);
    memcpy(at, little ? "II\x2A\0\x08\0\0\0" : "MM\0\x2A\0\0\0\x08", 8);
    at += 8;
#define MAKER_16(n)                                                            \
    (at[0] = (unsigned char)(little ? (n) : (n) >> 8),                         \
     at[1] = (unsigned char)(little ? (n) >> 8 : (n)), at += 2)
    MAKER_16(3U);
    for (int i = 0; i < 3; i++) {
        MAKER_16(entries[i][0]);
        MAKER_16(entries[i][1]);
        MAKER_16(little ? entries[i][2] : 0U);
        MAKER_16(little ? 0U : entries[i][2]);
        MAKER_16(i == 2 ? turn : 0x4141U);
        MAKER_16(0U);
    }
#undef MAKER_16
}

#endif
