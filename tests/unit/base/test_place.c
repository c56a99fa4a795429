/* test_place.c - lines and columns, also in lines too long to count along. */
#include "base/arena.h"
#include "base/diag.h"
#include "base/place.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#include <cmocka.h>

static int open_arena(void **state) {
    *state = arena_new();
    return 0;
}

static int close_arena(void **state) {
    arena_free(*state);
    return 0;
}

/* By counting along, as place_position() must not. */
static struct position counted(struct text t, size_t byte) {
    struct position p = {1, 1};
    for (size_t i = 0; i < byte;) {
        bool end = t.start[i] == '\n';
        text_next(t, &i);
        p.column = end ? 1 : p.column + 1;
        p.line += end;
    }
    return p;
}

static void columns_count_characters(void **state) {
    struct arena *a = *state;
    struct buf b = buf_in(a);
    for (int i = 0; i < 400; i++)
        buf_puts(&b, i % 97 == 0   ? "\n"
                     : i % 7 == 0  ? "Ω"
                     : i % 11 == 0 ? "✓"
                     : i % 13 == 0 ? "\xF0\x9F\x94\xA7"
                                   : "ab");
    struct text t = buf_as_text(&b);
    struct source *src = place_source(a, "a.md", t);
    for (size_t byte = 0; byte < t.len; text_next(t, &byte)) {
        struct position got = place_position(src, byte);
        struct position want = counted(t, byte);
        assert_int_equal(got.line, want.line);
        assert_int_equal(got.column, want.column);
    }
    struct position end = place_position(src, t.len + 10);
    assert_int_equal(end.column, counted(t, t.len).column);
    assert_int_equal(place_position(place_source(a, "", text_of("")), 0).line,
                     1);
}

static const char *printed(struct arena *a, struct diags *d) {
    char *bytes = NULL;
    size_t len = 0;
    FILE *out = open_memstream(&bytes, &len);
    diag_print(d, out, false);
    fclose(out);
    const char *copy = arena_copy(a, bytes, len);
    free(bytes);
    return copy;
}

/* A window around the place, with the caret under it. */
static void long_lines(void **state) {
    struct arena *a = *state;
    struct buf b = buf_in(a);
    for (int i = 0; i < 200; i++)
        buf_puts(&b, "é");
    size_t at = b.len;
    buf_puts(&b, "X and more\nY");
    struct source *src = place_source(a, "a.md", buf_as_text(&b));
    struct diags *d = diag_new(a);
    diag_add(d, DIAG_NAME_UNKNOWN, (struct span){src, at, at + 1}, NULL);
    const char *text = printed(a, d);
    assert_non_null(strstr(text, "a.md:1:201: error"));
    const char *line = strstr(text, "\n  ") + 3;
    for (int i = 0; i < 60; i++)
        assert_memory_equal(line + 2 * i, "é", 2);
    assert_memory_equal(line + 120, "X and more\n", 11);
    const char *caret = strchr(line, '\n') + 1;
    assert_int_equal(strchr(caret, '^') - caret, 2 + 60);
}

/* Each message of one long line costs the same. */
static void many_messages(void **state) {
    struct arena *a = *state;
    enum { MANY = 20000 };
    char *bytes = arena_alloc(a, 20 * MANY, 1);
    memset(bytes, 'x', 20 * MANY);
    struct source *src =
        place_source(a, "a.md", (struct text){bytes, 20 * MANY});
    struct diags *d = diag_new(a);
    for (size_t i = 0; i < MANY; i++)
        diag_add(d, DIAG_NAME_UNKNOWN, (struct span){src, 20 * i, 20 * i + 3},
                 NULL);
    clock_t start = clock();
    printed(a, d);
    /* 4e9 bytes to look at when each message looks at its whole line */
    assert_true((double)(clock() - start) / CLOCKS_PER_SEC < 1.5);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(columns_count_characters, open_arena,
                                        close_arena),
        cmocka_unit_test_setup_teardown(long_lines, open_arena, close_arena),
        cmocka_unit_test_setup_teardown(many_messages, open_arena,
                                        close_arena)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
