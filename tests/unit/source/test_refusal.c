/* test_refusal.c - each bad input has one message, with its place. */
#include "desk.h"

struct bad {
    const char *body;
    const char *message; /* behind "lamp.md:" */
};

static void check(const struct bad *rows, size_t count) {
    for (size_t i = 0; i < count; i++) {
        void *state;
        desk_open(&state);
        struct desk *d = state;
        desk_read_body(d, rows[i].body);
        const char *want =
            arena_printf(d->c.arena, "lamp.md:%s\n", rows[i].message);
        if (strcmp(desk_messages(d), want) != 0)
            print_error("input: %s\n", rows[i].body);
        assert_string_equal(desk_messages(d), want);
        assert_int_equal(diag_status(d->c.diags), LEVEL_MISTAKE);
        desk_close(&state);
    }
}

#define check_rows(rows) check(rows, sizeof rows / sizeof rows[0])

static void blocks(void **state) {
    (void)state;
    static const struct bad rows[] = {
        {"```wrie feed\n```\n",
         "9:4: error: unknown kind of block: 'wrie' (did you mean 'wire'?)"},
        {"```WIRE feed\n```\n",
         "9:4: error: unknown kind of block: 'WIRE' (did you mean 'wire'?)"},
        {"```spreadsheet\n```\n",
         "9:4: error: unknown kind of block: 'spreadsheet'"},
        {"```facts\nrun = 2 m\n```\n",
         "9:4: error: block in the wrong place: 'facts' cannot stand in a "
         "guide"},
        {"```needs\nrun: m\n```\n",
         "9:4: error: block in the wrong place: 'needs' cannot stand in a "
         "guide"},
        {"> ```check\n> 1 < 2\n> ```\n",
         "9:6: error: block in the wrong place: a block cannot stand in a "
         "quotation"},
        {"```load\nkind: lamp\ncurrent: 1 A\n```\n",
         "9:4: error: block without a name: write: load NAME"},
        {"```check feed\n1 < 2\n```\n",
         "9:10: error: too much behind the kind of block: 'check' takes no "
         "name"},
        {"```wire feed to lamp\n```\n",
         "9:14: error: too much behind the kind of block: one word stands "
         "behind 'wire'"},
        {"```wire feed\nuse: 10 AWG\n",
         "9:1: error: block not closed: close it with a line of '```'"},
        {"~~~~wire feed\nuse: 10 AWG\n~~~\n",
         "9:1: error: block not closed: close it with a line of '~~~~'"},
        {"1. a\n\n   ```wire feed\n   use: 10 AWG\n2. b\n",
         "11:4: error: block not closed: close it with a line of '```'"},
        {"```wire feed\n\tuse: 10 AWG\n```\n",
         "10:1: error: tab before a line of a block: indent lines of a block "
         "with blanks"},
        {"1. a\n\n   ```wire feed\n\tuse: 10 AWG\n   ```\n",
         "12:1: error: tab before a line of a block: indent lines of a block "
         "with blanks"},
        {"```guide\nid: T-2\nrevision: 1\nstatus: draft\n```\n",
         "9:4: error: block written twice: a guide has one 'guide'"},
    };
    check_rows(rows);
}

