/* pack.h - bytes made smaller, and their checksum: by libdeflate. */
#ifndef PACK_H
#define PACK_H

#include <stddef.h>
#include <stdint.h>

struct arena;

/* The bytes as a zlib stream (RFC 1950), which a PDF calls FlateDecode. The
 * same bytes give the same stream as long as the library stays the same. */
unsigned char *pack_deflate(struct arena *a, const void *bytes, size_t len,
                            size_t *packed_len);
/* CRC-32 as PNG has it (ISO 3309). */
uint32_t pack_crc32(const void *bytes, size_t len);

#endif
