/* test_block.c - the block grammar: settings, definitions, requirements, rows.
 */
#include "desk.h"

static const struct entry *entry_of(const struct block *b, const char *name) {
    const struct entry *e = tree_setting(b, name);
    assert_non_null(e);
    return e;
}

static void settings(void **state) {
    struct desk *d = *state;
    struct guide *g = desk_good(d, "``` wire  feed  \n"
                                   "# a comment: not a setting\n"
                                   "#\n"
                                   "use: 10 AWG [mark 1, mark 2] 8 AWG\n"
                                   "   [mark 3]  \"why: \n   not\"\n"
                                   "\n"
                                   "drop   limit:3 % \"lamps\"\n"
                                   "length: 12\" \"tape\"\n"
                                   "ambient: 45 degC\n"
                                   "```\n");
    const struct block *b = desk_block(g, KIND_WIRE);
    assert_text(b->name, "feed");
    assert_text(place_text(b->at), "wire  feed");
    assert_int_equal(b->entry_count, 4);
    const struct entry *e = entry_of(b, "use");
    assert_int_equal(e->choice_count, 2);
    assert_text(e->choices[0].text, "10 AWG");
    assert_int_equal(e->choices[0].tags.count, 2);
    assert_text(e->choices[0].tags.tag[1], "mark 2");
    assert_text(e->choices[1].text, "8 AWG");
    assert_text(e->choices[1].tags.tag[0], "mark 3");
    assert_text(e->note, "why: \n   not");
    assert_place(e->at, 12, 1);
    assert_place(place_of(g->src, e->choices[1].text), 12, 30);
    e = entry_of(b, "drop limit");
    assert_text(e->choices[0].text, "3 %");
    assert_text(e->note, "lamps");
    e = entry_of(b, "length");
    assert_text(e->choices[0].text, "12\"");
    assert_text(e->note, "tape");
    e = entry_of(b, "ambient");
    assert_null(e->note.start);
    assert_int_equal(e->choices[0].tags.count, 0);
}

static void definitions(void **state) {
    struct desk *d = *state;
    struct guide *g = desk_good(d, "```values\n"
                                   "run = 2.6 m [mark 1] 3.4 m [others] \"t\"\n"
                                   "name = \"starter battery\"\n"
                                   "other = \"a\" \"b\"\n"
                                   "each = \"a = 1\" [mark 1] \"b\" [others]\n"
                                   "sum = run +\n  2 * run\n"
                                   "size = #10 ring\n"
                                   "```\n");
    const struct block *b = desk_block(g, KIND_VALUES);
    static const struct {
        const char *key, *first, *note;
        size_t count;
    } rows[] = {
        {"run", "2.6 m", "t", 2},
        {"name", "\"starter battery\"", "(absent)", 1},
        {"other", "\"a\"", "b", 1},
        {"each", "\"a = 1\"", "(absent)", 2},
        {"sum", "run +\n  2 * run", "(absent)", 1},
        {"size", "#10 ring", "(absent)", 1},
    };
    assert_int_equal(b->entry_count, sizeof rows / sizeof rows[0]);
    for (size_t i = 0; i < b->entry_count; i++) {
        const struct entry *e = &b->entries[i];
        assert_int_equal(e->kind, ENTRY_DEFINITION);
        assert_text(e->key, rows[i].key);
        assert_text(e->choices[0].text, rows[i].first);
        assert_text(e->note, rows[i].note);
        assert_int_equal(e->choice_count, rows[i].count);
    }
}

static void requirements(void **state) {
    struct desk *d = *state;
    struct guide *g = desk_good(d, "```check\n"
                                   "feed.drop <= 0.4 V  \"lamps go yellow\"\n"
                                   "a + b =\n  c [mark 3]\n"
                                   "```\n");
    const struct block *b = desk_block(g, KIND_CHECK);
    assert_int_equal(b->entry_count, 2);
    assert_int_equal(b->entries[0].kind, ENTRY_REQUIREMENT);
    assert_text(b->entries[0].choices[0].text, "feed.drop <= 0.4 V");
    assert_text(b->entries[0].note, "lamps go yellow");
    assert_text(b->entries[1].choices[0].text, "a + b =\n  c");
    assert_text(b->entries[1].choices[0].tags.tag[0], "mark 3");
}

static void rows(void **state) {
    struct desk *d = *state;
    struct guide *g =
        desk_good(d, "```parts\n"
                     "item | quantity | number | interchange\n"
                     "ring | 2 [mark 1] 3 [others] | OS-1 | Kelby K-88 direct\n"
                     "| Kelby K-87\n  reference only\n"
                     "| Dace [mark 3]\n"
                     "holder | | OS-2\n"
                     "pump\n"
                     "| 1\n"
                     "| FP-40\n"
                     "```\n");
    const struct block *b = desk_block(g, KIND_PARTS);
    assert_int_equal(b->column_count, 4);
    assert_int_equal(b->entry_count, 3);
    const struct entry *e = &b->entries[0];
    assert_text(e->tags.tag[0], "mark 3");
    assert_text(tree_cell(b, e, "item")->text, "ring");
    const struct cell *c = tree_cell(b, e, "quantity");
    assert_text(c->text, "2 [mark 1] 3 [others]");
    assert_int_equal(c->choice_count, 2);
    assert_text(c->choices[1].text, "3");
    c = tree_cell(b, e, "interchange");
    assert_text(c->text, "Kelby K-88 direct");
    assert_text(c->next->text, "Kelby K-87\n  reference only");
    assert_text(c->next->next->text, "Dace");
    assert_null(c->next->next->next);
    assert_place(c->next->at, 12, 3);
    e = &b->entries[1];
    assert_int_equal(e->tags.count, 0);
    assert_int_equal(tree_cell(b, e, "quantity")->text.len, 0);
    assert_int_equal(tree_cell(b, e, "quantity")->choice_count, 1);
    assert_null(tree_cell(b, e, "interchange"));
    assert_null(tree_cell(b, e, "maker"));
    e = &b->entries[2];
    assert_text(tree_cell(b, e, "number")->text, "FP-40");
    assert_text(place_text(e->at), "pump\n| 1\n| FP-40");
}

