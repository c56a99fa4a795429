/* test_file.c - which files are opened, and which bytes and characters they may
 * hold. */
#include "desk.h"
#include "source/encoding.h"
#include "source/file.h"

static const char *message_using(struct desk *d, const char *uses) {
    desk_clear(d);
    desk_write(d, "procedures/lamp.md",
               arena_printf(d->c.arena,
                            "# Fit a lamp\n\n```guide\nid: T-1\n"
                            "revision: 1\nstatus: draft\nuses: %s\n```\n",
                            uses));
    assert_non_null(source_read(&d->c, desk_path(d, "procedures/lamp.md")));
    return desk_local(d);
}

static void facts_files(void **state) {
    struct desk *d = *state;
    desk_library(d);
    desk_write(d, "procedures/facts/fen.md", "```facts\nrun = 2 m\n```\n");
    desk_write(d, "procedures/facts/shop.md", "# Shop\n\n{any} prose\n");
    assert_string_equal(message_using(d, "fen, shop"), "");
    assert_string_equal(message_using(d, "fem"),
                        "procedures/lamp.md:7:7: error: no such file: "
                        "procedures/facts/fem.md (did you mean 'fen'?)\n");
    assert_string_equal(message_using(d, "quay"),
                        "procedures/lamp.md:7:7: error: no such file: "
                        "procedures/facts/quay.md\n");
    assert_string_equal(message_using(d, "fen, fen"),
                        "procedures/lamp.md:7:12: error: file named twice: "
                        "procedures/facts/fen.md\n");
    static const char *const outside[] = {"../lamp", "/etc/passwd", "a/b",
                                          "..",      ".hidden",     "a\\b"};
    for (size_t i = 0; i < sizeof outside / sizeof outside[0]; i++)
        assert_string_equal(
            message_using(d, outside[i]),
            arena_printf(d->c.arena,
                         "procedures/lamp.md:7:7: error: file outside the "
                         "library: '%s'; name a file of procedures/facts/ "
                         "without folder and ending\n",
                         outside[i]));
}

static void links_and_devices(void **state) {
    struct desk *d = *state;
    desk_library(d);
    desk_write(d, "procedures/facts/fen.md", "```facts\nrun = 2 m\n```\n");
    assert_int_equal(symlink("fen.md", desk_path(d, "procedures/facts/in.md")),
                     0);
    assert_string_equal(message_using(d, "in"), "");
    assert_int_equal(
        symlink("/etc/hostname", desk_path(d, "procedures/facts/out.md")), 0);
    assert_string_equal(message_using(d, "out"),
                        "procedures/lamp.md:7:7: error: file outside the "
                        "library: procedures/facts/out.md: a link leads out of "
                        "the library\n");
    assert_int_equal(
        symlink("loop.md", desk_path(d, "procedures/facts/loop.md")), 0);
    assert_non_null(strstr(message_using(d, "loop"), "error: cannot read: "));
    assert_int_equal(
        symlink("nowhere.md", desk_path(d, "procedures/facts/dead.md")), 0);
    assert_non_null(strstr(message_using(d, "dead"), "error: no such file: "));
    assert_int_equal(mkfifo(desk_path(d, "procedures/facts/fifo.md"), 0600), 0);
    assert_string_equal(message_using(d, "fifo"),
                        "procedures/lamp.md:7:7: error: not a regular file: "
                        "procedures/facts/fifo.md: a FIFO\n");
    assert_int_equal(mkdir(desk_path(d, "procedures/facts/dir.md"), 0700), 0);
    assert_string_equal(message_using(d, "dir"),
                        "procedures/lamp.md:7:7: error: not a regular file: "
                        "procedures/facts/dir.md: a directory\n");
    /* a folder that is itself a link out of the library */
    assert_int_equal(rename(desk_path(d, "procedures/facts"),
                            desk_path(d, "procedures/kept")),
                     0);
    assert_int_equal(symlink("/etc", desk_path(d, "procedures/facts")), 0);
    assert_non_null(strstr(message_using(d, "fstab"), "error: no such file: "));
}

/* A guide found in the library lies there: a link out of it would print what a
 * stranger's library wanted to see. */
