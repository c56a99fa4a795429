/* circuit_rating.c - what the parts of a circuit may carry and break. */
#include "values/circuit_rating.h"

#include "base/arena.h"
#include "calc/contact.h"
#include "calc/fuse.h"
#include "values/electrical.h"
#include "values/expression.h"
#include "values/part_reader.h"
#include "values/range.h"

#include <math.h>
#include <string.h>

const struct quantity *circuit_rating_ampacity(const struct circuit_work *w,
                                               size_t wire) {
    const struct circuit_piece *p = &w->part[wire];
    const struct quantity *of_ambient[] = {p->figure[2]};
    return quantity_call(&w->v->maker, wire_calculation(WIRE_AMPACITY), p->run,
                         of_ambient);
}

static const struct quantity *figure(const struct circuit_work *w,
                                     struct text word) {
    struct expression x = expression_over(w->v, w->b->scope, w->variant, word);
    struct value value = expression_sum(&x);
    return value.type == VALUE_QUANTITY ? value.quantity : NULL;
}

static struct quantity *amperes(const struct circuit_work *w, double x,
                                const char *source) {
    struct quantity *q =
        block_table(w->v, x, (struct ends){x, x}, "A", "", source);
    q->decimals = x == floor(x) ? 0 : 1;
    return q;
}

static void of_style(const struct circuit_work *w, struct text style,
                     double volt, struct circuit_breaking *out) {
    const struct fuse_style *s = fuse_style_find(style.start, style.len);
    double amp = s == NULL ? NAN : fuse_interrupt(s, volt);
    if (s != NULL && volt > s->interrupt_volt)
        out->upto = s->interrupt_volt;
    if (isnan(amp))
        return;
    struct quantity *limit = amperes(w, amp, s->interrupt_source);
    electrical_in_kiloampere(limit);
    out->limit = limit;
    out->source = s->interrupt_source;
}

const struct quantity *circuit_rating_share(const struct circuit_work *w,
                                            const struct quantity *rating,
                                            double share) {
    if (share == 1)
        return rating;
    struct quantity *left =
        quantity_binary(&w->v->maker, QUANTITY_MULTIPLY, rating,
                        quantity_number(&w->v->maker, share));
    left->unit = rating->unit;
    return left;
}

const struct fuse_style *
circuit_rating_said(const struct circuit_element *fuse) {
    const struct fuse_style *s = NULL;
    for (size_t i = 0; i < fuse->word_count && s == NULL; i++) {
        struct text behind = part_reader_behind(fuse->word[i]);
        s = fuse_style_find(fuse->word[i].start, fuse->word[i].len);
        if (s == NULL)
            s = fuse_style_find(behind.start, behind.len);
    }
    return s;
}

const struct block *circuit_rating_block(const struct circuit_work *w,
                                         size_t part) {
    return values_block(w->v, w->b->scope, w->c->element[part].name, "fuse");
}

const struct fuse_style *circuit_rating_style(const struct circuit_work *w,
                                              size_t part) {
    const struct circuit_element *e = &w->c->element[part];
    const struct block *b = circuit_rating_block(w, part);
    if (b == NULL)
        return circuit_rating_said(e);
    struct text style = block_text(w->v, b, "style", w->variant);
    return fuse_style_find(style.start, style.len);
}

double circuit_rating_ambient(const struct circuit_work *w, size_t fuse) {
    double kelvin = 298.15;
    for (size_t i = 0; i < w->c->element_count; i++)
        if (w->part[i].law == LAW_WIRE &&
            (w->from[i] == w->from[fuse] || w->from[i] == w->to[fuse] ||
             w->to[i] == w->from[fuse] || w->to[i] == w->to[fuse]))
            kelvin = fmax(kelvin, range_ends(w->part[i].figure[2]).high);
    return kelvin;
}

struct circuit_breaking circuit_rating_breaks(const struct circuit_work *w,
                                              size_t part, double volt) {
    static const char breaks[] = "breaks ";
    const struct circuit_element *e = &w->c->element[part];
    struct circuit_breaking out = {.block = circuit_rating_block(w, part),
                                   .source = electrical_unstated};
    if (out.block != NULL) {
        const struct value *stated =
            block_setting(w->v, out.block, "interrupt", w->variant);
        if (stated->type == VALUE_QUANTITY) {
            out.limit = stated->quantity;
            out.source = electrical_stated(w->v, stated->quantity->note);
        } else
            of_style(w, block_text(w->v, out.block, "style", w->variant), volt,
                     &out);
        return out;
    }
    for (size_t i = 0; i < e->word_count; i++) {
        if (text_starts(e->word[i], breaks)) {
            out.limit = figure(
                w, text_part(e->word[i], sizeof breaks - 1, e->word[i].len));
            out.source = electrical_stated(w->v, e->note);
            return out;
        }
        of_style(w, e->word[i], volt, &out);
        of_style(w, part_reader_behind(e->word[i]), volt, &out);
    }
    return out;
}

