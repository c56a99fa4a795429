/* ready.c - what can be found out of the faces before there is a guide: a
 * program that the build runs, to link what it prints into Bayleaf.
 *
 *   ready usual    the usual characters by pairs (layout/usual.h)
 *   ready subset   the glyphs that each document embeds, cut out and packed
 *                  (print/subset.h) */
#include "base/arena.h"
#include "base/text.h"
#include "layout/face.h"
#include "layout/piece.h"
#include "print/cut.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { MOST = 160 }; /* characters of one face */

struct pairs { /* like struct usual, that is made from it */
    enum face face;
    size_t count;
    uint32_t code[MOST];
    uint16_t glyph[MOST];
    uint16_t advance[MOST][MOST]; /* in the column `count`: at the end */
};

static _Noreturn void give_up(const struct pairs *p, const char *why) {
    fprintf(stderr, "ready: %s: %s\n", face_form(p->face)->name, why);
    exit(1);
}

static int by_code(const void *a, const void *b) {
    uint32_t x = *(const uint32_t *)a, y = *(const uint32_t *)b;
    return (x > y) - (x < y);
}

static void read_codes(struct pairs *p) {
    struct text t = text_of(face_form(p->face)->usual);
    for (size_t at = 0; at < t.len;) {
        if (p->count + 1 == MOST)
            give_up(p, "there are too many usual characters");
        p->code[p->count++] = text_next(t, &at);
    }
    qsort(p->code, p->count, sizeof *p->code, by_code);
}

/* The numbers of characters in a row, in which each that is a digit, or each
 * that is none, stands before each other one: of a, b, c it is a ab ac b bc c
 * a.
 */
struct row {
    size_t number[MOST * MOST + 1];
    size_t count;
};

static void fill_row(struct row *r, const struct pairs *p, bool digits) {
    r->count = 0;
    size_t first = MOST;
    for (size_t i = 0; i < p->count; i++) {
        if (piece_is_digit(p->code[i]) != digits)
            continue;
        first = first == MOST ? i : first;
        r->number[r->count++] = i;
        for (size_t k = i + 1; k < p->count; k++)
            if (piece_is_digit(p->code[k]) == digits) {
                r->number[r->count++] = i;
                r->number[r->count++] = k;
            }
    }
    if (first < MOST)
        r->number[r->count++] = first;
}

static uint16_t units(const struct pairs *p, hb_position_t length) {
    if (length <= 0 || length > UINT16_MAX)
        give_up(p, "a usual character has no width that can be kept");
    return (uint16_t)length;
}

static void learn(struct pairs *p, hb_font_t *font, const struct row *r,
                  hb_buffer_t *shaped, const size_t *start) {
    unsigned count;
    const hb_glyph_info_t *info = hb_buffer_get_glyph_infos(shaped, &count);
    const hb_glyph_position_t *at =
        hb_buffer_get_glyph_positions(shaped, &count);
    if (count != r->count)
        give_up(p, "usual characters melt into one glyph");
    for (size_t i = 0; i < count; i++) {
        size_t own = r->number[i];
        if (info[i].cluster != start[i] || at[i].x_offset != 0 ||
            at[i].y_offset != 0)
            give_up(p, "a usual character moves");
        if (info[i].codepoint == 0)
            give_up(p, "a usual character is missing");
        uint16_t alone =
            units(p, hb_font_get_glyph_h_advance(font, info[i].codepoint));
        uint16_t here = units(p, at[i].x_advance);
        size_t next = i + 1 < count ? r->number[i + 1] : p->count;
        if (p->glyph[own] != 0 && p->glyph[own] != info[i].codepoint)
            give_up(p, "a usual character changes with its neighbours");
        p->glyph[own] = (uint16_t)info[i].codepoint;
        p->advance[own][next] = here;
        p->advance[own][p->count] = alone;
    }
}

static void shape_row(struct pairs *p, hb_font_t *font, struct row *r,
                      bool digits) {
    struct arena *a = arena_new();
    struct buf line = buf_in(a);
    fill_row(r, p, digits);
    size_t *start = arena_alloc(a, r->count, sizeof *start);
    for (size_t i = 0; i < r->count; i++) {
        char bytes[4];
        start[i] = line.len;
        buf_add(&line, bytes, text_encode(p->code[r->number[i]], bytes));
    }
    hb_buffer_t *shaped = hb_buffer_create();
    if (r->count > 0) {
        piece_shape(shaped, font, buf_as_text(&line), digits);
        learn(p, font, r, shaped, start);
    }
    hb_buffer_destroy(shaped);
    arena_free(a);
}

