/* test_paragraph.c - words and line breaks. */
#include "bench.h"
#include "layout/address.h"
#include "layout/reach.h"

static const char story[] =
    "Bolt both relays to the inner wing, studs down, clear of the exhaust, and "
    "run the red wire from the fuse holder to the first relay, then on to the "
    "high-beam leads of all four lamps, behind the grille and above the rail.";

static void test_keeps_all_words_in_order(void **state) {
    struct bench *b = *state;
    for (double width = 90; width < 500; width += 7) {
        struct lines *l = bench_break(b, story, width);
        struct buf all = buf_in(b->composer.arena);
        for (size_t i = 0; i < l->count; i++) {
            assert_true(l->line[i].width <= width + 0.011);
            buf_puts(&all, i > 0 ? " " : "");
            buf_puts(&all, bench_line(b, l, i));
        }
        assert_string_equal(buf_cstr(&all), story);
    }
    assert_int_equal(diag_count(b->composer.diags, LEVEL_WARNING), 0);
}

/* The chosen lines are never worse than lines filled one after the other. */
static void test_fits_better_than_first_fit(void **state) {
    struct bench *b = *state;
    struct rich r = bench_rich(b, story);
    const struct words *w = words_of(&b->composer, &r);
    bool better = false;
    for (double width = 120; width < 460; width += 3) {
        double greedy = 0, used = w->word[0].width, chosen = 0;
        for (size_t i = 1; i < w->count; i++) {
            double next = used + w->word[i].gap_width + w->word[i].width;
            if (next <= width) {
                used = next;
                continue;
            }
            greedy += (width - used) * (width - used);
            used = w->word[i].width;
        }
        struct lines *l = bench_break(b, story, width);
        for (size_t i = 0; i + 1 < l->count; i++)
            chosen += (width - l->line[i].width) * (width - l->line[i].width);
        /* A last line of one short word costs a little elsewhere. */
        assert_true(chosen <= greedy + width * width * 0.07);
        better |= chosen < greedy - 1;
    }
    assert_true(better);
}

/* Pieces that a line end must not part, at every width that holds them. */
static void test_never_parts(void **state) {
    static const char *const whole[] = {
        "10 AWG",       "30 A",         "5/16 in",   "1 1/2 in",  "13.8 V",
        "12.6 V ± 5 %", "30 A +/- 2 A", "≥ 11.4 V",  "<= 0.45 V", "M8 × 1.25",
        "105 °C",       "OS-SF30-30",   "15 lbf·ft", "2.5 mm²",   "(30 A).",
        "no. 7",        "step 14"};
    struct bench *b = *state;
    for (size_t i = 0; i < sizeof whole / sizeof whole[0]; i++) {
        const char *text = arena_printf(
            b->composer.arena,
            "wire up the long red lead of %s and so on with it", whole[i]);
        for (double width = 100; width < 330; width += 1) {
            struct lines *l = bench_break(b, text, width);
            bool found = false;
            for (size_t k = 0; k < l->count; k++)
                found |= strstr(bench_line(b, l, k), whole[i]) != NULL;
            if (!found)
                fail_msg("'%s' is parted at %g", whole[i], width);
        }
    }
}

/* A value is parted behind ; or before ( and nowhere else. */
static void test_parts_values_between_variants(void **state) {
    struct bench *b = *state;
    struct rich r = {0};
    rich_add(b->composer.arena, &r, bench_tone(FACE_BOLD, 12),
             text_of("10 AWG; mark 3: 8 AWG (8.4 mm² stranded)"),
             (struct span){NULL, 0, 0})
        ->whole = true;
    struct lines *l = paragraph_break(&b->composer, words_of(&b->composer, &r),
                                      100, (struct type){12, 16}, 1);
    assert_int_equal(l->count, 3);
    assert_string_equal(bench_line(b, l, 0), "10 AWG;");
    assert_string_equal(bench_line(b, l, 1), "mark 3: 8 AWG");
    assert_string_equal(bench_line(b, l, 2), "(8.4 mm² stranded)");
}

static struct lines *break_value(struct bench *b, const char *text,
                                 double width) {
    struct rich r = {0};
    rich_add(b->composer.arena, &r, bench_tone(FACE_REGULAR, 12), text_of(text),
             (struct span){NULL, 0, 0})
        ->whole = true;
    return paragraph_break(&b->composer, words_of(&b->composer, &r), width,
                           (struct type){12, 16}, 1);
}

