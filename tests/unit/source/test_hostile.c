/* test_hostile.c - texts made to hang or overrun their reader: time grows no
 * faster than n log n, and depth is bounded.
 *
 * The shapes are the published ones for CommonMark readers (nested and unclosed
 * emphasis, links, brackets, quotations, lists, code, HTML, definitions), from
 * memory of what they do, and as many of our own syntax. */
#include "desk.h"

#include <time.h>

struct shape {
    const char *name;
    const char *before, *again, *middle, *closing; /* before again*n middle
                                                      closing*n */
};

static const struct shape shapes[] = {
    {"nested emphasis", "", "*a **a ", "b", " a** a*"},
    {"emphasis closers without openers", "", "a_ ", "", ""},
    {"emphasis openers without closers", "", "_a ", "", ""},
    {"link closers without openers", "", "a]", "", ""},
    {"link openers without closers", "", "[a", "", ""},
    {"mismatched openers and closers", "", "*a_ ", "", ""},
    {"openers and closers, multiple of three", "a**b", "c* ", "", ""},
    {"link openers and emphasis closers", "", "[ a_", "", ""},
    {"brackets and parentheses", "", "[ (](", "", ""},
    {"images with empty links in them", "", "![[]()", "", ""},
    {"stars in a row", "", "**x [a*b**c*](d)", "", ""},
    {"nested brackets", "", "[", "a", "]"},
    {"nested images", "", "![", "a", "](b)"},
    {"nested quotations", "", "> ", "a", ""},
    {"nested bullets", "", "- ", "a", ""},
    {"nested numbers", "", "1. ", "a", ""},
    {"blank lines below nested lists", "", "- ", "a", "\n"},
    {"blank lines below quoted lists", "> ", "- ", "x\n", ">\n"},
    {"emphasis in nested quotations", "", ">", "", "a*"},
    {"lines in nested quotations", "", "> > > > > a\n", "", ""},
    {"backticks never closed", "", "`a ``b ```c ", "", ""},
    {"escaped backticks", "", "\\`", "", ""},
    {"link addresses never closed", "", "[a](b", "", ""},
    {"pointed addresses never closed", "", "[a](<b", "", ""},
    {"comments never closed", "</", "<!--", "", ""},
    {"instructions never closed", "", "a<?", "", ""},
    {"declarations never closed", "", "a<!A ", "", ""},
    {"sections never closed", "", "a<![CDATA[", "", ""},
    {"tags never closed", "", "a<b c=\"d ", "", ""},
    {"pointed brackets", "", "<", "", ""},
    {"definitions", "", "[a]: u\n", "", "[a]"},
    {"titles never closed", "", "[a]: u 't\n", "", ""},
    {"entities", "", "&quot;", "", ""},
    {"ampersands", "", "&", "", ""},
    {"backslashes", "", "\\", "", ""},
    {"stars and underscores", "", "*_", "a", "_*"},
    {"rules", "", "* * *\n", "", ""},
    {"fences never closed", "", "~~~ a\n", "", ""},
    {"setext headings", "", "a\n=\n", "", ""},
    {"blanks", "", "        ", "a", ""},
    {"tabs", "", "\t", "a", ""},
    {"braces never closed", "", "{", "", ""},
    {"marks", "", "{a}", "", ""},
    {"marks in code", "", "`{a}` ", "", ""},
    {"two braces", "", "{{", "", ""},
    {"marks at the start", "", "{hold}", "", ""},
    {"links in emphasis and code", "", "[    *`", "a", "<*"},
    {"steps", "", "1. a\n", "", ""},
    {"steps parted by blocks", "", "1. a\n\n```check\n1 < 2\n```\n", "", ""},
    {"blocks", "", "```check\n1 < 2\n```\n", "", ""},
    {"settings twice", "```wire\n", "use: 1\n", "```\n", ""},
    {"settings unknown", "```wire\n", "us: 1\n", "```\n", ""},
    {"definitions of values", "```values\n", "a = 1\n", "```\n", ""},
    {"lines that go on", "```values\na = 1\n", " + 1\n", "```\n", ""},
    {"alternatives", "```values\na = ", "1 [b] ", "\n```\n", ""},
    {"variants", "```values\na = 1 [", "b,", "c]\n```\n", ""},
    {"strings", "```values\na = ", "\"b\" ", "\n```\n", ""},
    {"rows", "```table\na|b\n", "1|2\n", "```\n", ""},
    {"columns", "```table\n", "a|", "\n```\n", ""},
    {"cells that repeat", "```parts\nitem|interchange\n1", "|2\n", "```\n", ""},
    {"list items", "```preliminary\nsafety: ", "a,", "b\n```\n", ""},
    {"missing includes", "", "```include x\n```\n", "", ""},
};

static double seconds(const struct shape *s, size_t bytes) {
    size_t unit = strlen(s->again) + strlen(s->closing);
    struct compile c = {.arena = arena_new(), .library = "."};
    c.diags = diag_new(c.arena);
    struct buf b = buf_in(c.arena);
    buf_puts(&b, HEAD);
    buf_puts(&b, s->before);
    for (size_t i = 0; i < bytes / unit; i++)
        buf_puts(&b, s->again);
    buf_puts(&b, s->middle);
    for (size_t i = 0; i < bytes / unit; i++)
        buf_puts(&b, s->closing);
    buf_puts(&b, "\n");
    clock_t start = clock();
    source_read_text(&c, "lamp.md", buf_as_text(&b));
    clock_t end = clock();
    arena_free(c.arena);
    return (double)(end - start) / CLOCKS_PER_SEC;
}

/* Four times the text may take 4 * log(4n) / log(n) times as long, below 5 for
 * these n; quadratic would be 16, and some ten seconds. Below a fifth of a
 * second the measurement says nothing. Other work on the machine disturbs
 * single ones, so the best of some counts. */
static void time_grows_gently(void **state) {
    (void)state;
    enum { SMALL = 30000, TRIES = 4 };
    for (size_t i = 0; i < sizeof shapes / sizeof shapes[0]; i++) {
        double best = 1e9, large = 0, small = 0;
        for (int k = 0; k < TRIES && best > 8; k++) {
            small = seconds(&shapes[i], SMALL);
            large = seconds(&shapes[i], 4 * SMALL);
            double ratio = large < 0.2 ? 0 : large / (small + 1e-4);
            best = ratio < best ? ratio : best;
        }
        if (best > 8)
            print_error("%s: %.3f s, then %.3f s\n", shapes[i].name, small,
                        large);
        assert_true(best <= 8);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {cmocka_unit_test(time_grows_gently)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
