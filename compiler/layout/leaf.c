/* leaf.c - one guide on its way to pages: what its parts share. */
#include "layout/leaf.h"

#include "base/arena.h"
#include "layout/sheet.h"

static const struct span nowhere;

struct tone leaf_tone(struct type type, enum face face) {
    return (struct tone){face, type.size, style_black()};
}

double leaf_width(const struct leaf *l) {
    return l->style.right - l->style.left;
}

double leaf_body(const struct leaf *l) {
    return leaf_width(l) - l->style.rail;
}

struct text leaf_block_setting(const struct leaf *l, const struct block *b,
                               const char *name) {
    const struct entry *e = b == NULL ? NULL : tree_setting(b, name);
    if (e == NULL || e->choice_count == 0)
        return (struct text){NULL, 0};
    return text_squeezed(l->composer.arena, text_trim(e->choices[0].text));
}

struct text leaf_setting(const struct leaf *l, const char *name) {
    return leaf_block_setting(l, l->guide->identity, name);
}

const struct block *leaf_next(const struct leaf *l, const struct block *b,
                              enum kind_id kind) {
    for (size_t i = b == NULL ? 0 : b->index + 1; i < l->guide->block_count;
         i++) {
        const struct block *other = l->guide->blocks[i];
        if (other->kind->id == kind && other->node != NULL)
            return other;
    }
    return NULL;
}

struct slab *leaf_heading(struct leaf *l, struct text title,
                          struct anchor *anchor, struct span at) {
    const struct composer *c = &l->composer;
    struct rich r = {0};
    rich_add(c->arena, &r, leaf_tone(l->style.section, FACE_BOLD), title, at);
    const struct lines *lines =
        paragraph_break(c, words_of(c, &r), leaf_width(l), l->style.section, 1);
    flow_space(&l->flow, 14);
    struct slab *s = flow_slab(&l->flow, 4 + paragraph_height(lines), at);
    slab_rule(c, s, 0, 1.5, l->style.rail - 12, 1.5, 3);
    slab_rule(c, s, l->style.rail - 12, 0.4, leaf_width(l), 0.4, 0.8);
    size_t outer = tag_open(c->tags, TAG_SECTION, (struct text){NULL, 0});
    paragraph_draw_all(c, s, lines, 0, 4);
    tag_close(c->tags, outer);
    s->anchor = anchor;
    s->outline = text_squeezed(c->arena, title);
    s->outline_level = 1;
    if (s->bond == BOND_LIGHT)
        s->bond = BOND_NONE;
    flow_bond(&l->flow, BOND_FAST);
    flow_space(&l->flow, 8);
    return s;
}

void leaf_subheading(struct leaf *l, struct text title, double x,
                     struct anchor *anchor, struct span at) {
    struct rich r = {0};
    rich_add(l->composer.arena, &r, leaf_tone(l->style.heading, FACE_BOLD),
             title, at);
    flow_space(&l->flow, 8);
    struct tagger *tags = l->composer.tags;
    size_t outer = tag_open(tags, TAG_SUBSECTION, (struct text){NULL, 0});
    struct slab *s = flow_paragraph(&l->flow, &r, x, leaf_width(l) - x,
                                    l->style.heading, at);
    tag_close(tags, outer);
    if (s != NULL) {
        s->anchor = anchor;
        s->outline = text_squeezed(l->composer.arena, title);
        s->outline_level = 2;
    }
    flow_bond(&l->flow, BOND_FAST);
    flow_space(&l->flow, 3);
}

void leaf_join_title(struct leaf *l) {
    flow_bond(&l->flow, BOND_FAST);
    flow_space(&l->flow, 1);
}

struct text leaf_part_name(const struct leaf *l, enum part_id part) {
    const struct inlines *heading = sheet_heading(l->sheet, part);
    return heading == NULL ? (struct text){NULL, 0}
                           : tree_plain(l->composer.arena, heading);
}

void leaf_continued(struct leaf *l, size_t from, enum part_id part) {
    const struct composer *c = &l->composer;
    struct text name = leaf_part_name(l, part);
    if (name.len == 0 || l->flow.count < from + 2)
        return;
    struct slab *s = slab_new(c, 0, nowhere);
    size_t inner = tag_pause(c->tags); /* the heading was read out before */
    s->height = flow_continued(&l->flow, s, 0, name) + l->style.grid / 2;
    tag_close(c->tags, inner);
    for (size_t i = from + 1; i < l->flow.count; i++)
        l->flow.slab[i]->again = s;
}

void leaf_label(struct leaf *l, struct slab *s, const char *label,
                struct type type) {
    size_t from = s->op_count;
    slab_text(&l->composer, s, 0, paragraph_baseline(type), FACE_BOLD,
              l->style.note.size, style_black(), text_of(label));
    slab_to_front(&l->composer, s, from);
}

struct slab *leaf_say(struct leaf *l, struct type type, struct text text) {
    struct rich r = {0};
    rich_add(l->composer.arena, &r, leaf_tone(type, FACE_REGULAR), text,
             nowhere);
    return flow_paragraph(&l->flow, &r, l->style.rail, l->style.measure, type,
                          nowhere);
}

void leaf_add(struct leaf *l, struct rich *r, struct type type, enum face face,
              const char *text) {
    rich_add(l->composer.arena, r, leaf_tone(type, face), text_of(text),
             nowhere);
}

void leaf_add_value(struct leaf *l, struct rich *r, struct type type,
                    enum face face, const char *value) {
    rich_add(l->composer.arena, r, leaf_tone(type, face),
             text_of(value == NULL ? "–" : value), nowhere)
        ->whole = true;
}

void leaf_add_readers(struct leaf *l, struct rich *r, struct type type,
                      variant_set in, variant_set of) {
    struct arena *a = l->composer.arena;
    if (in == of)
        return;
    leaf_add(l, r, type, FACE_REGULAR, " ");
    leaf_add_value(
        l, r, type, FACE_REGULAR,
        arena_printf(a, "(%s only)", values_variant_names(l->values, a, in)));
}
