/* circuit_shown.c - what stands beside an element in the drawing of its
 * circuit.
 */
#include "values/circuit_shown.h"

#include "base/arena.h"
#include "calc/fuse.h"
#include "values/circuit_block.h"
#include "values/circuit_part.h"
#include "values/circuit_rating.h"
#include "values/circuit_solve.h"
#include "values/circuit_starved.h"

#include <math.h>
#include <stdint.h>
#include <string.h>

static size_t variants_in(variant_set s) {
    size_t count = 0;
    for (; s != 0; s &= s - 1)
        count++;
    return count;
}

/* The least and the most of a figure over the variants. */
struct extent {
    const struct quantity *low, *high;
};

static void widen(struct extent *e, const struct quantity *q) {
    if (q == NULL)
        return;
    if (e->low == NULL || q->nominal < e->low->nominal)
        e->low = q;
    if (e->high == NULL || q->nominal > e->high->nominal)
        e->high = q;
}

static bool is_point(struct arena *a, const struct extent *e) {
    return e->low != NULL && strcmp(figure_of(a, e->low, FIGURE_PLAIN),
                                    figure_of(a, e->high, FIGURE_PLAIN)) == 0;
}

static const char *extent_words(struct arena *a, const struct extent *e) {
    if (e->low == NULL)
        return NULL;
    const char *low = figure_of(a, e->low, FIGURE_PLAIN);
    return is_point(a, e) ? low
                          : arena_printf(a, "%s to %s", low,
                                         figure_of(a, e->high, FIGURE_PLAIN));
}

/* Texts by variant, each once, each with the extent of what stands behind it.
 */
struct texts {
    const char *text[64];
    variant_set set[64];
    struct extent behind[64];
    size_t count;
};

static void add(struct texts *t, const char *text,
                const struct quantity *behind, size_t variant) {
    size_t i = 0;
    while (i < t->count && strcmp(t->text[i], text) != 0)
        i++;
    if (i == t->count) {
        t->text[t->count++] = text;
        t->set[i] = 0;
        t->behind[i] = (struct extent){NULL, NULL};
    }
    t->set[i] |= (variant_set)1 << variant;
    widen(&t->behind[i], behind);
}

/* "10 AWG 1.9 m to 2.4 m; mark 3: 8 AWG 3.4 m", and "10 AWG; mark 3: 8 AWG,
 * 0.4 m" where the length is the same. */
static const char *joined(const struct values *v, struct arena *a,
                          const struct texts *t) {
    struct buf b = buf_in(a);
    struct extent all = {NULL, NULL};
    for (size_t i = 0; i < t->count; i++) {
        widen(&all, t->behind[i].low);
        widen(&all, t->behind[i].high);
    }
    bool same = t->count > 1 && is_point(a, &all);
    size_t main = 0; /* most variants have it: it stands in front */
    for (size_t i = 1; i < t->count; i++)
        if (variants_in(t->set[i]) > variants_in(t->set[main]))
            main = i;
    for (size_t k = 0; k < t->count; k++) {
        size_t i = k == 0 ? main : k <= main ? k - 1 : k;
        const char *behind = same ? NULL : extent_words(a, &t->behind[i]);
        if (k > 0)
            buf_printf(&b, "; %s: ",
                       text_held(a, values_variant_names(v, a, t->set[i])));
        buf_puts(&b, t->text[i]);
        if (behind != NULL)
            buf_printf(&b, " %s", behind);
    }
    if (same)
        buf_printf(&b, ", %s", extent_words(a, &all));
    return t->count == 0 ? NULL : buf_cstr(&b);
}

/* What a fuse is for, or what a switch or a contact carries: "15 A lamp". */
static const char *rating_of(struct arena *a, const struct circuit_work *w,
                             size_t element) {
    const struct circuit_piece *p = &w->part[element];
    enum circuit_part part = p->element->part;
    if (p->rating != NULL)
        return figure_of(a, p->rating, FIGURE_PLAIN);
    if (part != CIRCUIT_SWITCH && part != CIRCUIT_CONTACT)
        return NULL;
    struct circuit_carrying can = circuit_rating_carries(w, element);
    if (can.rating == NULL)
        return NULL;
    const char *ampere = figure_of(a, can.rating, FIGURE_PLAIN);
    return strcmp(can.load, "lamp") == 0 ? arena_printf(a, "%s lamp", ampere)
                                         : ampere;
}

/* Of a fuse that says its style; NULL where it does not. */
static const char *colour_of(const struct circuit_piece *p) {
    const struct fuse_style *style =
        p->rating == NULL ? NULL : circuit_rating_said(p->element);
    return style == NULL ? NULL : fuse_colour(style, p->rating->nominal);
}

static bool is_consumer(const struct circuit_piece *p) {
    return p->element->part == CIRCUIT_LOAD || p->element->part == CIRCUIT_COIL;
}

static const struct quantity *current_of(const struct circuit_piece *p) {
    return is_consumer(p) && p->figure_count == 2 ? p->figure[0] : NULL;
}

static const struct quantity *resistance_of(const struct circuit_piece *p) {
    bool stated = p->element->word_count > 0; /* else that of a usual coil */
    return is_consumer(p) && p->figure_count == 1 && stated ? p->figure[0]
                                                            : NULL;
}

const char *circuit_shown_resistance(struct arena *a,
                                     const struct circuit_piece *p) {
    const struct quantity *ohm = resistance_of(p);
    return ohm == NULL ? NULL : figure_of(a, ohm, FIGURE_PLAIN);
}

