/* words.c - rich text cut into shaped words with gaps between them. */
#include "layout/words.h"

#include "base/arena.h"
#include "base/diag.h"
#include "calc/unit.h"

#include <string.h>

static bool is_digit(char c) {
    return c >= '0' && c <= '9';
}

static bool any_of(struct text t, const char *const *list, size_t count) {
    for (size_t i = 0; i < count; i++)
        if (text_is(t, list[i]))
            return true;
    return false;
}

/* Signs that begin a value: they stay with what follows. */
static bool is_relation(struct text t) {
    static const char *const signs[] = {"<", ">", "<=", ">=", "≤", "≥", "≈"};
    return any_of(t, signs, sizeof signs / sizeof signs[0]);
}

/* Without the brackets and stops that may stand around a word. */
static struct text bare(struct text t) {
    while (t.len > 0 && (t.start[0] == '(' || t.start[0] == '['))
        t = text_part(t, 1, t.len);
    while (t.len > 0) {
        char last = t.start[t.len - 1];
        if (last != ')' && last != ']' && last != ',' && last != '.' &&
            last != ';' && last != ':' && last != '?' && last != '!')
            break;
        t.len--;
    }
    return t;
}

enum { UNIT_LEN_MAX = 8 }; /* bytes: lbf·ft, mΩ/m */

static bool is_unit(struct text t) {
    static const char *const more[] = {"AWG",   "SAE",  "kcmil",
                                       "turns", "turn", "deg"};
    if (t.len == 0 || t.len > UNIT_LEN_MAX)
        return false; /* most words are longer: spare them the look-up */
    return any_of(t, more, sizeof more / sizeof more[0]) ||
           unit_find(t.start, t.len) != NULL;
}

static bool is_short_number(struct text t) {
    t = bare(t);
    for (size_t i = 0; i < t.len; i++)
        if (!is_digit(t.start[i]))
            return false;
    return t.len > 0 && t.len <= 3;
}

/* Signs that end a line and begin none: dashes, the pole of a battery, and what
 * stands between the terms of a formula. */
static bool is_trailing(struct text t) {
    static const char *const signs[] = {"–", "—", "−", "-", "+", "/", "·"};
    return any_of(bare(t), signs, sizeof signs / sizeof signs[0]);
}

/* May a line end at the blank between these two? */
static enum gap gap_between(struct text before, struct text after, bool whole) {
    if (before.len == 0 || after.len == 0)
        return GAP_BREAK;
    char last = before.start[before.len - 1];
    if (whole) {
        if (last == ';' || last == ',' || last == ')')
            return GAP_BREAK;
        return after.start[0] == '(' ? GAP_INNER : GAP_WHOLE;
    }
    if (is_trailing(after))
        return GAP_WHOLE;
    static const char *const tolerance[] = {"±", "+/-"};
    if (any_of(before, tolerance, 2) || any_of(after, tolerance, 2) ||
        is_relation(before))
        return GAP_WHOLE;
    bool from_digit = is_digit(last), to_digit = is_digit(after.start[0]);
    if (from_digit && (to_digit || text_is(after, "×") || is_unit(bare(after))))
        return GAP_WHOLE;
    static const char *const leads[] = {"×",    "no.",  "No.",    "step",
                                        "page", "part", "figure", "table"};
    if (to_digit && any_of(before, leads, sizeof leads / sizeof leads[0]))
        return GAP_WHOLE;
    return is_short_number(after) ? GAP_POOR : GAP_BREAK;
}

/* The same inside what is held together: a list of things parts where it saves
 * a line, none of its things from its number. */
static enum gap held_gap(enum gap gap, struct text before) {
    char last = before.len == 0 ? '\0' : before.start[before.len - 1];
    if (last == ';' || (gap != GAP_BREAK && gap != GAP_POOR))
        return gap;
    return gap == GAP_POOR && last != ',' ? GAP_WHOLE : GAP_INNER;
}

static struct word *add_word(const struct composer *c, struct words *w) {
    if (w->count == w->room) {
        size_t room = w->room * 2;
        w->word =
            arena_grow(c->arena, w->word, w->count, room, sizeof *w->word);
        w->room = room;
    }
    struct word *word = &w->word[w->count++];
    *word = (struct word){.first = w->atom_count};
    return word;
}