static void settings(void **state) {
    (void)state;
    static const struct bad rows[] = {
        {"```wire feed\ndroplimit: 3 %\n```\n",
         "10:1: error: unknown setting: 'droplimit' in 'wire' (did you mean "
         "'drop limit'?)"},
        {"```wire feed\nUse: 8 AWG\n```\n",
         "10:1: error: unknown setting: 'Use' in 'wire' (did you mean 'use'?)"},
        {"```wire feed\nweight: 3 kg\n```\n",
         "10:1: error: unknown setting: 'weight' in 'wire'; 'bayleaf help "
         "wire' lists them"},
        {"```wire feed\nuse: 8 AWG\nuse: 10 AWG\n```\n",
         "11:1: error: setting written twice: 'use'"},
        {"```wire feed\nuse = 8 AWG\n```\n",
         "10:1: error: line not understood: in 'wire' a line is: setting: "
         "value"},
        {"```values\nrun: 2 m\n```\n",
         "10:1: error: line not understood: in 'values' a line is: name = "
         "value"},
        {"```wire feed\nuse:\n```\n",
         "10:1: error: value missing: nothing stands behind the sign"},
        {"```values\n= 2 m\n```\n",
         "10:1: error: value missing: nothing stands before the sign"},
        {"```values\nrun = [mark 1]\n```\n",
         "10:7: error: value missing: no value before the variants"},
        {"```wire feed\n\n  use: 8 AWG\n```\n",
         "11:3: error: line goes on with nothing: an indented line goes on "
         "with "
         "the line above, which is blank or a comment"},
        {"```values\nrun = 2 m +\n  # how far\n  3 m\n```\n",
         "12:3: error: line goes on with nothing: an indented line goes on "
         "with "
         "the line above, which is blank or a comment"},
        {"```values\nrun = 2 m  \"tape\n```\n",
         "10:12: error: string not closed: close it with a quotation mark"},
        {"```values\nrun = 2 m [mark 1\n```\n",
         "10:11: error: bracket not closed: close the list of variants with "
         "']'"},
        {"```values\nrun = 2 m [mark 1] 3 m\n```\n",
         "10:20: error: value without its variants: say for which variants: "
         "[mark 1], [others]"},
        {"```values\nrun = 2 m [mark 1,, mark 2] 3 m [others]\n```\n",
         "10:12: error: empty place in a list: nothing between two commas"},
        {"```values\nrun = 2 m []\n```\n",
         "10:11: error: empty place in a list: name the variants"},
        {"```preliminary\nequipment: meter,, crimper\n```\n",
         "10:12: error: empty place in a list: nothing between two commas"},
        {"```override H04\nreason: none\n```\n",
         "9:4: error: setting missing: 'override' needs 'approver'"},
        {"```wire feed\nduty: contiguous\n```\n",
         "10:7: error: not one of the choices: 'contiguous' (did you mean "
         "'continuous'?)"},
        {"```wire feed\nreturn: two\n```\n",
         "10:9: error: not one of the choices: 'two'; one of: own wire, "
         "chassis, none"},
        {"```wire feed\nengine space: perhaps\n```\n",
         "10:15: error: not one of the choices: 'perhaps'; one of: yes, no"},
        {"```wire feed\nbundle: 0\n```\n",
         "10:9: error: not a whole number: '0'; write a whole number from 1 to "
         "999999"},
        {"```wire feed\nbundle: 2.5\n```\n",
         "10:9: error: not a whole number: '2.5'; write a whole number from 1 "
         "to 999999"},
    };
    check_rows(rows);
}

/* Letters that look like others: Cyrillic a, c, i. */
static void look_alikes(void **state) {
    (void)state;
    static const struct bad rows[] = {
        {"```w\u0456re feed\n```\n", "9:4: error: unknown kind of block: "
                                     "'w\u0456re' (did you mean 'wire'?); "
                                     "'\u0456' is U+0456"},
        {"```wire feed\n\u0430mbient: 3 degC\n```\n",
         "10:1: error: unknown setting: '\u0430mbient' in 'wire' (did you mean "
         "'ambient'?); '\u0430' is U+0430"},
        {"```limits\nid | \u0441haracteristic | limit\n```\n",
         "10:6: error: unknown column: '\u0441haracteristic' in 'limits' (did "
         "you mean 'characteristic'?); '\u0441' is U+0441"},
        {"1. {tou\u0441hes LPG} Go.\n",
         "9:5: error: unknown mark: 'tou\u0441hes' (did you mean 'touches'?); "
         "'\u0441' is U+0441"},
        {"```wire feed\nduty: \u0441ontinuous\n```\n",
         "10:7: error: not one of the choices: '\u0441ontinuous' (did you mean "
         "'continuous'?); '\u0441' is U+0441"},
        {"```wire feed\nbundle: \uff13\n```\n",
         "10:9: error: not a whole number: '\uff13'; write a whole number from "
         "1 to 999999"},
    };
    check_rows(rows);
}

static void rows_and_columns(void **state) {
    (void)state;
    static const struct bad rows[] = {
        {"```limits\nid | characteristic | limt\n```\n",
         "10:23: error: unknown column: 'limt' in 'limits' (did you mean "
         "'limit'?)"},
        {"```limits\nid | characteristic | limit | id\n```\n",
         "10:31: error: column written twice: 'id'"},
        {"```table\na | b | a\n```\n",
         "10:9: error: column written twice: 'a'"},
        {"```limits\nid | limit\n```\n",
         "9:4: error: column missing: 'limits' needs 'characteristic'"},
        {"```limits\nid | | limit\n```\n",
         "10:6: error: unknown column: the first row names the columns"},
        {"```limits\n# nothing\n```\n",
         "9:4: error: no rows: the first row of 'limits' names the columns"},
        {"```parts\nitem | number\nring | 1 | 2\n```\n",
         "11:12: error: too many cells: 3 cells under 2 columns"},
        {"```parts\n| item | number |\n```\n",
         "10:1: error: line goes on with nothing: a bar at the start of a line "
         "goes on with the row above; a row has bars between its cells only"},
        {"```limits\nid | characteristic | limit\nR1 | drop\n```\n",
         "11:1: error: cell missing: 'limit' is empty"},
        {"```parts\nitem | number\nring | 1 []\n```\n",
         "11:10: error: empty place in a list: name the variants"},
        {"```parts\nitem | number\nring | {see\n```\n",
         "11:8: error: brace not closed: close it with '}' on the same line; "
         "'{{' is a brace"},
    };
    check_rows(rows);
}

