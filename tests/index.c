/* index.c - only what changed is built again: build/index.txt. */
#define ROOM BUILD "/index"

#include "support/library.h"

#include <sys/stat.h>

#define INDEX "build/index.txt"

/* The guides that a build of all did not find as they were, as one line. */
static const char *built(const struct library *l) {
    expect_status(l, bayleaf(l, "build", NULL, NULL), 0);
    struct buf b = buf_in(l->arena);
    char *line = arena_copy(l->arena, output(l), strlen(output(l)));
    for (char *at = line; *at != '\0';) {
        char *end = at + strcspn(at, "\n");
        if (*end != '\0')
            *end++ = '\0';
        if (strstr(at, ", as it was") == NULL) {
            const char *name = at + strlen("build/");
            buf_add(&b, name, strcspn(name, "."));
            buf_puts(&b, " ");
        }
        at = end;
    }
    return buf_cstr(&b);
}

static void expect_built(const struct library *l, const char *wanted) {
    assert_string_equal(built(l), wanted);
}

#define ALL                                                                    \
    "charge-cable headlamp-relay house-battery-feed trailer-plug "             \
    "water-pump-circuit wheel-fitting "

/* Long ago: what is as new as the index is looked at more closely. */
static void age(const struct library *l) {
    const char *argv[] = {"sh", "-c",
                          "find procedures templates -exec touch -d "
                          "'2025-01-01' {} +",
                          NULL};
    assert_int_equal(command_run(argv, l->folder, l->out, l->err), 0);
}

static void test_nothing_changed(void **state) {
    (void)state;
    struct library l = library_new("nothing");
    age(&l);
    expect_built(&l, ALL);
    struct stat before, after;
    assert_int_equal(stat(path_in(&l, "build/wheel-fitting.pdf"), &before), 0);
    struct text index = command_read(l.arena, path_in(&l, INDEX));
    expect_built(&l, "");
    assert_int_equal(stat(path_in(&l, "build/wheel-fitting.pdf"), &after), 0);
    assert_true(before.st_ino == after.st_ino);
    assert_true(text_equal(index, command_read(l.arena, path_in(&l, INDEX))));
    /* Files that are touched are looked at, and are as they were. */
    const char *touch[] = {"sh", "-c", "touch procedures/*.md templates/*",
                           NULL};
    assert_int_equal(command_run(touch, l.folder, l.out, l.err), 0);
    expect_built(&l, "");
    arena_free(l.arena);
}

/* Each sort of input, and the guides that use it and no other. */
static void test_what_uses_it(void **state) {
    (void)state;
    struct library l = library_new("uses");
    expect_built(&l, ALL);
    edit(&l, "procedures/facts/fen-water.md", "6.5 A ± 0.5 A", "6.4 A ± 0.5 A");
    expect_built(&l, "water-pump-circuit ");
    edit(&l, "procedures/facts/fen-water.md", "13.4 V to 14.4 V",
         "13.4 V to 14.5 V");
    expect_built(&l, "house-battery-feed water-pump-circuit ");
    edit(&l, "procedures/shared/crimp-and-prove.md", "cut no strand",
         "nick no strand");
    expect_built(&l, "headlamp-relay trailer-plug water-pump-circuit ");
    edit(&l, "procedures/wheel-fitting.md", "tyre specialist", "tyre workshop");
    expect_built(&l, "wheel-fitting ");
    edit(&l, "templates/shop.md", "## Close-up", "## Before you go");
    /* The others have none. */
    expect_built(&l, "headlamp-relay wheel-fitting ");
    edit(&l, "templates/shop.md", "step size: 12", "step size: 13");
    expect_built(&l, ALL);
    assert_int_equal(remove(path_in(&l, "templates/shop.md")), 0);
    expect_built(&l, ALL);
    expect_built(&l, "");
    arena_free(l.arena);
}