static void check_glyphs(const struct composer *c, const struct run *run,
                         const struct chunk *k, struct text piece) {
    for (size_t i = 0; i < run->glyph_count; i++) {
        if (run->glyphs[i].id != 0)
            continue;
        uint32_t code = shape_missing(c->shaper, run->face, piece);
        char bytes[4];
        size_t len = text_encode(code, bytes);
        struct span at = k->at;
        if (at.src != NULL && piece.start >= at.src->text.start &&
            piece.start < at.src->text.start + at.src->text.len)
            at = place_of(at.src, piece);
        diag_add(c->diags, DIAG_GLYPH_MISSING, at, "'%.*s' (U+%04X)", (int)len,
                 bytes, (unsigned)code);
        return;
    }
}

static void add_run(const struct composer *c, struct words *w,
                    const struct chunk *k, const struct run *run) {
    if (w->atom_count == w->atom_room) {
        size_t room = w->atom_room * 2;
        w->atom =
            arena_grow(c->arena, w->atom, w->atom_count, room, sizeof *w->atom);
        w->atom_room = room;
    }
    struct atom *atom = &w->atom[w->atom_count++];
    *atom = (struct atom){run, k, run->advance * k->tone.size};
    struct word *word = &w->word[w->count - 1];
    word->count++;
    word->width += atom->width;
}

static bool is_whole(const struct run *run) {
    for (size_t i = 0; i < run->glyph_count; i++)
        if (run->glyphs[i].id == 0)
            return false;
    return true;
}

/* Characters that the face lacks come from the face of symbols; what that lacks
 * too is reported. */
static void add_atom(const struct composer *c, struct words *w,
                     const struct chunk *k, struct text piece) {
    const struct run *run = shape_word(c->shaper, k->tone.face, piece);
    if (is_whole(run)) {
        add_run(c, w, k, run);
        return;
    }
    for (size_t at = 0; at < piece.len;) {
        bool covered;
        struct text rest = text_part(piece, at, piece.len);
        rest.len = shape_covered(c->shaper, k->tone.face, rest, &covered);
        run = shape_word(c->shaper, covered ? k->tone.face : FACE_SYMBOL, rest);
        check_glyphs(c, run, k, rest);
        add_run(c, w, k, run);
        at += rest.len;
    }
}

/* Length of the white space at the start: a blank, a line end, a tab, the
 * no-break space, or the blank of no width, which only lets a line end. */
static size_t blank_len(struct text t, bool *no_break, bool *thin) {
    *no_break = *thin = false;
    if (t.len > 0 && (t.start[0] == ' ' || t.start[0] == '\n' ||
                      t.start[0] == '\t' || t.start[0] == '\r'))
        return 1;
    if (text_starts(t, "\xC2\xA0")) {
        *no_break = true;
        return 2;
    }
    *thin = text_starts(t, "\xE2\x80\x8B");
    return *thin ? 3 : 0;
}

struct pending {               /* what was seen since the last word */
    const struct chunk *blank; /* the first one's chunk, or NULL */
    bool no_break, whole, held, solid, line_end, thin;
};

static void start_word(const struct composer *c, struct words *w,
                       struct pending *p, struct text piece) {
    if (w->count > 0 && p->blank == NULL && !p->line_end && !p->thin)
        return;
    struct text before = {NULL, 0};
    if (w->count > 0)
        before = w->atom[w->atom_count - 1].run->text;
    struct word *word = add_word(c, w);
    word->blank = p->blank;
    if (w->count > 1 && p->blank != NULL)
        word->gap_width = shape_width(c->shaper, p->blank->tone.face,
                                      p->blank->tone.size, text_of(" "));
    if (w->count == 1)
        word->gap = GAP_NONE;
    else if (p->line_end)
        word->gap = GAP_FORCED;
    else if (p->no_break || p->solid)
        word->gap = GAP_WHOLE;
    else if (p->blank == NULL)
        word->gap = GAP_BREAK;
    else
        word->gap = gap_between(before, piece, p->whole);
    if (p->held)
        word->gap = held_gap(word->gap, before);
    *p = (struct pending){0};
}