/* Two figures stand under each other, also where more of the second would fit
 * the first line. */
static void test_parts_values_before_the_next_figure(void **state) {
    struct bench *b = *state;
    for (double width = 140; width < 200; width += 1) {
        struct lines *l =
            break_value(b, "7.8 m (25.6 ft); mark 1: 6.8 m (22.4 ft)", width);
        assert_int_equal(l->count, 2);
        assert_string_equal(bench_line(b, l, 0), "7.8 m (25.6 ft);");
    }
    struct lines *l = break_value(b, "13.01 V (12.51 V to 13.36 V)", 130);
    assert_string_equal(bench_line(b, l, 0), "13.01 V");
}

/* An item stays whole where it fits a line, and fills more where it does not.
 */
static void test_items_are_held(void **state) {
    struct bench *b = *state;
    struct tone tone = bench_tone(FACE_REGULAR, 12);
    static const char *const item[] = {"trolley jack",
                                       "torque wrench of this year",
                                       "thread file",
                                       "wire brush",
                                       "torque wrench to 200 lbf",
                                       "steel rule",
                                       "feeler gauge 1/2 in",
                                       "two axle stands"};
    const size_t count = sizeof item / sizeof item[0];
    size_t whole = 0;
    for (double width = 280; width < 420; width += 1) {
        struct rich r = {0}, free = {0};
        for (size_t i = 0; i < count; i++) {
            const struct span at = {NULL, 0, 0};
            const char *gap = i > 0 ? " " : "";
            rich_add(b->composer.arena, &r, tone, text_of(gap), at);
            rich_add(b->composer.arena, &r, tone, text_of(item[i]), at)->held =
                true;
            rich_add(b->composer.arena, &free, tone, text_of(gap), at);
            rich_add(b->composer.arena, &free, tone, text_of(item[i]), at);
        }
        struct type type = {12, 16};
        struct lines *l = paragraph_break(
            &b->composer, words_of(&b->composer, &r), width, type, 1);
        struct lines *other = paragraph_break(
            &b->composer, words_of(&b->composer, &free), width, type, 1);
        assert_true(l->count <= other->count);
        struct buf all = buf_in(b->composer.arena);
        for (size_t k = 0; k < l->count; k++)
            buf_printf(&all, "%s\n", bench_line(b, l, k));
        for (size_t i = 0; i < count; i++)
            whole += strstr(buf_cstr(&all), item[i]) != NULL;
    }
    assert_true(whole > 140 * count * 9 / 10);
    struct rich r = {0};
    rich_add(b->composer.arena, &r, tone, text_of(story),
             (struct span){NULL, 0, 0})
        ->held = true;
    struct lines *l = paragraph_break(&b->composer, words_of(&b->composer, &r),
                                      300, (struct type){12, 16}, 1);
    assert_int_equal(l->count, bench_break(b, story, 300)->count);
    r = (struct rich){0};
    rich_add(b->composer.arena, &r, tone,
             text_of("1.6 m (1.5 m to 1.7 m); mark 3: 2.3 m (2.2 m to 2.4 m)"),
             (struct span){NULL, 0, 0})
        ->held = true;
    l = paragraph_break(&b->composer, words_of(&b->composer, &r), 200,
                        (struct type){12, 16}, 1);
    assert_string_equal(bench_line(b, l, 0), "1.6 m (1.5 m to 1.7 m);");
    for (double width = 60; width < 250; width += 1) {
        r = (struct rich){0};
        rich_add(b->composer.arena, &r, tone,
                 text_of("always new: ring M5, butt 10, butt 8, ground kit"),
                 (struct span){NULL, 0, 0})
            ->held = true;
        l = paragraph_break(&b->composer, words_of(&b->composer, &r), width,
                            (struct type){12, 16}, 1);
        for (size_t k = 0; k < l->count; k++)
            assert_int_not_equal(bench_line(b, l, k)[0], '8');
    }
}

