/* test_catalogue.c - a shop's catalogue over the shipped one. */
#include "checks/catalogue.h"

#include "base/arena.h"
#include "base/diag.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

#include <cmocka.h>

#define ROOM BUILD "/catalogue"

struct shop {
    struct arena *arena;
    struct compile c;
    const struct catalogue *k;
};

/* A library whose templates/hazards.md holds `text`. */
static struct shop open_shop(const char *text) {
    struct shop s = {.arena = arena_new()};
    mkdir(ROOM, 0777);
    mkdir(ROOM "/templates", 0777);
    FILE *file = fopen(ROOM "/templates/hazards.md", "w");
    assert_non_null(file);
    fprintf(file, "# Hazards\n\n%s", text);
    assert_int_equal(fclose(file), 0);
    s.c = (struct compile){
        .arena = s.arena, .diags = diag_new(s.arena), .library = ROOM};
    s.k = catalogue_read(&s.c);
    assert_non_null(s.k);
    return s;
}

static void expect_message(struct shop *s, const char *words) {
    char *text = NULL;
    size_t len = 0;
    FILE *out = open_memstream(&text, &len);
    assert_non_null(out);
    diag_print(s->c.diags, out, false);
    fclose(out);
    bool found = words == NULL ? len == 0 : strstr(text, words) != NULL;
    if (!found)
        print_error("%s\n", text);
    free(text);
    assert_true(found);
}

static size_t shipped_rows(struct shop *s) {
    return catalogue_shipped(&s->c)->count;
}

/* A catalogue of one row silences none of the shipped ones. */
static void test_shipped_rows_stay(void **state) {
    (void)state;
    struct shop s = open_shop("```hazard Q1\ntitle: Hot glue\naction: insert\n"
                              "signal: caution\nhazard: Hot glue.\n"
                              "consequence: It burns.\navoidance: Wear "
                              "gloves.\ntags: glue\n```\n");
    expect_message(&s, NULL);
    assert_int_equal(s.k->count, shipped_rows(&s) + 1);
    assert_non_null(catalogue_find(s.k, "H04"));
    assert_non_null(catalogue_find(s.k, "Q1"));
    assert_int_equal(s.k->lowered_count, 0);
    arena_free(s.arena);
}

/* It adds words and rewords; what it does not say stays. */
static void test_shop_rewords_and_raises(void **state) {
    (void)state;
    struct shop s = open_shop("```hazard H21\nsignal: warning\ntags: glue\n"
                              "words: glue pot\nhazard: Glue.\n```\n");
    expect_message(&s, NULL);
    const struct hazard *h = catalogue_find(s.k, "H21");
    assert_int_equal(h->signal, SIGNAL_WARNING);
    assert_string_equal(h->hazard, "Glue.");
    assert_string_equal(h->title, "Solvent vapour");
    assert_true(catalogue_lists(&h->tags, text_of("solvent")));
    assert_true(catalogue_lists(&h->tags, text_of("glue")));
    assert_true(catalogue_lists(&h->words, text_of("thinner")));
    assert_true(catalogue_lists(&h->words, text_of("glue pot")));
    assert_int_equal(s.k->lowered_count, 0);
    arena_free(s.arena);
}

static const char *const weaker[] = {
    "hazard H15\nsignal: notice\n",
    "hazard H15\nin force: no\n",
    "hazard H14b\naction: insert\n",
    "hazard H11\nyears: 1999 or later\n",
    "hazard H19\nyears: 1985 or earlier\n",
    "hazard H03\nunless: no lead-acid battery\n",
    "order fuel-spark\nin force: no\n",
};

static void test_weaker_needs_a_reason(void **state) {
    (void)state;
    for (size_t i = 0; i < sizeof weaker / sizeof weaker[0]; i++) {
        char text[256];
        snprintf(text, sizeof text, "```%s```\n", weaker[i]);
        struct shop s = open_shop(text);
        expect_message(&s, "row of the hazard catalogue weakened");
        assert_int_equal(s.k->lowered_count, 0);
        assert_int_equal(s.k->count, shipped_rows(&s));
        assert_int_equal(catalogue_find(s.k, "H15")->signal, SIGNAL_WARNING);
        arena_free(s.arena);
    }
}

static void test_a_reason_is_kept_for_the_page(void **state) {
    (void)state;
    for (size_t i = 0; i < sizeof weaker / sizeof weaker[0]; i++) {
        char text[256];
        snprintf(text, sizeof text,
                 "```%sreason: none is here\napprover: J. Thorne\n```\n",
                 weaker[i]);
        struct shop s = open_shop(text);
        expect_message(&s, NULL);
        assert_int_equal(s.k->lowered_count, 1);
        assert_string_equal(s.k->lowered[0].reason, "none is here");
        assert_string_equal(s.k->lowered[0].approver, "J. Thorne");
        arena_free(s.arena);
    }
}

/* A whole copy of the shipped catalogue is no second one. */
static void test_a_copy_changes_nothing(void **state) {
    (void)state;
    struct text t = {NULL, 0};
    FILE *file = fopen("templates/hazards.md", "r");
    assert_non_null(file);
    static char text[1 << 17];
    t.len = fread(text, 1, sizeof text - 1, file);
    fclose(file);
    text[t.len] = '\0';
    struct shop s = open_shop(text);
    expect_message(&s, NULL);
    const struct catalogue *k = catalogue_shipped(&s.c);
    assert_int_equal(s.k->count, k->count);
    assert_int_equal(s.k->order_count, k->order_count);
    assert_int_equal(s.k->style_count, k->style_count);
    arena_free(s.arena);
}

static void test_conditions_that_are_none(void **state) {
    (void)state;
    struct shop s = open_shop("```hazard H04\nwhen: fault curent >= 200 A\n"
                              "```\n");
    expect_message(&s, "did you mean 'fault current'?");
    arena_free(s.arena);
    s = open_shop("```hazard H04\nwhen: fault current >= 200 V\n```\n");
    expect_message(&s, "setting cannot have this value");
    arena_free(s.arena);
    s = open_shop("```hazard H19\nyears: before 1985\n```\n");
    expect_message(&s, "write 1988 or later");
    arena_free(s.arena);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_shipped_rows_stay),
        cmocka_unit_test(test_shop_rewords_and_raises),
        cmocka_unit_test(test_weaker_needs_a_reason),
        cmocka_unit_test(test_a_reason_is_kept_for_the_page),
        cmocka_unit_test(test_a_copy_changes_nothing),
        cmocka_unit_test(test_conditions_that_are_none),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
