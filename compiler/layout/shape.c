/* shape.c - text to glyphs: HarfBuzz, with a cache of shaped words. */
#include "layout/shape.h"

#include "base/arena.h"
#include "layout/face.h"
#include "layout/piece.h"
#include "layout/usual.h"

#include <hb.h>
#include <string.h>

struct word { /* one entry of the cache */
    struct run run;
    uint32_t hash;
    struct word *next; /* in the same bucket */
};

/* As many as a large guide has; what is kept beyond it would only take room. */
enum { KEPT_MAX = 4096, KEPT_LEN = 64, FIRST_BUCKETS = 1024 };

struct word_set {
    struct arena *arena; /* of the words, too */
    struct word **bucket;
    size_t bucket_count; /* a power of two, or 0 */
    size_t count;
};

struct shape_kept {
    struct word_set words;
    hb_buffer_t *buffer;
    hb_font_t *font[FACE_COUNT]; /* opened when first used */
};

struct shaper {
    struct arena *arena;
    struct word_set own; /* when those that are kept are many */
    struct shape_kept *kept, alone;
    struct glyph *scratch; /* glyphs of the word at hand */
    size_t scratch_count, scratch_room;
};

struct shape_kept *shape_kept_new(void) {
    struct arena *a = arena_new();
    struct shape_kept *k = arena_alloc(a, 1, sizeof *k);
    k->words.arena = a;
    return k;
}

static void close_faces(struct shape_kept *k) {
    hb_buffer_destroy(k->buffer);
    k->buffer = NULL;
    for (int i = 0; i < FACE_COUNT; i++) {
        hb_font_destroy(k->font[i]);
        k->font[i] = NULL;
    }
}

void shape_kept_free(struct shape_kept *k) {
    if (k == NULL)
        return;
    close_faces(k);
    arena_free(k->words.arena);
}

struct shaper *shape_new(struct arena *a, struct shape_kept *kept) {
    struct shaper *s = arena_alloc(a, 1, sizeof *s);
    s->arena = s->own.arena = s->alone.words.arena = a;
    s->kept = kept == NULL ? &s->alone : kept;
    return s;
}

void shape_free(struct shaper *s) {
    if (s != NULL && s->kept == &s->alone)
        close_faces(&s->alone);
}

static hb_font_t *font_of(struct shape_kept *k, enum face face) {
    if (k->font[face] == NULL)
        k->font[face] = piece_font(face);
    return k->font[face];
}

static struct glyph *scratch_glyphs(struct shaper *s, size_t count) {
    if (s->scratch_room - s->scratch_count < count) {
        size_t room = s->scratch_count * 2 + count + 32;
        s->scratch = arena_grow(s->arena, s->scratch, s->scratch_count, room,
                                sizeof *s->scratch);
        s->scratch_room = room;
    }
    struct glyph *glyphs = s->scratch + s->scratch_count;
    s->scratch_count += count;
    return glyphs;
}

/* Written from right to left: it would come out in the wrong order. */
static bool is_reversed(uint32_t code) {
    return code > 0x590 &&
           hb_script_get_horizontal_direction(hb_unicode_script(
               hb_unicode_funcs_get_default(), code)) == HB_DIRECTION_RTL;
}

/* The shaped piece goes to the scratch; `end` is where its text ends. Returns
 * its advance. */
