/* bind.c - what all sheets begin and end with. */
#include "layout/bind.h"

#include "base/arena.h"
#include "layout/fingerprint.h"
#include "layout/paginate.h"
#include "layout/shape.h"
#include "layout/sheet.h"

bool bind_open(struct leaf *l, struct compile *c, struct tagger *tags,
               const struct layout_options *options, bool si) {
    l->composer = (struct composer){
        .arena = c->arena, .diags = c->diags, .style = &l->style, .tags = tags};
    l->sheet = sheet_read(c, options, si);
    if (l->sheet == NULL)
        return false;
    l->style = l->sheet->style;
    l->composer.shaper = shape_new(c->arena, c->shapes);
    return true;
}

void bind_close(struct leaf *l) {
    shape_free(l->composer.shaper);
}

struct foot_lines *bind_foot(struct leaf *l, const struct foot *foot) {
    struct foot_lines *lines = foot_set(&l->composer, foot);
    l->style.bottom -= foot_height(lines);
    return lines;
}

struct pages *bind_pages(struct leaf *l, const struct foot_lines *foot,
                         const size_t *starts, size_t count) {
    struct tagger *tags = l->composer.tags;
    tag_pause(tags); /* what follows is furniture */
    struct pages *out = arena_alloc(l->composer.arena, 1, sizeof *out);
    out->tag = tags->list;
    out->tag_count = tags->count;
    paginate_place(&l->flow, starts, count, out);
    l->style.bottom = l->sheet->style.bottom;
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
            if (page->ops[k].kind == OP_LINK)
                page->ops[k].target_y += down;
        }
    }
    for (size_t i = 0; i < p->outline_count; i++)
        p->outline[i].y += down;
}
