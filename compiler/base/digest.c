/* digest.c - SHA-256, by Nettle. */
#include "base/digest.h"

#include <stdio.h>

void digest_open(struct digest *d) {
    sha256_init(&d->state);
}

void digest_add(struct digest *d, const void *bytes, size_t len) {
    if (len > 0)
        sha256_update(&d->state, len, bytes);
}

void digest_close(struct digest *d, uint8_t out[DIGEST_BYTES]) {
    sha256_digest(&d->state, DIGEST_BYTES, out);
}

static void close_hex(struct digest *d, char out[DIGEST_HEX]) {
    static const char digits[] = "0123456789abcdef";
    uint8_t bytes[DIGEST_BYTES];
    digest_close(d, bytes);
    for (int i = 0; i < DIGEST_BYTES; i++) {
        out[2 * i] = digits[bytes[i] >> 4];
        out[2 * i + 1] = digits[bytes[i] & 15];
    }
    out[DIGEST_HEX - 1] = '\0';
}

void digest_hex(const void *bytes, size_t len, char out[DIGEST_HEX]) {
    struct digest d;
    digest_open(&d);
    digest_add(&d, bytes, len);
    close_hex(&d, out);
}

bool digest_file(const char *path, char out[DIGEST_HEX]) {
    FILE *in = fopen(path, "rb");
    if (in == NULL)
        return false;
    struct digest d;
    digest_open(&d);
    char bytes[16384];
    size_t len;
    while ((len = fread(bytes, 1, sizeof bytes, in)) > 0)
        digest_add(&d, bytes, len);
    bool whole = !ferror(in);
    fclose(in);
    close_hex(&d, out);
    return whole;
}
