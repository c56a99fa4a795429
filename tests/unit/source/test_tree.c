/* test_tree.c - prose, sections, steps: their order and their places. */
#include "desk.h"
#include "source/dump.h"

static const char *dumped(struct desk *d, const struct guide *g) {
    char *bytes = NULL;
    size_t len = 0;
    FILE *out = open_memstream(&bytes, &len);
    tree_dump(g, out);
    fclose(out);
    const char *copy = arena_copy(d->c.arena, bytes, len);
    free(bytes);
    return copy;
}

/* The dump without its first lines, which are the same for each guide here. */
static const char *body_of(struct desk *d, const char *body) {
    const char *text = dumped(d, desk_good(d, body));
    const char *start = strstr(text, "      \"draft\"\n");
    assert_non_null(start);
    return start + strlen("      \"draft\"\n");
}

static void inlines(void **state) {
    struct desk *d = *state;
    assert_string_equal(
        body_of(d, "A *b **c*** `d  {e}`\nf\\\ng [h *i*](http://j/(k) \"t\") "
                   "l &amp; m \\* n &eacute;\n<http://o.p> {q}\n"),
        "  paragraph @9:1\n"
        "    text \"A \" @9:1\n"
        "    emphasis @9:4\n"
        "      text \"b \" @9:4\n"
        "      strong @9:8\n"
        "        text \"c\" @9:8\n"
        "    text \" \" @9:12\n"
        "    code \"d {e}\" @9:13\n"
        "    space @9:21\n"
        "    text \"f\" @10:1\n"
        "    break @10:2\n"
        "    text \"g \" @11:1\n"
        "    link to \"http://j/(k)\" @11:4\n"
        "      text \"h \" @11:4\n"
        "      emphasis @11:7\n"
        "        text \"i\" @11:7\n"
        "    text \" l & m * n é\" @11:28\n"
        "    space @11:52\n"
        "    link to \"http://o.p\" @12:2\n"
        "      text \"http://o.p\" @12:2\n"
        "    text \" \" @12:13\n"
        "    mark {value is \"q\"} @12:14\n");
}

/* Where the library's own columns are wrong: indented lines that go on. */
static void places(void **state) {
    struct desk *d = *state;
    assert_string_equal(
        body_of(d, "> 1. {for mark 1} Ä one\n>    two {x}\n>three **four**\n"),
        "  quote @9:1\n"
        "    steps @9:3\n"
        "      step 1 @9:3\n"
        "        {for [mark 1]} @9:6\n"
        "        paragraph @9:6\n"
        "          text \"Ä one\" @9:19\n"
        "          space @9:24\n"
        "          text \"two \" @10:6\n"
        "          mark {value is \"x\"} @10:10\n"
        "          space @10:13\n"
        "          text \"three \" @11:2\n"
        "          strong @11:10\n"
        "            text \"four\" @11:10\n");
}

/* Text without escapes is a slice of the source, so that part of it has a
 * place. */
static void slices(void **state) {
    struct desk *d = *state;
    struct guide *g = desk_good(d, "A wire of {{10} AWG\nand \\*more\\*.\n");
    const struct inlines *i = g->root->last->text;
    const char *from = g->src->text.start, *to = from + g->src->text.len;
    assert_text(i->text, "A wire of {10} AWG");
    assert_false(i->text.start >= from && i->text.start < to);
    g = desk_good(d, "A wire of {x} AWG\nand **more**.\n");
    from = g->src->text.start;
    to = from + g->src->text.len;
    for (i = g->root->last->text; i != NULL; i = i->next)
        if (i->kind == INLINE_TEXT) {
            assert_true(i->text.start >= from && i->text.start < to);
            assert_ptr_equal(place_text(i->at).start, i->text.start);
        }
}

static void sections(void **state) {
    struct desk *d = *state;
    struct guide *g = desk_good(d, "Before.\n\n## One\n\nA.\n\n### Deeper\n\n"
                                   "B.\n\nTwo {x}\n---\n\n***\n");
    assert_text(g->title, "Fit a lamp");
    const struct node *n = g->root->first;
    static const enum node_kind kinds[] = {NODE_BLOCK, NODE_PARAGRAPH,
                                           NODE_SECTION, NODE_SECTION};
    for (size_t i = 0; i < 4; i++, n = n->next) {
        assert_int_equal(n->kind, kinds[i]);
        assert_ptr_equal(n->parent, g->root);
    }
    assert_null(n);
    n = g->root->first->next->next;
    assert_int_equal(n->level, 2);
    assert_int_equal(n->first->kind, NODE_PARAGRAPH);
    assert_int_equal(n->first->next->kind, NODE_HEADING);
    assert_int_equal(n->first->next->level, 3);
    assert_text(n->last->text->text, "B.");
    assert_ptr_equal(tree_section(n->last), n);
    assert_null(tree_section(g->root->first));
    assert_null(tree_step(n));
    n = n->next;
    assert_int_equal(n->text->next->mark->kind, MARK_VALUE);
    assert_int_equal(n->first->kind, NODE_RULE);
    for (size_t i = 0; i < g->node_count; i++)
        assert_int_equal(g->nodes[i]->index, i);
}