static void settings_before_rows(void **state) {
    struct desk *d = *state;
    struct guide *g = desk_good(d, "```table\n"
                                   "title: What it draws, [in use] {lamps}\n"
                                   "lamp | title: a\n"
                                   "high | title: 7 A [mark 1]\n"
                                   "```\n");
    const struct block *b = desk_block(g, KIND_TABLE);
    assert_int_equal(b->entry_count, 2);
    assert_text(b->entries[0].choices[0].text,
                "What it draws, [in use] {lamps}");
    assert_text(b->entries[0].choices[0].prose->next->mark->text, "lamps");
    assert_null(b->column[1]);
    assert_text(b->columns[1], "title: a");
    assert_text(tree_cell(b, &b->entries[1], "title: a")->text, "title: 7 A");
    assert_text(b->entries[1].tags.tag[0], "mark 1");
}

static void lists_and_prose(void **state) {
    struct desk *d = *state;
    struct guide *g =
        desk_good(d, "```preliminary\n"
                     "equipment: meter, 0.01 V; crimper {a, b}, torque wrench\n"
                     "equipment: clamp [mark 3]\n"
                     "safety: say \"off\", [twice] over\n"
                     "```\n");
    const struct block *b = desk_block(g, KIND_PRELIMINARY);
    assert_int_equal(b->entry_count, 3);
    const struct choice *c = &b->entries[0].choices[0];
    assert_int_equal(c->item_count, 3);
    assert_text(c->items[1].text, "0.01 V; crimper {a, b}");
    assert_text(c->items[1].prose->next->mark->text, "a, b");
    assert_text(c->items[2].text, "torque wrench");
    c = &b->entries[1].choices[0];
    assert_text(c->text, "clamp");
    assert_text(c->tags.tag[0], "mark 3");
    c = &b->entries[2].choices[0];
    assert_text(c->items[0].text, "say \"off\"");
    assert_text(c->items[1].text, "[twice] over");
    assert_null(b->entries[2].note.start);
}

/* Lines are slices of the source, whatever stands before them. */
static void indented(void **state) {
    struct desk *d = *state;
    static const char *const forms[] = {
        "```values\nrun = 2 m\n  + 3 m\n```\n",
        "  ```values\n  run = 2 m\n    + 3 m\n  ```\n",
        "   ```values\n run = 2 m\n    + 3 m\n```\n", /* indented less */
        "1. a\n\n   ~~~~ values\n   run = 2 m\n     + 3 m\n   ~~~~~\n",
        "- a\n  - b\n\n    ```values\n    run = 2 m\n     + 3 m\n    ```\n",
        "```values\r\nrun = 2 m\r\n  + 3 m\r\n```\r\n",
    };
    for (size_t i = 0; i < sizeof forms / sizeof forms[0]; i++) {
        struct guide *g = desk_good(d, forms[i]);
        const struct block *b = desk_block(g, KIND_VALUES);
        assert_int_equal(b->entry_count, 1);
        struct text t = b->entries[0].choices[0].text;
        const char *want = strstr(g->src->text.start, "2 m");
        assert_ptr_equal(t.start, want);
        assert_text(text_squeezed(d->c.arena, t), "2 m + 3 m");
    }
}

/* A bad line leaves the others alone, and is marked. */
static void bad_lines(void **state) {
    struct desk *d = *state;
    struct guide *g =
        desk_read_body(d, "```wire feed\nuse: 8 AWG \"x\nloop: 3 m\n```\n"
                          "```limits\nid | characteristic | limit\n"
                          "R1 | a\nR2 | b | 3 V | c\nR3 | d | 4 V\n```\n");
    const struct block *b = desk_block(g, KIND_WIRE);
    assert_true(entry_of(b, "use")->bad);
    assert_false(entry_of(b, "loop")->bad);
    b = desk_block(g, KIND_LIMITS);
    assert_int_equal(b->entry_count, 2);
    assert_true(b->entries[0].bad);
    assert_int_equal(b->entries[0].cell_count, 3);
    assert_false(b->entries[1].bad);
    assert_text(tree_cell(b, &b->entries[1], "id")->text, "R3");
    assert_int_equal(diag_count(d->c.diags, LEVEL_MISTAKE), 3);
}

static void verbatim(void **state) {
    struct desk *d = *state;
    struct guide *g = desk_good(d, "```\nwire {feed}\n```\n\n"
                                   "    ```values\n    a = {b}\n    ```\n\n"
                                   "> ```\n> quoted\n> ```\n");
    assert_int_equal(g->block_count, 1);
    assert_int_equal(g->mark_count, 0);
    const struct node *n = g->root->first->next;
    assert_int_equal(n->kind, NODE_VERBATIM);
    assert_text(n->verbatim, "wire {feed}\n");
    assert_text(n->next->verbatim, "```values\na = {b}\n```\n");
    assert_text(n->next->next->first->verbatim, "quoted\n");
}

int main(void) {
    const struct CMUnitTest tests[] = {desk_test(settings),
                                       desk_test(definitions),
                                       desk_test(requirements),
                                       desk_test(rows),
                                       desk_test(settings_before_rows),
                                       desk_test(lists_and_prose),
                                       desk_test(indented),
                                       desk_test(bad_lines),
                                       desk_test(verbatim)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