static void test_issued_and_images(void **state) {
    (void)state;
    struct library l = library_new("issued");
    expect_built(&l, ALL);
    expect_status(&l, bayleaf(&l, "issue", "headlamp-relay", NULL), 0);
    expect_built(&l, ""); /* issue prints it itself */
    const char *swap[] = {"sh", "-c",
                          "cp procedures/figures/relay.png x.png && "
                          "printf x >> procedures/figures/relay.png",
                          NULL};
    assert_int_equal(command_run(swap, l.folder, l.out, l.err), 0);
    expect_built(&l, ""); /* what stands behind an image does not print */
    edit(&l, "procedures/headlamp-relay.md", "figures/relay.png",
         "figures/relais.png");
    expect_status(&l, bayleaf(&l, "build", NULL, NULL), 2);
    arena_free(l.arena);
}

/* A comment prints nothing: the guides that use it are computed again, and none
 * is another one. */
static void test_comment(void **state) {
    (void)state;
    struct library l = library_new("comment");
    expect_built(&l, ALL);
    edit(&l, "procedures/facts/shop.md", "conductor: AWG stranded",
         "conductor: AWG stranded\n# as the drum says");
    expect_built(&l, "");
    arena_free(l.arena);
}

/* What was built by itself says nothing of others that use the same facts. */
static void test_one_of_them(void **state) {
    (void)state;
    struct library l = library_new("one");
    expect_built(&l, ALL);
    edit(&l, "procedures/facts/fen-water.md", "13.4 V to 14.4 V",
         "13.4 V to 14.5 V");
    expect_status(&l, bayleaf(&l, "build", "house-battery-feed", NULL), 0);
    expect_built(&l, "water-pump-circuit ");
    expect_built(&l, "");
    arena_free(l.arena);
}

/* One that is refused, or asks, is built each time and says so each time. */
static void test_messages_come_again(void **state) {
    (void)state;
    struct library l = library_new("messages");
    expect_built(&l, ALL);
    edit(&l, "procedures/wheel-fitting.md", "status: released",
         "status: draft");
    edit(&l, "procedures/wheel-fitting.md", "It does not cover tyres",
         "Keep 3 m away. It does not cover tyres");
    for (int i = 0; i < 3; i++) {
        expect_status(&l, bayleaf(&l, "build", NULL, NULL), 0);
        assert_non_null(strstr(messages(&l), "bare number"));
    }
    edit(&l, "procedures/wheel-fitting.md", "Keep 3 m away", "Keep {3 V < m}");
    for (int i = 0; i < 2; i++) {
        expect_status(&l, bayleaf(&l, "build", NULL, NULL), 2);
        assert_false(there(&l, "build/wheel-fitting.pdf"));
    }
    arena_free(l.arena);
}

/* An index that cannot be read counts for nothing, and is written anew. */
static void test_damaged_index(void **state) {
    (void)state;
    struct library l = library_new("damaged");
    expect_built(&l, ALL);
    struct text good = command_read(l.arena, path_in(&l, INDEX));
    /* The PDFs are another program's, so that a new build shows. */
    for (size_t cut = 0; cut < good.len; cut += good.len / 9 + 1) {
        struct text part = {good.start, cut};
        assert_true(command_write(path_in(&l, INDEX), part));
        assert_true(command_write(path_in(&l, "build/wheel-fitting.pdf"),
                                  text_of("no PDF")));
        expect_built(&l, "wheel-fitting ");
        assert_string_equal(messages(&l), "");
    }
    assert_true(command_write(path_in(&l, INDEX),
                              text_of("bayleaf index, form 2\nend\n")));
    expect_built(&l, "");
    assert_true(text_starts(command_read(l.arena, path_in(&l, INDEX)),
                            "bayleaf index, form 4\n"));
    /* One figure of it is another, as a disk may leave it: not believed. */
    const char *swap[] = {"sh", "-c", "sed -i 's/^guide 4 /guide 7 /' " INDEX,
                          NULL};
    assert_int_equal(command_run(swap, l.folder, l.out, l.err), 0);
    expect_built(&l, "");
    assert_non_null(strstr(output(&l), "wheel-fitting.pdf  4 pages"));
    /* A PDF that was taken away, or is not the one that was built. */
    assert_int_equal(remove(path_in(&l, "build/wheel-fitting.pdf")), 0);
    expect_built(&l, "wheel-fitting ");
    assert_true(command_write(path_in(&l, "build/wheel-fitting.pdf"),
                              text_of("no PDF")));
    expect_built(&l, "wheel-fitting ");
    arena_free(l.arena);
}