/* A solid one is not parted at any width that has room for it. */
static void test_solid_items(void **state) {
    struct bench *b = *state;
    struct tone tone = bench_tone(FACE_REGULAR, 12);
    static const char item[] = "ratchet crimp tool, 8 AWG; 2 of them";
    for (double width = 240; width < 420; width += 1) {
        struct rich r = {0};
        for (int i = 0; i < 6; i++) {
            const struct span at = {NULL, 0, 0};
            rich_add(b->composer.arena, &r, tone, text_of(i > 0 ? " or " : ""),
                     at);
            rich_add(b->composer.arena, &r, tone, text_of(item), at)->solid =
                true;
        }
        struct lines *l =
            paragraph_break(&b->composer, words_of(&b->composer, &r), width,
                            (struct type){12, 16}, 1);
        size_t whole = 0;
        for (size_t k = 0; k < l->count; k++)
            for (const char *at = bench_line(b, l, k);
                 (at = strstr(at, item)) != NULL; at++)
                whole++;
        assert_int_equal(whole, 6);
    }
}

/* A dash, or a sign between two terms, ends a line. */
static void test_no_line_begins_with_a_dash(void **state) {
    static const char *const signs[] = {"–", "—", "−", "-",
                                        "+", "/", "·", "−;"};
    struct bench *b = *state;
    for (size_t i = 0; i < sizeof signs / sizeof signs[0]; i++) {
        const char *text =
            arena_printf(b->composer.arena,
                         "measured from the stud %s to the next one and on to "
                         "battery %s then to ground",
                         signs[i], signs[i]);
        for (double width = 100; width < 400; width += 1) {
            struct lines *l = bench_break(b, text, width);
            for (size_t k = 0; k < l->count; k++)
                if (strncmp(bench_line(b, l, k), signs[i], strlen(signs[i])) ==
                    0)
                    fail_msg("'%s' begins a line at %g", signs[i], width);
        }
    }
}

static void test_no_break_space(void **state) {
    struct bench *b = *state;
    for (double width = 80; width < 300; width += 1) {
        struct lines *l = bench_break(b,
                                      "see the step\xC2\xA0"
                                      "14 on another page",
                                      width);
        bool found = false;
        for (size_t k = 0; k < l->count; k++)
            found |= strstr(bench_line(b, l, k), "step 14") != NULL;
        assert_true(found);
    }
}

static void test_white_space_counts_once(void **state) {
    struct bench *b = *state;
    struct lines *l = bench_break(b, "  one\n   two \t three  ", 500);
    assert_int_equal(l->count, 1);
    assert_string_equal(bench_line(b, l, 0), "one two three");
}

static void test_forced_line_end(void **state) {
    struct bench *b = *state;
    struct rich r = bench_rich(b, "Ostrand");
    rich_line_end(b->composer.arena, &r);
    rich_add(b->composer.arena, &r, bench_tone(FACE_REGULAR, 12),
             text_of("OS-1208R"), (struct span){NULL, 0, 0});
    struct lines *l = paragraph_break(&b->composer, words_of(&b->composer, &r),
                                      500, (struct type){12, 16}, 1);
    assert_int_equal(l->count, 2);
    assert_string_equal(bench_line(b, l, 1), "OS-1208R");
}

/* A word in two faces is one word; the stop behind a value stays with it. */
static void test_mixed_faces_make_one_word(void **state) {
    struct bench *b = *state;
    struct rich r = bench_rich(b, "Fit ");
    rich_add(b->composer.arena, &r, bench_tone(FACE_BOLD, 12), text_of("30 A"),
             (struct span){NULL, 0, 0})
        ->whole = true;
    rich_add(b->composer.arena, &r, bench_tone(FACE_REGULAR, 12),
             text_of(". Then wait."), (struct span){NULL, 0, 0});
    const struct words *w = words_of(&b->composer, &r);
    assert_int_equal(w->count, 5); /* Fit, 30, A., Then, wait. */
    assert_int_equal(w->word[2].count, 2);
    assert_int_equal(w->word[2].gap, GAP_WHOLE);
    struct lines *l =
        paragraph_break(&b->composer, w, 500, (struct type){12, 16}, 1);
    assert_string_equal(bench_line(b, l, 0), "Fit |30 A|. Then wait.");
}

/* Ops of a line touch: the next begins where the advances of the last end. */
static void test_ops_touch(void **state) {
    struct bench *b = *state;
    struct rich r = bench_rich(b, "Tighten to ");
    rich_add(b->composer.arena, &r, bench_tone(FACE_BOLD, 12),
             text_of("15 lbf·ft"), (struct span){NULL, 0, 0});
    rich_add(b->composer.arena, &r, bench_tone(FACE_OBLIQUE, 12),
             text_of(", dry"), (struct span){NULL, 0, 0});
    struct lines *l = paragraph_break(&b->composer, words_of(&b->composer, &r),
                                      500, (struct type){12, 16}, 1);
    const struct line *line = &l->line[0];
    assert_int_equal(line->op_count, 3);
    for (size_t i = 1; i < line->op_count; i++)
        assert_true(fabs(line->ops[i - 1].x + reach_text(&line->ops[i - 1]) -
                         line->ops[i].x) < 0.01);
}

