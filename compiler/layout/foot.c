/* foot.c - the foot of every page.
 *
 *   ------------------------------------------------------------------
 *   LT-012  revision 3  Fit headlamp relays ...            page 2 of 6
 *   [DRAFT] mark 1, mark 2, mark 3                         7KQ2 M9XF
 */
#include "layout/foot.h"

#include "base/arena.h"
#include "layout/shape.h"

static const double right_width = 90, above = 8, below_rule = 3;

struct foot_lines {
    const struct lines *name, *variants;
    const char *status;
    double tag; /* width of the status tag and its space */
    double height;
};

static struct tone tone_of(const struct composer *c, enum face face) {
    return (struct tone){face, c->style->foot.size, style_black()};
}

static double tag_width(const struct composer *c, const char *status) {
    return shape_width(c->shaper, FACE_BOLD, c->style->foot.size,
                       text_of(status)) +
           8;
}

struct foot_lines *foot_set(const struct composer *c, const struct foot *foot) {
    const struct style *style = c->style;
    struct foot_lines *l = arena_alloc(c->arena, 1, sizeof *l);
    struct rich name = {0}, variants = {0};
    rich_add(c->arena, &name, tone_of(c, FACE_BOLD), text_of(foot->id),
             foot->at)
        ->whole = true;
    rich_add(c->arena, &name, tone_of(c, FACE_REGULAR),
             text_of(arena_printf(c->arena, "  %s  %s", foot->revision,
                                  foot->title)),
             foot->at);
    rich_add(c->arena, &variants, tone_of(c, FACE_REGULAR),
             text_of(foot->variants), foot->at);
    l->status = foot->status;
    l->tag = foot->status == NULL ? 0 : tag_width(c, foot->status) + 6;
    double width = style->right - style->left - right_width;
    l->name = paragraph_break(c, words_of(c, &name), width, style->foot, 1);
    l->variants = paragraph_break(c, words_of(c, &variants), width - l->tag,
                                  style->foot, 1);
    size_t second = l->variants->count == 0 ? 1 : l->variants->count;
    l->height = above + below_rule +
                style->foot.leading * (double)(l->name->count + second);
    return l;
}

double foot_height(const struct foot_lines *l) {
    return l->height;
}

/* Moves what was drawn into a slab to the page; its top is the foot's. */
static void to_page(const struct composer *c, const struct foot_lines *l,
                    struct page *page, const struct slab *s) {
    double y = c->style->bottom - l->height;
    for (size_t i = 0; i < s->op_count; i++)
        *display_op(c->arena, page, s->ops[i].kind) =
            slab_moved(c->arena, &s->ops[i], c->style->left, y);
}

static void draw_right(const struct composer *c, struct slab *s, double y,
                       enum face face, const char *text) {
    const struct style *style = c->style;
    double wide = shape_width(c->shaper, face, style->foot.size, text_of(text));
    slab_text(c, s, style->right - style->left - wide, y, face,
              style->foot.size, style_black(), text_of(text));
}

void foot_draw(const struct composer *c, const struct foot_lines *l,
               struct page *page, size_t number, size_t of) {
    const struct style *style = c->style;
    struct slab *s = slab_new(c, l->height, (struct span){NULL, 0, 0});
    double y = above, first = paragraph_baseline(style->foot);
    slab_rule(c, s, 0, y, style->right - style->left, y, 0.8);
    y += below_rule;
    draw_right(c, s, y + first, FACE_REGULAR,
               arena_printf(c->arena, "page %zu of %zu", number, of));
    y += paragraph_draw_all(c, s, l->name, 0, y);
    if (l->status != NULL) {
        slab_fill(c, s, 0, y, l->tag - 6, style->foot.leading, style_black());
        slab_text(c, s, 4, y + first, FACE_BOLD, style->foot.size,
                  style_white(), text_of(l->status));
    }
    paragraph_draw_all(c, s, l->variants, l->tag, y);
    to_page(c, l, page, s);
}

void foot_draw_code(const struct composer *c, const struct foot_lines *l,
                    struct page *page, const char *code) {
    const struct style *style = c->style;
    struct slab *s = slab_new(c, l->height, (struct span){NULL, 0, 0});
    double y = above + below_rule + paragraph_height(l->name) +
               paragraph_baseline(style->foot);
    draw_right(c, s, y, FACE_MONO, code);
    to_page(c, l, page, s);
}
