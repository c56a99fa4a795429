/* test_connector.c - the face of a connector, and the colours of wires. */
#include "layout/swatch.h"
#include "workshop.h"

static const struct op *op_of(const struct page *page, const char *text) {
    for (size_t k = 0; k < page->op_count; k++)
        if (page->ops[k].kind == OP_TEXT && text_is(page->ops[k].text, text))
            return &page->ops[k];
    fail_msg("no '%s'", text);
    return NULL;
}

/* Rows from the top, an empty place kept, letters below each colour; what
 * differs by variant is left to the table. */
static void test_face_is_as_written(void **state) {
    struct workshop *w = *state;
    const struct pages *p = workshop_sound(
        w, workshop_guide(w, "applies: mark 1, mark 2\n",
                          "```pinout C1\nface: A1 A2 / B1 - B3\n"
                          "viewed from: mating side\n"
                          "cavity | colour | purpose\n"
                          "A1 | red/white | feed\n"
                          "A2 | black | ground\n"
                          "B3 | blue [mark 1] grey [mark 2] | tell-tale\n"
                          "```\n\n## Procedure\n\n1. Look at the plug.\n"));
    assert_true(geometry_figure(p, "The face of connector C1"));
    const struct page *page = &p->page[0];
    const struct op *a1 = op_of(page, "A1"), *a2 = op_of(page, "A2"),
                    *b1 = op_of(page, "B1"), *b3 = op_of(page, "B3");
    double pitch = a2->x - a1->x;
    assert_true(a1->y == a2->y && b1->y == b3->y && b1->y > a1->y + 30);
    assert_true(fabs(b3->x - b1->x - 2 * pitch) < 1);
    const struct op *letters = op_of(page, "RD/WH");
    assert_true(letters->y > a1->y && letters->y < b1->y);
    op_of(page, "BK");
    op_of(page, "empty");
    assert_null(strstr(workshop_text(w, page), "\nBU\n"));
    assert_non_null(
        strstr(workshop_text(w, page), "seen from the\nmating side"));
}

/* Rings from the outside in, clockwise from the top, a place kept for a hyphen;
 * the key below. */
static void test_round_face(void **state) {
    struct workshop *w = *state;
    const struct pages *p = workshop_sound(
        w, workshop_guide(w, "",
                          "```pinout C1\nshape: round\n"
                          "face: N - S W / M\nkey: bottom\n"
                          "viewed from: wire side\n"
                          "cavity | colour | purpose\nM | red | feed\n```\n\n"
                          "## Procedure\n\n1. Look at the plug.\n"));
    const struct page *page = &p->page[0];
    const struct op *north = op_of(page, "N"), *south = op_of(page, "S"),
                    *west = op_of(page, "W"), *middle = op_of(page, "M");
    double radius = middle->y - north->y;
    assert_true(radius > 40); /* a cavity's width at least */
    assert_true(fabs(south->y - middle->y - radius) < 0.01);
    assert_true(fabs(west->y - middle->y) < 0.01);
    assert_true(west->x < middle->x - radius + 4);
    bool key = false;
    for (size_t k = 0; k < page->op_count; k++) {
        const struct op *op = &page->ops[k];
        key |= op->kind == OP_RECT && op->fill && op->height < 6 &&
               fabs(op->width - 10) < 0.01 && op->y > south->y + 20 &&
               op->y < south->y + 60;
    }
    assert_true(key);
}

/* A table that is as high as the face at most stands beside it, one that is
 * higher or has a title of its own below; each is there once. */
