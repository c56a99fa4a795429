/* test_mark.c - what stands between braces: words, expressions, where it may
 * stand. */
#include "desk.h"

/* The one mark of a guide that holds no other. */
static const struct mark *only_mark(struct desk *d, const char *body) {
    struct guide *g = desk_good(d, body);
    assert_int_equal(g->mark_count, 1);
    return g->marks[0];
}

static const struct mark *value(struct desk *d, const char *inside) {
    return only_mark(d, arena_printf(d->c.arena, "Of {%s} it.\n", inside));
}

static void expressions(void **state) {
    struct desk *d = *state;
    static const struct {
        const char *inside, *text, *unit, *supply;
        bool range;
    } rows[] = {
        {"feed.drop", "feed.drop", "(absent)", "(absent)", false},
        {" feed.drop  ", "feed.drop", "(absent)", "(absent)", false},
        {"feed.drop in mV", "feed.drop", "mV", "(absent)", false},
        {"feed.drop range", "feed.drop", "(absent)", "(absent)", true},
        {"feed.drop in mV range", "feed.drop", "mV", "(absent)", true},
        {"feed.drop range in mV", "feed.drop", "mV", "(absent)", true},
        {"factory.E1.voltage at 13.5 V", "factory.E1.voltage", "(absent)",
         "13.5 V", false},
        {"factory.E1.voltage at 13.5 V in mV", "factory.E1.voltage", "mV",
         "13.5 V", false},
        {"factory.E1.voltage in mV at 13.5 V", "factory.E1.voltage", "mV",
         "13.5 V", false},
        {"5/16 in", "5/16 in", "(absent)", "(absent)", false},
        {"5/16 in in mm", "5/16 in", "mm", "(absent)", false},
        {"gap + 5 in", "gap + 5 in", "(absent)", "(absent)", false},
        {"5 in + gap", "5 in + gap", "(absent)", "(absent)", false},
        {"gap in in", "gap", "in", "(absent)", false},
        {"hot in deg F", "hot", "deg F", "(absent)", false},
        {"hot in degC", "hot", "degC", "(absent)", false},
        {"feed.drop * 2", "feed.drop * 2", "(absent)", "(absent)", false},
        {"30 A ± 2 A", "30 A ± 2 A", "(absent)", "(absent)", false},
        {"28 A to 32 A", "28 A to 32 A", "(absent)", "(absent)", false},
        {"low to high", "low to high", "(absent)", "(absent)", false},
        {"range", "range", "(absent)", "(absent)", false},
        {"hold.time", "hold.time", "(absent)", "(absent)", false},
        {"shop", "shop", "(absent)", "(absent)", false},
        {"SAE 10", "SAE 10", "(absent)", "(absent)", false},
        {"10 AWG", "10 AWG", "(absent)", "(absent)", false},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        const struct mark *m = value(d, rows[i].inside);
        assert_int_equal(m->kind, MARK_VALUE);
        assert_text(m->text, rows[i].text);
        assert_text(m->unit, rows[i].unit);
        assert_text(m->supply, rows[i].supply);
        assert_int_equal(m->range, rows[i].range);
        assert_place(m->at, 9, 4);
    }
}

