/* test_schematic.c - diagrams of circuits on the page: what stands in them, and
 * on random circuits that no word lies over a line, a symbol or another word.
 */
#include "diagram.h"
#include "unit/dice.h"
#include "unit/how_many.h"

static const struct op *word(const struct pages *p, const char *text) {
    for (size_t i = 0; i < p->count; i++)
        for (size_t k = 0; k < p->page[i].op_count; k++) {
            const struct op *op = &p->page[i].ops[k];
            if (op->kind == OP_TEXT && diagram_has(p, op) &&
                text_is(op->text, text))
                return op;
        }
    fail_msg("the diagram does not say '%s'", text);
    return NULL;
}

static void test_what_it_says(void **state) {
    struct workshop *w = *state;
    const struct pages *p = diagram_pages(
        w, "",
        "supply: battery charging\nstate: on\nstate: off, S1 open\n"
        "from battery +\n  fuse F1 10 A\n  wire W1 12 AWG, 2.5 m, "
        "red/white\nto studs\n  contact K1 30-87\n  load E1 lamp, 4 A at "
        "13.2 V\n  joint G1 ring M8\nto battery -\n"
        "from studs\n  switch S1\n  coil K1 86-85, 0.15 A at 13.2 V\n"
        "to battery -\n");
    static const char *const words[] = {"battery",
                                        "charging",
                                        "F1",
                                        ("10\xC2\xA0"
                                         "A"),
                                        "W1",
                                        "studs",
                                        "K1",
                                        "30",
                                        "87",
                                        "86",
                                        "85",
                                        "E1",
                                        "G1",
                                        "S1",
                                        "battery +",
                                        "battery \xE2\x88\x92",
                                        "fuse",
                                        "switch, closed",
                                        "relay coil"};
    for (size_t i = 0; i < sizeof words / sizeof words[0]; i++)
        word(p, words[i]);
    /* From the feed at the top to the return at the bottom. */
    assert_true(word(p, "battery +")->y < word(p, "F1")->y);
    assert_true(word(p, "F1")->y < word(p, "W1")->y);
    assert_true(word(p, "W1")->y < word(p, "studs")->y);
    assert_true(word(p, "studs")->y < word(p, "E1")->y);
    assert_true(word(p, "E1")->y < word(p, "G1")->y);
    assert_true(word(p, "G1")->y < word(p, "battery \xE2\x88\x92")->y);
    assert_true(word(p, "30")->y < word(p, "87")->y);
    assert_true(geometry_figure(
        p, "Diagram of the circuit loom: battery + through F1, W1 to studs; "
           "studs through K1, E1, G1 to battery -; studs through S1, K1 to "
           "battery -"));
    /* What a meter shows there: 13.8 V less what the battery loses. */
    const char *all = workshop_all(w, p);
    assert_non_null(strstr(all, "13.77\xC2\xA0V"));
    assert_non_null(strstr(all, "0.00\xC2\xA0V"));
    assert_non_null(strstr(all, ", as found"));
}

static void test_variants(void **state) {
    struct workshop *w = *state;
    const struct pages *p = diagram_pages(
        w, "applies: mark 1, mark 2\n",
        "supply: battery\nfrom battery +\n  wire W1 12 AWG, 2 m, red [mark 1]\n"
        "  wire W1 10 AWG, 3 m, red [mark 2]\n  connector X1 bullet [mark 2]\n"
        "  load E1 lamp, 4 A at 13.2 V\nto battery -\n");
    const char *all = workshop_all(w, p);
    assert_non_null(strstr(all, "(mark 1)"));
    assert_non_null(strstr(all, "(mark 2)"));
    word(p, "X1");
}

/* One too wide for the page stands on two sheets, the bars marked. */
static void test_two_sheets(void **state) {
    struct workshop *w = *state;
    struct buf b = buf_in(w->compile.arena);
    buf_puts(&b, "supply: battery\n");
    for (int i = 1; i <= 11; i++)
        buf_printf(&b,
                   "from battery +\n  fuse F%d 5 A\n  wire W%d 16 AWG, 2 m, "
                   "red\n  load E%d lamp, 2 A at 13.2 V\nto battery -\n",
                   i, i, i);
    const struct pages *p = diagram_pages(w, "", buf_cstr(&b));
    const char *all = workshop_all(w, p);
    assert_non_null(strstr(all, ", part 1 of 2"));
    assert_non_null(strstr(all, ", part 2 of 2"));
    for (int i = 1; i <= 11; i++)
        word(p, arena_printf(w->compile.arena, "E%d", i));
}

