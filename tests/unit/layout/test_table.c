/* test_table.c - tables: widths, wrapping, heads, rows. */
#include "bench.h"
#include "geometry.h"
#include "layout/column.h"
#include "layout/reach.h"
#include "layout/table.h"

static const struct span nowhere;
static const struct type type = {10.5, 14};

static void put(struct bench *b, struct rich *cell, const char *text) {
    rich_add(b->composer.arena, cell, bench_tone(FACE_REGULAR, type.size),
             text_of(text), nowhere);
}

static struct table *parts_table(struct bench *b, size_t rows) {
    struct arena *a = b->composer.arena;
    struct table *t = table_new(a, 3, text_of("Parts"), nowhere);
    put(b, &t->head[0], "item");
    put(b, &t->head[1], "quantity");
    put(b, &t->head[2], "description");
    t->align[1] = ALIGN_RIGHT;
    for (size_t i = 0; i < rows; i++) {
        struct table_row *row = table_add(a, t, nowhere);
        put(b, &row->cell[0], arena_printf(a, "row%02zu", i));
        put(b, &row->cell[1], i % 2 == 0 ? "2" : "100");
        put(b, &row->cell[2],
            arena_printf(a,
                         "begin%02zu ring terminal for a stud of eight "
                         "millimetres, heat-shrink sleeve, tinned copper, for "
                         "wires of ten to twelve gauge, one bag of fifty "
                         "pieces end%02zu",
                         i, i));
    }
    return t;
}

static bool holds(const struct page *page, const char *word) {
    for (size_t k = 0; k < page->op_count; k++) {
        struct text t = page->ops[k].text;
        size_t len = strlen(word);
        for (size_t i = 0; page->ops[k].kind == OP_TEXT && i + len <= t.len;
             i++)
            if (memcmp(t.start + i, word, len) == 0)
                return true;
    }
    return false;
}

/* At 60 offsets: every row whole, the head on each page with rows, "continued"
 * on all but the first. */
static void test_rows_and_heads(void **state) {
    for (int offset = 0; offset < 60; offset++) {
        struct bench *b = *state;
        struct arena *a = b->composer.arena;
        b->flow = (struct flow){.c = &b->composer};
        bench_slab(b, 15 + 10.0 * offset, "spacer");
        table_set(&b->flow, parts_table(b, 30), 0, 504, type);
        const struct pages *p = bench_pages(b);
        char why[500];
        if (geometry_check(p, why, sizeof why) != NULL)
            fail_msg("offset %d: %s", offset, why);
        bool began = false;
        for (size_t i = 0; i < p->count; i++) {
            const struct page *page = &p->page[i];
            bool rows = geometry_count(page, "row") > 0;
            assert_int_equal(geometry_count(page, "description"), rows);
            assert_int_equal(geometry_count(page, "Parts, continued"),
                             rows && began);
            began |= rows;
            for (int r = 0; r < 30; r++)
                assert_int_equal(holds(page, arena_printf(a, "begin%02d", r)),
                                 holds(page, arena_printf(a, "end%02d", r)));
        }
        assert_true(p->count >= 2);
        assert_int_equal(diag_count(b->composer.diags, LEVEL_WARNING), 0);
    }
}

/* A page that begins inside a group of rows says whose they are. */
static void test_group_on_its_pages(void **state) {
    struct bench *b = *state;
    struct table *t = parts_table(b, 30);
    for (size_t i = 0; i < t->count; i++)
        t->row[i].group = text_of(i == 0 || i == 29 ? "" : "front");
    table_set(&b->flow, t, 0, 504, type);
    const struct pages *p = bench_pages(b);
    assert_true(p->count >= 2);
    for (size_t i = 0; i < p->count; i++)
        assert_int_equal(geometry_count(&p->page[i], "Parts: front, continued"),
                         i > 0);
}

/* Rows of uneven height, at 60 offsets, with a section behind: no row alone on
 * a page where another could stand beside it. */