static void marks(void **state) {
    (void)state;
    static const struct bad rows[] = {
        {"Run {feed.size of red.\n",
         "9:5: error: brace not closed: close it with '}' on the same line; "
         "'{{' is a brace"},
        {"Run {feed.size\n} of red.\n",
         "9:5: error: brace not closed: close it with '}' on the same line; "
         "'{{' is a brace"},
        {"Run {feed {size}} of red.\n",
         "9:5: error: brace not closed: close it with '}' on the same line; "
         "'{{' is a brace"},
        {"Run { } of red.\n",
         "9:5: error: empty braces: write a value or a mark, or '{{' for a "
         "brace"},
        {"1. {touchs LPG} Go.\n",
         "9:5: error: unknown mark: 'touchs' (did you mean 'touches'?)"},
        {"1. {crimp tool} Go.\n", "9:5: error: unknown mark: 'crimp'"},
        {"1. {for} Go.\n", "9:4: error: mark not complete: 'for' needs a "
                           "variant"},
        {"1. {does} Go.\n", "9:4: error: mark not complete: 'does' needs what "
                            "the step does"},
        {"1. {touches nothing} Go.\n",
         "9:13: error: mark not complete: write {touches nothing: reason}"},
        {"1. {touches LPG: far} Go.\n",
         "9:4: error: too much in a mark: a reason stands behind 'nothing' "
         "only"},
        {"1. {hold on} Go.\n",
         "9:10: error: too much in a mark: nothing stands behind 'hold'"},
        {"1. {step a b} Go.\n",
         "9:12: error: too much in a mark: one word stands behind 'step'"},
        {"Of {a range range}.\n",
         "9:4: error: too much in a mark: 'in', 'at' and 'range' stand once "
         "each"},
        {"1. Go {hold} on.\n",
         "9:7: error: mark in the wrong place: 'hold' stands at the start of a "
         "heading, paragraph or step"},
        {"1. Go **{for mark 1} on**.\n",
         "9:9: error: mark in the wrong place: 'for' stands at the start of a "
         "heading, paragraph or step"},
        {"```override H04\nreason: {hold} why\napprover: J\n```\n",
         "10:9: error: mark in the wrong place: 'hold' stands at the start of "
         "a heading, paragraph or step"},
        {"{for mark 3}\n\nText.\n",
         "9:1: error: mark without text: write it at the start of the text "
         "that it is about"},
        {"[x](http://a/{b})\n",
         "9:14: error: mark that would not print: it stands in the address of "
         "a link or image"},
        {"[x]: http://a/{b}\n",
         "9:15: error: mark that would not print: it stands in the address of "
         "a link or image"},
    };
    check_rows(rows);
}

static void prose(void **state) {
    (void)state;
    static const struct bad rows[] = {
        {"A <b>bold</b> word.\n",
         "9:3: error: HTML in the text: write Markdown; a comment stands in a "
         "block, behind '# '"},
        {"<!-- later -->\n",
         "9:1: error: HTML in the text: write Markdown; a comment stands in a "
         "block, behind '# '"},
        {"See [it](ftp://a.b/c).\n",
         "9:6: error: link refused: 'ftp://a.b/c'; a link leads to http, "
         "https, mailto, or to #name in the guide"},
        {"See [it](javascript:x).\n",
         "9:6: error: link refused: 'javascript:x'; a link leads to http, "
         "https, mailto, or to #name in the guide"},
        {"See [it](other.md).\n",
         "9:6: error: link refused: 'other.md'; a link leads to http, https, "
         "mailto, or to #name in the guide"},
        {"See ![it](../a.png).\n",
         "9:7: error: file outside the library: '../a.png'; an image is named "
         "by its path from the library's procedures/"},
        {"See ![it](/a.png).\n",
         "9:7: error: file outside the library: '/a.png'; an image is named "
         "by its path from the library's procedures/"},
        {"# Again\n", "9:1: error: second title: a section begins with '##'"},
        {"1. a\n\n   ## b\n", "11:4: error: heading in the wrong place: a "
                              "heading stands at the left margin"},
        {"1.\n2. b\n", "9:1: error: empty step: a step says what to do"},
        {"1. {hold}\n2. b\n", "9:1: error: empty step: a step says what to do"},
        {"1. a\n   1. b\n      1. c\n         1. d\n",
         "12:10: error: steps nested too deeply: steps have at most 3 levels"},
        {"A &#x202E; B\n",
         "9:1: error: character refused: U+202E: changes the direction of "
         "text"},
        {"A &ZeroWidthSpace; B\n",
         "9:1: error: character refused: U+200B: cannot be seen"},
        {"A &#xE000; B\n", "9:3: error: character refused: U+E000: private "
                           "use: has no agreed meaning"},
        {"A &#57344; B\n", "9:3: error: character refused: U+E000: private "
                           "use: has no agreed meaning"},
    };
    check_rows(rows);
}

