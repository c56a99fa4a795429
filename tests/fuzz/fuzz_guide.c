/* fuzz_guide.c - any bytes as a guide, through every stage that it reaches: a
 * wrong one is refused with a message, a right one becomes a PDF. */
#include "base/arena.h"
#include "base/diag.h"
#include "source/read.h"
#include "stages.h"

#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

/* The facts of the golden guides are within reach of `uses: bench`. */
int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size) {
    struct compile c = {.arena = arena_new(), .library = "tests/golden"};
    c.diags = diag_new(c.arena);
    const char *copy = arena_copy(c.arena, (const char *)data, size);
    struct guide *g =
        source_read_text(&c, "fuzz.md", (struct text){copy, size});
    struct values *v = values_evaluate(&c, g);
    struct findings *f = v == NULL ? NULL : checks_run(&c, g, v);
    if (f != NULL && diag_status(c.diags) == 0) {
        struct pages *p = layout_pages(&c, g, v, f);
        size_t len = 0;
        const unsigned char *pdf = p == NULL || diag_status(c.diags) != 0
                                       ? NULL
                                       : print_pdf(&c, p, &len);
        /* Silence and no file is what must not happen. */
        if (diag_status(c.diags) == 0 &&
            (pdf == NULL || len < 5 || memcmp(pdf, "%PDF-", 5) != 0))
            abort();
    }
    FILE *out = fopen("/dev/null", "w");
    if (out != NULL) {
        diag_print(c.diags, out, false);
        fclose(out);
    }
    arena_free(c.arena);
    return 0;
}
