/* test_spoken.c - phrases found in the words of a step. */
#include "checks/spoken.h"

#include "../values/bench.h"

static bool finds(const char *step, const char *phrase) {
    char text[256];
    snprintf(text, sizeof text, "## Procedure\n\n1. %s\n", step);
    struct guide_bench b = bench_open(text);
    const struct node *n = NULL;
    for (size_t i = 0; i < b.guide->node_count && n == NULL; i++)
        if (b.guide->nodes[i]->kind == NODE_STEP)
            n = b.guide->nodes[i];
    assert_non_null(n);
    struct spoken s = spoken_of_step(b.c.arena, b.guide, n, true);
    bool found = spoken_find(&s, text_of(phrase)) != SIZE_MAX;
    if (found) { /* the place lies in the step */
        struct span at = spoken_place(&s, text_of(phrase));
        assert_true(at.start >= n->at.start && at.end <= n->at.end);
    }
    bench_close(&b);
    return found;
}

static void test_phrases(void **state) {
    (void)state;
    static const struct {
        const char *step, *phrase;
        bool found;
    } cases[] = {
        {"Disconnect the battery.", "disconnect battery", true},
        {"DISCONNECTING the starter battery.", "disconnect battery", true},
        {"Disconnect the **old** battery.", "disconnect battery", true},
        {"Battery: disconnect it.", "disconnect battery", false},
        {"Disconnect it. The battery stays.", "disconnect battery", false},
        {"Disconnect a b c battery.", "disconnect battery", true},
        {"Disconnect a b c d battery.", "disconnect battery", false},
        {"Disconnect the {12 V} battery.", "disconnect battery", true},
        {"Renew the fuse.", "renew|replace fuse", true},
        {"Replaced fuses.", "renew|replace fuse", true},
        {"Lift the fused plug.", "renew|replace fuse", false},
        {"Fit the R-134a port.", "R-134a", true},
        {"Fit the R-134 port.", "R-134a", false},
        {"Unbolt the wheelhouse.", "wheel", false},
        {"Disconnect the lamp. Disconnect the battery.", "disconnect battery",
         true},
        {"Lay it on the\n   fuel\n   tank.", "fuel tank", true},
        {"See `fuel tank` there.", "fuel tank", false},
        {"Undo the lug nuts.", "lug +nut|bolt", true},
        {"Undo the lug nuts.", "+lug +nut", true},
        {"Put the lug under the nut.", "lug +nut|bolt", false},
        {"Light the old cooker.", "light +the|a old +cooker", true},
        {"Fit the light over the cooker.", "light +the|a +cooker", false},
    };
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++)
        if (finds(cases[i].step, cases[i].phrase) != cases[i].found)
            fail_msg("'%s' in: %s", cases[i].phrase, cases[i].step);
}

int main(void) {
    const struct CMUnitTest tests[] = {cmocka_unit_test(test_phrases)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
