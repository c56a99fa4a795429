/* test_plate.c - figures: size, marks, key, caption, variants. */
#include "image/picture.h"
#include "layout/paginate.h"
#include "layout/reach.h"
#include "support/maker.h"
#include "workshop.h"

static void write_image(const struct workshop *w, unsigned width,
                        unsigned height) {
    char path[100];
    struct maker_png form = {
        .width = width, .height = height, .depth = 8, .colour = MAKER_RGB};
    struct text t = maker_png(w->compile.arena, form);
    snprintf(path, sizeof path, "%s/procedures/a.png", w->folder);
    FILE *out = fopen(path, "wb");
    assert_non_null(out);
    assert_int_equal(fwrite(t.start, 1, t.len, out), t.len);
    assert_int_equal(fclose(out), 0);
}

static int close_all(void **state) {
    static const char *const made[] = {"a.png", "b.png"};
    struct workshop *w = *state;
    for (size_t i = 0; i < 2; i++) {
        char path[100];
        snprintf(path, sizeof path, "%s/procedures/%s", w->folder, made[i]);
        unlink(path);
    }
    return workshop_close(state);
}

static const struct pages *pages_with(struct workshop *w, const char *body) {
    return workshop_sound(
        w,
        workshop_guide(
            w, "", arena_printf(w->compile.arena, "## Purpose\n\n%s\n", body)));
}

static const struct op *nth(const struct pages *p, enum op_kind kind,
                            size_t index) {
    for (size_t i = 0; i < p->count; i++)
        for (size_t k = 0; k < p->page[i].op_count; k++)
            if (p->page[i].ops[k].kind == kind && index-- == 0)
                return &p->page[i].ops[k];
    return NULL;
}

/* The n-th text that is just this. */
static const struct op *word(const struct pages *p, const char *text,
                             size_t index) {
    const struct op *op;
    for (size_t i = 0; (op = nth(p, OP_TEXT, i)) != NULL; i++)
        if (text_is(op->text, text) && index-- == 0)
            return op;
    return NULL;
}

static void assert_near(double a, double b) {
    if (fabs(a - b) > 0.6)
        fail_msg("%g instead of %g", a, b);
}

/* Middle of a number in its disc, at 10 pt of one digit. */
static double middle_x(const struct op *op) {
    return op->x + reach_text(op) / 2;
}

/* 150 pixels an inch, no wider than the text, no higher than 430 pt. */
static void test_usual_size(void **state) {
    static const struct {
        unsigned width, height;
        double wide, high;
    } sizes[] = {
        {300, 150, 144, 72}, {3000, 600, 432, 86.4}, {600, 3000, 86, 430}};
    struct workshop *w = *state;
    for (size_t i = 0; i < sizeof sizes / sizeof *sizes; i++) {
        write_image(w, sizes[i].width, sizes[i].height);
        const struct pages *p =
            pages_with(w, "```figure\nimage: a.png\ntitle: A\n```\n");
        const struct op *op = nth(p, OP_IMAGE, 0);
        assert_near(op->width, sizes[i].wide);
        assert_near(op->height, sizes[i].high);
        assert_true(text_is(op->text, "A"));
    }
}

/* No more than 300 pixels an inch are kept. */
static void test_brought_down(void **state) {
    struct workshop *w = *state;
    write_image(w, 1200, 600);
    const struct pages *p =
        pages_with(w, "```figure\nimage: a.png\ntitle: A\n"
                      "width: 2 in\n```\n\n```figure\n"
                      "image: a.png\ntitle: B\nwidth: 5 in\n```\n");
    const struct op *small = nth(p, OP_IMAGE, 0), *large = nth(p, OP_IMAGE, 1);
    assert_int_equal(small->picture->width, 600);
    assert_int_equal(small->picture->height, 300);
    assert_int_equal(large->picture->width, 1200);
    assert_near(large->width, 360);
}

static void test_key_beside_or_below(void **state) {
    static const char *const widths[] = {"3 in", "5 in"};
    struct workshop *w = *state;
    write_image(w, 750, 250);
    for (int i = 0; i < 2; i++) {
        const struct pages *p =
            pages_with(w, arena_printf(w->compile.arena,
                                       "```figure\nimage: a.png\n"
                                       "title: Panel\nwidth: %s\n"
                                       "mark | across | down | part\n"
                                       "1 | 25 %% | 1/2 * 100 %% | relay\n"
                                       "2 | 75 %% | 20 %% | fuse\n```\n",
                                       widths[i]));
        const struct op *image = nth(p, OP_IMAGE, 0);
        const struct op *first = word(p, "1", 0), *second = word(p, "2", 0);
        assert_near(middle_x(first), image->x + image->width * 0.25);
        assert_near(middle_x(second), image->x + image->width * 0.75);
        /* The baseline is half the height of a digit below the middle. */
        assert_near(first->y - 3.6, image->y + image->height * 0.5);
        assert_near(second->y - 3.6, image->y + image->height * 0.2);
        const struct op *key = word(p, "1", 1), *part = word(p, "relay", 0);
        const struct op *title = word(p, "Panel", 0);
        assert_true(part->x > key->x && fabs(part->y - key->y) < 3);
        assert_true(word(p, "fuse", 0)->y > part->y + 15);
        assert_true(title->y > image->y + image->height);
        if (i == 0) /* beside the image */
            assert_true(key->x > image->x + image->width &&
                        key->y < image->y + image->height);
        else
            assert_true(key->x < image->x + image->width && key->y > title->y);
    }
}

