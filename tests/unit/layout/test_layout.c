/* test_layout.c - whole guides: where things stand. Panels with their step,
 * headings, references, the order of the page, figures, links, foot, paper. */
#include "layout/shape.h"
#include "workshop.h"

#include <png.h>

static const char *repeat(const struct workshop *w, const char *text,
                          int times) {
    struct buf b = buf_in(w->compile.arena);
    for (int i = 0; i < times; i++)
        buf_puts(&b, text);
    return buf_cstr(&b);
}

/* 60 offsets: text of growing length before a step with two panels and a
 * reading. Panels, command and box share a page, in this order. */
static void test_panel_stays_with_its_step(void **state) {
    static const char body[] =
        "## Procedure\n\n%s\n1. Take off the cover.\n\n"
        "```notice\nhazard: Thin plastic.\nconsequence: It can crack.\n"
        "avoidance: Pull at both ends.\n```\n\n"
        "```danger\nhazard: Exhaust gas.\nconsequence: It will kill you.\n"
        "avoidance: Run the engine outdoors.\n```\n\n"
        "2. Guarded: drill {drill} through the wheel arch. {initial}\n"
        "3. Go on.\n";
    struct workshop *w = *state;
    for (int i = 0; i < 60; i++) {
        const char *before = repeat(w, "Look at the loom first.  \n", i);
        const struct pages *p = workshop_sound(
            w, workshop_guide(w, "",
                              arena_printf(w->compile.arena, body, before)));
        int at = -1;
        for (size_t k = 0; k < p->count; k++)
            if (workshop_op(&p->page[k], "Guarded:") != NULL)
                at = (int)k;
        assert_true(at >= 0);
        const struct page *page = &p->page[at];
        const struct op *step = workshop_op(page, "Guarded:");
        const struct op *danger = NULL, *notice = NULL;
        for (size_t k = 0; k < page->op_count; k++) {
            const struct op *op = &page->ops[k];
            bool big = op->kind == OP_TEXT && op->size > 17;
            if (big && text_is(op->text, "DANGER"))
                danger = op;
            if (big && text_is(op->text, "NOTICE"))
                notice = op;
        }
        assert_non_null(danger);
        assert_non_null(notice);
        assert_true(danger->y < notice->y && notice->y < step->y);
        assert_non_null(workshop_op(page, "initials"));
    }
}

/* Below each heading of the outline its page holds more than the foot. */
/* The box of a stop does not lean on the next step, with both sizes of letters.
 */
static void test_a_stop_stands_clear(void **state) {
    struct workshop *w = *state;
    for (int bench = 0; bench < 2; bench++) {
        w->template = bench ? "bench" : NULL;
        const struct pages *p = workshop_sound(
            w, workshop_guide(w, "",
                              "## Procedure\n\n1. {hold} Show it.\n"
                              "2. Then go.\n"));
        const struct page *page = &p->page[geometry_find(p, "Then go")];
        const struct op *box = workshop_op(page, "date, time");
        const struct op *next = workshop_op(page, "Then go");
        double bottom = 0;
        for (size_t i = 0; i < page->op_count; i++) {
            const struct op *op = &page->ops[i];
            if (op->kind == OP_RECT && op->y < box->y &&
                op->y + op->height > box->y)
                bottom = fmax(bottom, op->y + op->height);
        }
        assert_true(bottom > box->y);
        assert_true(next->y - next->size - bottom > 6);
    }
    w->template = NULL;
}

static void test_headings_are_not_stranded(void **state) {
    struct workshop *w = *state;
    for (int i = 0; i < 60; i++) {
        const char *text = repeat(w, "Look at the loom first.  \n", i);
        const struct pages *p = workshop_sound(
            w, workshop_guide(
                   w, "",
                   arena_printf(w->compile.arena,
                                "## Purpose\n\n%s\n### Why\n\nTo see.\n\n"
                                "## Procedure\n\n1. Look.\n2. Go on.\n",
                                text)));
        assert_true(p->outline_count >= 5);
        for (size_t k = 0; k < p->outline_count; k++) {
            const struct page *page = &p->page[p->outline[k].page];
            size_t below = 0;
            for (size_t n = 0; n < page->op_count; n++)
                below += page->ops[n].kind == OP_TEXT &&
                         page->ops[n].y > p->outline[k].y + 22 &&
                         page->ops[n].y < 726;
            assert_true(below > 0);
        }
    }
}