/* "4 A to 5 A", "10 Ω", or both where one variant states the one and another
 * the other. */
static const char *takes_words(struct arena *a, const struct extent *current,
                               const struct extent *resistance) {
    const char *ampere = extent_words(a, current);
    const char *ohm = extent_words(a, resistance);
    if (ampere == NULL || ohm == NULL)
        return ampere == NULL ? ohm : ampere;
    return arena_printf(a, "%s or %s", ampere, ohm);
}

const char *circuit_shown_point(struct arena *a,
                                const struct circuit_point *p) {
    struct text name = p->name;
    if (name.len < 2 || name.start[name.len - 1] != '-')
        return text_cstr(a, name);
    return arena_printf(a, "%.*s\xE2\x88\x92", (int)name.len - 1, name.start);
}

double circuit_shown_voltage(const struct values *v, const struct block *b,
                             size_t point, size_t variant) {
    struct circuit_work *w = v->of_block[b->index].circuit[variant];
    if (w == NULL || w->node[point] == SIZE_MAX ||
        !circuit_solve_state(w, 0, NULL) || circuit_starved_point(w, point))
        return NAN;
    return circuit_block_settled(w->solution.volt[w->node[point]]);
}

const char *circuit_shown_load(struct arena *a, struct text name) {
    char *out = arena_copy(a, name.start, name.len);
    for (char *c = out; *c != '\0'; c++)
        if (*c == '.')
            *c = ' ';
    return out;
}

static bool is_figure(struct text word) {
    return word.len > 0 && word.start[0] >= '0' && word.start[0] <= '9';
}

/* Two alternatives of a line that differ in figures only. */
static bool look_alike(const struct circuit_element *a,
                       const struct circuit_element *b) {
    bool same = a->choice != NULL && a->choice == b->choice &&
                a->word_count == b->word_count &&
                text_equal(a->colour[0], b->colour[0]) &&
                text_equal(a->colour[1], b->colour[1]);
    for (size_t i = 0; same && i < a->word_count; i++)
        same = text_equal(a->word[i], b->word[i]) ||
               (is_figure(a->word[i]) && is_figure(b->word[i]));
    return same;
}

size_t circuit_shown_first(const struct circuit *c, size_t element) {
    const struct entry *line = c->element[element].choice;
    size_t first = element;
    for (size_t i = element;
         line != NULL && i-- > 0 && c->element[i].choice == line;)
        if (look_alike(&c->element[i], &c->element[element]))
            first = i;
    return first;
}

size_t circuit_shown_next(const struct circuit *c, size_t first,
                          size_t element) {
    const struct entry *line = c->element[first].choice;
    for (size_t i = element + 1;
         line != NULL && i < c->element_count && c->element[i].choice == line;
         i++)
        if (look_alike(&c->element[i], &c->element[first]))
            return i;
    return SIZE_MAX;
}

/* The one of the alternatives that are drawn as one that is there; SIZE_MAX:
 * none for this variant. */
static size_t present(const struct circuit_work *w, size_t first) {
    size_t i = first;
    while (i != SIZE_MAX &&
           (w->part[i].element == NULL || w->part[i].law == LAWS))
        i = circuit_shown_next(w->c, first, i);
    return i;
}

struct circuit_shown circuit_shown(const struct values *v, struct arena *a,
                                   const struct block *b, size_t element,
                                   variant_set set) {
    struct texts size = {.count = 0}, rating = {.count = 0},
                 colour = {.count = 0};
    struct extent current = {NULL, NULL}, resistance = {NULL, NULL};
    for (size_t k = 0; k < v->variant_count; k++) {
        const struct circuit_work *w = v->of_block[b->index].circuit == NULL
                                           ? NULL
                                           : v->of_block[b->index].circuit[k];
        if ((set >> k & 1) == 0 || w == NULL)
            continue;
        size_t here = present(w, element);
        if (here == SIZE_MAX)
            continue; /* not for this variant */
        const struct circuit_piece *p = &w->part[here];
        if (p->run != NULL)
            add(&size, text_held(a, p->run->ampacity.use.size->label),
                p->figure[0], k);
        const char *ampere = rating_of(a, w, here);
        if (ampere != NULL)
            add(&rating, ampere, NULL, k);
        if (colour_of(p) != NULL)
            add(&colour, colour_of(p), NULL, k);
        widen(&current, current_of(p));
        widen(&resistance, resistance_of(p));
    }
    return (struct circuit_shown){joined(v, a, &size), joined(v, a, &rating),
                                  joined(v, a, &colour),
                                  takes_words(a, &current, &resistance)};
}

bool circuit_shown_moved(const struct values *v, const struct block *b,
                         size_t element, variant_set set) {
    bool any = false;
    for (size_t k = 0; k < v->variant_count; k++) {
        struct circuit_work *w = v->of_block[b->index].circuit == NULL
                                     ? NULL
                                     : v->of_block[b->index].circuit[k];
        size_t here =
            (set >> k & 1) == 0 || w == NULL ? SIZE_MAX : present(w, element);
        if (here == SIZE_MAX || !circuit_solve_state(w, 0, NULL))
            continue;
        const struct circuit_element *e = w->part[here].element;
        bool rests = e->part == CIRCUIT_CONTACT && circuit_solve_rests(e);
        if (w->open[here] != rests)
            return false;
        any = true;
    }
    return any;
}
