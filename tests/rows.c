/* rows.c - every row of the hazard catalogue, rule of order and rule of style
 * stands in golden guides that show it both ways.
 *
 * tests/golden/hazards/ROW-CASE.md, CASE being `fires`, `quiet`, `override`,
 * and `missing` where a row hangs on a figure: golden.c holds what the guides
 * give, this holds that it is what the name says. tests/golden/published
 * retells published procedures; NAME.txt beside each sets the cautions that are
 * inserted against those of the document. */
#include "base/arena.h"
#include "base/text.h"
#include "support/command.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#define GOLDEN "tests/golden/"

struct names {
    const char *name[128];
    bool computed[128]; /* a row with `when`, `years` or `unless` */
    size_t count;
};

/* The blocks of a kind in the shipped catalogue. */
static void find_names(struct arena *a, const char *kind, struct names *out) {
    struct text rest = command_read(a, "templates/hazards.md"), line;
    struct text fence = text_of(arena_printf(a, "```%s ", kind));
    bool inside = false;
    assert_non_null(rest.start);
    while (text_next_part(&rest, '\n', &line)) {
        if (text_starts(line, fence.start)) {
            assert_true(out->count < 128);
            out->name[out->count++] =
                text_cstr(a, text_part(line, fence.len, line.len));
            inside = true;
        } else if (text_starts(line, "```")) {
            inside = false;
        } else if (inside && (text_starts(line, "when: ") ||
                              text_starts(line, "years: ") ||
                              text_starts(line, "unless: "))) {
            out->computed[out->count - 1] = true;
        }
    }
    assert_true(out->count > 0);
}

/* What a golden guide gave; NULL when it is not there. */
static const char *gave(struct arena *a, const char *topic, const char *name,
                        const char *end, const char *suffix) {
    struct text t = command_read(
        a, arena_printf(a, GOLDEN "%s/%s-%s.%s", topic, name, end, suffix));
    return t.start == NULL ? NULL : text_cstr(a, t);
}

static bool is_word(char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') ||
           (c >= '0' && c <= '9') || c == '-';
}

/* A row named as itself: H09 is not in "H09b". */
static bool names_row(const char *where, const char *row) {
    size_t len = strlen(row);
    for (const char *at = where; (at = strstr(at, row)) != NULL; at++)
        if ((at == where || !is_word(at[-1])) && !is_word(at[len]))
            return true;
    return false;
}

static bool expect_case(struct arena *a, const char *topic, const char *name,
                        const char *end, bool wanted) {
    const char *err = gave(a, topic, name, end, "err");
    const char *cautions = gave(a, topic, name, end, "cautions");
    if (err == NULL) {
        print_error("no golden guide %s/%s-%s\n", topic, name, end);
        return false;
    }
    /* Past the file's own name at the head of each message. */
    struct buf b = buf_in(a);
    struct text rest = text_of(err), line;
    while (text_next_part(&rest, '\n', &line)) {
        struct text own = text_of(arena_printf(a, "%s/", topic));
        size_t from = 0;
        while (text_starts(line, own.start) && from < line.len &&
               line.start[from] != ' ')
            from++;
        buf_text(&b, text_part(line, from, line.len));
        buf_puts(&b, "\n");
    }
    bool named = names_row(buf_cstr(&b), name) ||
                 (cautions != NULL && names_row(cautions, name));
    if (named != wanted)
        print_error("%s/%s-%s %s it\n", topic, name, end,
                    named ? "calls for" : "does not call for");
    return named == wanted;
}

static bool expect_set_aside(struct arena *a, const char *topic,
                             const char *name) {
    const char *cautions = gave(a, topic, name, "override", "cautions");
    const char *err = gave(a, topic, name, "override", "err");
    const char *words = arena_printf(a, "%s set aside: ", name);
    bool good = cautions != NULL && err != NULL &&
                strstr(cautions, words) != NULL && strstr(err, "exit 0\n");
    if (!good)
        print_error("%s/%s-override is not let through, or not printed\n",
                    topic, name);
    return good;
}

/* Nothing can be missing: an unknown source counts as a battery (H01), an
 * unknown chemistry as lead-acid (H02); no torque is worked out for a bolt
 * without a grade. */
static bool lacks_nothing(const char *row) {
    return strcmp(row, "H09") == 0 || strcmp(row, "H23") == 0 ||
           strcmp(row, "H41") == 0;
}

static void test_every_row(void **state) {
    (void)state;
    struct arena *a = arena_new();
    struct names rows = {.count = 0};
    size_t cases = 0, bad = 0;
    find_names(a, "hazard", &rows);
    for (size_t i = 0; i < rows.count; i++) {
        const char *row = rows.name[i];
        bad += !expect_case(a, "hazards", row, "fires", true);
        bad += !expect_case(a, "hazards", row, "quiet", false);
        bad += !expect_set_aside(a, "hazards", row);
        cases += 3;
        if (!rows.computed[i] || lacks_nothing(row))
            continue;
        bad += !expect_case(a, "hazards", row, "missing", true);
        cases++;
    }
    printf("proved: %zu rows of the hazard catalogue in %zu cases\n",
           rows.count, cases);
    arena_free(a);
    assert_int_equal(bad, 0);
}

static void test_every_rule(void **state) {
    (void)state;
    struct arena *a = arena_new();
    struct names orders = {.count = 0}, styles = {.count = 0};
    size_t bad = 0;
    find_names(a, "order", &orders);
    find_names(a, "style", &styles);
    for (size_t i = 0; i < orders.count; i++) {
        bad += !expect_case(a, "order", orders.name[i], "wrong", true);
        bad += !expect_case(a, "order", orders.name[i], "right", false);
        bad += !expect_set_aside(a, "order", orders.name[i]);
    }
    for (size_t i = 0; i < styles.count; i++) {
        bad += !expect_case(a, "style", styles.name[i], "asked", true);
        bad += !expect_case(a, "style", styles.name[i], "off", false);
    }
    printf("proved: %zu rules of order in %zu cases, %zu of style in %zu\n",
           orders.count, orders.count * 3, styles.count, styles.count * 2);
    arena_free(a);
    assert_int_equal(bad, 0);
}

/* Lines "both | H02 | what", "ours | H04 | why", "theirs | - | why": each row
 * that the guide is given stands in one of the first two, and no other. */
static void test_published(void **state) {
    (void)state;
    static const char *const guides[] = {
        "terminal-cleaning", "battery-corrosion", "battery-exchange"};
    struct arena *a = arena_new();
    struct names rows = {.count = 0};
    size_t bad = 0;
    find_names(a, "hazard", &rows);
    for (size_t g = 0; g < sizeof guides / sizeof guides[0]; g++) {
        const char *path = arena_printf(a, GOLDEN "published/%s", guides[g]);
        struct text cautions =
            command_read(a, arena_printf(a, "%s.cautions", path));
        struct text against = command_read(a, arena_printf(a, "%s.txt", path));
        assert_non_null(cautions.start);
        assert_non_null(against.start);
        for (size_t i = 0; i < rows.count; i++) {
            const char *line = arena_printf(a, "| %s |", rows.name[i]);
            bool given = names_row(text_cstr(a, cautions), rows.name[i]);
            bool told = strstr(text_cstr(a, against), line) != NULL;
            if (given != told)
                print_error("%s: %s is %s\n", guides[g], rows.name[i],
                            given ? "not compared" : "not inserted");
            bad += given != told;
        }
    }
    arena_free(a);
    assert_int_equal(bad, 0);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_every_row),
        cmocka_unit_test(test_every_rule),
        cmocka_unit_test(test_published),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
