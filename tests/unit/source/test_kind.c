/* test_kind.c - the table of kinds: what every row of it must be like. */
#include "desk.h"

#include "calc/seat.h"
#include "calc/strip.h"
#include "calc/torque.h"

static bool is_lower_words(const char *name) {
    for (const char *s = name; *s != '\0'; s++)
        if (!((*s >= 'a' && *s <= 'z') || *s == ' ' || *s == '-' || *s == '.'))
            return false;
    return name[0] != '\0' && name[0] != ' ';
}

static void check_meaning(const char *meaning) {
    assert_non_null(meaning);
    size_t len = strlen(meaning);
    assert_true(len > 3 && meaning[len - 1] != '.');
    assert_null(strchr(meaning, '\n'));
}

static void rows(void **state) {
    (void)state;
    for (int id = 0; id < KIND_COUNT; id++) {
        const struct kind *k = kind_by_id((enum kind_id)id);
        assert_non_null(k);
        assert_int_equal(k->id, id);
        assert_ptr_equal(kind_find(text_of(k->name)), k);
        assert_true(is_lower_words(k->name));
        check_meaning(k->meaning);
        assert_true(k->flags &
                    (KIND_IN_GUIDE | KIND_IN_FACTS | KIND_IN_SHARED |
                     KIND_IN_CATALOGUE | KIND_IN_TEMPLATE | KIND_IN_JOB));
        bool settings = (k->flags & KIND_HOLDS_SETTINGS) != 0;
        bool rows_too = (k->flags & KIND_HOLDS_ROWS) != 0;
        assert_int_equal(k->settings != NULL,
                         settings && !(k->flags & KIND_FREE_SETTINGS));
        assert_int_equal(k->columns != NULL,
                         rows_too && !(k->flags & KIND_FREE_COLUMNS));
    }
    assert_null(kind_find(text_of("wires")));
}

static void settings(void **state) {
    (void)state;
    for (int id = 0; id < KIND_COUNT; id++) {
        const struct kind *k = kind_by_id((enum kind_id)id);
        size_t count = 0;
        for (const struct setting *s = k->settings;
             s != NULL && s->name != NULL; s++, count++) {
            assert_true(is_lower_words(s->name));
            check_meaning(s->meaning);
            assert_ptr_equal(kind_setting(k, text_of(s->name)), s);
            assert_true(s->type != SETTING_CHOICE || s->choices != NULL);
        }
        assert_true(count <= 64); /* a bit each in block.c */
        for (const struct field *f = k->fields; f != NULL && f->name != NULL;
             f++) {
            check_meaning(f->meaning);
            assert_ptr_equal(kind_field(k, text_of(f->name)), f);
        }
    }
}

/* The last column only may repeat: row.c gives it what is too much. */
static void columns(void **state) {
    (void)state;
    for (int id = 0; id < KIND_COUNT; id++) {
        const struct kind *k = kind_by_id((enum kind_id)id);
        for (const struct column *c = k->columns; c != NULL && c->name != NULL;
             c++) {
            assert_true(is_lower_words(c->name));
            check_meaning(c->meaning);
            assert_ptr_equal(kind_column(k, text_of(c->name)), c);
            assert_true(!c->repeats || c[1].name == NULL);
        }
    }
}

static void spellings(void **state) {
    (void)state;
    const struct kind *wire = kind_by_id(KIND_WIRE);
    assert_non_null(kind_setting(wire, text_of("drop \t limit")));
    assert_null(kind_setting(wire, text_of("droplimit")));
    assert_null(kind_setting(wire, text_of("drop limits")));
    assert_null(kind_setting(wire, text_of("")));
    assert_string_equal(kind_nearest(text_of("touqre"), KIND_IN_GUIDE),
                        "torque");
    assert_string_equal(kind_nearest(text_of("TORQUE"), KIND_IN_GUIDE),
                        "torque");
    assert_null(kind_nearest(text_of("fact"), KIND_IN_GUIDE));
    assert_string_equal(kind_nearest(text_of("fact"), KIND_IN_FACTS), "facts");
    assert_string_equal(kind_nearest_setting(wire, text_of("insulaton")),
                        "insulation");
    assert_null(kind_nearest_setting(wire, text_of("colour")));
    assert_string_equal(
        kind_nearest_column(kind_by_id(KIND_LIMITS), text_of("ID")), "id");
    char longer[100];
    memset(longer, 'w', sizeof longer);
    assert_null(
        kind_nearest((struct text){longer, sizeof longer}, KIND_IN_GUIDE));
}

static void says(const char *setting, const char *word) {
    const struct setting *s =
        kind_setting(kind_by_id(KIND_TORQUE), text_of(setting));
    if (strstr(s->meaning, word) == NULL)
        fail_msg("%s: '%s' is not told", setting, word);
}

/* What a joint may say is told where its settings are: conditions, materials,
 * seats; of the grades the first and the last. */
static void words_of_a_joint(void **state) {
    (void)state;
    for (size_t i = 0; nut_factor_at(i) != NULL; i++)
        says("condition", nut_factor_at(i)->condition);
    for (size_t i = 0; engagement_at(i) != NULL; i++)
        if (engagement_at(i)->shear > 0)
            says("into", engagement_at(i)->into);
    for (size_t i = 0; seat_at(i) != NULL; i++)
        says("under head", seat_at(i)->material);
    static const char *const grades[] = {"4.6",  "12.9",  "SAE 1", "SAE 8.2",
                                         "A574", "A1-50", "A5-80", "A307"};
    for (size_t i = 0; i < sizeof grades / sizeof grades[0]; i++) {
        const struct grade *g;
        says("grade", grades[i]);
        assert_int_equal(grade_find(grades[i], strlen(grades[i]), 0.010, &g),
                         GRADE_FOUND);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(rows), cmocka_unit_test(settings),
        cmocka_unit_test(columns), cmocka_unit_test(spellings),
        cmocka_unit_test(words_of_a_joint)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
