/* warn.c - caution panels: those of the author and those that the rules call
 * for. */
#include "layout/warn.h"

#include "base/arena.h"
#include "base/diag.h"

enum panel_signal warn_signal(enum signal signal) {
    switch (signal) {
    case SIGNAL_DANGER:
        return PANEL_DANGER;
    case SIGNAL_WARNING:
        return PANEL_WARNING;
    case SIGNAL_CAUTION:
        return PANEL_CAUTION;
    case SIGNAL_NOTICE:
        return PANEL_NOTICE;
    }
    return PANEL_NOTICE;
}

static bool author_signal(const struct block *b, enum panel_signal *signal) {
    switch ((int)b->kind->id) {
    case KIND_DANGER:
        *signal = PANEL_DANGER;
        return true;
    case KIND_WARNING:
        *signal = PANEL_WARNING;
        return true;
    case KIND_CAUTION:
        *signal = PANEL_CAUTION;
        return true;
    case KIND_NOTICE:
        *signal = PANEL_NOTICE;
        return true;
    }
    return false;
}

static void add_setting(struct leaf *l, struct rich *r, const struct block *b,
                        const char *name, const struct spot *spot) {
    const struct entry *e = tree_setting(b, name);
    if (e != NULL)
        prose_add_choices(l, r, e->choices, e->choice_count, spot);
}

static struct spot panel_spot(const struct leaf *l, enum face value,
                              variant_set variants) {
    struct spot spot = prose_body(l, variants);
    spot.type = l->style.step;
    spot.value = value;
    return spot;
}

/* Hazard in bold and consequence; below them what to do. */
static void set_author_panel(struct leaf *l, const struct block *b,
                             enum panel_signal signal, variant_set variants) {
    struct rich text[2] = {{0}, {0}};
    struct spot spot = panel_spot(l, FACE_BOLD, variants);
    add_setting(l, &text[0], b, "hazard", &spot);
    for (size_t i = 0; i < text[0].count; i++)
        text[0].chunk[i].tone.face = FACE_BOLD;
    leaf_add(l, &text[0], l->style.step, FACE_REGULAR, " ");
    add_setting(l, &text[0], b, "consequence", &spot);
    add_setting(l, &text[1], b, "avoidance", &spot);
    struct panel p = {
        .signal = signal, .paragraph = text, .paragraph_count = 2, .at = b->at};
    panel_set(&l->flow, &p);
}

static void set_caution(struct leaf *l, const struct caution *k,
                        variant_set variants) {
    struct arena *a = l->composer.arena;
    struct type type = l->style.step;
    struct rich text[3] = {{0}, {0}, {0}};
    struct span at = k->before == NULL ? l->guide->root->at : k->before->at;
    variant_set inner = variants & k->variants;
    if (inner != variants)
        leaf_add(l, &text[0], type, FACE_BOLD,
                 arena_printf(a, "%s only: ",
                              values_variant_names(l->values, a, inner)));
    leaf_add(l, &text[0], type, FACE_BOLD, k->hazard);
    leaf_add(l, &text[0], type, FACE_REGULAR, " ");
    leaf_add(l, &text[0], type, FACE_REGULAR, k->consequence);
    leaf_add(l, &text[1], type, FACE_REGULAR, k->avoidance);
    if (k->defer != NULL)
        prose_add_deferred(l, &text[2], leaf_tone(type, FACE_BOLD),
                           text_of(k->defer));
    struct panel p = {.signal = warn_signal(k->signal),
                      .symbol =
                          arena_alloc(a, k->symbol_count + 1, sizeof *p.symbol),
                      .paragraph = text,
                      .paragraph_count = k->defer == NULL ? 2 : 3,
                      .at = at};
    for (size_t i = 0; i < k->symbol_count; i++) {
        const struct symbol *one = symbol_find(k->symbols[i]);
        if (one == NULL)
            diag_add(l->composer.diags, DIAG_SYMBOL_UNKNOWN, at, "'%s' (%s)",
                     k->symbols[i], k->row);
        else
            p.symbol[p.symbol_count++] = one;
    }
    panel_set(&l->flow, &p);
}

static void part_panels(struct leaf *l, size_t *count) {
    flow_space(&l->flow, *count == 0 ? 10 : 5);
    if (*count > 0)
        flow_bond(&l->flow, BOND_FAST);
    ++*count;
}

size_t warn_set_before(struct leaf *l, const struct node *step,
                       const struct spot *spot) {
    size_t count = 0;
    for (enum panel_signal word = PANEL_DANGER; word <= PANEL_NOTICE; word++) {
        for (size_t i = 0; i < l->findings->caution_count; i++) {
            const struct caution *k = &l->findings->caution[i];
            if (k->before != step || warn_signal(k->signal) != word ||
                (k->variants & spot->variants) == 0)
                continue;
            part_panels(l, &count);
            set_caution(l, k, spot->variants);
        }
        for (const struct node *n = step->first; n != NULL; n = n->next) {
            enum panel_signal signal;
            if (n->kind != NODE_BLOCK || !author_signal(n->block, &signal) ||
                signal != word)
                continue;
            part_panels(l, &count);
            set_author_panel(l, n->block, signal, spot->variants);
        }
    }
    return count;
}

bool warn_set_block(struct leaf *l, const struct block *b,
                    const struct spot *spot) {
    enum panel_signal signal;
    if (!author_signal(b, &signal))
        return false;
    flow_space(&l->flow, 10);
    set_author_panel(l, b, signal, spot->variants);
    flow_bond(&l->flow, BOND_FAST);
    flow_space(&l->flow, 6);
    return true;
}