/* A blank is as wide as the face it is written in. */
static void test_blank_belongs_to_its_face(void **state) {
    struct bench *b = *state;
    struct rich r = {0};
    rich_add(b->composer.arena, &r, bench_tone(FACE_MONO, 12), text_of("K1"),
             (struct span){NULL, 0, 0});
    rich_add(b->composer.arena, &r, bench_tone(FACE_REGULAR, 12),
             text_of(" opens"), (struct span){NULL, 0, 0});
    const struct words *w = words_of(&b->composer, &r);
    assert_true(fabs(w->word[1].gap_width - shape_width(b->composer.shaper,
                                                        FACE_REGULAR, 12,
                                                        text_of(" "))) < 1e-6);
    struct lines *l =
        paragraph_break(&b->composer, w, 500, (struct type){12, 16}, 1);
    assert_string_equal(bench_line(b, l, 0), "K1| opens");
}

static void test_too_wide_is_reported(void **state) {
    struct bench *b = *state;
    bench_break(b, "see Donaudampfschifffahrtsgesellschaft now", 100);
    assert_non_null(strstr(bench_messages(b), "wider than the page"));
    assert_non_null(strstr(bench_messages(b), "there are 100 pt"));
}

static void test_missing_glyph_is_named_with_its_place(void **state) {
    struct bench *b = *state;
    const char *source = "# Guide\n\nUse the \xF0\x93\x83\xA0 tool.\n";
    struct source *src =
        place_source(b->composer.arena, "ox.md", text_of(source));
    struct rich r = {0};
    rich_add(b->composer.arena, &r, bench_tone(FACE_REGULAR, 12),
             text_part(src->text, 9, src->text.len),
             (struct span){src, 9, src->text.len});
    words_of(&b->composer, &r);
    assert_non_null(strstr(bench_messages(b), "ox.md:3:9:"));
    assert_non_null(strstr(bench_messages(b), "(U+130E0)"));
}

static void test_links_cover_their_words(void **state) {
    struct bench *b = *state;
    struct anchor target = {2, 100};
    struct rich r = bench_rich(b, "if out, see ");
    rich_add(b->composer.arena, &r, bench_tone(FACE_REGULAR, 12),
             text_of("step 14 (page 3)"), (struct span){NULL, 0, 0})
        ->to = &target;
    rich_add(b->composer.arena, &r, bench_tone(FACE_REGULAR, 12),
             text_of(" again"), (struct span){NULL, 0, 0});
    struct lines *l = paragraph_break(&b->composer, words_of(&b->composer, &r),
                                      500, (struct type){12, 16}, 1);
    assert_int_equal(l->line[0].link_count, 1);
    const struct link *link = &l->line[0].links[0];
    double before = shape_width(b->composer.shaper, FACE_REGULAR, 12,
                                text_of("if out, see "));
    double words = shape_width(b->composer.shaper, FACE_REGULAR, 12,
                               text_of("step 14 (page 3)"));
    assert_true(fabs(link->x - before) < 0.1);
    assert_true(fabs(link->width - words) < 0.1);
    assert_ptr_equal(link->to, &target);
}

/* The words of a link, printed with what paper needs. */
static struct rich link_of(struct bench *b, const char *words,
                           const char *uri) {
    struct rich r = bench_rich(b, "See ");
    rich_add(b->composer.arena, &r, bench_tone(FACE_REGULAR, 12),
             text_of(words), (struct span){NULL, 0, 0})
        ->uri = text_of(uri);
    address_print(b->composer.arena, &r, 1, text_of(uri),
                  bench_tone(FACE_REGULAR, 12));
    rich_add(b->composer.arena, &r, bench_tone(FACE_REGULAR, 12),
             text_of(" first."), (struct span){NULL, 0, 0});
    return r;
}

