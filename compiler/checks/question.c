/* question.c - words that give a hazard away without its mark. */
#include "checks/question.h"

#include "base/arena.h"
#include "base/diag.h"
#include "checks/deference.h"
#include "checks/hazards.h"
#include "source/kind.h"

#include <stdint.h>

/* Of so many the first is offered without the others. */
enum { MANY_TAGS = 2 };

static const char *mark_word(struct text tag) {
    const char *deed;
    for (size_t i = 0; (deed = hazards_deed(i)) != NULL; i++)
        if (text_is(tag, deed))
            return "does";
    return "touches";
}

/* Whether a text has this word, or an inflection of it. */
static bool has_word(struct text said, struct text word) {
    struct text one;
    while (text_next_part(&said, ' ', &one))
        if (spoken_is(one, word))
            return true;
    return false;
}

/* The first tag all of whose words are said; NULL: none. */
static const struct text *tag_said(const struct items *list, struct text said) {
    for (size_t i = 0; i < list->count; i++) {
        struct text rest = list->item[i], word;
        bool all = true;
        while (all && text_next_part(&rest, ' ', &word))
            all = has_word(said, word);
        if (all)
            return &list->item[i];
    }
    return NULL;
}

/* "{touches ...} with wheel, brake or hitch": nothing said tells which. */
static const char *one_of(struct arena *a, const struct items *list) {
    struct buf b = buf_in(a);
    buf_puts(&b, "{touches ...} with ");
    for (size_t i = 0; i < list->count; i++) {
        buf_puts(&b, i == 0 ? "" : i + 1 == list->count ? " or " : ", ");
        buf_text(&b, list->item[i]);
    }
    return buf_cstr(&b);
}

/* "{touches inverter}" where an inverter is spoken of, else the row's first
 * word, or all of a row that tells many things apart. */
static const char *mark_of(struct arena *a, const struct hazard *h,
                           struct text said) {
    const struct items *list = h->tags.count > 0 ? &h->tags : &h->with;
    const struct text *tag = tag_said(&h->tags, said);
    if (list->count == 0)
        return "a block that it computes from";
    if (tag == NULL)
        tag = tag_said(&h->with, said);
    if (tag == NULL && list == &h->tags && list->count > MANY_TAGS)
        return one_of(a, list);
    if (tag == NULL)
        tag = &list->item[0];
    return arena_printf(a, "{%s %.*s}", mark_word(*tag), (int)tag->len,
                        tag->start);
}

static void ask(const struct question *q, struct span at, const char *cure) {
    const struct hazard *h = q->hazard;
    struct text said = place_text(at);
    diag_add(q->c->diags,
             deference_is_released(q->guide) ? DIAG_HAZARD_ASKED_RELEASED
                                             : DIAG_HAZARD_ASKED,
             at, "'%.*s' may call for %s, %s; write %s", (int)said.len,
             said.start, h->id, h->title, cure);
}

static void ask_for_mark(const struct question *q, struct span at,
                         const char *behind) {
    ask(q, at,
        arena_printf(q->c->arena, "%s%s",
                     mark_of(q->c->arena, q->hazard, place_text(at)), behind));
}

/* `flags`: what the phrases begin with, worked out once for all steps. */
static bool find_phrase(const struct hazard *h, const uint32_t *flags,
                        const struct spoken *said, struct span *at) {
    for (size_t i = 0; i < h->words.count; i++)
        if (spoken_find_from(said, h->words.item[i], flags[i]) != SIZE_MAX) {
            *at = spoken_place(said, h->words.item[i]);
            return true;
        }
    return false;
}

static void ask_supplies(const struct question *q, const uint32_t *flags) {
    for (size_t i = 0; i < q->guide->block_count; i++) {
        const struct block *b = q->guide->blocks[i];
        const struct entry *e = b->kind->id == KIND_PRELIMINARY
                                    ? tree_setting(b, "supplies")
                                    : NULL;
        for (size_t k = 0; e != NULL && k < e->choice_count; k++)
            for (size_t n = 0; n < e->choices[k].item_count; n++) {
                const struct cell *item = &e->choices[k].items[n];
                struct spoken said =
                    spoken_of_text(q->c->arena, b->scope->src, item->prose);
                struct span at;
                if (find_phrase(q->hazard, flags, &said, &at))
                    ask_for_mark(q, at, " at the step that uses it");
            }
    }
}

/* The author says that nothing is touched, or who does it; a mark that no owner
 * may meet is refused elsewhere. */
static bool is_answered(const struct hazard *h, const struct node *n) {
    bool refused = h->shop_only || h->defer != NULL;
    if (deference_mark(n, MARK_DEFER) != NULL)
        return true;
    for (; n != NULL; n = n->parent)
        for (size_t i = 0; i < n->mark_count; i++)
            for (size_t k = 0; k < n->marks[i]->list.count; k++)
                if (n->marks[i]->kind == MARK_TOUCHES &&
                    (text_is(n->marks[i]->list.tag[k], "nothing") ||
                     (refused &&
                      catalogue_lists(&h->tags, n->marks[i]->list.tag[k]))))
                    return true;
    return false;
}

static const char *cure_for_owner(const struct question *q, struct text said) {
    const struct hazard *h = q->hazard;
    struct arena *a = q->c->arena;
    return h->shop_only || h->defer != NULL
               ? arena_printf(a, "{defer %s}, so that it says who does it, ",
                              h->defer == NULL ? "TRADE" : h->defer)
               : arena_printf(a, "a numbered step with %s, ",
                              mark_of(a, h, said));
}

/* What an owner is told in plain paragraphs, before which no panel stands: one
 * before a step of the same section may come too late. */
static void ask_owner(const struct question *q, const uint32_t *flags) {
    const struct hazard *h = q->hazard;
    for (size_t i = 0; i < q->guide->node_count; i++) {
        const struct node *n = q->guide->nodes[i];
        struct span at;
        if (!deference_is_plain(n) || !deference_is_for_owner(n) ||
            is_answered(h, n))
            continue;
        struct spoken said = spoken_of_step(q->c->arena, q->guide, n, true);
        if (find_phrase(h, flags, &said, &at))
            ask(q, at,
                arena_printf(q->c->arena, "%sor {touches nothing: reason}",
                             cure_for_owner(q, place_text(at))));
    }
}

void question_ask(const struct question *q, bool fires) {
    const struct items *words = &q->hazard->words;
    if (q->c->job != NULL) /* the author has answered */
        return;
    uint32_t *flags = arena_alloc(q->c->arena, words->count + 1, sizeof *flags);
    for (size_t i = 0; i < words->count; i++)
        flags[i] = spoken_beginnings(words->item[i]);
    for (size_t i = 0; i < q->steps->count; i++) {
        const struct step_words *s = &q->steps->step[i];
        size_t section = s->section == NULL ? 0 : s->section->index;
        struct span at;
        if ((s->variants & ~q->warned[section]) != 0 &&
            !walk_touches_nothing(s) &&
            /* in other years than the row's it is answered as well */
            walk_mark(s, q->hazard->with.item, q->hazard->with.count) == NULL &&
            walk_mark(s, q->hazard->settled.item, q->hazard->settled.count) ==
                NULL &&
            find_phrase(q->hazard, flags, &s->said, &at))
            ask_for_mark(q, at, ", or {touches nothing: reason}");
    }
    ask_owner(q, flags);
    if (!fires)
        ask_supplies(q, flags);
}
