/* test_generated.c - the geometry of pages that nobody wrote: guides put
 * together at random (always the same), and the guides of the library. */
#include "unit/how_many.h"
#include "workshop.h"

#include <glob.h>

enum { GUIDES = 500, GUIDES_SANITIZED = 60 };

/* Numerical Recipes' quick generator (from memory); only variety is asked. */
static unsigned next(unsigned *seed, unsigned below) {
    *seed = *seed * 1664525U + 1013904223U;
    return (*seed >> 16) % below;
}

/* In cells and panels no word is bold, or code; nor does a figure stand right
 * behind a number, with which it would be one word: three such columns are
 * wider than a page, and rightly refused. */
static void add_words_as(struct buf *b, unsigned *seed, unsigned count,
                         bool plain) {
    static const char *const words[] = {
        "Fit",          "the",     "relay",      "to",
        "inner",        "wing",    "{drill}",    "and",
        "clip",         "loom",    "at",         "{13.8 V ± 0.6 V}",
        "**never**",    "`K1-87`", "OS-SF30-30", "heat-shrink",
        "{30 A}",       "behind",  "*after*",    "ground",
        "{2 AWG} wire", "rail.",   "Then",       "{2.6 m}"};
    for (unsigned i = 0; i < count; i++) {
        buf_puts(b, i > 0 ? " " : "");
        const char *word = words[next(seed, sizeof words / sizeof words[0])];
        size_t signs = plain ? strspn(word, "*`") : 0;
        size_t len = strlen(word) - 2 * signs;
        buf_add(b, word + signs, len);
        char last = word[signs + len - 1];
        if (plain && last >= '0' && last <= '9')
            buf_puts(b, " on");
    }
}

static void add_words(struct buf *b, unsigned *seed, unsigned count) {
    add_words_as(b, seed, count, false);
}

static void add_panel(struct buf *b, unsigned *seed) {
    static const char *const kinds[] = {"danger", "warning", "caution",
                                        "notice"};
    buf_printf(b, "\n```%s\nhazard: Hot pipe. ", kinds[next(seed, 4)]);
    add_words_as(b, seed, next(seed, 12), true);
    buf_puts(b, "\nconsequence: It burns.\navoidance: Wait ");
    add_words_as(b, seed, 1 + next(seed, 40), true);
    buf_puts(b, "\n```\n\n");
}

static void add_table(struct buf *b, unsigned *seed) {
    unsigned columns = 2 + next(seed, 3), rows = 1 + next(seed, 30);
    buf_puts(b, "\n```table\n");
    for (unsigned r = 0; r <= rows; r++) {
        for (unsigned k = 0; k < columns; k++) {
            buf_puts(b, k > 0 ? " | " : "");
            if (r == 0)
                buf_printf(b, "head %u", k);
            else
                add_words_as(b, seed, 1 + next(seed, 9), true);
        }
        buf_puts(b, "\n");
    }
    buf_puts(b, "```\n\n");
}

static void add_step(struct buf *b, unsigned *seed, unsigned number) {
    static const char *const marks[] = {"", "", "{for mark 3} ", "{hold} ",
                                        "{defer gas fitter} "};
    if (next(seed, 4) == 0)
        add_panel(b, seed);
    buf_printf(b, "%u. %s", number, marks[next(seed, 5)]);
    buf_printf(b, "Step%u: ", number);
    add_words(b, seed, 1 + next(seed, 60));
    if (next(seed, 6) == 0)
        buf_puts(b, " {reading R1} {reading R2}");
    if (next(seed, 6) == 0)
        buf_puts(b, " {initial}");
    buf_puts(b, "\n");
    if (next(seed, 6) == 0)
        buf_puts(b, number < 10 ? "   1. First part.\n   2. Second part.\n"
                                : "    1. First part.\n    2. Second part.\n");
}

