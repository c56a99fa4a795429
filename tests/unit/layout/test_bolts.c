/* test_bolts.c - figures of a tightening order, for 3 to 16 fasteners. */
#include "calc/pattern.h"
#include "workshop.h"

static const char body[] = "```torque nuts\ncount: %d\nthread: M8 x 1.25\n"
                           "grade: 8.8\ncondition: clean, dry\n"
                           "figure: 15 lbf·ft \"sheet 3\"\npattern: %s\n```\n\n"
                           "## Procedure\n\n1. Tighten the nuts.\n";

struct place {
    double x, y;
};

static bool is_number(struct text t, int number) {
    char wanted[16];
    snprintf(wanted, sizeof wanted, "%d", number);
    return text_is(t, wanted);
}

/* Where the turns stand: bold numbers of the size of a table inside a ring. */
static int find_turns(const struct pages *p, struct place *turn) {
    int count = 0;
    for (size_t i = 0; i < p->count; i++)
        for (size_t k = 2; k < p->page[i].op_count; k++) {
            const struct op *op = &p->page[i].ops[k];
            if (op->kind != OP_TEXT || !is_number(op->text, count + 1) ||
                op[-1].kind != OP_PATH || op[-2].kind != OP_PATH)
                continue;
            const struct path_point *ring = &op[-1].path[0];
            turn[count++] =
                (struct place){ring->x - op->size * 0.9 + 0.6, ring->y};
        }
    return count;
}

static int turns_of(struct workshop *w, int count, const char *pattern,
                    struct place *turn) {
    const char *text = arena_printf(w->compile.arena, body, count, pattern);
    const struct pages *p = workshop_sound(w, workshop_guide(w, "", text));
    const char *where =
        strstr(pattern, "star") != NULL ? "in a circle" : "in a row";
    int found = find_turns(p, turn);
    assert_true(
        found == 0 ||
        geometry_figure(p, arena_printf(w->compile.arena,
                                        "The order of tightening, 1 to %d, %s",
                                        count, where)));
    return found;
}

static double apart(struct place a, struct place b) {
    return hypot(a.x - b.x, a.y - b.y);
}

static void assert_free(const struct place *turn, int count) {
    for (int i = 0; i < count; i++)
        for (int k = 0; k < i; k++)
            assert_true(apart(turn[i], turn[k]) > 20);
}

/* All on one circle; the second of each pair as far from the first as any place
 * that is still open. */
static void test_star_is_a_circle(void **state) {
    struct workshop *w = *state;
    for (int count = PATTERN_LEAST; count <= PATTERN_MOST; count++) {
        struct place turn[PATTERN_MOST], middle = {0, 0};
        assert_int_equal(turns_of(w, count, "star, two rounds", turn), count);
        assert_free(turn, count);
        for (int i = 0; i < count; i++) {
            middle.x += turn[i].x / count;
            middle.y += turn[i].y / count;
        }
        for (int i = 0; i < count; i++)
            assert_true(fabs(apart(turn[i], middle) - apart(turn[0], middle)) <
                        0.05);
        for (int i = 0; i + 1 < count; i += 2)
            for (int k = i + 1; k < count; k++)
                assert_true(apart(turn[i], turn[i + 1]) >
                            apart(turn[i], turn[k]) - 0.05);
        assert_true(turn[0].y < middle.y);
    }
}

/* In a row, the numbers growing from the middle to both sides. */
static void test_spiral_is_a_row(void **state) {
    struct workshop *w = *state;
    for (int count = PATTERN_LEAST; count <= PATTERN_MOST; count++) {
        struct place turn[PATTERN_MOST];
        double left, right;
        assert_int_equal(turns_of(w, count, "spiral", turn), count);
        assert_free(turn, count);
        left = right = turn[0].x;
        for (int i = 1; i < count; i++) {
            assert_true(fabs(turn[i].y - turn[0].y) < 0.05);
            assert_true(turn[i].x < left || turn[i].x > right);
            left = fmin(left, turn[i].x);
            right = fmax(right, turn[i].x);
        }
    }
}

static void test_no_figure_without_an_order(void **state) {
    struct workshop *w = *state;
    struct place turn[PATTERN_MOST];
    assert_int_equal(turns_of(w, 6, "as the sheet shows", turn), 0);
    assert_int_equal(turns_of(w, 17, "as the sheet shows", turn), 0);
}

#define IN_A_WORKSHOP(f)                                                       \
    cmocka_unit_test_setup_teardown(f, workshop_open, workshop_close)

int main(void) {
    const struct CMUnitTest tests[] = {
        IN_A_WORKSHOP(test_star_is_a_circle),
        IN_A_WORKSHOP(test_spiral_is_a_row),
        IN_A_WORKSHOP(test_no_figure_without_an_order),
    };
    return cmocka_run_group_tests_name("bolts", tests, NULL, NULL);
}