static void guide_that_is_a_link(void **state) {
    struct desk *d = *state;
    desk_library(d);
    desk_write(d, "procedures/lamp.md", HEAD);
    assert_int_equal(symlink("lamp.md", desk_path(d, "procedures/in.md")), 0);
    assert_non_null(source_read(&d->c, desk_path(d, "procedures/in.md")));
    assert_string_equal(desk_messages(d), "");
    assert_int_equal(
        symlink("/etc/hostname", desk_path(d, "procedures/out.md")), 0);
    assert_null(source_read(&d->c, desk_path(d, "procedures/out.md")));
    assert_string_equal(desk_local(d),
                        "bayleaf: error: file outside the library: "
                        "procedures/out.md: a link leads out of the library\n");
}

/* A guide that the user names may lie anywhere, but must be a file. */
static void given(void **state) {
    struct desk *d = *state;
    static const char *const bad[][2] = {
        {"/dev/null", "bayleaf: error: not a regular file: /dev/null: a "
                      "device\n"},
        {"/tmp", "bayleaf: error: not a regular file: /tmp: a directory\n"},
        {"/tmp/no/such.md", "bayleaf: error: no such file: /tmp/no/such.md\n"},
        {"/dev/null/x.md",
         "bayleaf: error: no such file: /dev/null/x.md: Not a directory\n"},
    };
    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
        desk_clear(d);
        assert_null(source_read(&d->c, bad[i][0]));
        assert_string_equal(desk_messages(d), bad[i][1]);
    }
    desk_library(d);
    desk_write(d, "other.md", HEAD);
    d->c.library = "/var/empty-or-not";
    desk_clear(d);
    const struct guide *g = source_read(&d->c, desk_path(d, "other.md"));
    assert_non_null(g);
    assert_string_equal(g->stem, "other");
    assert_string_equal(desk_messages(d), "");
}

static void sizes(void **state) {
    struct desk *d = *state;
    desk_library(d);
    desk_write(d, "big.md", "");
    assert_int_equal(truncate(desk_path(d, "big.md"), FILE_BYTES_MAX + 1), 0);
    assert_null(source_read(&d->c, desk_path(d, "big.md")));
    assert_string_equal(desk_local(d), "bayleaf: error: file too large: "
                                       "big.md: more than 16 MiB\n");
    desk_clear(d);
    desk_write(d, "fits.bin", "");
    assert_int_equal(truncate(desk_path(d, "fits.bin"), 1000), 0);
    size_t len = 0;
    struct span nowhere = {NULL, 0, 0};
    assert_non_null(
        file_read_bytes(&d->c, text_of("fits.bin"), nowhere, 1000, &len));
    assert_int_equal(len, 1000);
    assert_null(
        file_read_bytes(&d->c, text_of("fits.bin"), nowhere, 999, &len));
    assert_null(
        file_read_bytes(&d->c, text_of("../fits.bin"), nowhere, 1000, &len));
}

static void within(void **state) {
    (void)state;
    static const char *const good[] = {"a.png", "figures/a.png", "a..b", "./a",
                                       ".../a"};
    static const char *const bad[] = {"",         "/a.png", "..",
                                      "a/../b",   "../a",   "a/..",
                                      "http://a", "C:\\a",  "a\nb"};
    for (size_t i = 0; i < sizeof good / sizeof good[0]; i++)
        assert_true(file_is_within(text_of(good[i])));
    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++)
        assert_false(file_is_within(text_of(bad[i])));
}

