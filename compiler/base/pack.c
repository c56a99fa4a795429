/* pack.c - bytes made smaller. The library fails only when memory is gone,
 * which ends the program as in any arena. */
#include "base/pack.h"

#include "base/arena.h"

#include <libdeflate.h>
#include <string.h>

enum {
    LEVEL = 1
}; /* of 12: at 6 a guide is 2 % smaller and takes 4 % longer */

unsigned char *pack_deflate(struct arena *a, const void *bytes, size_t len,
                            size_t *packed_len) {
    struct libdeflate_compressor *c = libdeflate_alloc_compressor(LEVEL);
    if (c == NULL)
        arena_exhausted();
    size_t room = libdeflate_zlib_compress_bound(c, len);
    struct arena *own = arena_new();
    unsigned char *wide = arena_alloc(own, room, 1);
    size_t packed = libdeflate_zlib_compress(c, bytes, len, wide, room);
    libdeflate_free_compressor(c);
    if (packed == 0)
        arena_exhausted();
    unsigned char *out = arena_alloc(a, packed, 1);
    memcpy(out, wide, packed);
    arena_free(own);
    *packed_len = packed;
    return out;
}

uint32_t pack_crc32(const void *bytes, size_t len) {
    return libdeflate_crc32(0, bytes, len);
}