/* "step 2 (page N)" names the page on which step 2 stands, and leads there. */
static void test_references_name_the_right_page(void **state) {
    struct workshop *w = *state;
    for (int i = 0; i < 100; i += 5) {
        const char *filler = repeat(w, "Look at the loom first.  \n", i);
        const struct pages *p = workshop_sound(
            w, workshop_guide(
                   w, "",
                   arena_printf(w->compile.arena,
                                "## Purpose\n\nIn short: {see crimp}.\n\n"
                                "## Procedure\n\n%s\n1. Look.\n"
                                "2. {step crimp} Crimp the ring.\n",
                                filler)));
        int step = geometry_find(p, "Crimp the ring.");
        const char *want = arena_printf(
            w->compile.arena, "In short: step 2 (page %d).", step + 1);
        assert_non_null(strstr(workshop_text(w, &p->page[0]), want));
        const struct op *link = NULL;
        for (size_t k = 0; k < p->page[0].op_count; k++)
            if (p->page[0].ops[k].kind == OP_LINK)
                link = &p->page[0].ops[k];
        assert_non_null(link);
        assert_int_equal(link->page, step);
    }
}

/* As if the words had been known from the start: each page number has the
 * glyphs and the room that shaping gives it. */
static void check_glyphs(const struct workshop *w, const struct op *op) {
    struct shaper *s = shape_new(w->compile.arena, NULL);
    const struct run *run = shape_text(s, op->face, op->text);
    assert_int_equal(op->glyph_count, run->glyph_count);
    for (size_t i = 0; i < run->glyph_count; i++) {
        assert_int_equal(op->glyphs[i].id, run->glyphs[i].id);
        assert_int_equal(op->glyphs[i].start, run->glyphs[i].start);
        assert_true(fabsf(op->glyphs[i].advance - run->glyphs[i].advance) <
                    1e-6F);
    }
    shape_free(s);
}

static void test_page_numbers_of_two_figures(void **state) {
    static const char body[] = "## Purpose\n\nOne {see one}, ten {see ten}.\n\n"
                               "## Procedure\n\n1. {step one} First.\n2. "
                               "Next.\n\n%s\n3. {step ten} Last.\n";
    struct workshop *w = *state;
    for (int i = 400; i < 560; i += 20) {
        const char *filler = repeat(w, "Look at the loom first.  \n", i);
        const struct pages *p = workshop_sound(
            w, workshop_guide(w, "",
                              arena_printf(w->compile.arena, body, filler)));
        int one = geometry_find(p, "First."), ten = geometry_find(p, "Last.");
        assert_true(ten >= 7 && ten <= 12);
        const struct op *op = workshop_op(&p->page[0], "One ");
        assert_non_null(op);
        assert_non_null(
            strstr(workshop_text(w, &p->page[0]),
                   arena_printf(w->compile.arena,
                                "\nOne step 1 (page %d), ten step 3 (page "
                                "%d).\n",
                                one + 1, ten + 1)));
        for (; workshop_joined(op, op + 1); op++)
            check_glyphs(w, op);
        check_glyphs(w, op);
    }
}

/* A step is not parted from its page: only where that saves a line. */
static void test_a_reference_is_held_together(void **state) {
    struct workshop *w = *state;
    for (int i = 0; i < 30; i++) {
        const struct pages *p = workshop_sound(
            w, workshop_guide(
                   w, "",
                   arena_printf(w->compile.arena,
                                "## Procedure\n\n1. Look first%s at it, see "
                                "{see crimp} and the words of that.\n"
                                "2. {step crimp} Crimp the ring.\n",
                                repeat(w, " a", i))));
        const char *all = workshop_all(w, p);
        if (strstr(all, "step 2\n") != NULL)
            fail_msg("parted behind %d words: %s", i, all);
    }
}

