/* test_structure.c - what is read out, asked of another program. */
#define FILE_STEM BUILD "/tests/unit/print/test_structure-sample"
#include "layout/tag.h"
#include "unit/print/readers.h"

static const struct text none;

struct tagged {
    struct sheet *sheet;
    struct tagger tags;
    double y;
};

static void say(struct tagged *t, const char *text) {
    struct pages *p = t->sheet->pages;
    t->y += 20;
    add_text(t->sheet, &p->page[p->count - 1], FACE_REGULAR, 12, t->y, text)
        ->tag = tag_of_op(&t->tags, OP_TEXT);
}

static void say_in(struct tagged *t, enum tag_kind kind, const char *text) {
    size_t outer = tag_open(&t->tags, kind, none);
    say(t, text);
    tag_close(&t->tags, outer);
}

static void add_table(struct tagged *t) {
    size_t outer = tag_open(&t->tags, TAG_TABLE, text_of("Parts"));
    size_t table = tag_open(&t->tags, TAG_ROW, none);
    say_in(t, TAG_HEAD, "item");
    tag_close(&t->tags, table);
    add_page(t->sheet); /* the row stands on the second page */
    t->y = 60;
    tag_open(&t->tags, TAG_ROW, none);
    say_in(t, TAG_CELL, "relay");
    tag_close(&t->tags, outer);
}

/* The number is drawn after the text and read before it. */
static void add_item(struct tagged *t) {
    size_t outer = tag_open(&t->tags, TAG_LIST, none);
    tag_open(&t->tags, TAG_ITEM, none);
    tag_open(&t->tags, TAG_BODY, none);
    size_t body = tag_open_label(&t->tags);
    say(t, "1");
    tag_close(&t->tags, body);
    tag_open_text(&t->tags);
    say(t, "Wait below 5 °C.");
    tag_close(&t->tags, outer);
}

/* In a paragraph, over two lines; and one to what is not printed. */
static void add_links(struct tagged *t) {
    struct pages *p = t->sheet->pages;
    struct page *page = &p->page[p->count - 1];
    size_t outer = tag_open_text(&t->tags);
    say(t, "See");
    size_t around = tag_open_link(&t->tags, "target");
    say(t, "step 12");
    tag_close(&t->tags, around);
    tag_open_link(&t->tags, "target"); /* the same: the next line of it */
    say(t, "(page 3)");
    for (int i = 0; i < 2; i++) {
        struct op *link = display_op(t->sheet->arena, page, OP_LINK);
        link->tag = t->tags.now;
        link->x = 72;
        link->y = t->y - 30 + 20 * i;
        link->width = link->height = 10;
        link->page = 0;
    }
    tag_close(&t->tags, around);
    tag_leave_link(&t->tags);
    say(t, "or");
    tag_open_link(&t->tags, "other");
    say(t, "step 13.");
    tag_close(&t->tags, outer);
}

static struct sheet *tagged_sheet(void) {
    struct tagged t = {.sheet = sheet_new(), .y = 60};
    struct pages *p = t.sheet->pages;
    add_page(t.sheet);
    tag_begin(&t.tags, t.sheet->arena);
    say_in(&t, TAG_TITLE, "Fit relays");
    add_item(&t);
    size_t outer = tag_open(&t.tags, TAG_PANEL, text_of("WARNING"));
    tag_open_text(&t.tags);
    say(&t, "Hot");
    say(&t, "pipe."); /* on a line of its own */
    tag_close(&t.tags, outer);
    tag_open(&t.tags, TAG_PARAGRAPH, none); /* nothing of it is drawn */
    tag_close(&t.tags, outer);
    outer = tag_open(&t.tags, TAG_FIGURE, text_of("Where the relay sits"));
    add_image(t.sheet, &p->page[0]);
    p->page[0].ops[p->page[0].op_count - 1].tag = t.tags.now;
    tag_close(&t.tags, outer);
    add_links(&t);
    add_table(&t);
    tag_pause(&t.tags);
    say(&t, "page 2 of 2");
    p->tag = t.tags.list;
    p->tag_count = t.tags.count;
    return t.sheet;
}

static void test_structure_is_read_back(void **state) {
    (void)state;
    struct sheet *s = tagged_sheet();
    print_sheet(s);
    check_readers(s);
    check_other_readers(s);
    assert_string_equal(run(s, "pdfinfo -struct-text " FILE_STEM
                               ".pdf 2>&1 | grep -v / |"
                               " sed 's/\\(Object\\).*/\\1/'"),
                        "Document\n"
                        "  H1 (block)\n"
                        "    \"Fit relays\"\n"
                        "  L (block):\n"
                        "    LI (block)\n"
                        "      Lbl (block)\n"
                        "        \"1\"\n"
                        "      LBody (block)\n"
                        "        P (block)\n"
                        "          \"Wait below 5 °C.\"\n"
                        "  Sect \"WARNING\"\n"
                        "    P (block)\n"
                        "      \"Hot pipe.\"\n"
                        "  Figure\n"
                        "    \"\"\n"
                        "  P (block)\n"
                        "    \"See \"\n"
                        "    Link (inline)\n"
                        "      \"step 12 (page 3) \"\n"
                        "      Object\n"
                        "      Object\n"
                        "    \"or \"\n"
                        "    Span (inline)\n"
                        "      \"step 13.\"\n"
                        "  Table \"Parts\" (block)\n"
                        "    TR\n"
                        "      TH:\n"
                        "        \"item\"\n"
                        "    TR\n"
                        "      TD\n"
                        "        \"relay\"\n");
    const char *plain =
        run(s, "qpdf --qdf --object-streams=disable " FILE_STEM ".pdf -"
               " | tr '\\0' ' '");
    assert_non_null(strstr(plain, "/Alt (Where the relay sits)"));
    assert_non_null(strstr(plain, "/Marked true"));
    assert_non_null(strstr(plain, "/Artifact BMC"));
    assert_non_null(strstr(plain, "/Scope /Column"));
    assert_non_null(strstr(plain, "/StructParent 2"));
    assert_non_null(strstr(plain, "/StructParent 3"));
    sheet_free(s);
}

static void test_pages_without_tags_are_not_marked(void **state) {
    (void)state;
    struct sheet *s = complete_sheet();
    print_sheet(s);
    check_readers(s);
    assert_non_null(
        strstr(run(s, "pdfinfo " FILE_STEM ".pdf"), "Tagged:          no\n"));
    sheet_free(s);
}

static const char *full_dump(struct sheet *s, const struct pages *p) {
    char *text = NULL;
    size_t len = 0;
    FILE *out = open_memstream(&text, &len);
    display_write(p, true, out);
    fclose(out);
    const char *copy = arena_copy(s->arena, text, len);
    free(text);
    return copy;
}

static void test_a_dump_keeps_the_tags(void **state) {
    (void)state;
    struct sheet *s = tagged_sheet();
    const char *dump = full_dump(s, s->pages);
    size_t line = 0;
    const struct pages *p = display_read(s->arena, text_of(dump), &line);
    assert_non_null(p);
    assert_int_equal(p->tag_count, s->pages->tag_count);
    assert_string_equal(full_dump(s, p), dump);
    sheet_free(s);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_structure_is_read_back),
        cmocka_unit_test(test_pages_without_tags_are_not_marked),
        cmocka_unit_test(test_a_dump_keeps_the_tags),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
