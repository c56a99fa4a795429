/* test_layout.c - whole guides: the order of the page, marks, panels with their
 * step, references, foot and code. */
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

static const struct op *op_with(const struct page *page, const char *start) {
    for (size_t k = 0; k < page->op_count; k++)
        if (page->ops[k].kind == OP_TEXT &&
            text_starts(page->ops[k].text, start))
            return &page->ops[k];
    return NULL;
}

/* Line ends as blanks: words that a line break parts are found too. */
static const char *flat(const struct workshop *w, const char *text) {
    char *copy = arena_copy(w->compile.arena, text, strlen(text));
    for (char *c = copy; *c != '\0'; c++)
        if (*c == '\n')
            *c = ' ';
    return copy;
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
            if (op_with(&p->page[k], "Guarded:") != NULL)
                at = (int)k;
        assert_true(at >= 0);
        const struct page *page = &p->page[at];
        const struct op *step = op_with(page, "Guarded:");
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
        assert_non_null(op_with(page, "initials"));
    }
}

/* Below each heading of the outline its page holds more than the foot. */
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
        const struct op *op = op_with(&p->page[0], "One ");
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

static size_t count_words(const struct pages *p, const char *word,
                          double size) {
    size_t count = 0;
    for (size_t i = 0; i < p->count; i++)
        for (size_t k = 0; k < p->page[i].op_count; k++) {
            const struct op *op = &p->page[i].ops[k];
            count += op->kind == OP_TEXT && text_is(op->text, word) &&
                     fabs(op->size - size) < 0.01;
        }
    return count;
}

static const double full_word = 18, brief_word = 11;

/* In full once for each vehicle, then in the brief form; other words, or for
 * vehicles that it was not printed for: in full. */
static void test_repeated_caution_is_brief(void **state) {
    static const char panel[] =
        "```warning\nhazard: Hot pipe.\nconsequence: It burns deeply.\n"
        "avoidance: Let it cool.\n```\n\n";
    static const char other[] =
        "```warning\nhazard: Hot pipe.\nconsequence: It burns.\n"
        "avoidance: Let it cool.\n```\n\n";
    struct workshop *w = *state;
    struct arena *a = w->compile.arena;
    const struct pages *p = workshop_sound(
        w, workshop_guide(
               w, "",
               arena_printf(a,
                            "## Procedure\n\n1. Look.\n\n%s2. First.\n\n"
                            "%s3. Second.\n\n%s4. Third.\n",
                            panel, other, panel)));
    assert_int_equal(count_words(p, "WARNING", full_word), 2);
    assert_int_equal(count_words(p, "WARNING", brief_word), 1);
    const char *all = flat(w, workshop_all(w, p));
    assert_int_equal(workshop_times(all, "It burns deeply."), 1);
    assert_int_equal(workshop_times(all, "Let it cool."), 3);
    p = workshop_sound(
        w, workshop_guide(
               w, "",
               arena_printf(a,
                            "## Procedure\n\n1. Look.\n\n%s2. {for mark "
                            "3} First.\n\n%s3. Second.\n\n%s"
                            "4. {for mark 1} Third.\n",
                            panel, panel, panel)));
    assert_int_equal(count_words(p, "WARNING", full_word), 2);
    assert_int_equal(count_words(p, "WARNING", brief_word), 1);
}

/* What the author warns of stands in the summary too, in its first sentence. */
static void test_summary_lists_the_authors_hazards(void **state) {
    struct workshop *w = *state;
    const char *all = flat(
        w, workshop_all(
               w, workshop_sound(
                      w, workshop_guide(
                             w, "applies: mark 1\n",
                             "## Procedure\n\n1. Look.\n\n```danger\n"
                             "hazard: Exhaust gas. It has no smell.\n"
                             "consequence: It will kill you.\navoidance: Run "
                             "the engine outdoors.\n```\n\n2. Go.\n\n"
                             "```notice\nhazard: Thin paint.\nconsequence: "
                             "It peels.\navoidance: Wait.\n```\n\n"
                             "3. {for mark 2} Wash it.\n"))));
    assert_non_null(strstr(all, "DANGER Exhaust gas , before step 2 (page "));
    assert_null(strstr(all, "Thin paint")); /* its step is for others */
    assert_null(strstr(all, "No hazard of the catalogue"));
}

