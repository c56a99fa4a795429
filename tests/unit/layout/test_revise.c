/* test_revise.c - bars and a list of what changed since an issued revision. */
#include "workshop.h"

static const char settings[] = "applies: mark 1\n";

static const char body[] =
    "## Purpose\n\nThe lamp is too dim.\n\nThe switch gets hot.\n\n"
    "```limits\nid | characteristic | limit\nR1 | lost | <= %s V\n"
    "R2 | current | <= 9 A\n```\n\n"
    "## Procedure\n\n1. Take off the cover.\n%s2. Drill %s through the arch.\n"
    "3. Fit the cover.\n\n"
    "## Test\n\n1. Look at step 2: {reading R1}\n";

static const struct pages *print(struct workshop *w, const char *limit,
                                 const char *more, const char *hole) {
    const char *text = arena_printf(w->compile.arena, body, limit, more, hole);
    const struct pages *p =
        workshop_pages(w, workshop_guide(w, settings, text));
    if (diag_status(w->compile.diags) != 0)
        fail_msg("%s", workshop_messages(w));
    return p;
}

/* First revision: what it prints is kept. */
static struct passages issue(struct workshop *w) {
    struct passages kept = {0};
    w->passages = &kept;
    print(w, "0.3", "", "{drill}");
    w->passages = NULL;
    return kept;
}

static bool is_bar(const struct op *op) {
    return op->kind == OP_RECT && op->x > 558 && op->width < 3;
}

static size_t bars(const struct pages *p) {
    size_t count = 0;
    for (size_t i = 0; i < p->count; i++)
        for (size_t k = 0; k < p->page[i].op_count; k++)
            count += is_bar(&p->page[i].ops[k]);
    return count;
}

/* The text that begins so has a bar beside it. */
static bool has_bar(const struct pages *p, const char *start) {
    for (size_t i = 0; i < p->count; i++)
        for (size_t k = 0; k < p->page[i].op_count; k++) {
            const struct op *text = &p->page[i].ops[k];
            if (text->kind != OP_TEXT || !text_starts(text->text, start))
                continue;
            for (size_t m = 0; m < p->page[i].op_count; m++) {
                const struct op *op = &p->page[i].ops[m];
                if (is_bar(op) && op->y <= text->y &&
                    text->y <= op->y + op->height)
                    return true;
            }
        }
    return false;
}

static void test_the_same_has_no_bars(void **state) {
    struct workshop *w = *state;
    struct passages first = issue(w);
    assert_true(first.count > 8);
    assert_true(text_is(first.revision, "1"));
    w->issued = &first;
    const struct pages *p = print(w, "0.3", "", "{drill}");
    assert_int_equal(bars(p), 0);
    assert_non_null(strstr(workshop_text(w, &p->page[0]),
                           "Changed since revision 1:\n nothing"));
}

/* A fact that changed; words; a row. A new step renumbers those behind it,
 * which is no change of theirs. */
static void test_changes_have_bars(void **state) {
    struct workshop *w = *state;
    struct passages first = issue(w);
    w->issued = &first;
    const struct pages *p =
        print(w, "0.25", "2. Disconnect the lamp.\n", "{9/16 in}");
    assert_true(has_bar(p, "Disconnect the lamp."));
    assert_true(has_bar(p, "Drill "));
    assert_true(has_bar(p, "≤"));
    assert_false(has_bar(p, "Fit the cover."));
    assert_false(has_bar(p, "Take off"));
    assert_false(has_bar(p, "The switch gets hot."));
    assert_int_equal(bars(p), 3);
    const char *all = workshop_text(w, &p->page[0]);
    assert_non_null(strstr(all, "Changed since revision 1:"));
    assert_non_null(strstr(all, "step 2"));
    assert_non_null(strstr(all, "step 3"));
    assert_non_null(strstr(all, "“Limits”"));
}

static void test_what_is_gone_is_named(void **state) {
    struct workshop *w = *state;
    struct passages kept = {0};
    w->passages = &kept;
    print(w, "0.3", "2. Disconnect the lamp.\n", "{drill}");
    w->passages = NULL;
    w->issued = &kept;
    const struct pages *p = print(w, "0.3", "", "{drill}");
    assert_int_equal(bars(p), 0);
    assert_non_null(strstr(workshop_text(w, &p->page[0]), "left out: step"));
}

#define IN_A_WORKSHOP(f)                                                       \
    cmocka_unit_test_setup_teardown(f, workshop_open, workshop_close)

int main(void) {
    const struct CMUnitTest tests[] = {
        IN_A_WORKSHOP(test_the_same_has_no_bars),
        IN_A_WORKSHOP(test_changes_have_bars),
        IN_A_WORKSHOP(test_what_is_gone_is_named),
    };
    return cmocka_run_group_tests_name("revise", tests, NULL, NULL);
}