static double keep_glyphs(struct shaper *s, struct text text, size_t end,
                          double em) {
    unsigned count;
    const hb_glyph_info_t *infos =
        hb_buffer_get_glyph_infos(s->kept->buffer, &count);
    const hb_glyph_position_t *positions =
        hb_buffer_get_glyph_positions(s->kept->buffer, &count);
    struct glyph *g = scratch_glyphs(s, count);
    long advance = 0;
    for (unsigned i = 0; i < count; i++, g++) {
        unsigned next = i + 1;
        while (next < count && infos[next].cluster == infos[i].cluster)
            next++;
        bool first = i == 0 || infos[i - 1].cluster != infos[i].cluster;
        size_t cluster_end = next < count ? infos[next].cluster : end;
        size_t at = infos[i].cluster;
        uint32_t code = text_next(text, &at);
        *g = (struct glyph){
            .id = is_reversed(code) ? 0 : (uint16_t)infos[i].codepoint,
            .start = infos[i].cluster,
            .len = first ? (uint32_t)cluster_end - infos[i].cluster : 0,
            .advance = (float)(positions[i].x_advance / em),
            .x = (float)(positions[i].x_offset / em),
            .y = (float)(positions[i].y_offset / em),
        };
        advance += positions[i].x_advance;
    }
    return (double)advance / em;
}

static void shape_piece(struct shaper *s, struct run *run, bool digits) {
    struct shape_kept *k = s->kept;
    if (k->buffer == NULL)
        k->buffer = hb_buffer_create();
    piece_shape(k->buffer, font_of(k, run->face), run->text, digits);
    run->advance =
        keep_glyphs(s, run->text, run->text.len, face_form(run->face)->em);
}

/* FNV-1a. */
static uint32_t hash_of(enum face face, struct text t) {
    uint32_t hash = 2166136261u ^ (uint32_t)face;
    for (size_t i = 0; i < t.len; i++)
        hash = (hash ^ (unsigned char)t.start[i]) * 16777619u;
    return hash;
}

static void widen(struct word_set *k) {
    size_t count = k->bucket_count == 0 ? FIRST_BUCKETS : k->bucket_count * 4;
    struct word **bucket = arena_alloc(k->arena, count, sizeof(struct word *));
    for (size_t i = 0; i < k->bucket_count; i++) {
        for (struct word *w = k->bucket[i], *next; w != NULL; w = next) {
            next = w->next;
            w->next = bucket[w->hash & (count - 1)];
            bucket[w->hash & (count - 1)] = w;
        }
    }
    k->bucket = bucket;
    k->bucket_count = count;
}

static const struct run *find_word(const struct word_set *k, uint32_t hash,
                                   enum face face, struct text t) {
    if (k->bucket_count == 0)
        return NULL;
    const struct word *w = k->bucket[hash & (k->bucket_count - 1)];
    while (w != NULL && (w->hash != hash || w->run.face != face ||
                         !text_equal(w->run.text, t)))
        w = w->next;
    return w == NULL ? NULL : &w->run;
}

static void keep_word(struct word_set *k, struct word *w) {
    if (k->count++ >= k->bucket_count)
        widen(k);
    struct word **head = &k->bucket[w->hash & (k->bucket_count - 1)];
    w->next = *head;
    *head = w;
}

/* The end of the word or the stretch of blanks that begins at `from`. */
static size_t word_end(struct text t, size_t from) {
    size_t at = from;
    bool blank = t.start[from] == ' ';
    while (at < t.len && (t.start[at] == ' ') == blank)
        at++;
    return at;
}

/* A part of a text that is shaped by itself begins at `from`. */
typedef size_t part_end(struct text t, size_t from);

static size_t end_of_piece(struct text t, size_t from) {
    bool digits;
    return piece_end(t, from, &digits);
}

/* The parts of the run's text, from the cache, one after the other. */
static void put_together(struct shaper *s, struct arena *a, struct run *run,
                         part_end *end) {
    struct text t = run->text;
    size_t count = 0;
    for (size_t from = 0, to; from < t.len; from = to) {
        to = end(t, from);
        count += shape_word(s, run->face, text_part(t, from, to))->glyph_count;
    }
    struct glyph *g = arena_alloc(a, count, sizeof *g);
    run->glyphs = g;
    run->glyph_count = count;
    for (size_t from = 0, to; from < t.len; from = to) {
        to = end(t, from);
        const struct run *part =
            shape_word(s, run->face, text_part(t, from, to));
        for (size_t i = 0; i < part->glyph_count; i++, g++) {
            *g = part->glyphs[i];
            g->start += (uint32_t)from;
        }
        run->advance += part->advance;
    }
}