/* 40 guides, a fact of some of them. */
static void test_one_fact_of_many(void **state) {
    (void)state;
    struct library l = library_new("many");
    static const char *const stems[] = {"charge-cable",       "headlamp-relay",
                                        "house-battery-feed", "trailer-plug",
                                        "water-pump-circuit", "wheel-fitting"};
    const char *copy[] = {
        "sh", "-c",
        "cd procedures; i=10; for g in $(ls *.md); do for n in 1 2 3 4 5 6; do "
        "test $i -lt 44 && sed \"s/^id: .*/id: ZZ-$i/\" $g >z$i-$g; "
        "i=$((i + 1)); done; done; test $(ls *.md | wc -l) = 40",
        NULL};
    assert_int_equal(command_run(copy, l.folder, l.out, l.err), 0);
    struct buf wanted = buf_in(l.arena);
    buf_puts(&wanted, "house-battery-feed water-pump-circuit ");
    for (int i = 10; i < 44; i++) {
        const char *stem = stems[(i - 10) / 6];
        if (strcmp(stem, stems[2]) == 0 || strcmp(stem, stems[4]) == 0)
            buf_printf(&wanted, "z%d-%s ", i, stem);
    }
    expect_status(&l, bayleaf(&l, "build", NULL, NULL), 0);
    edit(&l, "procedures/facts/fen-water.md", "13.4 V to 14.4 V",
         "13.4 V to 14.5 V");
    expect_built(&l, buf_cstr(&wanted));
    expect_built(&l, "");
    /* The register names the same. */
    expect_status(&l, bayleaf(&l, "register", NULL, NULL), 0);
    const char *at = strstr(output(&l), "\n  house.charging = ");
    assert_non_null(at);
    struct buf named = buf_in(l.arena);
    for (at = strchr(at + 1, '\n'); strncmp(at, "\n    ", 5) == 0;
         at = strchr(at + 1, '\n')) {
        buf_add(&named, at + 5, strcspn(at + 5, ":"));
        buf_puts(&named, " ");
    }
    assert_string_equal(buf_cstr(&named), buf_cstr(&wanted));
    arena_free(l.arena);
}

/* What other templates and other vehicles were given goes with the words that
 * it has; what is as new as the guide stays. */
static void test_other_prints(void **state) {
    (void)state;
    struct library l = library_new("prints");
    age(&l);
    const char *name = "wheel-fitting";
    expect_status(&l, bayleaf(&l, "build", name, NULL), 0);
    const char *bench[] = {program, "build", "--template", "bench", name, NULL};
    const char *one[] = {program, "build", "--for", "mark 3", name, NULL};
    const char *both[] = {program,      "build", "--for", "mark 3",
                          "--template", "bench", name,    NULL};
    assert_int_equal(command_run(bench, l.folder, l.out, l.err), 0);
    assert_int_equal(command_run(one, l.folder, l.out, l.err), 0);
    assert_int_equal(command_run(both, l.folder, l.out, l.err), 0);
    assert_string_equal(messages(&l), "");
    /* Another look of one of them says nothing about the others. */
    edit(&l, "templates/bench.md", "size: 14", "size: 13");
    assert_int_equal(command_run(bench, l.folder, l.out, l.err), 0);
    assert_string_equal(messages(&l), "");
    edit(&l, "procedures/wheel-fitting.md", "tyre specialist", "tyre workshop");
    assert_int_equal(command_run(bench, l.folder, l.out, l.err), 0);
    assert_non_null(strstr(messages(&l),
                           "wheel-fitting.md was changed since "
                           "build/wheel-fitting.mark-3.pdf was printed, which "
                           "is now build/withdrawn/wheel-fitting.mark-3.pdf"));
    assert_true(there(&l, "build/withdrawn/wheel-fitting.pdf"));
    assert_true(there(&l, "build/withdrawn/wheel-fitting.mark-3.pdf"));
    assert_true(there(&l, "build/withdrawn/wheel-fitting.mark-3.bench.pdf"));
    assert_true(there(&l, "build/wheel-fitting.bench.pdf"));
    expect_status(&l, bayleaf(&l, "build", name, NULL), 0);
    assert_string_equal(messages(&l), "");
    assert_true(there(&l, "build/wheel-fitting.bench.pdf"));
    arena_free(l.arena);
}

