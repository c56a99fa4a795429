/* gallery.c - the images of a guide, opened once each. */
#include "source/gallery.h"

#include "base/arena.h"
#include "base/list.h"
#include "image/image.h"
#include "source/file.h"
#include "source/kind.h"
#include "source/link.h"
#include "stages.h"

struct reader {
    struct compile *c;
    struct guide *guide;
    size_t room;
};

/* Quotes around a whole path are not part of it: as values/ reads a text. */
static struct text bare(struct text path) {
    path = text_trim(path);
    bool quoted = path.len >= 2 && path.start[0] == '"' &&
                  path.start[path.len - 1] == '"';
    return quoted ? text_part(path, 1, path.len - 1) : path;
}

static const struct hanging *find(const struct guide *g, struct text path) {
    for (size_t i = 0; i < g->hanging_count; i++)
        if (text_equal(g->hangings[i].path, path))
            return &g->hangings[i];
    return NULL;
}

static const struct image *open_image(struct compile *c, struct text path,
                                      struct span at) {
    size_t len;
    const char *full =
        arena_printf(c->arena, "procedures/%s", text_cstr(c->arena, path));
    const char *bytes =
        file_read_bytes(c, text_of(full), at, IMAGE_BYTES_MAX, &len);
    if (bytes == NULL)
        return NULL;
    struct image_report report;
    const struct image *im =
        image_open(c->arena, (const unsigned char *)bytes, len, &report);
    if (im == NULL)
        image_tell(c->diags, at, full, &report);
    return im;
}

static void add(struct reader *r, struct text written, struct span at) {
    struct guide *g = r->guide;
    struct text path = bare(written);
    if (!file_is_within(path) || find(g, path) != NULL)
        return;
    g->hangings = list_grown(r->c->arena, g->hangings, g->hanging_count,
                             &r->room, sizeof *g->hangings);
    g->hangings[g->hanging_count++] =
        (struct hanging){path, open_image(r->c, path, at)};
}

static void add_setting(struct reader *r, const struct block *b,
                        const char *setting) {
    const struct entry *e = tree_setting(b, setting);
    for (size_t i = 0; e != NULL && !e->bad && i < e->choice_count; i++) {
        struct text path = e->choices[i].text;
        struct span at = place_of(b->scope->src, path);
        link_check_image(r->c, bare(path), at);
        add(r, path, at);
    }
}

void gallery_read(struct compile *c, struct guide *g) {
    struct reader r = {.c = c, .guide = g};
    for (size_t i = 0; i < g->node_count; i++) {
        const struct node *n = g->nodes[i];
        const struct inlines *image = tree_image(n);
        if (image != NULL)
            add(&r, image->url, image->at);
        if (n->block != NULL && n->block->kind->id == KIND_FIGURE)
            add_setting(&r, n->block, "image");
        if (n->block != NULL && n->block->kind->id == KIND_PAGE)
            add_setting(&r, n->block, "logo");
    }
}

const struct image *gallery_find(const struct guide *g, struct text path) {
    const struct hanging *h = find(g, bare(path));
    return h == NULL ? NULL : h->image;
}
