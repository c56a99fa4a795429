/* test_forms.c - the tables in their other forms: manual, reference, words. */
#include "base/arena.h"
#include "command/forms.h"
#include "command/wording.h"
#include "source/mark.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

static struct text line_at(struct text t, size_t *at) {
    const char *end = memchr(t.start + *at, '\n', t.len - *at);
    size_t stop = end == NULL ? t.len : (size_t)(end - t.start);
    struct text line = text_part(t, *at, stop);
    *at = stop + 1;
    return line;
}

/* A meaning that begins with a point would be a request to man. */
static void test_each_request_of_the_manual_is_ours(void **state) {
    (void)state;
    static const char *const macros[] = {
        ".Dd", ".Dt", ".Os", ".Sh", ".Ss", ".Nm", ".Nd", ".Cm", ".Ar", ".Op",
        ".Fl", ".Pp", ".Bl", ".El", ".It", ".Pa", ".Ic", ".Bd", ".Ed", ".Dl"};
    struct arena *a = arena_new();
    struct buf b = buf_in(a);
    manual_write(&b);
    struct text page = buf_as_text(&b);
    for (size_t at = 0; at < page.len;) {
        struct text line = line_at(page, &at);
        bool known = !text_starts(line, ".") && !text_starts(line, "'");
        for (size_t i = 0; i < sizeof macros / sizeof macros[0]; i++)
            known = known || (line.len > 3 && text_starts(line, macros[i])) ||
                    text_is(line, macros[i]);
        if (!known)
            fail_msg("%.*s", (int)line.len, line.start);
        for (size_t i = 0; i < line.len; i++)
            assert_true((unsigned char)line.start[i] < 0x80);
    }
    arena_free(a);
}

static size_t bars(struct text line) {
    size_t count = 0;
    for (size_t i = 0; i < line.len; i++)
        count += line.start[i] == '|' && (i == 0 || line.start[i - 1] != '\\');
    return count;
}

/* A choice such as `100 %|150 %` must not part a cell. */
static void test_rows_of_the_reference_have_their_cells(void **state) {
    (void)state;
    struct arena *a = arena_new();
    struct buf b = buf_in(a);
    reference_write(&b);
    struct text page = buf_as_text(&b);
    size_t wanted = 0, rows = 0;
    for (size_t at = 0; at < page.len;) {
        struct text line = line_at(page, &at);
        if (!text_starts(line, "|")) {
            wanted = 0;
            continue;
        }
        if (wanted == 0)
            wanted = bars(line);
        assert_int_equal(bars(line), wanted);
        rows++;
    }
    assert_true(rows > 300);
    arena_free(a);
}

static const char *read_page(struct arena *a, const char *path) {
    FILE *f = fopen(path, "rb");
    if (f == NULL)
        fail_msg("%s cannot be read", path);
    struct buf b = buf_in(a);
    char block[4096];
    size_t got;
    while ((got = fread(block, 1, sizeof block, f)) > 0)
        buf_add(&b, block, got);
    fclose(f);
    return buf_cstr(&b);
}

static void test_language_page_names_each_mark(void **state) {
    (void)state;
    struct arena *a = arena_new();
    const char *page = read_page(a, "docs/language.md");
    for (int k = MARK_VALUE; k <= MARK_OWNER_ONLY; k++) {
        const char *word = mark_word((enum mark_kind)k);
        if (word == NULL)
            continue;
        if (strstr(page, arena_printf(a, "`{%s", word)) == NULL)
            fail_msg("docs/language.md does not show {%s}", word);
        if (mark_leads((enum mark_kind)k) &&
            strstr(page, arena_printf(a, "`%s`", word)) == NULL)
            fail_msg("docs/language.md does not say where {%s} stands", word);
    }
    arena_free(a);
}

static void expect_wording(enum setting_type type, const char *unit,
                           const char *choices, const char *wanted) {
    struct arena *a = arena_new();
    struct buf b = buf_in(a);
    wording_value(&b, type, unit, choices);
    assert_string_equal(buf_cstr(&b), wanted);
    arena_free(a);
}

static void test_values_in_words(void **state) {
    (void)state;
    expect_wording(SETTING_QUANTITY, "A", NULL, "current (A)");
    expect_wording(SETTING_QUANTITY, "degC", NULL, "temperature (°C)");
    expect_wording(SETTING_QUANTITY, "%", NULL, "share (%)");
    expect_wording(SETTING_QUANTITY, NULL, NULL, "quantity");
    expect_wording(SETTING_LIMIT, "V", NULL, "limit or range, voltage (V)");
    expect_wording(SETTING_CHOICE, NULL, "yes|no|never",
                   "one of: yes, no, never");
    expect_wording(SETTING_BLOCK_OR_QUANTITY, "A", "load",
                   "name of a load block, or current (A)");
    expect_wording(SETTING_BLOCKS, NULL, "wire|fuse",
                   "names of wire or fuse blocks, with commas");
}

static void test_sentence_and_dashes(void **state) {
    (void)state;
    struct arena *a = arena_new();
    struct buf sentence = buf_in(a), dashed = buf_in(a);
    wording_sentence(&sentence, "a bolted joint");
    assert_string_equal(buf_cstr(&sentence), "A bolted joint.");
    wording_dashed(&dashed, "drop limit");
    assert_string_equal(buf_cstr(&dashed), "drop-limit");
    assert_string_equal(wording_unit("degC"), "°C");
    assert_string_equal(wording_unit(NULL), "");
    arena_free(a);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_each_request_of_the_manual_is_ours),
        cmocka_unit_test(test_rows_of_the_reference_have_their_cells),
        cmocka_unit_test(test_language_page_names_each_mark),
        cmocka_unit_test(test_values_in_words),
        cmocka_unit_test(test_sentence_and_dashes),
    };
    return cmocka_run_group_tests_name("forms", tests, NULL, NULL);
}