static void test_no_row_stands_alone(void **state) {
    static const size_t lines[] = {1, 9, 2, 14, 1, 6, 11, 3};
    for (size_t rows = 2; rows < 5; rows++)
        for (int offset = 0; offset < 60; offset++) {
            struct bench *b = *state;
            struct arena *a = b->composer.arena;
            b->flow = (struct flow){.c = &b->composer};
            bench_slab(b, 100 + 9.0 * offset, "spacer");
            struct table *t = table_new(a, 2, text_of("Parts"), nowhere);
            put(b, &t->head[0], "item");
            put(b, &t->head[1], "description");
            for (size_t i = 0; i < rows; i++) {
                struct table_row *row = table_add(a, t, nowhere);
                put(b, &row->cell[0], arena_printf(a, "row%02zu", i));
                size_t count = lines[(i * 5 + (size_t)offset) % 8];
                for (size_t k = 0; k < count; k++) {
                    put(b, &row->cell[1], "ring terminal");
                    rich_line_end(a, &row->cell[1]);
                }
            }
            table_set(&b->flow, t, 0, 504, type);
            bench_slab(b, 90, "sign-off");
            const struct pages *p = bench_pages(b);
            for (size_t i = 0; i < p->count; i++)
                if (geometry_count(&p->page[i], "row") == 1)
                    fail_msg("%zu rows, offset %d, page %zu", rows, offset, i);
        }
}

static const struct op *op_of(const struct page *page, const char *text) {
    for (size_t k = 0; k < page->op_count; k++)
        if (page->ops[k].kind == OP_TEXT && text_is(page->ops[k].text, text))
            return &page->ops[k];
    fail_msg("no '%s'", text);
    return NULL;
}

/* One of half a page is parted only where more would be lost than a third of a
 * page; where it would begin lower, it stands whole on the next. A long one
 * fills the page and goes on. */
static void test_short_table_is_kept_whole(void **state) {
    for (size_t rows = 10; rows <= 40; rows += 30)
        for (double above = 0; above < 700; above += 20) {
            struct bench *b = *state;
            b->flow = (struct flow){.c = &b->composer};
            double room = bench_room(b);
            for (double y = 0; y < above; y += 20)
                bench_slab(b, 20, "above");
            table_set(&b->flow, parts_table(b, rows), 0, 504, type);
            double height = flow_height(&b->flow, 0) - above;
            for (double y = 0; y < 200; y += 20)
                bench_slab(b, 20, "below");
            const struct pages *p = bench_pages(b);
            bool parted =
                !holds(&p->page[geometry_find(p, "row00")],
                       arena_printf(b->composer.arena, "row%02zu", rows - 1));
            if (rows == 40)
                assert_true(height > room && parted);
            else
                assert_true(height > room * 0.4 && height < room * 0.6);
            if (rows == 10 && above > room * 0.67)
                assert_false(parted);
        }
}

static void test_right_aligned_cells_end_together(void **state) {
    struct bench *b = *state;
    table_set(&b->flow, parts_table(b, 2), 0, 504, type);
    const struct pages *p = bench_pages(b);
    const struct op *two = op_of(&p->page[0], "2");
    const struct op *hundred = op_of(&p->page[0], "100");
    double end = two->x + reach_text(two);
    assert_true(fabs(end - hundred->x - reach_text(hundred)) < 0.05);
    assert_true(two->x > hundred->x + 5);
}

/* A column that needs little gets little; the long one gets the rest. */
static void test_widths_follow_the_content(void **state) {
    struct bench *b = *state;
    table_set(&b->flow, parts_table(b, 8), 0, 504, type);
    const struct pages *p = bench_pages(b);
    const struct op *item = op_of(&p->page[0], "item");
    const struct op *text = op_of(&p->page[0], "description");
    assert_true(text->x - item->x < 170);
    assert_int_equal(geometry_count(&p->page[0], "row"), 8);
}

