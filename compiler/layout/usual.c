/* usual.c - words from the pairs of their characters. */
#include "layout/usual.h"

#include "layout/face.h"
#include "layout/piece.h"

/* Its number among the usual ones, or their count: it is none. */
static size_t number_of(const struct usual *u, uint32_t code) {
    size_t low = 0, high = u->count;
    size_t guess = code - u->code[0]; /* ASCII goes on without a gap */
    if (guess < high && u->code[guess] == code)
        return guess;
    while (low < high) {
        size_t middle = low + (high - low) / 2;
        if (u->code[middle] < code)
            low = middle + 1;
        else
            high = middle;
    }
    return low < u->count && u->code[low] == code ? low : u->count;
}

bool usual_put(struct run *run, struct glyph *glyphs) {
    const struct usual *u = &usual[run->face];
    int em = face_form(run->face)->em;
    struct text t = run->text;
    size_t count = 0, at = 0, start = 0;
    double advance = 0;
    long piece = 0; /* its length so far: digits stand for themselves */
    if (t.len == 0)
        return false;
    uint32_t code = text_next(t, &at);
    size_t own = number_of(u, code);
    while (own < u->count) {
        size_t end = at, next = u->count;
        uint32_t after = 0;
        if (at < t.len) {
            after = text_next(t, &at);
            next = number_of(u, after);
            if (next == u->count)
                return false;
        }
        bool last =
            end == t.len || piece_is_digit(code) != piece_is_digit(after);
        int units = u->advance[own * (u->count + 1) + (last ? u->count : next)];
        glyphs[count++] = (struct glyph){
            .id = u->glyph[own],
            .start = (uint32_t)start,
            .len = (uint32_t)(end - start),
            .advance = (float)((double)units / em),
        };
        piece += units;
        if (last) {
            advance += (double)piece / em;
            piece = 0;
        }
        if (end == t.len)
            break;
        code = after;
        own = next;
        start = end;
    }
    if (own == u->count)
        return false;
    run->glyphs = glyphs;
    run->glyph_count = count;
    run->advance = advance;
    return true;
}

int usual_width(enum face face, uint16_t glyph) {
    const struct usual *u = &usual[face];
    for (size_t i = 0; i < u->count; i++)
        if (u->glyph[i] == glyph)
            return u->advance[i * (u->count + 1) + u->count];
    return 0;
}
