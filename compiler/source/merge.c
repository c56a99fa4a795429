/* merge.c - marks that a merge of two versions left in a source. */
#include "source/merge.h"

#include "base/diag.h"

enum { SIGNS = 7 }; /* common practice of the tools that merge, no source */

static bool is_mark(struct text line) {
    size_t n = 0;
    while (n < line.len && line.start[n] == line.start[0])
        n++;
    return n == SIGNS && (line.start[0] == '<' || line.start[0] == '>') &&
           (line.len == n || line.start[n] == ' ' || line.start[n] == '\r');
}

bool merge_check(struct diags *d, const struct source *src) {
    for (size_t i = 1; i <= src->line_count; i++) {
        struct text line = place_line(src, i);
        if (!is_mark(line))
            continue;
        diag_add(d, DIAG_MERGE_OPEN, place_of(src, line),
                 "keep one of the two versions, and delete the marks around "
                 "them");
        return false;
    }
    return true;
}