static const char *make_guide(const struct workshop *w, unsigned seed) {
    static const char *const titles[] = {"Purpose",   "Background", "As found",
                                         "Procedure", "Test",       "Faults"};
    struct buf b = buf_in(w->compile.arena);
    unsigned number = 1;
    buf_puts(&b, "```limits\nid | characteristic | limit | if out\n"
                 "R1 | lost | <= 0.45 V | find out\n"
                 "R2 | left | 11.4 V to 14.4 V | {see R1}\n```\n\n");
    for (unsigned t = 0; t < sizeof titles / sizeof titles[0]; t++) {
        buf_printf(&b, "## %s\n\n", titles[t]);
        unsigned pieces = 1 + next(&seed, 5);
        for (unsigned i = 0; i < pieces; i++) {
            unsigned what = next(&seed, 4);
            if (what == 0) {
                add_table(&b, &seed);
            } else if (what == 1) {
                buf_puts(&b, "### Detail\n\n");
                add_words(&b, &seed, 1 + next(&seed, 200));
                buf_puts(&b, "\n\n");
            } else {
                unsigned steps = 1 + next(&seed, 9);
                for (unsigned k = 0; k < steps; k++)
                    add_step(&b, &seed, number++);
                buf_puts(&b, "\n");
            }
        }
    }
    return workshop_guide(w, "", buf_cstr(&b));
}

/* The op that a panel's signal word is, not its tag in the safety summary. */
static bool is_signal(const struct op *op) {
    return op->kind == OP_TEXT && op->size > 17 && op->size < 19;
}

/* Behind each signal word its page still has a step or other text of the body.
 */
static void check_panels(const struct pages *p, unsigned seed) {
    for (size_t i = 0; i < p->count; i++) {
        const struct page *page = &p->page[i];
        for (size_t k = 0; k < page->op_count; k++) {
            if (!is_signal(&page->ops[k]))
                continue;
            bool guards = false;
            for (size_t n = k + 1; n < page->op_count; n++) {
                if (page->ops[n].kind != OP_TEXT)
                    continue;
                struct text t = page->ops[n].text;
                guards |= text_starts(t, "Step") ||
                          text_starts(t, "Have this done") ||
                          text_starts(t, "mark 3 only") ||
                          text_starts(t, "Detail") || text_starts(t, "head") ||
                          page->ops[n].size == 10.5;
            }
            if (!guards)
                fail_msg("guide %u, page %zu: panel without a step", seed,
                         i + 1);
        }
    }
}

static void check_headings(const struct pages *p, unsigned seed) {
    for (size_t k = 0; k < p->outline_count; k++) {
        const struct page *page = &p->page[p->outline[k].page];
        size_t below = 0;
        for (size_t n = 0; n < page->op_count; n++)
            below += page->ops[n].kind == OP_TEXT &&
                     page->ops[n].y > p->outline[k].y + 22 &&
                     page->ops[n].y < page->height - 66; /* above the foot */
        if (below == 0)
            fail_msg("guide %u: '%.*s' ends page %d", seed,
                     (int)p->outline[k].title.len, p->outline[k].title.start,
                     p->outline[k].page + 1);
    }
}

static void test_generated_guides(void **state) {
    (void)state;
    size_t count = how_many("BAYLEAF_GUIDES", GUIDES, GUIDES_SANITIZED);
    assert_true(count > 0);
    for (unsigned seed = 1; seed <= count; seed++) {
        void *own = NULL;
        assert_int_equal(workshop_open(&own), 0);
        struct workshop *w = own;
        const struct pages *p = workshop_pages(w, make_guide(w, seed));
        char why[500];
        if (diag_status(w->compile.diags) != 0)
            fail_msg("guide %u: %s", seed, workshop_messages(w));
        if (geometry_check(p, why, sizeof why) != NULL)
            fail_msg("guide %u, %s", seed, why);
        check_panels(p, seed);
        check_headings(p, seed);
        workshop_close(&own);
    }
}

static void test_guides_of_the_library(void **state) {
    glob_t found;
    assert_int_equal(glob("procedures/*.md", 0, NULL, &found), 0);
    for (size_t i = 0; i < found.gl_pathc; i++) {
        struct workshop *w = *state;
        char why[500];
        w->compile.library = ".";
        for (int paper = PAPER_LETTER; paper <= PAPER_A4; paper++) {
            const struct pages *p =
                workshop_layout(w,
                                arena_copy(w->compile.arena, found.gl_pathv[i],
                                           strlen(found.gl_pathv[i])),
                                (enum paper)paper);
            if (diag_status(w->compile.diags) != 0)
                fail_msg("%s", workshop_messages(w));
            if (geometry_check(p, why, sizeof why) != NULL)
                fail_msg("%s: %s", found.gl_pathv[i], why);
            check_headings(p, 0);
        }
    }
    globfree(&found);
}

int main(void) {
    const struct CMUnitTest tests[] = {
#define TEST(name)                                                             \
    cmocka_unit_test_setup_teardown(name, workshop_open, workshop_close)
        TEST(test_generated_guides),
        TEST(test_guides_of_the_library),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
