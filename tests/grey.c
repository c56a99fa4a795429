/* grey.c - panels on a copier: rendered in grey, each signal word is told from
 * the others by more than its letters, and its letters stand out. */
#define ROOM BUILD "/grey"

#include "support/library.h"

static const char *const words[] = {"danger", "warning", "caution", "notice"};
enum { WORDS = 4 };

struct picture {
    int width, height, top;     /* of the page; of the panel's first line */
    const unsigned char *pixel; /* 0 black to 255 */
};

/* A page of a guide with one panel, as pdftoppm -gray gives it (binary PGM). */
static struct picture rendered(const struct library *l, const char *word) {
    struct arena *a = l->arena;
    const char *name = arena_printf(a, "procedures/%s.md", word);
    const char *text = arena_printf(
        a,
        "# Look at a panel\n\n```guide\nid: G-1\nrevision: 1\nstatus: draft\n"
        "```\n\n## Procedure\n\n```%s\nhazard: The same words for "
        "all.\nconsequence: They say nothing.\navoidance: Read "
        "them.\n```\n\n1. Look "
        "at it.\n",
        word);
    assert_true(command_write(path_in(l, name), text_of(text)));
    expect_status(l, bayleaf(l, "build", word, NULL), 0);
    const char *argv[] = {"pdftoppm",
                          "-gray",
                          "-r",
                          "72",
                          path_in(l, arena_printf(a, "build/%s.pdf", word)),
                          path_in(l, word),
                          NULL};
    assert_int_equal(command_run(argv, ".", l->out, l->err), 0);
    /* The panel stands on the last page but those of the records. */
    for (int page = 1; page < 4; page++) {
        const char *path = path_in(l, arena_printf(a, "%s-%d.pgm", word, page));
        struct text t = command_read(a, path);
        int width, height, most, from = 0;
        if (t.start == NULL)
            break;
        assert_int_equal(
            sscanf(t.start, "P5 %d %d %d%n", &width, &height, &most, &from), 3);
        const char *back[] = {"pdftotext",
                              "-bbox",
                              "-f",
                              arena_printf(a, "%d", page),
                              "-l",
                              arena_printf(a, "%d", page),
                              path_in(l, arena_printf(a, "build/%s.pdf", word)),
                              "-",
                              NULL};
        assert_int_equal(command_run(back, ".", l->out, l->err), 0);
        /* The safety summary says it first. */
        const char *all = output(l), *same = NULL, *at = all;
        while ((at = strstr(at, ">same<")) != NULL)
            same = at++;
        at = same;
        while (at != NULL && at > all && strncmp(at, "yMin=", 5) != 0)
            at--;
        if (same != NULL)
            return (struct picture){width, height, (int)strtod(at + 6, NULL),
                                    (const unsigned char *)t.start + from + 1};
    }
    fail_msg("no page of %s has the panel", word);
    return (struct picture){0, 0, 0, NULL};
}

enum { ABOVE = 24, BELOW = 40 }; /* of the first line: band and border */

/* Pixels of the panels that differ by more than a copier blurs. */
static size_t differing(const struct picture *a, const struct picture *b) {
    size_t count = 0;
    for (int y = -ABOVE; y < BELOW; y++)
        for (int x = 0; x < a->width; x++)
            count += abs((int)a->pixel[(a->top + y) * a->width + x] -
                         (int)b->pixel[(b->top + y) * b->width + x]) > 60;
    return count;
}

static void test_told_apart(void **state) {
    (void)state;
    struct library l = library_new("panels");
    struct picture p[WORDS];
    for (int i = 0; i < WORDS; i++)
        p[i] = rendered(&l, words[i]);
    for (int i = 0; i < WORDS; i++)
        for (int k = 0; k < i; k++) {
            assert_int_equal(p[i].width, p[k].width);
            assert_int_equal(p[i].height, p[k].height);
            size_t count = differing(&p[i], &p[k]);
            /* The word itself is some 300 of them; border, band and hatch are
             * to differ, too. */
            if (count < 900)
                fail_msg("%s and %s differ in %zu pixels only", words[i],
                         words[k], count);
        }
    arena_free(l.arena);
}

int main(void) {
    if (!library_room())
        return 3;
    const struct CMUnitTest tests[] = {cmocka_unit_test(test_told_apart)};
    return cmocka_run_group_tests_name("grey", tests, NULL, NULL);
}
