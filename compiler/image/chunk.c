/* chunk.c - the chunks of a PNG file (ISO/IEC 15948, clause 5). */
#include "image/chunk.h"

#include "base/arena.h"
#include "base/pack.h"
#include "image/fault.h"

#include <stdint.h>
#include <string.h>

static const unsigned char signature[] = {0x89, 'P',  'N',  'G',
                                          '\r', '\n', 0x1A, '\n'};

/* Length, type, data, checksum over type and data. */
enum { BEFORE_DATA = 8, AROUND_DATA = 12, HEADER_LEN = 13 };

static uint32_t number_at(const unsigned char *b) {
    return (uint32_t)b[0] << 24 | (uint32_t)b[1] << 16 | (uint32_t)b[2] << 8 |
           b[3];
}

static bool is_name(const unsigned char *type) {
    for (int i = 0; i < 4; i++)
        if ((type[i] < 'A' || type[i] > 'Z') &&
            (type[i] < 'a' || type[i] > 'z'))
            return false;
    return true;
}

static bool is_type(const unsigned char *chunk, const char *type) {
    return memcmp(chunk + 4, type, 4) == 0;
}

/* A whole chunk at im->bytes + at, with the right checksum. */
static bool check_one(const struct image *im, size_t at, size_t *len,
                      struct image_report *r) {
    const unsigned char *chunk = im->bytes + at;
    size_t left = im->len - at;
    if (left < AROUND_DATA)
        return fault_note(r, IMAGE_DAMAGED, "the file ends too early");
    if (!is_name(chunk + 4))
        return fault_note(r, IMAGE_DAMAGED, "its parts have no names");
    int name_len = 4;
    const char *name = (const char *)chunk + 4;
    *len = number_at(chunk);
    if (*len > left - AROUND_DATA)
        return fault_note(r, IMAGE_DAMAGED, "the file ends inside %.*s",
                          name_len, name);
    uint32_t sum = pack_crc32(chunk + 4, *len + 4);
    if (sum != number_at(chunk + BEFORE_DATA + *len))
        return fault_note(r, IMAGE_DAMAGED, "%.*s has a wrong checksum",
                          name_len, name);
    return true;
}

bool chunk_check(struct image *im, struct image_report *r) {
    if (im->len < sizeof signature ||
        memcmp(im->bytes, signature, sizeof signature) != 0)
        return fault_note(r, IMAGE_DAMAGED,
                          "its first bytes were changed, as when a file is "
                          "sent as text");
    size_t at = sizeof signature;
    for (bool first = true;; first = false) {
        const unsigned char *chunk = im->bytes + at;
        size_t len = 0;
        if (!check_one(im, at, &len, r))
            return false;
        if (first && (!is_type(chunk, "IHDR") || len != HEADER_LEN))
            return fault_note(r, IMAGE_DAMAGED, "it does not begin with IHDR");
        if (first) {
            im->width = number_at(chunk + BEFORE_DATA);
            im->height = number_at(chunk + BEFORE_DATA + 4);
        }
        at += len + AROUND_DATA;
        if (is_type(chunk, "IEND"))
            break;
    }
    im->len = at;
    return true;
}

/* The next chunk of a file that was checked; NULL behind the last. */
static const unsigned char *next_chunk(const struct image *im, size_t *at,
                                       size_t *len) {
    if (*at >= im->len)
        return NULL;
    const unsigned char *chunk = im->bytes + *at;
    *len = number_at(chunk);
    *at += *len + AROUND_DATA;
    return chunk;
}

bool chunk_passes(const struct image *im) {
    static const char *const harmless[] = {"IHDR", "IDAT", "IEND", "pHYs",
                                           "sRGB", "tEXt", "zTXt", "iTXt",
                                           "tIME", "eXIf"};
    enum { HARMLESS = sizeof harmless / sizeof harmless[0] };
    /* Depth, colour type, compression, filter, interlace. */
    const unsigned char *form = im->bytes + sizeof signature + BEFORE_DATA + 8;
    if (form[0] != 8 || (form[1] != 0 && form[1] != 2) || form[4] != 0)
        return false;
    size_t at = sizeof signature, len;
    for (const unsigned char *c; (c = next_chunk(im, &at, &len)) != NULL;) {
        size_t i = 0;
        while (i < HARMLESS && !is_type(c, harmless[i]))
            i++;
        if (i == HARMLESS)
            return false;
    }
    return true;
}

unsigned char *chunk_samples(struct arena *a, const struct image *im,
                             size_t *len) {
    unsigned char *out = arena_alloc(a, im->len, 1);
    size_t at = sizeof signature, one;
    *len = 0;
    for (const unsigned char *c; (c = next_chunk(im, &at, &one)) != NULL;) {
        if (!is_type(c, "IDAT"))
            continue;
        memcpy(out + *len, c + BEFORE_DATA, one);
        *len += one;
    }
    return out;
}
