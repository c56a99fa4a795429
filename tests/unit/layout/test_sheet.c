/* test_sheet.c - templates: order, words, paper, letters, page breaks. */
#include "workshop.h"

/* Takes the text as templates/ours.md. */
static void use(struct workshop *w, const char *text) {
    workshop_write(w, "../templates/ours.md", text);
    w->template = "ours";
}

static const char body[] = "Before all sections.\n\n"
                           "## Purpose\n\nWhy it is done.\n\n"
                           "## Own words\n\nA section of its own.\n\n"
                           "## Procedure\n\n1. Take off the cover.\n\n"
                           "## Test\n\n1. Look: {see procedure}.\n";

static const char head[] = "# Ours\n\nFor the reader of this file.\n\n"
                           "```insert title\n```\n"
                           "```insert applicability\n```\n";

static const char rest[] = "## Dangers\n\n```insert safety\n```\n";

static const char *template_of(const struct workshop *w, const char *page,
                               const char *parts) {
    return arena_printf(w->compile.arena, "%s%s%s%s", head, page, rest, parts);
}

/* The first comes before the second. */
static void assert_order(const char *all, const char *first,
                         const char *second) {
    const char *a = strstr(all, first), *b = strstr(all, second);
    if (a == NULL || b == NULL || a > b)
        fail_msg("'%s' before '%s' in:\n%s", first, second, all);
}

static void test_order_and_words_are_the_templates(void **state) {
    struct workshop *w = *state;
    use(w, template_of(w, "",
                       "## The job\n\nBy the book.\n\n"
                       "```insert procedure\n```\n\n"
                       "## Why\n\n```insert purpose\n```\n"
                       "## Nothing here\n\nNot to be seen.\n\n"
                       "```insert faults\n```\n"
                       "## Promise\n\nWe do it again.\n\n"
                       "## Try it\n\n```insert test\n```\n"));
    const char *all =
        workshop_all(w, workshop_sound(w, workshop_guide(w, "", body)));
    assert_order(all, "Fit a lamp", "applies to");
    assert_order(all, "applies to", "Dangers");
    assert_order(all, "Dangers", "The job");
    assert_order(all, "The job", "By the book.");
    assert_order(all, "By the book.", "Take off the cover.");
    assert_order(all, "Take off the cover.", "Why\n");
    assert_order(all, "Why\n", "Why it is done.");
    assert_order(all, "Why it is done.", "Own words");
    assert_order(all, "A section of its own.", "We do it again.");
    assert_order(all, "We do it again.", "“The job”");
    assert_null(strstr(all, "Nothing here"));
    assert_null(strstr(all, "Not to be seen."));
    assert_null(strstr(all, "For the reader of this file."));
    assert_null(strstr(all, "Before all sections."));
    assert_null(strstr(all, "written by"));
}

/* An own section goes on behind what is printed when the part that it follows
 * is left out. */
static void test_no_own_section_is_lost(void **state) {
    struct workshop *w = *state;
    use(w, template_of(w, "",
                       "```insert opening\n```\n## Job\n\n"
                       "```insert procedure\n```\n"));
    const char *all =
        workshop_all(w, workshop_sound(w, workshop_guide(w, "", body)));
    assert_null(strstr(all, "Why it is done."));
    assert_order(all, "Before all sections.", "A section of its own.");
    assert_order(all, "A section of its own.", "Take off the cover.");
}

static const struct op *op_with(const struct page *page, const char *start) {
    for (size_t k = 0; k < page->op_count; k++)
        if (page->ops[k].kind == OP_TEXT &&
            text_starts(page->ops[k].text, start))
            return &page->ops[k];
    return NULL;
}

static void test_paper_margins_and_letters(void **state) {
    struct workshop *w = *state;
    use(w, template_of(w,
                       "```page\npaper: Legal\nstep size: 18\n"
                       "binding margin: 1 in\ntop margin: 20 mm\n"
                       "shop: Quarrel Lane\naddress: \"3 Quarrel Lane\"\n```\n",
                       "## Job\n\n```insert procedure\n```\n"));
    const struct pages *p = workshop_pages(w, workshop_guide(w, "", body));
    assert_int_equal(diag_status(w->compile.diags), 0);
    const struct page *page = &p->page[0];
    assert_true(page->width == 612 && page->height == 1008);
    const struct op *step = op_with(page, "Take off");
    const struct op *shop = op_with(page, "Quarrel Lane");
    assert_non_null(step);
    assert_non_null(shop);
    assert_true(step->size == 18);
    assert_true(fabs(shop->x - 72) < 0.01);
    assert_true(shop->y > 20 * 72 / 25.4 && shop->y < 20 * 72 / 25.4 + 20);
    assert_non_null(strstr(workshop_text(w, page), "3 Quarrel Lane"));
}

static void test_new_page(void **state) {
    struct workshop *w = *state;
    use(w, template_of(w, "",
                       "## Why\n\n```insert purpose\nnew page: yes\n```\n"
                       "## Job\n\n```insert procedure\nnew page: yes\n```\n"));
    const struct pages *p = workshop_sound(w, workshop_guide(w, "", body));
    assert_int_equal(p->count, 3);
    assert_non_null(op_with(&p->page[1], "Why"));
    assert_non_null(op_with(&p->page[2], "Job"));
}

static void test_bench_is_shop_in_large_letters(void **state) {
    struct workshop *w = *state;
    w->template = "bench";
    const char *guide = workshop_guide(w, "", body);
    const struct pages *large = workshop_sound(w, guide);
    w->template = "shop";
    const struct pages *usual = workshop_sound(w, guide);
    const struct op *step = NULL;
    for (size_t i = 0; i < large->count && step == NULL; i++)
        step = op_with(&large->page[i], "Take off");
    assert_non_null(step);
    assert_true(step->size == 14);
    assert_order(workshop_all(w, usual), "Purpose", "Procedure");
    assert_order(workshop_all(w, large), "Purpose", "Procedure");
}

#define IN_A_WORKSHOP(f)                                                       \
    cmocka_unit_test_setup_teardown(f, workshop_open, workshop_close)

int main(void) {
    const struct CMUnitTest tests[] = {
        IN_A_WORKSHOP(test_order_and_words_are_the_templates),
        IN_A_WORKSHOP(test_no_own_section_is_lost),
        IN_A_WORKSHOP(test_paper_margins_and_letters),
        IN_A_WORKSHOP(test_new_page),
        IN_A_WORKSHOP(test_bench_is_shop_in_large_letters),
    };
    return cmocka_run_group_tests_name("sheet", tests, NULL, NULL);
}