/* One too tall for the page goes on down the next sheet, nothing cut. */
static void test_tall(void **state) {
    struct workshop *w = *state;
    struct buf b = buf_in(w->compile.arena);
    buf_puts(&b, "supply: battery\nfrom battery +\n");
    for (int i = 1; i <= 45; i++)
        buf_printf(&b,
                   i % 3 == 0 ? "  wire W%d 12 AWG, 1 m, red\n"
                              : "  connector X%d bullet\n",
                   i);
    buf_puts(&b, "to end\n  load E1 lamp, 2 A at 13.2 V\nto battery -\n");
    const char *source = buf_cstr(&b);
    const struct pages *p = diagram_pages(w, "", source);
    const char *all = workshop_all(w, p);
    assert_non_null(strstr(all, ", part 1 of "));
    for (int i = 1; i <= 45; i++) {
        const char *name =
            arena_printf(w->compile.arena, "%c%d", i % 3 == 0 ? 'W' : 'X', i);
        word(p, name);
        assert_int_equal(
            workshop_times(all, arena_printf(w->compile.arena, "\n%s\n", name)),
            1);
    }
    for (size_t i = 0; i < p->count; i++)
        diagram_check_words(p, &p->page[i], source);
    /* Battery and chain: a letter of its own for each, on both sides. */
    for (char mark = 'A'; mark <= 'D'; mark++)
        assert_int_equal(
            workshop_times(all, arena_printf(w->compile.arena, "\n%c\n", mark)),
            2);
}

/* Of few columns, its parts stand beside each other: one sheet, no page of its
 * own for the second. */
static void test_tall_beside(void **state) {
    struct workshop *w = *state;
    struct buf b = buf_in(w->compile.arena);
    buf_puts(&b, "supply: battery\nfrom battery +\n");
    for (int i = 1; i <= 24; i++)
        buf_printf(&b, "  wire W%d 12 AWG, 1 m, red\n", i);
    buf_puts(&b, "  load E1 lamp, 2 A at 13.2 V\nto battery -\n");
    const char *source = buf_cstr(&b);
    const struct pages *p = diagram_pages(w, "", source);
    const char *all = workshop_all(w, p);
    assert_int_equal(workshop_times(all, "Circuit loom"), 1);
    assert_null(strstr(all, ", part 1 of "));
    assert_non_null(strstr(all, "in an arrow goes on in another part"));
    for (int i = 1; i <= 24; i++)
        assert_int_equal(
            workshop_times(all, arena_printf(w->compile.arena, "\nW%d\n", i)),
            1);
    for (size_t i = 0; i < p->count; i++)
        diagram_check_words(p, &p->page[i], source);
    /* Each cut has its letter on both sides, at the foot of one part and at
     * the head of the next. */
    const struct page *page = &p->page[geometry_find(p, "Circuit loom")];
    for (char mark = 'A'; mark <= 'B'; mark++) {
        const struct op *side[2];
        size_t count = 0;
        for (size_t k = 0; k < page->op_count; k++) {
            const struct op *op = &page->ops[k];
            if (op->kind != OP_TEXT || op->text.len != 1 ||
                op->text.start[0] != mark)
                continue;
            assert_true(count < 2);
            side[count++] = op;
        }
        assert_int_equal(count, 2);
        assert_true(side[1]->x > side[0]->x + 100 &&
                    side[1]->y < side[0]->y - 300);
    }
}

/* Random circuits. */
static struct dice dice;

static void add_element(struct buf *b, size_t n) {
    static const char *const colours[] = {"red", "black", "green/yellow",
                                          "blue/white", "violet"};
    switch (roll_one(&dice, 7)) {
    case 0:
        buf_printf(b, "  fuse F%zu %zu A\n", n, 5 * (1 + roll_one(&dice, 6)));
        break;
    case 1:
        buf_printf(b, "  switch S%zu dash switch\n", n);
        break;
    case 2:
        buf_printf(b, "  connector X%zu bullet\n", n);
        break;
    case 3:
        buf_printf(b, "  splice P%zu\n", n);
        break;
    case 4:
        buf_printf(b, "  joint G%zu ring M8\n", n);
        break;
    default:
        buf_printf(b, "  wire W%zu %zu AWG, %zu.%zu m, %s\n", n,
                   10 + 2 * roll_one(&dice, 4), 1 + roll_one(&dice, 5),
                   roll_one(&dice, 10), colours[roll_one(&dice, 5)]);
    }
}

