/* test_mask.c - {...} taken out before Markdown reads a line, and put back. */
#include "desk.h"
#include "source/mask.h"

static struct mask *mask_line(struct desk *d, const char *text) {
    struct source *src = place_source(d->c.arena, "lamp.md", text_of(text));
    struct mask_lines all = {1, src->line_count};
    return mask_source(&d->c, src, &all, 1);
}

/* The masked text with each placeholder as `@`. */
static const char *shown(struct desk *d, const char *text) {
    struct mask *m = mask_line(d, text);
    struct buf b = buf_in(d->c.arena);
    struct text out = m->out->text;
    for (size_t i = 0; i < out.len;) {
        if (mask_item(m, out, &i) != NULL)
            buf_puts(&b, "@");
        else
            buf_add(&b, out.start + i++, 1);
    }
    assert_text(mask_undone(&d->c, m, out), text);
    return buf_cstr(&b);
}

static void code_spans(void **state) {
    struct desk *d = *state;
    static const char *const rows[][2] = {
        {"a {b} c", "a @ c"},
        {"a {{b} c", "a @b} c"},
        {"a {{{b} c", "a @@ c"},
        {"a `{b}` c", "a `{b}` c"},
        {"a ``{b}`` {c}", "a ``{b}`` @"},
        {"a ``{b}` {c}`` {d}", "a ``{b}` {c}`` @"},
        {"a `{b} c", "a `@ c"}, /* nothing closes it: no code */
        {"a ``{b}` c", "a ``@` c"},
        {"a `b\n{c}` {d}", "a `b\n{c}` @"}, /* over a line end */
        {"a \\`{b}` c", "a \\`@` c"},       /* the first is escaped */
        {"a \\``{b}` c", "a \\``{b}` c"},   /* the second opens */
        {"a \\\\`{b}` c", "a \\\\`{b}` c"},
        {"a {b`c} d` e", "a @ d` e"},        /* the brace came first */
        {"a `b {c` d}} e", "a `b {c` d@ e"}, /* the tick came first */
        {"a \\{b} c", "a \\{b} c"},
        {"a }} b", "a @ b"},
        {"a {{b}} c", "a @b@ c"},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
        assert_string_equal(shown(d, rows[i][0]), rows[i][1]);
    assert_string_equal(desk_messages(d), "");
}

static void ranges(void **state) {
    struct desk *d = *state;
    struct source *src =
        place_source(d->c.arena, "lamp.md", text_of("`a\n{b}` {c}\n{d}\n`"));
    struct mask_lines lines[] = {{1, 1}, {2, 2}, {4, 4}};
    struct mask *m = mask_source(&d->c, src, lines, 3);
    assert_int_equal(m->count,
                     2); /* the span ends with its range; {d} is out */
    assert_text(m->items[0].text, "{b}");
    assert_text(m->items[1].text, "{c}");
}

static void places(void **state) {
    struct desk *d = *state;
    const char *text = "ab{long.name in mV}cd{e}\nf{{Z";
    struct mask *m = mask_line(d, text);
    const char *out = m->out->text.start;
    static const char *const pieces[] = {"ab", "cd", "\nf", "Z"};
    for (size_t i = 0; i < 4; i++)
        assert_int_equal(
            mask_to_source(m, (size_t)(strstr(out, pieces[i]) - out)),
            strstr(text, pieces[i]) - text);
    for (size_t i = 0; i < m->count; i++) {
        size_t start = (size_t)(m->items[i].text.start - text);
        assert_int_equal(mask_to_source(m, m->items[i].at), start);
        assert_int_equal(mask_to_source(m, m->items[i].end - 1), start);
        assert_int_equal(mask_to_source(m, m->items[i].end),
                         start + m->items[i].text.len);
    }
    assert_int_equal(mask_to_source(m, m->out->text.len), strlen(text));
}

/* A text that looks like a placeholder but names no item stays text. */
static void no_item(void **state) {
    struct desk *d = *state;
    struct mask *m = mask_line(d, "{a}");
    static const char *const rows[] = {"\xEE\x80\x80"
                                       "1\xEE\x80\x81",
                                       "\xEE\x80\x80"
                                       "0",
                                       "\xEE\x80\x80"
                                       "x\xEE\x80\x81",
                                       "\xEE\x80", "0"};
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        size_t at = 0;
        assert_null(mask_item(m, text_of(rows[i]), &at));
        assert_int_equal(at, 0);
    }
    size_t at = 0;
    assert_ptr_equal(mask_item(m, m->out->text, &at), &m->items[0]);
    assert_int_equal(at, m->out->text.len);
}

int main(void) {
    const struct CMUnitTest tests[] = {desk_test(code_spans), desk_test(ranges),
                                       desk_test(places), desk_test(no_item)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