static void test_joined_rows_stay_together(void **state) {
    for (int offset = 0; offset < 60; offset++) {
        struct bench *b = *state;
        b->flow = (struct flow){.c = &b->composer};
        bench_slab(b, 100 + 9.0 * offset, "spacer");
        struct table *t = parts_table(b, 9);
        for (size_t i = 0; i < 9; i++)
            t->row[i].again = i % 3 != 0;
        table_set(&b->flow, t, 0, 504, type);
        const struct pages *p = bench_pages(b);
        assert_int_equal(geometry_find(p, "row00"), geometry_find(p, "row02"));
        assert_int_equal(geometry_find(p, "row03"), geometry_find(p, "row05"));
        assert_int_equal(geometry_find(p, "row06"), geometry_find(p, "row08"));
    }
}

static struct table *wide_table(struct bench *b, size_t columns) {
    struct table *t =
        table_new(b->composer.arena, columns, text_of("Wide"), nowhere);
    struct table_row *row = table_add(b->composer.arena, t, nowhere);
    for (size_t k = 0; k < columns; k++)
        put(b, &row->cell[k], "W30-109951-X");
    return t;
}

/* Six such numbers fit at 10.5 pt, seven only at 9, eight not at all. */
static void test_shrinks_then_refuses(void **state) {
    struct bench *b = *state;
    double width = shape_width(b->composer.shaper, FACE_REGULAR, 10.5,
                               text_of("W30-109951-X"));
    for (size_t columns = 2; columns < 12; columns++) {
        b->flow = (struct flow){.c = &b->composer};
        double at_full = width * (double)columns + 12 * (double)(columns - 1);
        double at_least =
            width * 9 / 10.5 * (double)columns + 12 * (double)(columns - 1);
        size_t before = diag_count(b->composer.diags, LEVEL_WARNING);
        table_set(&b->flow, wide_table(b, columns), 0, 504, type);
        size_t messages = diag_count(b->composer.diags, LEVEL_WARNING) - before;
        assert_int_equal(messages, at_least > 504.01);
        if (messages > 0)
            continue;
        const struct pages *p = bench_pages(b);
        double size = op_of(&p->page[0], "W30-109951-X")->size;
        assert_true(fabs(size - (at_full <= 504.01 ? 10.5 : 9)) < 1e-6);
    }
    assert_non_null(strstr(bench_messages(b),
                           "pt at 9 pt letters, there are 504 pt; its "
                           "widest word is 'W30-109951-X'"));
}

static void test_cells_may_be_empty(void **state) {
    struct bench *b = *state;
    struct table *t = table_new(b->composer.arena, 2, text_of(""), nowhere);
    table_add(b->composer.arena, t, nowhere);
    table_set(&b->flow, t, 0, 504, type);
    assert_int_equal(bench_pages(b)->count, 1);
    t = table_new(b->composer.arena, 2, text_of(""), nowhere);
    size_t count = b->flow.count;
    table_set(&b->flow, t, 0, 504, type);
    assert_int_equal(b->flow.count, count); /* no rows: nothing */
}

static void test_empty_columns_are_dropped(void **state) {
    struct bench *b = *state;
    struct table *t = parts_table(b, 2);
    t->row[0].cell[1] = t->row[1].cell[1] = (struct rich){0};
    t->drop_empty = true;
    table_set(&b->flow, t, 0, 504, type);
    const struct pages *p = bench_pages(b);
    assert_int_equal(geometry_count(&p->page[0], "quantity"), 0);
    assert_int_equal(geometry_count(&p->page[0], "description"), 1);
    assert_int_equal(geometry_count(&p->page[0], "row"), 2);
}