/* What follows or goes before a piece does not change its glyphs: only scripts
 * that run from right to left join across. */
static void shape_pieces(struct shaper *s, struct arena *a, struct run *run) {
    bool digits = false;
    if (run->text.len == 0)
        return;
    size_t end = piece_end(run->text, 0, &digits);
    if (end < run->text.len) {
        put_together(s, a, run, end_of_piece);
        return;
    }
    s->scratch_count = 0;
    shape_piece(s, run, digits);
    run->glyphs =
        arena_same(a, s->scratch, s->scratch_count, sizeof *s->scratch);
    run->glyph_count = s->scratch_count;
}

static bool set_usual(struct shaper *s, struct arena *a, struct run *run) {
    s->scratch_count = 0;
    if (!usual_put(run, scratch_glyphs(s, run->text.len)))
        return false;
    run->glyphs =
        arena_same(a, run->glyphs, run->glyph_count, sizeof *run->glyphs);
    return true;
}

const struct run *shape_word(struct shaper *s, enum face face,
                             struct text word) {
    uint32_t hash = hash_of(face, word);
    const struct run *known = find_word(&s->kept->words, hash, face, word);
    if (known == NULL)
        known = find_word(&s->own, hash, face, word);
    if (known != NULL)
        return known;
    struct word_set *to = &s->kept->words;
    if (s->kept != &s->alone && (to->count >= KEPT_MAX || word.len > KEPT_LEN))
        to = &s->own;
    struct word *w = arena_alloc(to->arena, 1, sizeof *w);
    w->hash = hash;
    w->run.face = face;
    w->run.text = (struct text){text_cstr(to->arena, word), word.len};
    if (!set_usual(s, to->arena, &w->run))
        shape_pieces(s, to->arena, &w->run);
    keep_word(to, w);
    return &w->run;
}

const struct run *shape_text(struct shaper *s, enum face face, struct text t) {
    struct run *run = arena_alloc(s->arena, 1, sizeof *run);
    *run = (struct run){.face = face, .text = {text_cstr(s->arena, t), t.len}};
    put_together(s, s->arena, run, word_end);
    return run;
}

size_t shape_covered(struct shaper *s, enum face face, struct text t,
                     bool *covered) {
    size_t at = 0, end = 0;
    while (at < t.len) {
        hb_codepoint_t glyph, code = text_next(t, &at);
        bool has =
            hb_font_get_nominal_glyph(font_of(s->kept, face), code, &glyph);
        if (end > 0 && has != *covered)
            break;
        *covered = has;
        end = at;
    }
    return end;
}

uint32_t shape_missing(struct shaper *s, enum face face, struct text t) {
    for (size_t at = 0; at < t.len;) {
        hb_codepoint_t glyph, code = text_next(t, &at);
        if (is_reversed(code) ||
            !hb_font_get_nominal_glyph(font_of(s->kept, face), code, &glyph))
            return code;
    }
    return 0;
}

double shape_width(struct shaper *s, enum face face, double size,
                   struct text t) {
    double em = 0;
    for (size_t from = 0, to; from < t.len; from = to) {
        to = word_end(t, from);
        em += shape_word(s, face, text_part(t, from, to))->advance;
    }
    return em * size;
}

double shape_ascent(enum face face) {
    return (double)face_form(face)->ascent / face_form(face)->em;
}

double shape_descent(enum face face) {
    return -(double)face_form(face)->descent / face_form(face)->em;
}

double shape_cap_height(enum face face) {
    return (double)face_form(face)->cap_height / face_form(face)->em;
}

const unsigned char *shape_face_bytes(enum face face, size_t *len) {
    const struct face_form *form = face_form(face);
    *len = (size_t)(form->end - form->start);
    return form->start;
}

const char *shape_face_name(enum face face) {
    return face_form(face)->name;
}
