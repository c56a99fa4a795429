/* circuit_rating.c - what the parts of a circuit may carry and break. */
#include "values/circuit_rating.h"

#include "base/arena.h"
#include "calc/fuse.h"
#include "values/expression.h"

#include <math.h>

static const struct quantity *figure(const struct circuit_work *w,
                                     struct text word) {
    struct expression x = expression_over(w->v, w->b->scope, w->variant, word);
    struct value value = expression_sum(&x);
    return value.type == VALUE_QUANTITY ? value.quantity : NULL;
}

static const struct quantity *amperes(const struct circuit_work *w, double x,
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
    if (isnan(amp))
        return;
    out->limit = amperes(w, amp, s->interrupt_source);
    out->source = s->interrupt_source;
}

/* "15 A blade": what stands behind the unit; else the whole word. */
static struct text behind_figure(struct text word) {
    struct text rest = word, part;
    if (word.len == 0 || word.start[0] < '0' || word.start[0] > '9')
        return word;
    return text_next_part(&rest, ' ', &part) &&
                   text_next_part(&rest, ' ', &part)
               ? text_trim(rest)
               : rest;
}

struct circuit_breaking circuit_rating_breaks(const struct circuit_work *w,
                                              size_t part, double volt) {
    static const char breaks[] = "breaks ";
    const struct circuit_element *e = &w->c->element[part];
    struct circuit_breaking out = {
        .block = values_block(w->v, w->b->scope, e->name, "fuse"),
        .source = "the maker's figure"};
    if (out.block != NULL) {
        const struct value *stated =
            block_setting(w->v, out.block, "interrupt", w->variant);
        if (stated->type == VALUE_QUANTITY)
            out.limit = stated->quantity;
        else
            of_style(w, block_text(w->v, out.block, "style", w->variant), volt,
                     &out);
        return out;
    }
    for (size_t i = 0; i < e->word_count; i++) {
        if (text_starts(e->word[i], breaks)) {
            out.limit = figure(
                w, text_part(e->word[i], sizeof breaks - 1, e->word[i].len));
            out.source = "the maker's figure";
            return out;
        }
        of_style(w, behind_figure(e->word[i]), volt, &out);
    }
    return out;
}
