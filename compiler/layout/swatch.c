/* swatch.c - the colour of a wire, drawn and in letters. */
#include "layout/swatch.h"

#include "base/arena.h"

#include <ctype.h>

struct hue {
    const char *name, *also; /* another spelling, or NULL */
    const char *letters;     /* IEC 60757, from memory; TN: common practice */
    unsigned char red, green, blue; /* ours, by eye */
};

static const struct hue hues[] = {
    {"black", NULL, "BK", 0x10, 0x10, 0x10},
    {"brown", NULL, "BN", 0x7A, 0x4A, 0x21},
    {"red", NULL, "RD", 0xD4, 0x1F, 0x1F},
    {"orange", NULL, "OG", 0xF5, 0x82, 0x1F},
    {"yellow", NULL, "YE", 0xFF, 0xDD, 0x00},
    {"green", NULL, "GN", 0x1E, 0x8C, 0x3A},
    {"blue", NULL, "BU", 0x1F, 0x4F, 0xB5},
    {"violet", "purple", "VT", 0x7B, 0x2F, 0x9B},
    {"grey", "gray", "GY", 0x8C, 0x8C, 0x8C},
    {"white", NULL, "WH", 0xFF, 0xFF, 0xFF},
    {"pink", NULL, "PK", 0xF7, 0x9A, 0xB8},
    {"turquoise", NULL, "TQ", 0x30, 0xC0, 0xC0},
    {"tan", NULL, "TN", 0xD2, 0xA8, 0x6E},
};

enum { HUES = sizeof hues / sizeof hues[0] };

static bool same(struct text a, const char *b) {
    size_t i = 0;
    for (; b != NULL && b[i] != '\0'; i++)
        if (i >= a.len ||
            tolower((unsigned char)a.start[i]) != tolower((unsigned char)b[i]))
            return false;
    return b != NULL && i == a.len;
}

static const struct hue *find(struct text name) {
    for (size_t i = 0; i < HUES; i++)
        if (same(name, hues[i].name) || same(name, hues[i].also) ||
            same(name, hues[i].letters))
            return &hues[i];
    return NULL;
}

static const char *nearest(struct text name) {
    struct nearest n = nearest_to(name);
    for (size_t i = 0; i < HUES; i++)
        nearest_offer(&n, text_of(hues[i].name));
    return n.best;
}

bool swatch_find(struct text name, struct swatch *out, const char **near) {
    struct text rest = name, part;
    const struct hue *found[2] = {NULL, NULL};
    size_t count = 0;
    *near = NULL;
    while (text_next_part(&rest, '/', &part)) {
        part = text_trim(part);
        const struct hue *hue = count < 2 ? find(part) : NULL;
        if (hue == NULL) {
            *near = nearest(part);
            return false;
        }
        found[count++] = hue;
    }
    *out = (struct swatch){found[0], found[1]};
    return count > 0;
}

const char *swatch_letters(struct arena *a, const struct swatch *w) {
    return w->tracer == NULL
               ? w->base->letters
               : arena_printf(a, "%s/%s", w->base->letters, w->tracer->letters);
}

static struct colour colour_of(const struct hue *h) {
    return (struct colour){(float)h->red / 255, (float)h->green / 255,
                           (float)h->blue / 255};
}

void swatch_draw(const struct composer *c, struct slab *s,
                 const struct swatch *w, double x, double y, double width,
                 double height) {
    slab_fill(c, s, x, y, width, height, colour_of(w->base));
    if (w->tracer != NULL)
        slab_fill(c, s, x, y + height / 3, width, height / 3,
                  colour_of(w->tracer));
    slab_box(c, s, x, y, width, height, 0.6);
}

void swatch_draw_down(const struct composer *c, struct slab *s,
                      const struct swatch *w, double x, double y, double width,
                      double height) {
    slab_fill(c, s, x, y, width, height, colour_of(w->base));
    if (w->tracer != NULL)
        slab_fill(c, s, x + width / 3, y, width / 3, height,
                  colour_of(w->tracer));
    slab_box(c, s, x, y, width, height, 0.6);
}
