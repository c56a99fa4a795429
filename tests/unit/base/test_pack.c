/* test_pack.c - what is packed comes back by zlib, byte for byte. */
#include "base/arena.h"
#include "base/pack.h"

#include <setjmp.h>
#include <stdarg.h>
#include <string.h>
#include <zlib.h>

#include <cmocka.h>

static void test_zlib_reads_it(void **state) {
    static const size_t lengths[] = {0, 1, 55, 56, 57, 1000, 70000, 300000};
    (void)state;
    struct arena *a = arena_new();
    for (size_t i = 0; i < sizeof lengths / sizeof lengths[0]; i++) {
        size_t len = lengths[i], packed_len = 0;
        unsigned char *bytes = arena_alloc(a, len + 1, 1);
        unsigned chance = 7;
        for (size_t k = 0; k < len; k++) {
            chance = chance * 1103515245u + 12345u;
            bytes[k] = (unsigned char)("0 1.25 Tf ET"[(chance >> 16) % 12]);
        }
        const unsigned char *packed = pack_deflate(a, bytes, len, &packed_len);
        unsigned char *back = arena_alloc(a, len + 1, 1);
        uLongf back_len = len + 1;
        assert_int_equal(uncompress(back, &back_len, packed, packed_len), Z_OK);
        assert_int_equal(back_len, len);
        assert_memory_equal(back, bytes, len);
        assert_true(len < 1000 || packed_len < len * 3 / 4);
        assert_int_equal(pack_crc32(bytes, len), crc32(0, bytes, (uInt)len));
    }
    arena_free(a);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_zlib_reads_it),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