static void test_order_of_the_page(void **state) {
    static const char *const order[] = {"Purpose",
                                        "Background",
                                        "Safety summary",
                                        "Before you start",
                                        "As found",
                                        "Procedure",
                                        "Limits",
                                        "Test",
                                        "Close-up",
                                        "Faults",
                                        "Records and sign-off"};
    struct workshop *w = *state;
    const struct pages *p = workshop_sound(
        w, workshop_guide(w, "",
                          "## Purpose\n\nLight.\n\n## Background\n\nOld.\n\n"
                          "## As found\n\n1. Read: {reading R1}\n\n"
                          "## Procedure\n\n```limits\nid | characteristic | "
                          "limit\nR1 | voltage | >= 11.4 V\n```\n\n"
                          "2. Work.\n\n## Test\n\n3. Try: {reading R1}\n\n"
                          "## Close-up\n\n4. Close.\n\n"
                          "## Faults\n\nNone known.\n"));
    assert_int_equal(p->outline_count, sizeof order / sizeof order[0]);
    for (size_t i = 0; i < p->outline_count; i++) {
        assert_true(text_is(p->outline[i].title, order[i]));
        assert_int_equal(p->outline[i].level, 1);
    }
    const char *all = workshop_all(w, p);
    assert_int_equal(workshop_times(all, "as found\n"), 1);
    assert_int_equal(workshop_times(all, "as left\n"), 1);
    assert_int_equal(workshop_times(all, "≥ 11.4"), 3);
}

static void test_foot_of_every_page(void **state) {
    struct workshop *w = *state;
    const char *text = repeat(w, "Look at the loom first.  \n", 120);
    const struct pages *p = workshop_sound(
        w,
        workshop_guide(
            w, "", arena_printf(w->compile.arena, "## Purpose\n\n%s", text)));
    assert_true(p->count >= 3);
    for (size_t i = 0; i < p->count; i++) {
        const struct page *page = &p->page[i];
        const char *number =
            arena_printf(w->compile.arena, "page %zu of %zu", i + 1, p->count);
        assert_int_equal(geometry_count(page, number), 1);
        assert_int_equal(geometry_count(page, p->code), 1);
        assert_true(geometry_count(page, "DRAFT") >= 1);
        assert_true(geometry_count(page, "LT-001") >= 1);
        assert_true(geometry_count(page, "Wendlow Fen: mark 1") >= 1);
    }
    assert_true(text_is(p->title, "LT-001 Fit a lamp"));
}

static char *dump(const struct pages *p) {
    char *text = NULL;
    size_t len = 0;
    FILE *out = open_memstream(&text, &len);
    display_write(p, true, out);
    fclose(out);
    return text;
}

static void test_papers_and_determinism(void **state) {
    static const char body[] = "## Procedure\n\n1. Drill {drill}.\n";
    struct workshop *w = *state;
    char path[100];
    snprintf(path, sizeof path, "%s/procedures/guide.md", w->folder);
    workshop_write(w, "guide.md", workshop_guide(w, "", body));
    struct pages *letter = workshop_layout(w, path, PAPER_BY_GUIDE);
    struct pages *again = workshop_layout(w, path, PAPER_LETTER);
    struct pages *a4 = workshop_layout(w, path, PAPER_A4);
    char *one = dump(letter), *two = dump(again), *three = dump(a4);
    assert_string_equal(one, two);
    assert_string_not_equal(one, three);
    free(one);
    free(two);
    free(three);
    assert_string_equal(letter->code, a4->code);
    assert_true(letter->page[0].width == 612 && letter->page[0].height == 792);
    assert_true(a4->page[0].width == 595 && a4->page[0].height == 842);
    workshop_write(
        w, "guide.md",
        workshop_guide(w, "units: SI\n", "## Procedure\n\n1. Go.\n"));
    struct pages *si = workshop_layout(w, path, PAPER_BY_GUIDE);
    assert_true(si->page[0].height == 842);
    assert_string_not_equal(si->code, letter->code);
}

static void write_png(const struct workshop *w, const char *name) {
    char path[100];
    unsigned char grey[40 * 20];
    png_image image = {.version = PNG_IMAGE_VERSION,
                       .width = 40,
                       .height = 20,
                       .format = PNG_FORMAT_GRAY};
    memset(grey, 128, sizeof grey);
    snprintf(path, sizeof path, "%s/procedures/%s", w->folder, name);
    assert_true(png_image_write_to_file(&image, path, 0, grey, 0, NULL));
}

static const struct op *image_on(const struct page *page) {
    for (size_t k = 0; k < page->op_count; k++)
        if (page->ops[k].kind == OP_IMAGE)
            return &page->ops[k];
    return NULL;
}

/* At 40 offsets: the figure is on its step's page, with caption, marks at their
 * place and key; an image of its own in a paragraph is as wide as its pixels
 * ask. */
