/* fuzz_block.c - any bytes as the lines of a block. The first byte chooses the
 * kind, so that all of them are met. */
#include "base/arena.h"
#include "base/diag.h"
#include "base/list.h"
#include "source/block.h"
#include "source/kind.h"
#include "stages.h"

#include <stdint.h>
#include <stdlib.h>
#include <string.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

static void check_inside(const struct source *src, struct text t) {
    const char *end = src->text.start + src->text.len;
    if (t.start != NULL && (t.start < src->text.start || t.start > end ||
                            t.len > (size_t)(end - t.start)))
        abort();
}

static void check_block(const struct source *src, const struct block *b) {
    for (size_t i = 0; i < b->entry_count; i++) {
        const struct entry *e = &b->entries[i];
        check_inside(src, e->key);
        check_inside(src, e->note);
        if (!e->bad && e->choice_count == 0 && e->kind != ENTRY_ROW)
            abort();
        for (size_t k = 0; k < e->choice_count; k++)
            check_inside(src, e->choices[k].text);
        for (size_t k = 0; k < e->cell_count; k++) {
            check_inside(src, e->cells[k].text);
            if (!e->bad && e->cells[k].text.start != NULL &&
                e->cells[k].choice_count == 0)
                abort();
        }
    }
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size) {
    if (size == 0)
        return 0;
    struct compile c = {.arena = arena_new(), .library = "/nonexistent"};
    c.diags = diag_new(c.arena);
    const struct kind *k = kind_by_id((enum kind_id)(data[0] % KIND_COUNT));
    struct buf b = buf_in(c.arena);
    buf_printf(&b, "%s%s\n", k->name, k->naming == NAME_NONE ? "" : " x");
    size_t head = b.len;
    buf_add(&b, (const char *)data + 1, size - 1);
    const struct source *src =
        place_source(c.arena, "fuzz.md", buf_as_text(&b));
    struct block_lines lines = {.info = text_part(src->text, 0, head - 1)};
    size_t room = 0;
    for (size_t i = 2; i <= src->line_count; i++) {
        lines.line = list_grown(c.arena, lines.line, lines.count, &room,
                                sizeof *lines.line);
        lines.line[lines.count++] = place_line(src, i);
    }
    struct scope scope = {.src = src};
    unsigned anywhere = KIND_IN_GUIDE | KIND_IN_FACTS | KIND_IN_SHARED |
                        KIND_IN_CATALOGUE | KIND_IN_TEMPLATE | KIND_IN_JOB;
    const struct block *block = block_parse(&c, &scope, anywhere, &lines);
    if (block == NULL)
        abort();
    check_block(src, block);
    arena_free(c.arena);
    return 0;
}