static void measure(struct words *w) {
    double piece = 0, line = 0;
    w->widest = w->line = 0;
    for (size_t i = 0; i < w->count; i++) {
        const struct word *word = &w->word[i];
        bool joined = word->gap == GAP_WHOLE;
        piece = joined ? piece + word->gap_width + word->width : word->width;
        piece += i == 0 ? w->lead : 0;
        if (word->gap == GAP_NONE || word->gap == GAP_FORCED)
            line = word->width + (i == 0 ? w->lead : 0);
        else
            line += word->gap_width + word->width;
        w->widest = piece > w->widest ? piece : w->widest;
        w->line = line > w->line ? line : w->line;
    }
}

/* Room for as many words as such a text has, mostly. */
static struct words *words_new(const struct composer *c, const struct rich *r) {
    struct words *w = arena_alloc(c->arena, 1, sizeof *w);
    size_t len = 0;
    for (size_t i = 0; i < r->count; i++)
        len += r->chunk[i].text.len;
    w->room = len / 5 + 1;
    w->atom_room = w->room + r->count;
    w->word = arena_alloc(c->arena, w->room, sizeof *w->word);
    w->atom = arena_alloc(c->arena, w->atom_room, sizeof *w->atom);
    return w;
}

struct words *words_of(const struct composer *c, const struct rich *r) {
    struct words *w = words_new(c, r);
    struct pending p = {0};
    for (size_t i = 0; i < r->count; i++) {
        const struct chunk *k = &r->chunk[i];
        p.line_end |= k->line_end;
        for (size_t at = 0; at < k->text.len;) {
            struct text rest = text_part(k->text, at, k->text.len);
            bool no_break, thin;
            size_t blank = blank_len(rest, &no_break, &thin);
            if (blank > 0) {
                p.whole = k->whole;
                p.held = k->held;
                p.solid = k->solid;
                p.thin |= thin;
                p.blank = p.blank == NULL && !thin ? k : p.blank;
                p.no_break |= no_break;
                at += blank;
                continue;
            }
            size_t len = 0;
            while (len < rest.len && blank_len(text_part(rest, len, rest.len),
                                               &no_break, &thin) == 0)
                len++;
            struct text piece = text_part(rest, 0, len);
            start_word(c, w, &p, piece);
            add_atom(c, w, k, piece);
            at += len;
        }
    }
    measure(w);
    return w;
}

void words_scale(struct words *w, double factor) {
    for (size_t i = 0; i < w->atom_count; i++)
        w->atom[i].width *= factor;
    for (size_t i = 0; i < w->count; i++) {
        w->word[i].width *= factor;
        w->word[i].gap_width *= factor;
    }
    w->widest *= factor;
    w->line *= factor;
    w->lead *= factor;
}

/* Signs that may stand before a number. */
static size_t sign_len(struct text t) {
    static const char *const signs[] = {"−", "-", "+", "±", "≤",
                                        "≥", "<", ">", "≈", "~"};
    for (size_t i = 0; i < sizeof signs / sizeof signs[0]; i++)
        if (text_starts(t, signs[i]))
            return strlen(signs[i]);
    return 0;
}

double words_point(const struct composer *c, const struct words *w) {
    double x = 0;
    for (size_t i = 0; i < w->count; i++) {
        const struct atom *atom = &w->atom[w->word[i].first];
        struct text t = atom->run->text;
        size_t at = sign_len(t), digits = at;
        while (digits < t.len && is_digit(t.start[digits]))
            digits++;
        if (digits > at)
            return x + shape_width(c->shaper, atom->run->face,
                                   atom->chunk->tone.size,
                                   text_part(t, 0, digits));
        if (at == 0 || at < t.len || w->word[i].count > 1)
            return -1;
        x += w->word[i].width +
             (i + 1 < w->count ? w->word[i + 1].gap_width : 0);
    }
    return -1;
}

void words_indent(struct words *w, double lead) {
    w->lead = lead;
    measure(w);
}