/* The thinner of the wires on both sides in the same path; NULL: none. */
static const struct wire_size *wire_beside(const struct circuit_work *w,
                                           size_t part) {
    const struct circuit_branch *b = &w->c->branch[w->c->element[part].branch];
    const struct wire_size *thin = NULL;
    for (size_t i = b->first; i < b->first + b->count; i++) {
        bool beside = w->part[i].law == LAW_WIRE &&
                      (w->to[i] == w->from[part] || w->from[i] == w->to[part]);
        const struct wire_size *size =
            beside ? w->part[i].run->ampacity.use.size : NULL;
        if (size != NULL && (thin == NULL || size_compare(size, thin) < 0))
            thin = size;
    }
    return thin;
}

static bool of_tab(const struct circuit_work *w, size_t part, struct text word,
                   struct circuit_carrying *out) {
    static const char tab[] = "tab ";
    const struct wire_size *size = wire_beside(w, part);
    if (!text_starts(word, tab) || size == NULL)
        return false;
    struct text name = text_trim(text_part(word, sizeof tab - 1, word.len));
    const struct tab *t = tab_find(name.start, name.len);
    const char *row = NULL;
    double ampere = t == NULL ? NAN : tab_current(t, size, false, &row);
    if (t == NULL)
        return false;
    *out = (struct circuit_carrying){
        isnan(ampere) ? NULL : amperes(w, ampere, tab_source()), "tab", "any",
        tab_source()};
    return true;
}

static bool of_stud(const struct circuit_work *w, struct text word,
                    struct circuit_carrying *out) {
    static const char ring[] = "ring ";
    if (!text_starts(word, ring))
        return false;
    struct text rest = text_trim(text_part(word, sizeof ring - 1, word.len));
    struct text name;
    text_next_part(&rest, ' ', &name);
    const struct stud *s = stud_find(name.start, name.len);
    if (s == NULL || isnan(s->clamped))
        return false;
    *out = (struct circuit_carrying){amperes(w, s->clamped, s->source), "stud",
                                     "any", s->source};
    return true;
}

static bool is_for_cranking(struct text word) {
    return text_is(part_reader_behind(word), "cranking");
}

/* A current among the words; NULL: it is none. */
static const struct quantity *current_in(const struct circuit_work *w,
                                         struct text word) {
    if (!part_reader_is_figure(w->v, w->b->scope, word))
        return NULL;
    const struct quantity *q = figure(w, word);
    return q != NULL && dim_same(q->dim, unit_find("A", 1)->dim) ? q : NULL;
}

struct circuit_carrying circuit_rating_cranks(const struct circuit_work *w,
                                              size_t part) {
    const struct circuit_element *e = &w->c->element[part];
    struct circuit_carrying out = {.rule = "contact", .load = "any"};
    for (size_t i = 0; i < e->word_count && out.rating == NULL; i++)
        if (is_for_cranking(e->word[i]))
            out.rating = current_in(w, e->word[i]);
    if (out.rating != NULL)
        out.source = "its maker's rating for cranking";
    return out;
}

struct circuit_carrying circuit_rating_carries(const struct circuit_work *w,
                                               size_t part) {
    const struct circuit_element *e = &w->c->element[part];
    struct circuit_carrying out = {.rule = "contact", .load = "any"};
    for (size_t i = 0; i < e->word_count; i++) {
        struct text word = e->word[i];
        if (of_tab(w, part, word, &out) || of_stud(w, word, &out))
            return out;
        const struct quantity *q =
            is_for_cranking(word) ? NULL : current_in(w, word);
        if (q == NULL)
            continue;
        struct text kind = part_reader_behind(word);
        const struct contact_load *load =
            contact_load_find(kind.start, kind.len);
        bool breaks = e->part == CIRCUIT_SWITCH || e->part == CIRCUIT_CONTACT;
        out.rating = q;
        out.load = load != NULL ? load->kind : breaks ? "resistive" : "any";
        out.source = "its maker's rating";
        return out;
    }
    return out;
}