static void test_address_stands_behind_the_words(void **state) {
    static const struct {
        const char *words, *uri, *line;
    } row[] = {
        {"the sheet", "https://example.org/a/b",
         "See the sheet (example.org/a/b) first."},
        {"the sheet", "http://example.org/",
         "See the sheet (http://example.org)"
         " first."},
        {"the office", "mailto:a@example.org",
         "See the office (a@example.org) first."},
        {"https://example.org", "https://example.org",
         "See https://example.org first."},
        {"example.org", "https://example.org/", "See example.org first."},
        {"the crimp", "#crimp", "See the crimp first."},
    };
    struct bench *b = *state;
    for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
        struct rich r = link_of(b, row[i].words, row[i].uri);
        struct lines *l =
            paragraph_break(&b->composer, words_of(&b->composer, &r), 500,
                            (struct type){12, 16}, 1);
        assert_int_equal(l->count, 1);
        struct buf line = buf_in(b->composer.arena);
        for (size_t k = 0; k < l->line[0].op_count; k++)
            buf_text(&line, l->line[0].ops[k].text);
        assert_string_equal(buf_cstr(&line), row[i].line);
    }
}

/* Wherever it is parted, it is whole when the lines are joined again, and no
 * column is too narrow for it. */
static void test_address_is_parted(void **state) {
    static const char uri[] =
        "https://example.org/sheets/wiring/of/the/lamp.pdf?sheet=3&size=A4"
        "#WiringWithoutASingleSignWhereALineMightWellEnd";
    struct bench *b = *state;
    for (double width = 190; width < 480; width += 5) {
        struct rich r = link_of(b, "the sheet", uri);
        struct lines *l =
            paragraph_break(&b->composer, words_of(&b->composer, &r), width,
                            (struct type){12, 16}, 1);
        struct buf all = buf_in(b->composer.arena);
        for (size_t i = 0; i < l->count; i++)
            for (size_t k = 0; k < l->line[i].op_count; k++)
                buf_text(&all, l->line[i].ops[k].text);
        assert_true(l->count > 1);
        assert_non_null(strstr(buf_cstr(&all), uri + strlen("https://")));
    }
    assert_int_equal(diag_count(b->composer.diags, LEVEL_WARNING), 0);
}

/* "http://" is no piece of its own. */
static void test_address_keeps_its_scheme(void **state) {
    struct bench *b = *state;
    for (double width = 150; width < 400; width += 1) {
        struct rich r = link_of(b, "the sheet", "http://example.org/lamp/old");
        struct lines *l =
            paragraph_break(&b->composer, words_of(&b->composer, &r), width,
                            (struct type){12, 16}, 1);
        for (size_t k = 0; k < l->count; k++) {
            const char *line = bench_line(b, l, k);
            size_t len = strlen(line);
            assert_true(len < 3 || strcmp(line + len - 3, "://") != 0);
        }
    }
}

static void test_empty_text_has_no_lines(void **state) {
    struct bench *b = *state;
    static const char *const empty[] = {
        "", " ", " \n\t ", "\xC2\xA0", " \xC2\xA0\xC2\xA0 ", "\xE2\x80\x8B"};
    for (size_t i = 0; i < sizeof empty / sizeof empty[0]; i++) {
        struct rich r = bench_rich(b, empty[i]);
        assert_int_equal(bench_break(b, empty[i], 100)->count, 0);
        assert_true(rich_empty(&r));
    }
    struct rich r = bench_rich(b, "\xC2\xB1");
    assert_false(rich_empty(&r));
}

int main(void) {
    const struct CMUnitTest tests[] = {
#define TEST(name)                                                             \
    cmocka_unit_test_setup_teardown(name, bench_open, bench_close)
        TEST(test_keeps_all_words_in_order),
        TEST(test_fits_better_than_first_fit),
        TEST(test_never_parts),
        TEST(test_parts_values_between_variants),
        TEST(test_parts_values_before_the_next_figure),
        TEST(test_items_are_held),
        TEST(test_solid_items),
        TEST(test_no_line_begins_with_a_dash),
        TEST(test_no_break_space),
        TEST(test_white_space_counts_once),
        TEST(test_forced_line_end),
        TEST(test_mixed_faces_make_one_word),
        TEST(test_ops_touch),
        TEST(test_blank_belongs_to_its_face),
        TEST(test_too_wide_is_reported),
        TEST(test_missing_glyph_is_named_with_its_place),
        TEST(test_links_cover_their_words),
        TEST(test_address_stands_behind_the_words),
        TEST(test_address_is_parted),
        TEST(test_address_keeps_its_scheme),
        TEST(test_empty_text_has_no_lines),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
