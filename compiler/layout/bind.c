/* bind.c - slabs that are broken into pages, to finished sheets. */
#include "layout/bind.h"

#include "base/arena.h"
#include "layout/fingerprint.h"
#include "layout/paginate.h"
#include "layout/sheet.h"

struct pages *bind_pages(struct leaf *l, const struct foot_lines *foot,
                         double bottom, const size_t *starts, size_t count) {
    struct tagger *tags = l->composer.tags;
    tag_pause(tags); /* what follows is furniture */
    struct pages *out = arena_alloc(l->composer.arena, 1, sizeof *out);
    out->tag = tags->list;
    out->tag_count = tags->count;
    paginate_place(&l->flow, starts, count, out);
    l->style.bottom = bottom;
    for (size_t i = 0; i < count; i++)
        foot_draw(&l->composer, foot, &out->page[i], i + 1, count);
    fingerprint_make(out, out->code);
    for (size_t i = 0; i < count; i++)
        foot_draw_code(&l->composer, foot, &out->page[i], out->code);
    return out;
}

void bind_to_paper(struct pages *p, struct arena *a,
                   const struct sheet *sheet) {
    double down = sheet->down;
    for (size_t i = 0; i < p->count; i++) {
        struct page *page = &p->page[i];
        page->width = sheet->width;
        page->height = sheet->height;
        for (size_t k = 0; down > 0 && k < page->op_count; k++) {
            page->ops[k] = slab_moved(a, &page->ops[k], 0, down);
            page->ops[k].target_y += down;
        }
    }
    for (size_t i = 0; i < p->outline_count; i++)
        p->outline[i].y += down;
}