static void nesting(void **state) {
    struct desk *d = *state;
    struct buf b = buf_in(d->c.arena);
    for (int i = 0; i < 201; i++)
        buf_puts(&b, "> ");
    desk_read_body(d, arena_printf(d->c.arena, "%sa\n", buf_cstr(&b)));
    assert_string_equal(desk_messages(d),
                        "lamp.md:9:1: error: nested too deeply: more than 200 "
                        "levels, or 400 blanks before the text\n");
    desk_clear(d);
    desk_read_body(d, arena_printf(d->c.arena, "%sa\n", buf_cstr(&b) + 40));
    assert_string_equal(desk_messages(d), "");
    b = buf_in(d->c.arena);
    for (int i = 0; i < 210; i++)
        buf_puts(&b, "*a **a ");
    buf_puts(&b, "b");
    for (int i = 0; i < 210; i++)
        buf_puts(&b, " a** a*");
    desk_read_body(d, buf_cstr(&b));
    assert_non_null(
        strstr(desk_messages(d), "nested too deeply: more than 200 levels"));
}

static void images(void **state) {
    struct desk *d = *state;
    struct buf b = buf_in(d->c.arena);
    for (int i = 0; i < 201; i++)
        buf_puts(&b, "![[]()");
    desk_read_body(d, buf_cstr(&b));
    assert_string_equal(desk_messages(d),
                        "lamp.md:9:1: error: too many images in a paragraph: "
                        "more than 200\n");
}

static void whole_guides(void **state) {
    struct desk *d = *state;
    desk_read(d, "# Fit\n\nText.\n");
    assert_string_equal(desk_messages(d),
                        "lamp.md:1:1: error: no 'guide' block: write one, with "
                        "id, revision and status\n");
    desk_clear(d);
    desk_read(d, "```guide\nid: a\nrevision: 1\nstatus: draft\n```\n");
    assert_string_equal(desk_messages(d),
                        "lamp.md:1:1: error: no title: begin with '# ', a verb "
                        "and its object\n");
    desk_clear(d);
    desk_read(d, "# {hold} Fit\n\n```guide\nid: a\nrevision: 1\n"
                 "status: drafty\n```\n");
    assert_string_equal(desk_messages(d),
                        "lamp.md:1:3: error: mark in the wrong place: 'hold' "
                        "cannot stand in the title\n"
                        "lamp.md:6:9: error: not one of the choices: 'drafty' "
                        "(did you mean 'draft'?)\n");
    desk_clear(d);
    desk_read(d, "");
    assert_string_equal(
        desk_messages(d),
        "lamp.md:1:1: error: no 'guide' block: write one, with id, revision "
        "and status\n"
        "lamp.md:1:1: error: no title: begin with '# ', a verb and its "
        "object\n");
}

static void dates(void **state) {
    struct desk *d = *state;
    static const char *const good[] = {"24 November 2025", "29 February 2024",
                                       "1 January 1900", "29 February 2000"};
    static const char *const bad[] = {
        "24 Nov 2025",      "2025-11-24",   "31 June 2025", "29 February 2023",
        "29 February 1900", "0 May 2025",   "05 May 2025",  "5 May 25",
        "5 may 2025",       "5  May 20255", "May 5, 2025",  "32 May 2025"};
    for (size_t i = 0; i < sizeof good / sizeof good[0]; i++) {
        desk_read(d, arena_printf(d->c.arena,
                                  "# Fit\n\n```guide\nid: a\nrevision: 1\n"
                                  "status: draft\ndate: %s\n```\n",
                                  good[i]));
        assert_string_equal(desk_messages(d), "");
    }
    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
        desk_clear(d);
        struct guide *g =
            desk_read(d, arena_printf(d->c.arena,
                                      "# Fit\n\n```guide\nid: a\nrevision: 1\n"
                                      "status: draft\ndate: %s\n```\n",
                                      bad[i]));
        assert_string_equal(desk_messages(d),
                            arena_printf(d->c.arena,
                                         "lamp.md:7:7: error: not a date: "
                                         "'%s'; write it as 24 November 2025\n",
                                         bad[i]));
        assert_true(tree_setting(g->identity, "date")->bad);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {cmocka_unit_test(blocks),
                                       cmocka_unit_test(settings),
                                       cmocka_unit_test(look_alikes),
                                       cmocka_unit_test(rows_and_columns),
                                       cmocka_unit_test(marks),
                                       cmocka_unit_test(prose),
                                       desk_test(nesting),
                                       desk_test(images),
                                       desk_test(whole_guides),
                                       desk_test(dates)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