static const char *random_circuit(struct arena *a) {
    static const char *const loads[] = {"lamp", "motor", "heater", "resistive",
                                        "constant current"};
    struct buf b = buf_in(a);
    size_t n = 0, points = 0, chains = 1 + roll_one(&dice, 7);
    buf_puts(&b, roll_one(&dice, 3) == 0
                     ? "supply: battery, alternator charging\n"
                     : "supply: battery charging\n");
    bool two = text_starts(buf_as_text(&b), "supply: battery,");
    for (size_t i = 0; i < chains; i++) {
        if (points > 0 && roll_one(&dice, 2) == 0)
            buf_printf(&b, "from p%zu\n", roll_one(&dice, points));
        else
            buf_printf(&b, "from %s +\n",
                       two && roll_one(&dice, 2) == 0 ? "alternator"
                                                      : "battery");
        for (size_t k = roll_one(&dice, 3); k > 0; k--)
            add_element(&b, n++);
        if (roll_one(&dice, 2) == 0) {
            add_element(&b, n++);
            buf_printf(&b, "to p%zu\n", points++);
        }
        add_element(&b, n++);
        buf_printf(&b, "  load E%zu %s, %zu A at 13 V\n", n,
                   loads[roll_one(&dice, 5)], 1 + roll_one(&dice, 4));
        n++;
        for (size_t k = roll_one(&dice, 2); k > 0; k--)
            add_element(&b, n++);
        buf_puts(&b, "to battery -\n");
    }
    if (two)
        buf_puts(&b, "from alternator +\n  wire W98 8 AWG, 2 m, red\n"
                     "to battery +\n"
                     "from battery -\n  wire W99 8 AWG, 2 m, black\n"
                     "to alternator -\n");
    return buf_cstr(&b);
}

/* Whatever its height, right below its heading and with a key of two rows, each
 * sheet stands on a page with its caption. */
static void test_heights(void **state) {
    static const struct {
        const char *word, *behind;
    } kinds[] = {
        {"fuse F", " 10 A"},
        {"switch S", ""},
        {"connector X", " bullet"},
        {"breaker B", " 10 A"},
        {"joint G", ""},
        {"splice P", ""},
        {"wire W", " 12 AWG, 1 m"},
    };
    (void)state;
    for (size_t n = 8; n < 24; n++) {
        void *own = NULL;
        assert_int_equal(workshop_open(&own), 0);
        struct workshop *w = own;
        struct buf b = buf_in(w->compile.arena);
        buf_puts(&b, "supply: battery\nfrom battery +\n");
        for (size_t i = 1; i <= n; i++) {
            buf_printf(&b, "  %s%zu%s\n", kinds[i % 7].word, i,
                       kinds[i % 7].behind);
        }
        buf_puts(&b, "  load E1 motor, 2 A at 13.2 V\nto end\n"
                     "  load E2 lamp, 2 A at 13.2 V\nto battery -\n");
        const char *source = buf_cstr(&b);
        const struct pages *p = diagram_pages(w, "", source);
        for (size_t i = 0; i < p->count; i++)
            diagram_check_words(p, &p->page[i], source);
        const char *all = workshop_all(w, p);
        assert_int_equal(workshop_times(all, "Circuit loom"),
                         strstr(all, ", part 1 of 2") != NULL ? 2 : 1);
        workshop_close(&own);
    }
}

static void test_nothing_over_anything(void **state) {
    (void)state;
    size_t diagrams = how_many("BAYLEAF_DIAGRAMS", 500, 40);
    for (size_t n = 0; n < diagrams; n++) {
        void *own = NULL;
        assert_int_equal(workshop_open(&own), 0);
        struct workshop *w = own;
        dice.state = 11 * n + 5;
        const char *source = random_circuit(w->compile.arena);
        const struct pages *p = diagram_pages(w, "", source);
        for (size_t i = 0; i < p->count; i++)
            diagram_check_words(p, &p->page[i], source);
        workshop_close(&own);
    }
}

#define workshop_test(f)                                                       \
    cmocka_unit_test_setup_teardown(f, workshop_open, workshop_close)

int main(void) {
    const struct CMUnitTest tests[] = {
        workshop_test(test_what_it_says),
        workshop_test(test_variants),
        workshop_test(test_two_sheets),
        workshop_test(test_tall),
        workshop_test(test_tall_beside),
        cmocka_unit_test(test_heights),
        cmocka_unit_test(test_nothing_over_anything),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
