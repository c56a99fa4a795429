/* bench.h - a guide in memory, evaluated: for tests of values and checks.
 *
 * A header of static functions: each test program is one source file. */
#ifndef VALUES_BENCH_H
#define VALUES_BENCH_H

#include "base/arena.h"
#include "base/diag.h"
#include "calc/size.h"
#include "source/read.h"
#include "source/tree.h"
#include "stages.h"
#include "values/model.h"
#include "values/range.h"
#include "values/requirement.h"
#include "values/values.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

struct guide_bench {
    struct compile c;
    struct guide *guide;
    struct values *values;
};

/* The text stands behind a `guide` block; `facts` are those of
 * tests/golden/procedures/facts, or NULL. */
static struct guide_bench bench_open_using(const char *facts,
                                           const char *text) {
    struct guide_bench b = {0};
    b.c.arena = arena_new();
    b.c.diags = diag_new(b.c.arena);
    b.c.library = "tests/golden";
    const char *whole = arena_printf(
        b.c.arena,
        "# Try a value\n\n```guide\nid: T-1\nrevision: 1\nstatus: draft\n"
        "%s%s\n```\n\n%s\n",
        facts == NULL ? "" : "uses: ", facts == NULL ? "" : facts, text);
    b.guide = source_read_text(&b.c, "bench.md", text_of(whole));
    b.values = values_evaluate(&b.c, b.guide);
    return b;
}

__attribute__((unused)) static struct guide_bench bench_open(const char *text) {
    return bench_open_using(NULL, text);
}

static void bench_close(struct guide_bench *b) {
    arena_free(b->c.arena);
}

/* All messages as one text. */
static const char *bench_messages(struct guide_bench *b) {
    char *text = NULL;
    size_t len = 0;
    FILE *out = open_memstream(&text, &len);
    assert_non_null(out);
    diag_print(b->c.diags, out, false);
    fclose(out);
    const char *copy = arena_copy(b->c.arena, text, len);
    free(text);
    return copy;
}

__attribute__((unused)) static void bench_expect_quiet(struct guide_bench *b) {
    if (diag_count(b->c.diags, LEVEL_WARNING) > 0)
        fail_msg("%s", bench_messages(b));
}

__attribute__((unused)) static const struct value *
bench_value(struct guide_bench *b, const char *name, size_t variant) {
    for (size_t i = 0; i < values_count(b->values); i++)
        if (text_is(values_at(b->values, i)->name, name)) {
            b->values->c = &b->c; /* the bench has moved since */
            values_demand(b->values, i);
            return &values_at(b->values, i)->by_variant[variant];
        }
    fail_msg("no value '%s'; %s", name, bench_messages(b));
    return NULL;
}

__attribute__((unused)) static const struct quantity *
bench_quantity(struct guide_bench *b, const char *name) {
    const struct value *v = bench_value(b, name, 0);
    if (v->type != VALUE_QUANTITY)
        fail_msg("'%s' is no quantity; %s", name, bench_messages(b));
    return v->quantity;
}

#endif
