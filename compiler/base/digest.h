/* digest.h - SHA-256 (FIPS 180-4): what tells one text from another. */
#ifndef DIGEST_H
#define DIGEST_H

#include <nettle/sha2.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

enum { DIGEST_BYTES = SHA256_DIGEST_SIZE, DIGEST_HEX = 2 * DIGEST_BYTES + 1 };

/* Piece by piece. */
struct digest {
    struct sha256_ctx state;
};

void digest_open(struct digest *d);
void digest_add(struct digest *d, const void *bytes, size_t len);
void digest_close(struct digest *d, uint8_t out[DIGEST_BYTES]);

/* At once, as hexadecimal digits in small letters with a NUL behind. */
void digest_hex(const void *bytes, size_t len, char out[DIGEST_HEX]);
/* The same of a file; false when it cannot be read. */
bool digest_file(const char *path, char out[DIGEST_HEX]);

#endif
