/* test_bytes.c - the file as bytes: the same each time, or none at all, with
 * one message. */
#include "print/object.h"
#include "print/print.h"
#include "unit/print/sheet.h"

#include <math.h>
#include <pthread.h>
#include <sha256.h>

static void test_two_runs_give_the_same_bytes(void **state) {
    (void)state;
    struct sheet *a = complete_sheet(), *b = complete_sheet(),
                 *c = complete_sheet();
    c->pages->page[1].ops[0].y += 0.01;
    print_sheet(a);
    print_sheet(b);
    print_sheet(c);
    assert_int_equal(a->len, b->len);
    assert_memory_equal(a->bytes, b->bytes, a->len);
    assert_true(a->len != c->len || memcmp(a->bytes, c->bytes, a->len) != 0);
    sheet_free(a);
    sheet_free(b);
    sheet_free(c);
}

static void test_the_id_is_the_hash(void **state) {
    (void)state;
    struct sheet *s = complete_sheet();
    print_sheet(s);
    char *copy = arena_copy(s->arena, (const char *)s->bytes, s->len);
    char *id = copy + s->len;
    while (strncmp(id, "/ID[<", 5) != 0)
        id--;
    char first[33] = {0}, sum[SHA256_DIGEST_STRING_LENGTH];
    memcpy(first, id + 5, 32);
    assert_memory_equal(id + 5 + 34, first, 32);
    memset(id + 5, '0', 32);
    memset(id + 5 + 34, '0', 32);
    SHA256Data((const uint8_t *)copy, s->len, sum);
    assert_memory_equal(first, sum, 32);
    sheet_free(s);
}

static const char *messages(struct sheet *s) {
    char *bytes = NULL;
    size_t len = 0;
    FILE *out = open_memstream(&bytes, &len);
    diag_print(s->compile.diags, out, false);
    fclose(out);
    const char *copy = arena_copy(s->arena, bytes, len);
    free(bytes);
    return copy;
}

static void assert_refused(struct sheet *s, const char *words) {
    size_t len = 0;
    assert_null(print_pdf(&s->compile, s->pages, &len));
    assert_int_equal(diag_count(s->compile.diags, LEVEL_WARNING), 1);
    assert_int_equal(diag_status(s->compile.diags), LEVEL_SYSTEM);
    const char *said = messages(s);
    if (strstr(said, words) == NULL)
        fail_msg("not said: %s\n%s", words, said);
    sheet_free(s);
}

static void test_bad_pages_are_refused(void **state) {
    (void)state;
    assert_refused(sheet_new(), "there are no pages");
    struct sheet *s = complete_sheet();
    s->pages->page[1].ops[0].x = NAN;
    assert_refused(s, "page 2, text 'Run 8 AWG red, 2.6 m.': a number is not "
                      "finite or beyond 32767 pt");
    s = complete_sheet();
    s->pages->page[0].ops[2].height = 1e9;
    assert_refused(s, "page 1, rectangle: a number");
    s = complete_sheet();
    s->pages->page[1].ops[5].width = 1e9;
    assert_refused(s, "page 2, image: a number");
    s = complete_sheet();
    s->pages->page[1].height = INFINITY;
    assert_refused(s, "page 2: its size is not finite");
    s = complete_sheet();
    s->pages->page[1].ops[3].page = 2;
    assert_refused(s, "page 2: a link leads to a page that is not there");
    s = complete_sheet();
    s->pages->page[1].ops[3].page = -1;
    assert_refused(s, "page 2: a link leads to a page that is not there");
    s = complete_sheet();
    s->pages->page[0].ops[3].target_y = NAN;
    assert_refused(s, "page 1: a link's place");
    s = complete_sheet();
    s->pages->page[0].ops[4].width = NAN;
    assert_refused(s, "page 1: a link's place");
    s = complete_sheet();
    s->pages->outline[1].page = 2;
    assert_refused(s, "outline: a link leads to a page");
    s = complete_sheet();
    s->pages->outline[1].y = INFINITY;
    assert_refused(s, "outline: a link's place");
}