static void encodings(void **state) {
    struct desk *d = *state;
    static const struct {
        const char *text;
        size_t len; /* 0: up to the NUL */
        const char *message;
    } rows[] = {
        {"a\xC3\x28", 0, "1:2: error: not UTF-8: byte 0xC3"},
        {"a\x80", 0, "1:2: error: not UTF-8: byte 0x80"},
        {"a\n\xC0\xAF", 0, "2:1: error: not UTF-8: byte 0xC0"}, /* overlong */
        {"\xE0\x80\xAF", 0, "1:1: error: not UTF-8: byte 0xE0"},
        {"\xF0\x80\x80\xAF", 0, "1:1: error: not UTF-8: byte 0xF0"},
        {"\xED\xA0\x80", 0, "1:1: error: not UTF-8: byte 0xED"}, /* surrogate */
        {"\xF4\x90\x80\x80", 0, "1:1: error: not UTF-8: byte 0xF4"},
        {"a\xE2\x82", 0, "1:2: error: not UTF-8: byte 0xE2"}, /* cut short */
        {"a\0b", 3, "1:2: error: not a text file: it holds a NUL byte"},
        {"\xEF\xBB\xBF# T", 0,
         "1:1: error: character refused: U+FEFF, a byte-order mark; save the "
         "file as UTF-8 without one"},
        {"a\xEF\xBB\xBF", 0,
         "1:2: error: character refused: U+FEFF: cannot be seen"},
        {"a\rb", 0, "1:2: error: character refused: U+000D, a carriage return"},
        {"a\r", 0, "1:2: error: character refused: U+000D, a carriage return"},
        {"a\r\r\n", 0,
         "1:2: error: character refused: U+000D, a carriage return"},
        {"a\x1B[1m", 0,
         "1:2: error: character refused: U+001B: control character"},
        {"a\x7F", 0,
         "1:2: error: character refused: U+007F: control character"},
        {"a\xC2\x9B", 0,
         "1:2: error: character refused: U+009B: control character"},
        {"a\xE2\x80\xAE", 0,
         "1:2: error: character refused: U+202E: changes the direction of "
         "text"},
        {"a\xD8\x9C", 0,
         "1:2: error: character refused: U+061C: changes the direction of "
         "text"},
        {"1\xE2\x80\x8B"
         "5 V",
         0, "1:2: error: character refused: U+200B: cannot be seen"},
        {"a\xC2\xAD", 0,
         "1:2: error: character refused: U+00AD: cannot be seen"},
        {"a\xE2\x80\xA8", 0,
         "1:2: error: character refused: U+2028: line end that editors do not "
         "show"},
        {"a\xEE\x80\x80", 0,
         "1:2: error: character refused: U+E000: private use: has no agreed "
         "meaning"},
        {"a\xF4\x8F\xBF\xBD", 0,
         "1:2: error: character refused: U+10FFFD: private use: has no agreed "
         "meaning"},
        {"a\xEF\xBF\xBE", 0,
         "1:2: error: character refused: U+FFFE: never a character"},
        {"a\xF3\xA0\x81\x81", 0,
         "1:2: error: character refused: U+E0041: cannot be seen"},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        desk_clear(d);
        size_t len = rows[i].len > 0 ? rows[i].len : strlen(rows[i].text);
        struct source *src = place_source(d->c.arena, "lamp.md",
                                          (struct text){rows[i].text, len});
        assert_false(encoding_check(d->c.diags, src));
        const char *want =
            arena_printf(d->c.arena, "lamp.md:%s", rows[i].message);
        const char *got = desk_messages(d);
        if (strncmp(got, want, strlen(want)) != 0)
            assert_string_equal(got, want);
        assert_int_equal(diag_count(d->c.diags, LEVEL_WARNING), 1);
    }
}

static void good_characters(void **state) {
    struct desk *d = *state;
    static const char *const rows[] = {
        "",
        "\t a\n\r\nb",
        "Ω ° µ × · ± ≤ ≥ ½ – — “q” → ✓ é ß Ж 日本 \xF0\x9F\x94\xA7",
        "a\xEF\xBF\xBD", /* U+FFFD itself is well formed */
        "30\xC2\xA0 A",
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct source *src =
            place_source(d->c.arena, "lamp.md", text_of(rows[i]));
        assert_true(encoding_check(d->c.diags, src));
    }
    assert_string_equal(desk_messages(d), "");
}

/* Enough is enough: the messages of one file are counted. */
static void many_messages(void **state) {
    struct desk *d = *state;
    struct buf b = buf_in(d->c.arena);
    for (int i = 0; i < 100; i++)
        buf_puts(&b, "a\x01 ");
    struct source *src = place_source(d->c.arena, "x.md", buf_as_text(&b));
    assert_false(encoding_check(d->c.diags, src));
    assert_int_equal(diag_count(d->c.diags, LEVEL_WARNING), 20);
}

/* A file that is not text leaves nothing to compile. */
static void unreadable_guide(void **state) {
    struct desk *d = *state;
    desk_library(d);
    desk_write(d, "a.md", HEAD "A \x01 b\n");
    assert_null(source_read(&d->c, desk_path(d, "a.md")));
    assert_string_equal(desk_local(d), "a.md:9:3: error: character refused: "
                                       "U+0001: control character\n");
}

int main(void) {
    const struct CMUnitTest tests[] = {desk_test(facts_files),
                                       desk_test(links_and_devices),
                                       desk_test(guide_that_is_a_link),
                                       desk_test(given),
                                       desk_test(sizes),
                                       desk_test(within),
                                       desk_test(encodings),
                                       desk_test(good_characters),
                                       desk_test(many_messages),
                                       desk_test(unreadable_guide)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