/* Widths fill the room and no column is narrower than its longest piece. */
static void test_fitted_columns(void **state) {
    static const char *const texts[] = {"1", "W30-109951",
                                        ("long wheelbase, battery behind the "
                                         "heater box and below the floor"),
                                        "1976 to 1979", "Kelby K-88 direct"};
    struct bench *b = *state;
    unsigned seed = 7;
    for (int round = 0; round < 200; round++) {
        size_t columns = 2 + (size_t)round % 5, rows = 1 + (size_t)round % 7;
        struct words *cell[6 * 7];
        double width[6], room = 300 + round, sum = 0;
        for (size_t i = 0; i < rows * columns; i++) {
            seed = seed * 1664525U + 1013904223U;
            struct rich *r = arena_alloc(b->composer.arena, 1, sizeof *r);
            put(b, r, texts[(seed >> 16) % 5]);
            cell[i] = words_of(&b->composer, r);
        }
        struct grid g = {cell, rows, columns};
        if (!column_fit(b->composer.arena, &g, room, width))
            continue;
        for (size_t k = 0; k < columns; k++) {
            sum += width[k];
            for (size_t r = 0; r < rows; r++)
                assert_true(width[k] >= cell[r * columns + k]->widest - 0.01);
        }
        assert_true(fabs(sum - room) < 0.01);
    }
}

static double x_of(const struct pages *p, const char *start) {
    for (size_t k = 0; k < p->page[0].op_count; k++)
        if (p->page[0].ops[k].kind == OP_TEXT &&
            text_starts(p->page[0].ops[k].text, start))
            return p->page[0].ops[k].x;
    fail_msg("no %s", start);
    return 0;
}

static double wide(const struct bench *b, const char *text) {
    return shape_width(b->composer.shaper, FACE_REGULAR, type.size,
                       text_of(text));
}

/* The ends of the whole digits stand under each other, a sign before them and a
 * dash for nothing notwithstanding; a column with words in it stays as it is.
 */
enum { SIDE = 4, STEPS = 80 }; /* rows, columns; widths that are tried */

struct trial {
    struct words *cell[SIDE * SIDE];
    size_t lines[SIDE][STEPS][SIDE]; /* column, width, row */
};

static size_t lines_at(const struct bench *b, struct words *w, double width) {
    return paragraph_break(&b->composer, w, width, type, 1)->count;
}

/* Cells of one to six words; what they take at each width. */
static void fill(struct bench *b, struct trial *t, double step,
                 unsigned *seed) {
    static const char *const words[] = {"to ", "relay ", "terminal ",
                                        "battery ", "W30-10 "};
    for (size_t i = 0; i < (size_t)SIDE * SIDE; i++) {
        struct buf text = buf_in(b->composer.arena);
        *seed = *seed * 1664525U + 1013904223U;
        for (unsigned k = 0; k <= (*seed >> 12) % 6; k++)
            buf_puts(&text, words[((*seed >> 16) + k * k) % 5]);
        struct rich *r = arena_alloc(b->composer.arena, 1, sizeof *r);
        put(b, r, buf_cstr(&text));
        t->cell[i] = words_of(&b->composer, r);
    }
    for (size_t k = 0; k < SIDE; k++)
        for (size_t w = 0; w < STEPS; w++)
            for (size_t r = 0; r < SIDE; r++) {
                struct words *cell = t->cell[r * SIDE + k];
                double width = step * (double)w;
                t->lines[k][w][r] =
                    width < cell->widest ? 99 : lines_at(b, cell, width);
            }
}

/* The least height with widths of whole steps. */
static size_t least_height(const struct trial *t, size_t room) {
    size_t least = SIZE_MAX;
    for (size_t i = 0; i < room; i++)
        for (size_t j = 0; i + j < room; j++)
            for (size_t k = 0; i + j + k < room; k++) {
                size_t w[SIDE] = {i, j, k, room - i - j - k}, height = 0;
                for (size_t r = 0; r < SIDE; r++) {
                    size_t most = 0;
                    for (size_t c = 0; c < SIDE; c++)
                        most = t->lines[c][w[c]][r] > most
                                   ? t->lines[c][w[c]][r]
                                   : most;
                    height += most;
                }
                least = height < least ? height : least;
            }
    return least;
}