static struct pairs *pairs_of(struct arena *a, enum face face) {
    struct pairs *p = arena_alloc(a, 1, sizeof *p);
    struct row *r = arena_alloc(a, 1, sizeof *r);
    p->face = face;
    read_codes(p);
    hb_font_t *font = piece_font(face);
    shape_row(p, font, r, true);
    shape_row(p, font, r, false);
    hb_font_destroy(font);
    return p;
}

static void print_numbers(const char *type, const char *name, int face,
                          const uint16_t *number, size_t count) {
    printf("static const %s %s_%d[] = {", type, name, face);
    for (size_t i = 0; i < count; i++)
        printf("%s%u,", i % 16 == 0 ? "\n" : "", (unsigned)number[i]);
    printf("\n};\n");
}

static void print_pairs(const struct pairs *p) {
    int f = (int)p->face;
    printf("static const uint32_t code_%d[] = {", f);
    for (size_t i = 0; i < p->count; i++)
        printf("%s%lu,", i % 16 == 0 ? "\n" : "", (unsigned long)p->code[i]);
    printf("\n};\n");
    print_numbers("uint16_t", "glyph", f, p->glyph, p->count);
    printf("static const uint16_t advance_%d[] = {", f);
    for (size_t i = 0; i < p->count; i++)
        for (size_t k = 0; k <= p->count; k++)
            printf("%s%u,", k % 16 == 0 ? "\n" : "",
                   (unsigned)p->advance[i][k]);
    printf("\n};\n");
}

static void print_usual(void) {
    struct arena *a = arena_new();
    struct pairs *all[FACE_COUNT];
    printf("#include \"layout/usual.h\"\n");
    for (int f = 0; f < FACE_COUNT; f++)
        print_pairs(all[f] = pairs_of(a, (enum face)f));
    printf("const struct usual usual[FACE_COUNT] = {\n");
    for (int f = 0; f < FACE_COUNT; f++)
        printf("{%zu, code_%d, glyph_%d, advance_%d},\n", all[f]->count, f, f,
               f);
    printf("};\n");
    arena_free(a);
}

static int by_glyph(const void *a, const void *b) {
    return *(const uint16_t *)a - *(const uint16_t *)b;
}

/* Of what each document embeds and .notdef, each once, rising. */
static size_t glyphs_of(const struct pairs *p, uint16_t glyph[MOST]) {
    struct text t = text_of(face_form(p->face)->embedded);
    size_t count = 0, kept = 1;
    glyph[count++] = 0;
    for (size_t at = 0; at < t.len;) {
        uint32_t code = text_next(t, &at);
        size_t i = 0;
        while (i < p->count && p->code[i] != code)
            i++;
        if (i == p->count || count == MOST)
            give_up(p, "what is embedded is not usual");
        glyph[count++] = p->glyph[i];
    }
    qsort(glyph, count, sizeof *glyph, by_glyph);
    for (size_t i = 1; i < count; i++)
        if (glyph[i] != glyph[kept - 1])
            glyph[kept++] = glyph[i];
    return kept;
}

static struct subset print_bytes(struct arena *a, enum face face) {
    uint16_t glyph[MOST];
    struct subset s;
    size_t count = glyphs_of(pairs_of(a, face), glyph);
    cut_subset(a, &s, face, glyph, count);
    print_numbers("uint16_t", "glyph", (int)face, s.glyph, s.count);
    print_numbers("uint16_t", "renumbered", (int)face, s.renumbered, s.count);
    printf("static const unsigned char packed_%d[] = {", (int)face);
    for (size_t i = 0; i < s.packed_len; i++)
        printf("%s%u,", i % 16 == 0 ? "\n" : "", (unsigned)s.packed[i]);
    printf("\n};\n");
    return s;
}

static void print_subset(void) {
    struct arena *a = arena_new();
    struct subset s[FACE_COUNT];
    printf("#include \"print/subset.h\"\n");
    for (int f = 0; f < FACE_COUNT; f++)
        s[f] = print_bytes(a, (enum face)f);
    printf("const struct subset subset_ready[FACE_COUNT] = {\n");
    for (int f = 0; f < FACE_COUNT; f++)
        printf("{packed_%d, sizeof packed_%d, %zu, glyph_%d, renumbered_%d, "
               "%zu, \"%s\"},\n",
               f, f, s[f].len, f, f, s[f].count, s[f].name);
    printf("};\n");
    arena_free(a);
}

int main(int argc, char **argv) {
    if (argc == 2 && strcmp(argv[1], "usual") == 0)
        print_usual();
    else if (argc == 2 && strcmp(argv[1], "subset") == 0)
        print_subset();
    else
        return 2;
    return fflush(stdout) == 0 && !ferror(stdout) ? 0 : 1;
}