static void words(void **state) {
    struct desk *d = *state;
    const struct mark *m = only_mark(d, "{for mark 1, mark 3} Lower it.\n");
    assert_int_equal(m->kind, MARK_FOR);
    assert_int_equal(m->list.count, 2);
    assert_text(m->list.tag[1], "mark 3");
    m = only_mark(d, "1. {touches nothing: only the bench} Crimp.\n");
    assert_int_equal(m->kind, MARK_TOUCHES);
    assert_text(m->list.tag[0], "nothing");
    assert_text(m->reason, "only the bench");
    m = only_mark(d, "1. {touches live line voltage} Measure.\n");
    assert_text(m->list.tag[0], "live line voltage");
    m = only_mark(d, "1. {defer gas fitter} Close it.\n");
    assert_int_equal(m->kind, MARK_DEFER);
    assert_text(m->text, "gas fitter");
    m = only_mark(d, "{owner  only} Never fit a larger one.\n");
    assert_int_equal(m->kind, MARK_OWNER_ONLY);
    m = only_mark(d, "1. {shop only} Measure.\n");
    assert_int_equal(m->kind, MARK_SHOP_ONLY);
    m = only_mark(d, "1. Read {reading R1}\n");
    assert_int_equal(m->kind, MARK_READING);
    assert_text(m->text, "R1");
    m = only_mark(d, "1. As {see HB-004}\n");
    assert_int_equal(m->kind, MARK_SEE);
    assert_text(m->text, "HB-004");
    m = only_mark(d, "1. Bolt it. {initial}\n");
    assert_int_equal(m->kind, MARK_INITIAL);
    assert_text(m->text, "(absent)");
    m = only_mark(d, "1. {step crimp} Crimp.\n");
    assert_int_equal(m->kind, MARK_STEP);
    assert_text(m->text, "crimp");
}

/* Marks at the start belong to the heading, paragraph or step; the others print
 * where they stand. */
static void places(void **state) {
    struct desk *d = *state;
    struct guide *g = desk_good(
        d, "## {touches LPG} Procedure\n\n"
           "1. {for mark 3} {hold}\n   {step a} Bolt {x}: {initial}\n\n"
           "   {for mark 1} Or not.\n"
           "2. {does disconnect}\n\n   - {shop only} open\n");
    const struct node *section = g->root->last;
    assert_int_equal(section->kind, NODE_SECTION);
    assert_int_equal(section->mark_count, 1);
    assert_text(section->text->text, "Procedure");
    const struct node *step = section->first->first;
    assert_int_equal(step->mark_count, 3);
    assert_int_equal(step->marks[2]->kind, MARK_STEP);
    assert_ptr_equal(step->marks[2]->node, step);
    assert_int_equal(step->first->mark_count, 0);
    assert_text(step->first->text->text, "Bolt ");
    assert_int_equal(step->first->text->next->kind, INLINE_MARK);
    assert_ptr_equal(step->first->text->next->mark->node, step->first);
    const struct node *second = step->first->next;
    assert_int_equal(second->mark_count, 1);
    assert_text(second->text->text, "Or not.");
    step = step->next; /* only marks before its bullets */
    assert_int_equal(step->mark_count, 1);
    assert_int_equal(step->first->kind, NODE_BULLETS);
    assert_int_equal(step->first->first->first->mark_count, 1);
    for (size_t i = 0; i < g->mark_count; i++) {
        assert_int_equal(g->marks[i]->index, i);
        assert_true(i == 0 ||
                    g->marks[i]->at.start > g->marks[i - 1]->at.start);
    }
}

static void in_blocks(void **state) {
    struct desk *d = *state;
    struct guide *g = desk_good(
        d, "```limits\nid | characteristic | limit | if out\n"
           "R1 | drop {{a} * b | {x | y} V | {see ground}, or not\n```\n");
    const struct block *b = desk_block(g, KIND_LIMITS);
    assert_int_equal(g->mark_count, 2);
    const struct cell *c = tree_cell(b, &b->entries[0], "characteristic");
    assert_text(c->text, "drop {{a} * b");
    assert_text(c->prose->text, "drop {");
    assert_text(c->prose->next->text, "a} * b");
    c = tree_cell(b, &b->entries[0], "limit");
    assert_text(c->text, "{x | y} V");
    assert_text(c->prose->mark->text, "x | y");
    c = tree_cell(b, &b->entries[0], "if out");
    assert_int_equal(c->prose->mark->kind, MARK_SEE);
    assert_text(c->prose->next->text, ", or not");
    assert_ptr_equal(c->prose->mark->node, b->node);
    assert_place(c->prose->mark->at, 11, 34);
}

int main(void) {
    const struct CMUnitTest tests[] = {desk_test(expressions), desk_test(words),
                                       desk_test(places), desk_test(in_blocks)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
