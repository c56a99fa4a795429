/* test_digest.c - SHA-256 against its standard's examples and another library.
 */
#include "base/digest.h"

#include <sha256.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/types.h>
#include <unistd.h>

#include <setjmp.h>

#include <cmocka.h>

/* NIST, SHA-256 example values for FIPS 180-4: one block, and two. */
static void test_the_examples_of_the_standard(void **state) {
    static const char two[] = "abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmno"
                              "mnopnopq";
    char hex[DIGEST_HEX];
    (void)state;
    digest_hex("abc", 3, hex);
    assert_string_equal(
        hex,
        "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
    digest_hex(two, sizeof two - 1, hex);
    assert_string_equal(
        hex,
        "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1");
}

/* All lengths around its blocks, in pieces, beside libmd. */
static void test_as_libmd_says(void **state) {
    (void)state;
    uint8_t bytes[300];
    for (size_t i = 0; i < sizeof bytes; i++)
        bytes[i] = (uint8_t)(i * 37 + 11);
    for (size_t len = 0; len < sizeof bytes; len++) {
        char theirs[SHA256_DIGEST_STRING_LENGTH];
        SHA256Data(bytes, len, theirs);
        struct digest d;
        uint8_t ours[DIGEST_BYTES];
        digest_open(&d);
        digest_add(&d, bytes, len / 3);
        digest_add(&d, bytes + len / 3, len - len / 3);
        digest_close(&d, ours);
        for (int i = 0; i < DIGEST_BYTES; i++) {
            char pair[3];
            snprintf(pair, sizeof pair, "%02x", ours[i]);
            assert_memory_equal(pair, theirs + 2 * i, 2);
        }
    }
}

static void test_a_file(void **state) {
    (void)state;
    char path[] = "/tmp/digest-XXXXXX", file[DIGEST_HEX], bytes[DIGEST_HEX];
    static char text[50000];
    memset(text, 'x', sizeof text);
    int fd = mkstemp(path);
    assert_true(fd >= 0);
    assert_int_equal(write(fd, text, sizeof text), sizeof text);
    close(fd);
    assert_true(digest_file(path, file));
    digest_hex(text, sizeof text, bytes);
    assert_string_equal(file, bytes);
    unlink(path);
    assert_false(digest_file(path, file));
    assert_false(digest_file("/tmp", file)); /* opens, and cannot be read */
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_the_examples_of_the_standard),
        cmocka_unit_test(test_as_libmd_says),
        cmocka_unit_test(test_a_file),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