static void test_a_failure_of_libharu_is_put_in_words(void **state) {
    (void)state;
    struct sheet *s = complete_sheet();
    s->pages->page[1].width = 20000;
    assert_refused(s, "cannot make the PDF: a page must measure 3 to 14400 pt");
    s = complete_sheet();
    s->pages->page[0].height = 1;
    assert_refused(s, "cannot make the PDF: a page must measure 3 to 14400 pt");
}

/* Memory that runs out at the n-th request, and what is left of it. */
enum { PIECES = 20000 };
static struct {
    long left;
    void *piece[PIECES];
    size_t count;
} memory;

static void *take(unsigned size) {
    if (memory.left-- <= 0 || memory.count == PIECES)
        return NULL;
    return memory.piece[memory.count++] = malloc(size);
}

static void give(void *piece) {
    for (size_t i = memory.count; i-- > 0;) {
        if (memory.piece[i] != piece)
            continue;
        memory.piece[i] = memory.piece[--memory.count];
        break;
    }
    free(piece);
}

static void test_no_memory_is_said_once(void **state) {
    static const struct object_memory scarce = {take, give};
    (void)state;
    long failures = 0, named = 0;
    for (long n = 0;; n++) {
        struct sheet *s = complete_sheet();
        size_t len = 0;
        memory.left = n;
        memory.count = 0;
        const unsigned char *bytes =
            print_pdf_in(&s->compile, s->pages, &len, &scarce);
        while (memory.count > 0)
            free(memory.piece[--memory.count]);
        if (bytes == NULL) {
            assert_int_equal(diag_count(s->compile.diags, LEVEL_WARNING), 1);
            failures++;
            named += strstr(messages(s), "no memory left") != NULL;
        }
        sheet_free(s);
        if (bytes != NULL)
            break;
    }
    /* Seldom libharu says only what it could not do for want of memory. */
    assert_true(failures > 200);
    assert_true(named > failures * 9 / 10);
}

enum { PER_THREAD = 20 };

static void *print_many(void *serial) {
    const struct sheet *wanted = serial;
    for (int i = 0; i < PER_THREAD; i++) {
        struct sheet *s = complete_sheet();
        size_t len = 0;
        const unsigned char *bytes = print_pdf(&s->compile, s->pages, &len);
        bool same = bytes != NULL && len == wanted->len &&
                    memcmp(bytes, wanted->bytes, len) == 0;
        sheet_free(s);
        if (!same)
            return serial;
    }
    return NULL;
}

static void test_two_threads_equal_one(void **state) {
    (void)state;
    struct sheet *serial = complete_sheet();
    print_sheet(serial);
    pthread_t threads[2];
    for (int i = 0; i < 2; i++)
        assert_int_equal(pthread_create(&threads[i], NULL, print_many, serial),
                         0);
    for (int i = 0; i < 2; i++) {
        void *different;
        assert_int_equal(pthread_join(threads[i], &different), 0);
        assert_null(different);
    }
    sheet_free(serial);
}

/* What a dump says prints as the pages that it was made of. */
static void test_a_replayed_dump_prints_the_same(void **state) {
    (void)state;
    struct sheet *s = complete_sheet();
    print_sheet(s);
    char *bytes = NULL;
    size_t size = 0, line, len;
    FILE *out = open_memstream(&bytes, &size);
    display_write(s->pages, true, out);
    fclose(out);
    const struct pages *again =
        display_read(s->arena, (struct text){bytes, size}, &line);
    assert_non_null(again);
    const unsigned char *replayed = print_pdf(&s->compile, again, &len);
    assert_int_equal(len, s->len);
    assert_memory_equal(replayed, s->bytes, len);
    free(bytes);
    sheet_free(s);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_two_runs_give_the_same_bytes),
        cmocka_unit_test(test_the_id_is_the_hash),
        cmocka_unit_test(test_bad_pages_are_refused),
        cmocka_unit_test(test_a_failure_of_libharu_is_put_in_words),
        cmocka_unit_test(test_no_memory_is_said_once),
        cmocka_unit_test(test_two_threads_equal_one),
        cmocka_unit_test(test_a_replayed_dump_prints_the_same),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