/* Against all widths there are: higher in one of eight at most, by a line. */
static void test_fitted_tables_are_low(void **state) {
    struct bench *b = *state;
    struct trial *t = arena_alloc(b->composer.arena, 1, sizeof *t);
    const double step = 5;
    unsigned seed = 3;
    size_t higher = 0, tried = 0;
    for (size_t i = 0; i < 60; i++) {
        fill(b, t, step, &seed);
        double width[SIDE], room = step * (STEPS - 1);
        struct grid g = {t->cell, SIDE, SIDE};
        if (!column_fit(b->composer.arena, &g, room, width))
            continue;
        size_t height = 0, least = least_height(t, STEPS - 1);
        for (size_t r = 0; r < SIDE; r++) {
            size_t most = 0;
            for (size_t k = 0; k < SIDE; k++) {
                size_t n = lines_at(b, t->cell[r * SIDE + k], width[k] + 0.02);
                most = n > most ? n : most;
            }
            height += most;
        }
        tried++;
        higher += height > least;
        assert_true(height <= least + 1);
    }
    assert_true(tried > 50 && higher <= tried / 8);
}

static void test_points_stand_under_each_other(void **state) {
    static const char *const cells[][2] = {{"9.55 V", "9.5 V"},
                                           {"≤ 110.25 V", "8 AWG"},
                                           {"–", "ring"},
                                           {"1982 A", "10 AWG"}};
    struct bench *b = *state;
    struct table *t = table_new(b->composer.arena, 2, text_of("T"), nowhere);
    for (size_t r = 0; r < 4; r++) {
        struct table_row *row = table_add(b->composer.arena, t, nowhere);
        put(b, &row->cell[0], cells[r][0]);
        put(b, &row->cell[1], cells[r][1]);
    }
    table_set(&b->flow, t, 0, 504, type);
    const struct pages *p = bench_pages(b);
    double point = x_of(p, "9.55") + wide(b, "9");
    assert_true(fabs(x_of(p, "1982") + wide(b, "1982") - point) < 0.05);
    assert_true(fabs(x_of(p, "≤ 110") + wide(b, "≤ 110") - point) < 0.05);
    assert_true(x_of(p, "–") == b->composer.style->left);
    assert_true(x_of(p, "9.5 V") == x_of(p, "8 AWG"));
    assert_true(x_of(p, "ring") == x_of(p, "10 AWG"));
}

/* Limits of both kinds begin under each other. */
static void test_bands_have_no_point(void **state) {
    static const char *const cells[] = {"≤ 0.45 V", "16.5 A to 19.5 A",
                                        "≤ 60 °C"};
    struct bench *b = *state;
    struct table *t = table_new(b->composer.arena, 1, text_of("T"), nowhere);
    for (size_t r = 0; r < 3; r++)
        put(b, &table_add(b->composer.arena, t, nowhere)->cell[0], cells[r]);
    table_set(&b->flow, t, 0, 504, type);
    const struct pages *p = bench_pages(b);
    for (size_t r = 0; r < 3; r++)
        assert_true(x_of(p, cells[r]) == b->composer.style->left);
}

int main(void) {
    const struct CMUnitTest tests[] = {
#define TEST(name)                                                             \
    cmocka_unit_test_setup_teardown(name, bench_open, bench_close)
        TEST(test_rows_and_heads),
        TEST(test_group_on_its_pages),
        TEST(test_no_row_stands_alone),
        TEST(test_short_table_is_kept_whole),
        TEST(test_right_aligned_cells_end_together),
        TEST(test_points_stand_under_each_other),
        TEST(test_bands_have_no_point),
        TEST(test_widths_follow_the_content),
        TEST(test_joined_rows_stay_together),
        TEST(test_shrinks_then_refuses),
        TEST(test_cells_may_be_empty),
        TEST(test_empty_columns_are_dropped),
        TEST(test_fitted_columns),
        TEST(test_fitted_tables_are_low),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