static void test_table_beside_its_face(void **state) {
    static const char *const purpose[] = {
        "feed", "feed of the lamp on the left, by way of the box behind it"};
    struct workshop *w = *state;
    for (int i = 0; i < 4; i++) {
        bool high = i % 2 == 1, titled = i >= 2;
        struct buf rows = buf_in(w->compile.arena);
        for (int k = 1; k < 10; k++)
            buf_printf(&rows, "%d | red | %s\n", k, purpose[high]);
        const struct pages *p = workshop_sound(
            w,
            workshop_guide(w, "",
                           arena_printf(w->compile.arena,
                                        "```pinout C1\n%sshape: round\n"
                                        "face: 1 2 3 4 5 6 7 8 / 9\n"
                                        "viewed from: wire side\n"
                                        "cavity | colour | purpose\n%s```\n\n"
                                        "## Procedure\n\n1. Look.\n",
                                        titled ? "title: Pins\n" : "",
                                        buf_cstr(&rows))));
        const char *all = workshop_all(w, p);
        assert_int_equal(workshop_times(all, "purpose\n"), 1);
        assert_int_equal(workshop_times(all, "Connector C1\n"), 1);
        int at = geometry_find(p, "purpose");
        const struct op *head = op_of(&p->page[at], "cavity"),
                        *name = op_of(&p->page[at], "Connector C1");
        assert_int_equal(head->y < name->y, !high && !titled);
        assert_int_equal(head->x > name->x + 200, !high && !titled);
    }
}

/* Twelve or thirteen on a ring fit across a page; more than that is told. */
static void test_a_ring_too_wide_is_told(void **state) {
    struct workshop *w = *state;
    struct buf face = buf_in(w->compile.arena);
    for (int i = 1; i <= 30; i++)
        buf_printf(&face, "%d ", i);
    const char *guide = workshop_guide(
        w, "",
        arena_printf(w->compile.arena,
                     "```pinout C1\nshape: round\nface: %s\n"
                     "viewed from: wire side\ncavity | colour | purpose\n"
                     "1 | red | feed\n```\n\n## Procedure\n\n1. Look.\n",
                     buf_cstr(&face)));
    workshop_pages(w, guide);
    assert_non_null(strstr(workshop_messages(w), "wider than the page"));
}

/* Steps before it push it down the page; what speaks of it goes along. */
static void test_text_goes_along(void **state) {
    for (size_t steps = 1; steps < 40; steps++) {
        struct workshop *w = *state;
        struct buf body = buf_in(w->compile.arena);
        buf_puts(&body, "## Procedure\n\n");
        for (size_t i = 1; i <= steps; i++)
            buf_printf(&body, "%zu. Look at the plug.\n", i);
        buf_puts(&body, "\nThe pins below are seen from the wires.\n\n"
                        "```pinout C1\nface: A1 A2 / B1 - B3\n"
                        "viewed from: wire side\n"
                        "cavity | colour | purpose\nA1 | red | feed\n```\n");
        const struct pages *p =
            workshop_sound(w, workshop_guide(w, "", buf_cstr(&body)));
        assert_int_equal(geometry_find(p, "The pins below"),
                         geometry_find(p, "Connector C1"));
    }
}

static void test_colours(void **state) {
    struct workshop *w = *state;
    static const char *const known[][2] = {
        {"red", "RD"},    {"Red/White", "RD/WH"}, {"gray", "GY"},
        {"purple", "VT"}, {"GN/YE", "GN/YE"},     {"black / tan", "BK/TN"},
        {"yellow", "YE"},
    };
    static const char *const unknown[] = {"", "rad", "red/white/blue", "red/",
                                          "r"};
    struct swatch s;
    const char *near;
    for (size_t i = 0; i < sizeof known / sizeof known[0]; i++) {
        assert_true(swatch_find(text_of(known[i][0]), &s, &near));
        assert_string_equal(swatch_letters(w->compile.arena, &s), known[i][1]);
    }
    for (size_t i = 0; i < sizeof unknown / sizeof unknown[0]; i++)
        assert_false(swatch_find(text_of(unknown[i]), &s, &near));
    assert_false(swatch_find(text_of("red/yelow"), &s, &near));
    assert_string_equal(near, "yellow");
}

#define IN_A_WORKSHOP(f)                                                       \
    cmocka_unit_test_setup_teardown(f, workshop_open, workshop_close)

int main(void) {
    const struct CMUnitTest tests[] = {
        IN_A_WORKSHOP(test_face_is_as_written),
        IN_A_WORKSHOP(test_round_face),
        IN_A_WORKSHOP(test_table_beside_its_face),
        IN_A_WORKSHOP(test_a_ring_too_wide_is_told),
        IN_A_WORKSHOP(test_text_goes_along),
        IN_A_WORKSHOP(test_colours),
    };
    return cmocka_run_group_tests_name("connector", tests, NULL, NULL);
}
