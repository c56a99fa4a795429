/* tutorial.c - docs/tutorial.md followed to the letter.
 *
 * What stands behind `$` is run, and the lines below it are compared with what
 * it says; "..." stands for any text. Where the page says to change something
 * to something else, that is done to the guide that it is about. */
#include "support/command.h"
#include "support/page.h"

#include <limits.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

#include <cmocka.h>

#define ROOM BUILD "/tutorial"
#define GUIDE "procedures/cabin-lamp.md"

struct reader {
    struct arena *arena;
    const char *folder; /* where the reader is */
    int status;         /* of the last command: echo $? */
    struct text change; /* what is to be changed, once it was read */
    size_t commands, changes;
};

/* --- answers --- */

/* Like the text of the page: a blank for U+00A0. */
static const char *plain(struct arena *a, struct text t) {
    struct buf b = buf_in(a);
    for (size_t i = 0; i < t.len; i++) {
        bool space =
            t.start[i] == '\xC2' && i + 1 < t.len && t.start[i + 1] == '\xA0';
        buf_add(&b, space ? " " : t.start + i, 1);
        i += space;
    }
    return buf_cstr(&b);
}

/* Whether `said` is `wanted`, in which "..." stands for any text. */
static bool matches(const char *wanted, const char *said) {
    const char *dots = strstr(wanted, "...");
    if (dots == NULL)
        return strcmp(wanted, said) == 0;
    size_t len = (size_t)(dots - wanted);
    if (strncmp(wanted, said, len) != 0)
        return false;
    for (const char *rest = said + len;; rest++) {
        if (matches(dots + 3, rest))
            return true;
        if (*rest == '\0')
            return false;
    }
}

static const char *run(struct reader *r, const char *command) {
    const char *out = ROOM "/answer";
    if (strcmp(command, "echo $?") == 0)
        return arena_printf(r->arena, "%d\n", r->status);
    const char *argv[] = {"sh", "-c", command, NULL};
    /* One file for both outputs, as on a terminal. */
    r->status = command_run(argv, r->folder, out, ROOM "/messages");
    struct buf b = buf_in(r->arena);
    buf_text(&b, command_read(r->arena, ROOM "/messages"));
    buf_text(&b, command_read(r->arena, out));
    return plain(r->arena, buf_as_text(&b));
}

static void follow_command(struct reader *r, struct text line,
                           struct text wanted) {
    const char *command = text_cstr(r->arena, text_part(line, 2, line.len));
    r->commands++;
    if (strncmp(command, "cd ", 3) == 0) {
        r->folder = arena_printf(r->arena, "%s/%s", r->folder, command + 3);
        return;
    }
    const char *said = run(r, command);
    if (!matches(text_cstr(r->arena, wanted), said))
        fail_msg("$ %s\nthe page says:\n%.*sthe program:\n%s", command,
                 (int)wanted.len, wanted.start, said);
}

static void follow_transcript(struct reader *r, struct text t) {
    for (size_t at = 0; at < t.len;) {
        struct text line = page_line(t, &at);
        size_t from = at;
        while (at < t.len && !text_starts(text_part(t, at, t.len), "$ "))
            page_line(t, &at);
        follow_command(r, line, text_part(t, from, at));
    }
}

/* --- changes --- */

static void apply(struct reader *r, struct text to) {
    const char *path = arena_printf(r->arena, "%s/" GUIDE, r->folder);
    struct text guide = command_read(r->arena, path);
    const char *from = text_cstr(r->arena, r->change);
    assert_non_null(guide.start);
    const char *at = strstr(guide.start, from);
    if (at == NULL || strstr(at + 1, from) != NULL)
        fail_msg("the guide does not hold this once:\n%s", from);
    struct buf b = buf_in(r->arena);
    buf_add(&b, guide.start, (size_t)(at - guide.start));
    buf_text(&b, to);
    buf_puts(&b, at + r->change.len);
    assert_true(command_write(path, buf_as_text(&b)));
    r->change = (struct text){NULL, 0};
    r->changes++;
}

static bool ends_with(struct text t, const char *word) {
    size_t len = strlen(word);
    return t.len >= len && text_is(text_part(t, t.len - len, t.len), word);
}

static void follow(struct reader *r, const struct snippet *s) {
    if (text_starts(s->above, "<!-- by hand"))
        return;
    if (text_starts(s->text, "$ "))
        follow_transcript(r, s->text);
    else if (ends_with(s->above, "hange"))
        r->change = s->text;
    else if (text_is(s->above, "to") && r->change.start != NULL)
        apply(r, s->text);
    else
        fail_msg("neither a command nor a change:\n%.*s", (int)s->text.len,
                 s->text.start);
}

static void test_the_tutorial_holds(void **state) {
    (void)state;
    struct reader r = {.arena = arena_new(), .folder = ROOM};
    const char *empty[] = {"rm", "-rf", ROOM, NULL};
    assert_int_equal(command_run(empty, ".", "/dev/null", "/dev/null"), 0);
    assert_int_equal(mkdir(ROOM, 0777), 0);
    struct text page = command_read(r.arena, "docs/tutorial.md");
    assert_non_null(page.start);
    struct snippets s = page_snippets(r.arena, page);
    for (size_t i = 0; i < s.count; i++)
        follow(&r, &s.list[i]);
    assert_null(r.change.start);
    assert_true(r.commands > 8);
    assert_true(r.changes > 3);
    arena_free(r.arena);
}

int main(void) {
    char path[2 * PATH_MAX], here[PATH_MAX - 64];
    if (getcwd(here, sizeof here) == NULL)
        return 3;
    const char *old = getenv("PATH");
    snprintf(path, sizeof path, "%s/" BUILD ":%s", here,
             old == NULL ? "/bin:/usr/bin" : old);
    setenv("PATH", path, 1);
    setenv("ASAN_OPTIONS", "exitcode=99", 0);
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_the_tutorial_holds),
    };
    return cmocka_run_group_tests_name("tutorial", tests, NULL, NULL);
}
