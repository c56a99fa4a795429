/* warn.c - caution panels: those of the author and those that the rules call
 * for. One whose words were printed in full before, for these vehicles, comes
 * again in the brief form. */
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

struct warned {
    enum panel_signal signal;
    const char *words; /* the message as it prints */
    variant_set variants;
};

struct warn_store {
    struct warned *list;
    size_t count, room;
};

static const char *message_of(struct leaf *l, const struct panel *p) {
    struct buf b = buf_in(l->composer.arena);
    for (size_t i = 0; i < p->paragraph_count; i++)
        for (size_t k = 0; k < p->paragraph[i].count; k++)
            buf_text(&b, p->paragraph[i].chunk[k].text);
    return buf_cstr(&b);
}

static bool was_printed(const struct leaf *l, enum panel_signal signal,
                        const char *words, variant_set variants) {
    const struct warn_store *s = l->warned;
    for (size_t i = 0; s != NULL && i < s->count; i++) {
        const struct warned *one = &s->list[i];
        if (one->signal == signal && (variants & ~one->variants) == 0 &&
            text_equal(text_of(one->words), text_of(words)))
            return true;
    }
    return false;
}

static void remember(struct leaf *l, struct warned one) {
    struct arena *a = l->composer.arena;
    if (l->warned == NULL)
        l->warned = arena_alloc(a, 1, sizeof *l->warned);
    struct warn_store *s = l->warned;
    if (s->count == s->room) {
        size_t room = s->room == 0 ? 8 : s->room * 2;
        s->list = arena_grow(a, s->list, s->count, room, sizeof *s->list);
        s->room = room;
    }
    s->list[s->count++] = one;
}

/* `words` is the message without the vehicles that it is for. */
static void put(struct leaf *l, const struct panel *p, const char *words,
                variant_set variants) {
    bool again = was_printed(l, p->signal, words, variants);
    struct tagger *tags = l->composer.tags;
    size_t outer = tag_open(tags, TAG_PANEL, text_of(panel_word(p->signal)));
    if (!again || !panel_set_brief(&l->flow, p))
        panel_set(&l->flow, p);
    tag_close(tags, outer);
    if (!again)
        remember(l, (struct warned){p->signal, words, variants});
}

bool warn_is_panel(const struct block *b, enum panel_signal *signal) {
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
    struct panel p = {
        .signal = signal, .paragraph = text, .paragraph_count = 2, .at = b->at};
    add_setting(l, &text[0], b, "hazard", &spot);
    add_setting(l, &p.brief, b, "hazard", &spot);
    for (size_t i = 0; i < text[0].count; i++)
        text[0].chunk[i].tone.face = p.brief.chunk[i].tone.face = FACE_BOLD;
    leaf_add(l, &text[0], l->style.step, FACE_REGULAR, " ");
    leaf_add(l, &p.brief, l->style.step, FACE_REGULAR, " ");
    add_setting(l, &text[0], b, "consequence", &spot);
    add_setting(l, &text[1], b, "avoidance", &spot);
    add_setting(l, &p.brief, b, "avoidance", &spot);
    put(l, &p, message_of(l, &p), variants);
}

static void add_deferred(struct leaf *l, struct rich *r,
                         const struct caution *k) {
    if (k->defer != NULL)
        prose_add_deferred(l, r, leaf_tone(l->style.step, FACE_BOLD),
                           text_of(k->defer));
}

/* "mark 3 only: " */
static void add_vehicles(struct leaf *l, struct rich *r, variant_set inner,
                         variant_set variants) {
    struct arena *a = l->composer.arena;
    if (inner != variants)
        leaf_add(l, r, l->style.step, FACE_BOLD,
                 arena_printf(a, "%s only: ",
                              values_variant_names(l->values, a, inner)));
}

static void set_caution(struct leaf *l, const struct caution *k,
                        variant_set variants) {
    struct arena *a = l->composer.arena;
    struct type type = l->style.step;
    struct rich text[3] = {{0}, {0}, {0}};
    struct span at = k->before == NULL ? l->guide->root->at : k->before->at;
    variant_set inner = variants & k->variants;
    add_vehicles(l, &text[0], inner, variants);
    leaf_add(l, &text[0], type, FACE_BOLD, k->hazard);
    leaf_add(l, &text[0], type, FACE_REGULAR, " ");
    leaf_add(l, &text[0], type, FACE_REGULAR, k->consequence);
    leaf_add(l, &text[1], type, FACE_REGULAR, k->avoidance);
    add_deferred(l, &text[2], k);
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
    add_vehicles(l, &p.brief, inner, variants);
    leaf_add(l, &p.brief, type, FACE_BOLD, arena_printf(a, "%s. ", k->title));
    leaf_add(l, &p.brief, type, FACE_REGULAR, k->avoidance);
    leaf_add(l, &p.brief, type, FACE_REGULAR, " ");
    add_deferred(l, &p.brief, k);
    put(l, &p,
        arena_printf(a, "%s %s %s %s %s", k->title, k->hazard, k->consequence,
                     k->avoidance, k->defer == NULL ? "" : k->defer),
        inner);
}

static void part_panels(struct leaf *l, size_t *count) {
    flow_space(&l->flow, *count == 0 ? 8 : 7);
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
            if (n->kind != NODE_BLOCK || !warn_is_panel(n->block, &signal) ||
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
    if (!warn_is_panel(b, &signal))
        return false;
    flow_space(&l->flow, 8);
    set_author_panel(l, b, signal, spot->variants);
    flow_bond(&l->flow, BOND_FAST);
    flow_space(&l->flow, 5);
    return true;
}