/* A row a check, in the variant that is nearest to its limit; the working in
 * that one; each source once. */
static void test_annex_shows_the_worst_variant(void **state) {
    static const char facts[] =
        "```supply battery\nchemistry: flooded\nresting: 12.6 V\n"
        "charging: 13.8 V\nresistance: 8 mohm\n```\n\n"
        "```load lamps\nkind: lamp\ncurrent: 10 A at 12.6 V\n"
        "starting: 40 A for 20 ms\nduty: continuous\n```\n";
    static const char body[] =
        "```wire feed\nload: lamps\n"
        "length: 2 m [mark 1] 3 m [mark 2] 2.5 m [mark 3]\n"
        "return: own wire\nsupply: battery\ndrop limit: 5 %\n"
        "ambient: 30 degC\nconductor: AWG stranded\n"
        "insulation: 105 degC\nbundle: 3\nengine space: no\n"
        "use: 10 AWG\n```\n\n"
        "```fuse F1\nprotects: feed\nplace: 5 in from battery +\n"
        "style: strip SF30\ninterrupt: 3 kA\nambient: 30 degC\n"
        "use: 30 A\n```\n\n## Procedure\n\n1. Go.\n";
    struct workshop *w = *state;
    workshop_write(
        w, "facts/fen.md",
        arena_printf(w->compile.arena, "%s\n%s", workshop_facts, facts));
    const struct pages *p = workshop_sound(w, workshop_guide(w, "", body));
    const char *all = workshop_all(w, p);
    assert_int_equal(workshop_times(all, "voltage drop: drop limit"), 1);
    assert_non_null(strstr(all, "feed, mark 2: \n"));
    assert_null(strstr(all, "feed, mark 1: "));
    assert_int_equal(workshop_times(flat(w, all), "least in"), 1);
    assert_int_equal(workshop_times(all, "\n[1] "), 1);
    assert_non_null(strstr(all, "Sources: "));
    /* A margin in words does not take the room of the checks. */
    assert_non_null(strstr(all, " times\nthe limit\n"));
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

static void test_seven_lists_and_standing_words(void **state) {
    static const char *const labels[] = {
        "Conditions\n", "References\n", "Personnel\n", "Equipment\n",
        "Supplies\n",   "Spares\n",     "Safety\n"};
    static const char *const standing[] = {
        "Local codes and the figures of the vehicle's maker come",
        "may need one. Find out", "hold only for the vehicle",
        "Only a person who is trained"};
    struct workshop *w = *state;
    const char *all = workshop_all(
        w, workshop_sound(
               w, workshop_guide(w, "after: HB-004\ntime: 2.5 h\n",
                                 "```preliminary\nconditions: key out, "
                                 "brake on\n```\n\n## Procedure\n\n"
                                 "1. {hold} Show it.\n"
                                 "2. {defer gas fitter} Test for leaks.\n")));
    for (size_t i = 0; i < sizeof labels / sizeof labels[0]; i++)
        assert_int_equal(workshop_times(all, labels[i]), 1);
    for (size_t i = 0; i < sizeof standing / sizeof standing[0]; i++)
        if (workshop_times(flat(w, all), standing[i]) != 1)
            fail_msg("'%s' in: %s", standing[i], all);
    /* Equipment, supplies, spares, safety. */
    assert_int_equal(workshop_times(all, "none\n"), 4);
    assert_non_null(strstr(all, "HB-004: done before this guide"));
    assert_non_null(strstr(all, "second person to sign at step 1"));
    assert_non_null(strstr(all, "gas fitter, for step 2"));
    assert_non_null(strstr(all, "2.5 h of work"));
    assert_non_null(strstr(all, "Have this done by a gas fitter. "));
    assert_non_null(strstr(all, "HOLD\n"));
}

static void test_variants(void **state) {
    static const char body[] =
        "## Purpose\n\n{for mark 2, mark 3} Long ones.\n\n"
        "## Procedure\n\n1. Drill {drill}.\n"
        "2. {for mark 3} Take off the shield.\n3. Go on.\n";
    struct workshop *w = *state;
    const char *all =
        workshop_all(w, workshop_sound(w, workshop_guide(w, "", body)));
    assert_non_null(strstr(all, "Wendlow Fen: mark 1, mark 2, mark 3\n"));
    assert_non_null(strstr(all, "mark 2, mark 3 only: \nLong ones."));
    assert_non_null(strstr(all, "mark 3 only: \nTake off the shield."));
    assert_null(strstr(all, "Not for this vehicle."));
    all = workshop_all(
        w, workshop_sound(w, workshop_guide(w, "applies: mark 1\n", body)));
    assert_non_null(strstr(all, "Wendlow Fen: mark 1\n"));
    assert_null(strstr(all, "Long ones"));
    assert_null(strstr(all, "shield"));
    assert_non_null(strstr(all, "2\nNot for this vehicle.\n"));
    assert_non_null(strstr(all, "7/16"));
    assert_null(strstr(all, "1/2 in"));
}

static void test_owner_only(void **state) {
    struct workshop *w = *state;
    const char *all = workshop_all(
        w,
        workshop_sound(
            w,
            workshop_guide(
                w, "",
                "## Procedure\n\n1. {shop only} Work.\n\n## For the owner\n\n"
                "{owner only} Never fit a larger fuse.\n")));
    assert_non_null(strstr(all, "Work."));
    assert_non_null(strstr(all, "Never fit a larger fuse."));
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

static void test_refusals_name_their_place(void **state) {
    struct workshop *w = *state;
    workshop_pages(w, workshop_guide(w, "",
                                     "## Procedure\n\n1. Use the "
                                     "\xF0\x93\x83\xA0 tool.\n\n"
                                     "See ![a lamp](lamp.png) there.\n"));
    const char *all = workshop_messages(w);
    assert_non_null(strstr(all, "guide.md:12:12: error: no face has this "
                                "character: '\xF0\x93\x83\xA0' (U+130E0)"));
    assert_non_null(strstr(all, "image inside a line of text"));
    assert_int_equal(diag_status(w->compile.diags), 2);
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
        const struct op *mark = op_with(page, "7");
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

static void test_part_list_meets_the_catalogue(void **state) {
    struct workshop *w = *state;
    workshop_write(
        w, "facts/fen.md",
        arena_printf(w->compile.arena,
                     "%s\n```parts\nitem | description | maker | number | "
                     "renew | interchange\n"
                     "ring | ring terminal, M8 stud | Ostrand | OS-1208R | yes "
                     "| Kelby K-88 direct\nrelay | sealed relay | Fennimore | "
                     "FR-12 | no\n```\n",
                     workshop_facts));
    const struct pages *p = workshop_sound(
        w, workshop_guide(w, "",
                          "```parts\nitem | quantity\nring | 4 [mark 1]\n"
                          "ring | 7 [mark 2, mark 3]\nrelay | 2\n```\n\n"
                          "## Procedure\n\n1. Go.\n"));
    const char *all = workshop_all(w, p);
    assert_non_null(strstr(all, "OS-1208R"));
    assert_non_null(strstr(flat(w, all), "Kelby K-88 direct"));
    assert_non_null(strstr(all, "always new: ring"));
    assert_null(strstr(all, "always new: ring, relay"));
    const struct page *page = &p->page[geometry_find(p, "Ostrand OS-1208R")];
    const struct op *head = op_with(page, "mark"); /* over "1": a column each */
    assert_non_null(head);
    assert_int_equal(workshop_times(all, "mark\n1\nmark\n2\nmark\n3\n"), 1);
}

int main(void) {
    const struct CMUnitTest tests[] = {
#define TEST(name)                                                             \
    cmocka_unit_test_setup_teardown(name, workshop_open, workshop_close)
        TEST(test_panel_stays_with_its_step),
        TEST(test_headings_are_not_stranded),
        TEST(test_references_name_the_right_page),
        TEST(test_page_numbers_of_two_figures),
        TEST(test_repeated_caution_is_brief),
        TEST(test_summary_lists_the_authors_hazards),
        TEST(test_annex_shows_the_worst_variant),
        TEST(test_order_of_the_page),
        TEST(test_seven_lists_and_standing_words),
        TEST(test_variants),
        TEST(test_owner_only),
        TEST(test_foot_of_every_page),
        TEST(test_papers_and_determinism),
        TEST(test_refusals_name_their_place),
        TEST(test_figures),
        TEST(test_link_to_a_name_jumps),
        TEST(test_part_list_meets_the_catalogue),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