static void titles(void **state) {
    struct desk *d = *state;
    struct guide *g = desk_read(
        d, "Text before\n\nFit *two* `a`\n{n} lamps\n===\n\n```guide\nid: a\n"
           "revision: 1\nstatus: draft\n```\n");
    assert_string_equal(desk_messages(d), "");
    assert_text(g->title, "Fit two a n lamps");
    assert_int_equal(g->mark_count, 1);
    assert_ptr_equal(g->marks[0]->node, g->root);
}

static void numbers(void **state) {
    struct desk *d = *state;
    struct buf b = buf_in(d->c.arena);
    buf_puts(&b,
             "1. a\n5. b\n\n```values\nx = 1 m\n```\n```check\n1 < 2\n```\n\n"
             "7) c\n   - bullet\n     1. in a bullet\n\n   Text.\n   1. d\n"
             "\nText.\n\n## Test\n\n4. e\n   1. f\n");
    for (int i = 0; i < 28; i++)
        buf_puts(&b, "      1. g\n");
    struct guide *g = desk_good(d, buf_cstr(&b));
    b = buf_in(d->c.arena);
    for (size_t i = 0; i < g->node_count; i++)
        if (g->nodes[i]->kind == NODE_STEP)
            buf_printf(&b, "%s ", g->nodes[i]->number);
    assert_string_equal(
        buf_cstr(&b),
        "1 2 3 3.1 3.2 4 4.1 4.1a 4.1b 4.1c 4.1d 4.1e 4.1f 4.1g 4.1h 4.1i 4.1j "
        "4.1k 4.1l 4.1m 4.1n 4.1o 4.1p 4.1q 4.1r 4.1s 4.1t 4.1u 4.1v 4.1w 4.1x "
        "4.1y 4.1z 4.1aa 4.1ab ");
    const struct node *steps = g->root->first->next;
    assert_int_equal(steps->kind, NODE_STEPS);
    const struct node *third = steps->last;
    assert_string_equal(third->number, "3");
    assert_int_equal(third->first->block->kind->id, KIND_VALUES);
    assert_int_equal(third->first->next->block->kind->id, KIND_CHECK);
    assert_ptr_equal(third->first->block->node, third->first);
    assert_text(third->first->next->next->text->text, "c");
    assert_ptr_equal(tree_step(third->first), third);
}

/* Blocks behind the last step of a list, with no list to follow, stay there. */
static void blocks_behind(void **state) {
    struct desk *d = *state;
    struct guide *g = desk_good(d, "1. a\n\n```check\n1 < 2\n```\n\nText.\n\n"
                                   "1. b\n\n```check\n1 < 2\n```\n");
    static const enum node_kind kinds[] = {NODE_BLOCK, NODE_STEPS,
                                           NODE_BLOCK, NODE_PARAGRAPH,
                                           NODE_STEPS, NODE_BLOCK};
    const struct node *n = g->root->first;
    for (size_t i = 0; i < 6; i++, n = n->next)
        assert_int_equal(n->kind, kinds[i]);
    assert_null(n);
    assert_int_equal(g->root->last->kind, NODE_BLOCK);
}

static void links(void **state) {
    struct desk *d = *state;
    desk_good(d, "[a](http://x) [b](HTTPS://x/y?z#w) [c](mailto:a@b) [d](#e) "
                 "![f](figures/g.png) [h][i]\n\n[i]: https://j\n");
}

/* The same text gives the same tree, with either line end. */
static void line_ends(void **state) {
    struct desk *d = *state;
    const char *unix_text = HEAD "## A\n\n1. {hold} B\n   c {x}\n\n"
                                 "```values\nx = 1 m +\n  2 m\n```\n\n2. d\n";
    struct buf dos = buf_in(d->c.arena);
    for (const char *s = unix_text; *s != '\0'; s++) {
        if (*s == '\n')
            buf_puts(&dos, "\r");
        buf_add(&dos, s, 1);
    }
    const char *first = dumped(d, desk_read(d, unix_text));
    const char *second = dumped(d, desk_read(d, buf_cstr(&dos)));
    assert_string_equal(first, second);
    assert_string_equal(desk_messages(d), "");
}

int main(void) {
    const struct CMUnitTest tests[] = {
        desk_test(inlines),       desk_test(places), desk_test(slices),
        desk_test(sections),      desk_test(titles), desk_test(numbers),
        desk_test(blocks_behind), desk_test(links),  desk_test(line_ends)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