static void test_figures(void **state) {
    static const char body[] =
        "## Purpose\n\n%s\n![A plain one](a.png)\n\n"
        "## Procedure\n\n1. Turn to the board.\n\n"
        "   ```figure board\n   image: a.png\n"
        "   title: The board\n   width: 4 in\n"
        "   mark | across | down | part\n   7 | 25 %% | 50 %% | the fuse\n"
        "   ```\n2. See {see board}.\n";
    struct workshop *w = *state;
    write_png(w, "a.png");
    for (int i = 0; i < 40; i++) {
        const char *filler = repeat(w, "Look at the loom first.  \n", i);
        const struct pages *p = workshop_sound(
            w, workshop_guide(w, "",
                              arena_printf(w->compile.arena, body, filler)));
        int at = geometry_find(p, "Turn to the board.");
        const struct page *page = &p->page[at];
        int plain = geometry_find(p, "A plain one");
        const struct op *small = image_on(&p->page[plain]);
        assert_true(fabs(small->width - 40 / 150.0 * 72) < 0.01);
        assert_true(fabs(small->height - small->width / 2) < 0.01);
        assert_int_equal(geometry_find(p, "Figure board"), at);
        assert_int_equal(geometry_find(p, "the fuse"), at);
        const struct op *big = NULL;
        for (size_t k = 0; k < page->op_count; k++)
            if (page->ops[k].kind == OP_IMAGE && page->ops[k].width > 200)
                big = &page->ops[k];
        assert_non_null(big);
        assert_true(fabs(big->width - 288) < 0.01);
        assert_true(text_is(big->text, "The board"));
        const struct op *mark = workshop_op(page, "7");
        assert_true(fabs(mark->x + 3 - (big->x + big->width / 4)) < 3);
        assert_true(fabs(mark->y - 3 - (big->y + big->height / 2)) < 3);
        assert_non_null(
            strstr(workshop_all(w, p),
                   arena_printf(w->compile.arena, "See figure board (page %d).",
                                at + 1)));
    }
    char path[100];
    snprintf(path, sizeof path, "%s/procedures/a.png", w->folder);
    unlink(path);
}

/* [words](#NAME) jumps to the step, the heading, the row; code in the words is
 * part of the link, and nothing of it is an address. */
static void test_link_to_a_name_jumps(void **state) {
    struct workshop *w = *state;
    const struct pages *p = workshop_sound(
        w,
        workshop_guide(w, "",
                       "## Purpose\n\nSee [the *very* `long`](#crimp), [that]"
                       "(#the-test) and [it](#R1).\n\n"
                       "## Procedure\n\n1. {step crimp} Crimp.\n\n"
                       "## Odd\n\n### The test\n\nTry it.\n\n"
                       "```limits\nid | characteristic | limit | condition\n"
                       "R1 | lost | <= 0.1 V | lamp on\n```\n"));
    const struct op *link[3] = {NULL};
    size_t count = 0;
    for (size_t i = 0; i < p->page[0].op_count; i++) {
        const struct op *op = &p->page[0].ops[i];
        if (op->kind != OP_LINK)
            continue;
        assert_true(op->page >= 0);
        assert_int_equal(op->uri.len, 0);
        assert_int_equal(p->tag[op->tag - 1].kind, TAG_LINK);
        if (count < 3)
            link[count++] = op;
    }
    assert_int_equal(count, 3);
    static const char *const words[] = {"Crimp.", "The test", "R1"};
    for (size_t i = 0; i < 3; i++) {
        const struct page *page = &p->page[link[i]->page];
        bool found = false;
        for (size_t k = 0; k < page->op_count; k++)
            found |= page->ops[k].kind == OP_TEXT &&
                     text_starts(page->ops[k].text, words[i]) &&
                     fabs(page->ops[k].y - link[i]->target_y) < 25;
        assert_true(found);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
#define TEST(name)                                                             \
    cmocka_unit_test_setup_teardown(name, workshop_open, workshop_close)
        TEST(test_panel_stays_with_its_step),
        TEST(test_a_stop_stands_clear),
        TEST(test_headings_are_not_stranded),
        TEST(test_references_name_the_right_page),
        TEST(test_page_numbers_of_two_figures),
        TEST(test_a_reference_is_held_together),
        TEST(test_order_of_the_page),
        TEST(test_foot_of_every_page),
        TEST(test_papers_and_determinism),
        TEST(test_figures),
        TEST(test_link_to_a_name_jumps),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