/* A guide that is refused is so for every print of it, also where only that for
 * one vehicle was asked for; a vehicle that it is not for says nothing of it.
 */
static void test_refused_for_one(void **state) {
    (void)state;
    struct library l = library_new("refused-for-one");
    const char *name = "wheel-fitting";
    const char *one[] = {program, "build", "--for", "mark 3", name, NULL};
    const char *none[] = {program, "build", "--for", "mark 9", name, NULL};
    expect_status(&l, bayleaf(&l, "build", name, NULL), 0);
    assert_int_equal(command_run(one, l.folder, l.out, l.err), 0);
    assert_int_equal(command_run(none, l.folder, l.out, l.err), 2);
    assert_true(there(&l, "build/wheel-fitting.pdf"));
    edit(&l, "procedures/wheel-fitting.md", "```guide", "```guidance");
    assert_int_equal(command_run(one, l.folder, l.out, l.err), 2);
    assert_false(there(&l, "build/wheel-fitting.mark-3.pdf"));
    assert_false(there(&l, "build/wheel-fitting.pdf"));
    assert_true(there(&l, "build/withdrawn/wheel-fitting.pdf"));
    arena_free(l.arena);
}

/* Deleted, or renamed: no guide says what its PDF says. */
static void test_gone(void **state) {
    (void)state;
    struct library l = library_new("gone");
    expect_built(&l, ALL);
    const char *bench[] = {program, "build",         "--template",
                           "bench", "wheel-fitting", NULL};
    assert_int_equal(command_run(bench, l.folder, l.out, l.err), 0);
    const char *move[] = {"mv", "procedures/wheel-fitting.md",
                          "procedures/wheels.md", NULL};
    assert_int_equal(command_run(move, l.folder, l.out, l.err), 0);
    expect_built(&l, "wheels ");
    assert_non_null(strstr(messages(&l),
                           "procedures/wheel-fitting.md is no longer there; "
                           "its PDF is now build/withdrawn/wheel-fitting.pdf"));
    assert_true(there(&l, "build/withdrawn/wheel-fitting.bench.pdf"));
    assert_false(there(&l, "build/wheel-fitting.pdf"));
    assert_true(there(&l, "build/wheels.pdf"));
    expect_built(&l, "");
    assert_string_equal(messages(&l), "");
    arena_free(l.arena);
}

int main(void) {
    if (!library_room())
        return 3;
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_nothing_changed),
        cmocka_unit_test(test_what_uses_it),
        cmocka_unit_test(test_issued_and_images),
        cmocka_unit_test(test_comment),
        cmocka_unit_test(test_one_of_them),
        cmocka_unit_test(test_messages_come_again),
        cmocka_unit_test(test_damaged_index),
        cmocka_unit_test(test_one_fact_of_many),
        cmocka_unit_test(test_other_prints),
        cmocka_unit_test(test_refused_for_one),
        cmocka_unit_test(test_gone),
    };
    return cmocka_run_group_tests_name("index", tests, NULL, NULL);
}
