/* test_content.c - whole guides: what is printed of them. Hazards in the
 * summary and in brief, the annex, the lists before the work, variants, parts.
 */
#include "workshop.h"

/* Line ends as blanks: words that a line break parts are found too. */
static const char *flat(const struct workshop *w, const char *text) {
    char *copy = arena_copy(w->compile.arena, text, strlen(text));
    for (char *c = copy; *c != '\0'; c++)
        if (*c == '\n')
            *c = ' ';
    return copy;
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

/* What the signal words mean stands in two columns in large letters too; the
 * second one begins further left than the middle of the page by what its
 * longest line needs. */
static void test_signal_words_in_two_columns(void **state) {
    static const char *const templates[] = {NULL, "bench"};
    struct workshop *w = *state;
    for (size_t i = 0; i < 2; i++) {
        w->template = templates[i];
        const struct pages *p =
            workshop_sound(w, workshop_guide(w, "", "## Purpose\n\nIt.\n"));
        const struct op *left = workshop_op(&p->page[0], "will kill"),
                        *right = workshop_op(&p->page[0], "could kill"),
                        *below = workshop_op(&p->page[0], "could injure"),
                        *last = workshop_op(&p->page[0], "damage only");
        assert_true(left->y == right->y && below->y == last->y);
        assert_true(left->x == below->x && right->x == last->x);
        assert_true(below->y > left->y);
    }
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

/* Page of the last text that is this word. */
static int page_of(const struct pages *p, const char *word) {
    int page = -1;
    for (size_t i = 0; i < p->count; i++)
        for (size_t k = 0; k < p->page[i].op_count; k++)
            if (p->page[i].ops[k].kind == OP_TEXT &&
                text_is(p->page[i].ops[k].text, word))
                page = (int)i;
    return page;
}

/* Where a list before the work is parted, the next page says what goes on; in
 * the words of the template, and nowhere else. */
static void test_a_parted_list_says_so(void **state) {
    struct workshop *w = *state;
    struct arena *a = w->compile.arena;
    size_t lists = 0, summaries = 0;
    for (int lines = 0; lines < 46; lines += 5) {
        struct buf filler = buf_in(a), hazards = buf_in(a), tools = buf_in(a);
        for (int i = 0; i < lines; i++)
            buf_puts(&filler, "Look at the loom first.  \n");
        for (int i = 0; i <= 8 * lines; i++)
            buf_printf(&tools, "%sa long tool with its number %d",
                       i == 0 ? "" : ", ", i);
        for (int i = 0; i < 12; i++)
            buf_printf(&hazards,
                       "%d. Look.\n\n```warning\nhazard: Pipe %d.\n"
                       "consequence: It burns.\navoidance: Wait.\n```\n\n",
                       i + 1, i);
        const struct pages *p = workshop_sound(
            w, workshop_guide(
                   w, "",
                   arena_printf(a,
                                "## Purpose\n\n%s\n```preliminary\n"
                                "equipment: %s\n```\n\n## Procedure\n\n%s"
                                "13. Go.\n",
                                buf_cstr(&filler), buf_cstr(&tools),
                                buf_cstr(&hazards))));
        const char *all = workshop_all(w, p);
        int first = page_of(p, "Conditions"), last = page_of(p, "Safety");
        const char *list = "Before you start, continued\n";
        assert_int_equal(workshop_times(all, list), last - first);
        lists += last > first;
        if (last > first) {
            const char *page = workshop_text(w, &p->page[last]);
            assert_int_equal(strncmp(page, list, strlen(list)), 0);
        }
        bool parted = page_of(p, "Who:") < page_of(p, "DANGER");
        list = "Safety summary, continued\n";
        assert_int_equal(workshop_times(all, list), parted);
        summaries += parted;
    }
    if (lists == 0 || summaries == 0)
        fail_msg("%zu lists, %zu summaries", lists, summaries);
}

/* `above` lines of purpose, six hazards, `below` lines and a table that is kept
 * whole; 0: without those. Whether the summary is on two pages. */
static bool is_summary_parted(struct workshop *w, int above, int below) {
    struct arena *a = w->compile.arena;
    struct buf body = buf_in(a);
    buf_puts(&body, "## Purpose\n\n");
    for (int i = 0; i < above; i++)
        buf_puts(&body, "Look at the loom first.  \n");
    buf_puts(&body, "\n## Procedure\n\n");
    for (int i = 0; i < 6; i++)
        buf_printf(&body,
                   "%d. Look.\n\n```warning\nhazard: Pipe %d.\n"
                   "consequence: It burns.\navoidance: Wait.\n```\n\n",
                   i + 1, i);
    buf_puts(&body, "7. Go.\n");
    if (below > 0) {
        buf_puts(&body, "\n## Electrical data\n\n");
        for (int i = 0; i < below; i++)
            buf_puts(&body, "Look at the loom first.  \n");
        buf_puts(&body, "\n```table\nwire | colour\n");
        for (int i = 0; i < 24; i++)
            buf_printf(&body, "W%d | red\n", i);
        buf_puts(&body, "```\n");
    }
    const struct pages *p =
        workshop_sound(w, workshop_guide(w, "", buf_cstr(&body)));
    return page_of(p, "Who:") < page_of(p, "DANGER");
}

/* Where it has room it is not parted to even out the white of later pages. */
static void test_a_summary_is_kept_whole(void **state) {
    struct workshop *w = *state;
    for (int above = 0; above < 16; above += 2) {
        bool parted = is_summary_parted(w, above, 0);
        for (int below = 1; below < 40 && !parted; below += 3)
            if (is_summary_parted(w, above, below))
                fail_msg("parted between %d lines and %d", above, below);
    }
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
    const struct op *head =
        workshop_op(page, "mark"); /* over "1": a column each */
    assert_non_null(head);
    assert_int_equal(workshop_times(all, "mark\n1\nmark\n2\nmark\n3\n"), 1);
}

int main(void) {
    const struct CMUnitTest tests[] = {
#define TEST(name)                                                             \
    cmocka_unit_test_setup_teardown(name, workshop_open, workshop_close)
        TEST(test_repeated_caution_is_brief),
        TEST(test_summary_lists_the_authors_hazards),
        TEST(test_signal_words_in_two_columns),
        TEST(test_annex_shows_the_worst_variant),
        TEST(test_seven_lists_and_standing_words),
        TEST(test_a_parted_list_says_so),
        TEST(test_a_summary_is_kept_whole),
        TEST(test_variants),
        TEST(test_owner_only),
        TEST(test_refusals_name_their_place),
        TEST(test_part_list_meets_the_catalogue),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
