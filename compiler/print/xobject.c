/* xobject.c - images as XObjects (ISO 32000-1, 8.9.5): the samples are coded
 * already and only copied. */
#include "print/xobject.h"

#include "base/arena.h"
#include "base/list.h"
#include "image/picture.h"

#include <string.h>

struct xobjects {
    struct arena *arena;
    const struct picture **picture;
    size_t count, room;
};

struct xobjects *xobject_new(struct arena *a) {
    struct xobjects *x = arena_alloc(a, 1, sizeof *x);
    x->arena = a;
    return x;
}

/* The turn is not the object's but of the place where it is shown. */
static bool same(const struct picture *a, const struct picture *b) {
    return a == b || (a->coding == b->coding && a->width == b->width &&
                      a->height == b->height && a->len == b->len &&
                      memcmp(a->bytes, b->bytes, a->len) == 0);
}

size_t xobject_number(struct xobjects *x, const struct picture *p) {
    for (size_t i = 0; i < x->count; i++)
        if (same(x->picture[i], p))
            return i + 1;
    x->picture = list_grown(x->arena, x->picture, x->count, &x->room,
                            sizeof *x->picture);
    x->picture[x->count] = p;
    return ++x->count;
}

static HPDF_Dict make(struct pdf *pdf, const struct picture *p) {
    struct buf entries = buf_in(pdf->arena);
    buf_printf(&entries,
               "/Type/XObject/Subtype/Image/Width %u/Height %u"
               "/ColorSpace/%s/BitsPerComponent 8/Filter/%s",
               p->width, p->height,
               p->channels == 1 ? "DeviceGray" : "DeviceRGB",
               p->coding == PICTURE_JPEG ? "DCTDecode" : "FlateDecode");
    if (p->coding == PICTURE_PNG) /* each row says its own filter */
        buf_printf(&entries,
                   "/DecodeParms<</Predictor 15/Colors %u/Columns %u>>",
                   p->channels, p->width);
    return object_stream(pdf, p->bytes, p->len, buf_cstr(&entries));
}

const char *xobject_finish(const struct xobjects *x, struct pdf *pdf) {
    struct buf out = buf_in(x->arena);
    for (size_t i = 0; i < x->count; i++) {
        buf_printf(&out, "/I%zu", i + 1);
        object_refer(&out, make(pdf, x->picture[i]));
    }
    return x->count == 0 ? NULL : buf_cstr(&out);
}
