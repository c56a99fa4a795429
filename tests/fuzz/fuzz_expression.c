/* fuzz_expression.c - any bytes as the value of a definition: literals, units,
 * tolerances, expressions. What is accepted must be finite, its ends in order,
 * and print as a number. */
#include "base/arena.h"
#include "base/diag.h"
#include "source/read.h"
#include "stages.h"
#include "values/figure.h"
#include "values/range.h"
#include "values/values.h"

#include <math.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

static void check_value(struct arena *a, const struct value *value) {
    if (value->type != VALUE_QUANTITY)
        return;
    const struct quantity *q = value->quantity;
    struct ends e = range_ends(q);
    if (!isfinite(q->nominal) || !isfinite(e.low) || !isfinite(e.high))
        abort();
    double slack = 1e-9 * (fabs(e.low) + fabs(e.high)) + 1e-300;
    if (q->nominal < e.low - slack || q->nominal > e.high + slack)
        abort();
    const char *text = figure_both(a, q, FIGURE_RANGE);
    if (strstr(text, "nan") != NULL || strstr(text, "inf") != NULL)
        abort();
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size) {
    struct compile c = {
        .arena = arena_new(), .single = true, .library = "/nonexistent"};
    c.diags = diag_new(c.arena);
    struct buf b = buf_in(c.arena);
    buf_puts(&b, "# Try\n\n```guide\nid: T\nrevision: 1\nstatus: draft\n```\n\n"
                 "```values\nrun = 3 m ± 0.1 m\nheat = 45 degC\n"
                 "joint = 0.05 ohm to 10 ohm\nlamp = 2 ohm\ntried = ");
    for (size_t i = 0; i < size && i < 2000; i++) {
        char one = (char)data[i];
        buf_add(&b, one == '\n' || one == '\r' || one == '`' ? " " : &one, 1);
    }
    buf_puts(&b, "\n```\n");
    const struct guide *g = source_read_text(&c, "fuzz.md", buf_as_text(&b));
    const struct values *v = values_evaluate(&c, g);
    for (size_t i = 0; i < values_count(v); i++)
        check_value(c.arena, &values_at(v, i)->by_variant[0]);
    FILE *out = fopen("/dev/null", "w");
    if (out != NULL) {
        diag_print(c.diags, out, false);
        fclose(out);
    }
    arena_free(c.arena);
    return 0;
}