/* At the edge all of the disc is still on the image. */
static void test_marks_stay_on_the_image(void **state) {
    struct workshop *w = *state;
    write_image(w, 300, 150);
    const struct pages *p =
        pages_with(w, "```figure\nimage: a.png\ntitle: A\n"
                      "mark | across | down | part\n"
                      "1 | 0 % | 0 % | a\n2 | 100 % | 100 % | b\n```\n");
    const struct op *image = nth(p, OP_IMAGE, 0);
    const struct op *op;
    for (size_t i = 0; (op = nth(p, OP_PATH, i)) != NULL; i++) {
        struct geometry_box b = geometry_of(op);
        if (b.left > image->x + image->width) /* in the key */
            continue;
        assert_true(b.left > image->x - 0.01 && b.top > image->y - 0.01);
        assert_true(b.right < image->x + image->width + 0.01 &&
                    b.bottom < image->y + image->height + 0.01);
    }
}

/* Four screws of a sort are one line of the key; a row for another vehicle is
 * neither drawn nor listed. */
static void test_rows(void **state) {
    struct workshop *w = *state;
    write_image(w, 300, 150);
    const char *guide =
        workshop_guide(w, "applies: mark 1, mark 2\n",
                       "## Purpose\n\n```figure\nimage: a.png\ntitle: A\n"
                       "mark | across | down | part\n7 | 20 % | 20 % | screw\n"
                       "7 | 80 % | 20 % | screw\n7 | 20 % | 80 % | screw\n"
                       "8 | 80 % | 80 % | strut [mark 3]\n"
                       "9 | 50 % | 50 % | catch [mark 2]\n```\n");
    const struct pages *p = workshop_sound(w, guide);
    const char *all = workshop_all(w, p);
    assert_int_equal(workshop_times(all, "\n7\n"), 4);
    assert_int_equal(workshop_times(all, "\nscrew\n"), 1);
    assert_int_equal(workshop_times(all, "\n8\n"), 0);
    assert_null(strstr(all, "strut"));
    assert_int_equal(workshop_times(all, "\n9\n"), 2);
    assert_non_null(strstr(all, "(mark 2 only)"));
}

/* One number at one place for two variants: a single disc, and two lines of the
 * key with theirs. */
static void test_a_place_that_variants_share(void **state) {
    struct workshop *w = *state;
    write_image(w, 300, 150);
    const struct pages *p = pages_with(
        w, "```figure\nimage: a.png\ntitle: A\n"
           "mark | across | down | part\n5 | 50 % | 50 % | old [mark 1]\n"
           "5 | 50 % | 50 % | new [mark 2, mark 3]\n```\n");
    const char *all = workshop_all(w, p);
    assert_int_equal(workshop_times(all, "\n5\n"), 3);
    assert_non_null(strstr(all, "old (mark 1 only)"));
}

static void test_image_by_variant(void **state) {
    struct workshop *w = *state;
    char from[100], to[100];
    write_image(w, 150, 75);
    snprintf(from, sizeof from, "%s/procedures/a.png", w->folder);
    snprintf(to, sizeof to, "%s/procedures/b.png", w->folder);
    assert_int_equal(rename(from, to), 0);
    write_image(w, 300, 75);
    const struct pages *p = pages_with(
        w, "```figure loom\nimage: a.png [mark 2] "
           "b.png [others]\ntitle: The loom\n"
           "mark | across | down | part\n1 | 50 % | 50 % | clip\n```\n\n"
           "See {see loom}.\n");
    const char *all = workshop_all(w, p);
    assert_near(nth(p, OP_IMAGE, 0)->width, 72);
    assert_near(nth(p, OP_IMAGE, 1)->width, 144);
    assert_null(nth(p, OP_IMAGE, 2));
    assert_int_equal(workshop_times(all, "Figure"), 2);
    assert_non_null(strstr(all, "mark 1, mark 3 only:"));
    assert_non_null(strstr(all, "mark 2 only:"));
    assert_int_equal(workshop_times(all, "clip"), 2);
}

static void test_coarse_is_said(void **state) {
    struct workshop *w = *state;
    write_image(w, 300, 150);
    pages_with(w, "```figure\nimage: a.png\ntitle: A\n"
                  "width: 3 in\n```\n");
    assert_int_equal(diag_count(w->compile.diags, LEVEL_WARNING), 0);
    pages_with(w, "```figure\nimage: a.png\ntitle: A\n"
                  "width: 4 in\n```\n");
    assert_non_null(strstr(workshop_messages(w),
                           "guide.md:15:1: warning: image coarse: 75 pixels "
                           "an inch; it prints well from 150"));
}

/* An image changes the code that is printed. */
static void test_code_depends_on_the_image(void **state) {
    static const char body[] =
        "```figure\nimage: a.png\ntitle: A\nwidth: 1 in\n```\n";
    struct workshop *w = *state;
    write_image(w, 300, 150);
    const struct pages *one = pages_with(w, body), *two = pages_with(w, body);
    assert_string_equal(one->code, two->code);
    write_image(w, 290, 145);
    assert_string_not_equal(one->code, pages_with(w, body)->code);
}

int main(void) {
#define TEST(f) cmocka_unit_test_setup_teardown(f, workshop_open, close_all)
    const struct CMUnitTest tests[] = {
        TEST(test_usual_size),
        TEST(test_brought_down),
        TEST(test_key_beside_or_below),
        TEST(test_marks_stay_on_the_image),
        TEST(test_rows),
        TEST(test_a_place_that_variants_share),
        TEST(test_image_by_variant),
        TEST(test_coarse_is_said),
        TEST(test_code_depends_on_the_image),
    };
    return cmocka_run_group_tests_name("plate", tests, NULL, NULL);
}
