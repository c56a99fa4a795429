/* manner.c - steps that are hard to follow: long, many in one, half-hearted. */
#include "checks/manner.h"

#include "base/arena.h"
#include "base/diag.h"
#include "checks/spoken.h"
#include "source/kind.h"
#include "source/suggest.h"
#include "source/tree.h"

#include <stdint.h>
#include <string.h>

struct manners {
    struct compile *c;
    const struct guide *guide;
    const struct catalogue *catalogue;
    bool *off;           /* by the index of a rule */
    struct spoken *said; /* of each step, substeps apart */
    size_t count;
};

static void warn(const struct manners *m, const struct style_rule *rule,
                 struct span at, const char *what) {
    diag_add(m->c->diags, DIAG_STYLE, at, "%s; %s (style %s)", what,
             rule->title, rule->id);
}

/* --- what is switched off --- */

static void switch_off(const struct manners *m, const struct cell *item) {
    const struct catalogue *k = m->catalogue;
    struct nearest near = nearest_to(item->text);
    for (size_t i = 0; i < k->style_count; i++) {
        nearest_offer(&near, text_of(k->style[i].id));
        if (!text_is(item->text, k->style[i].id))
            continue;
        m->off[i] = true;
        return;
    }
    diag_add(m->c->diags, DIAG_CHOICE_UNKNOWN, item->at,
             "no style rule '%.*s'%s", (int)item->text.len, item->text.start,
             suggest(m->c->arena, item->text,
                     (struct text){near.best, near.best_len}));
}

static void read_switches(const struct manners *m) {
    for (size_t i = 0; i < m->guide->block_count; i++) {
        const struct block *b = m->guide->blocks[i];
        const struct entry *e =
            b->kind->id == KIND_GUIDE || b->kind->id == KIND_SHOP
                ? tree_setting(b, "style off")
                : NULL;
        for (size_t k = 0; e != NULL && k < e->choice_count; k++)
            for (size_t n = 0; n < e->choices[k].item_count; n++)
                switch_off(m, &e->choices[k].items[n]);
    }
}

/* --- the rules --- */

static void check_phrases(const struct manners *m,
                          const struct style_rule *rule,
                          const struct spoken *s) {
    for (size_t i = 0; i < rule->words.count; i++)
        if (spoken_find(s, rule->words.item[i]) != SIZE_MAX) {
            struct span at = spoken_place(s, rule->words.item[i]);
            struct text said = place_text(at);
            warn(
                m, rule, at,
                arena_printf(m->c->arena, "'%.*s'", (int)said.len, said.start));
        }
}

static struct span whole(const struct spoken *s, size_t from, size_t to) {
    struct span at = s->word[from].at;
    if (s->word[to - 1].at.src == at.src && s->word[to - 1].at.end > at.end)
        at.end = s->word[to - 1].at.end;
    return at;
}

static void check_length(const struct manners *m, const struct style_rule *rule,
                         const struct spoken *s) {
    for (size_t from = 0, to; from < s->count; from = to) {
        to = from;
        while (to < s->count && s->word[to].sentence == s->word[from].sentence)
            to++;
        if (to - from > rule->most_words)
            warn(m, rule, whole(s, from, to),
                 arena_printf(m->c->arena, "a sentence of %zu words",
                              to - from));
    }
}

static bool is_verb(const struct style_rule *rule, struct text word) {
    for (size_t i = 0; i < rule->verbs.count; i++) {
        struct text verb = rule->verbs.item[i];
        if (word.len == verb.len && spoken_is(word, verb))
            return true;
    }
    return false;
}

static void check_commands(const struct manners *m,
                           const struct style_rule *rule,
                           const struct spoken *s) {
    size_t commands = 0, second = 0;
    for (size_t i = 0; i < s->count; i++) {
        if ((i > 0 && s->word[i].sentence == s->word[i - 1].sentence) ||
            s->word[i].text.start == NULL || !is_verb(rule, s->word[i].text))
            continue;
        if (++commands == rule->most_commands + 1)
            second = i;
    }
    if (commands > rule->most_commands)
        warn(m, rule, s->word[second].at,
             arena_printf(m->c->arena, "%zu commands in a step", commands));
}

/* The first place where a name of a part stands in any step. */
static bool first_place(const struct manners *m, struct text name,
                        struct span *at) {
    for (size_t i = 0; i < m->count; i++)
        if (spoken_find(&m->said[i], name) != SIZE_MAX) {
            *at = spoken_place(&m->said[i], name);
            return true;
        }
    return false;
}

static void check_names(const struct manners *m, const struct style_rule *rule,
                        struct text group) {
    struct span first = {0}, at;
    struct text rest = group, name, used = {NULL, 0};
    while (text_next_part(&rest, '|', &name)) {
        if (!first_place(m, name, &at))
            continue;
        if (used.start == NULL) {
            used = name;
            first = at;
            continue;
        }
        warn(m, rule, at,
             arena_printf(m->c->arena, "'%.*s' beside '%.*s'", (int)name.len,
                          name.start, (int)used.len, used.start));
        diag_note(m->c->diags, first, "the other name");
        return;
    }
}

void manner_check(struct compile *c, const struct guide *g,
                  const struct catalogue *k) {
    struct manners m = {c, g, k, NULL, NULL, 0};
    m.off = arena_alloc(c->arena, k->style_count + 1, sizeof *m.off);
    m.said = arena_alloc(c->arena, g->node_count + 1, sizeof *m.said);
    read_switches(&m);
    for (size_t i = 0; i < g->node_count; i++)
        if (g->nodes[i]->kind == NODE_STEP)
            m.said[m.count++] = spoken_of_step(c->arena, g, g->nodes[i], false);
    for (size_t r = 0; r < k->style_count; r++) {
        const struct style_rule *rule = &k->style[r];
        for (size_t i = 0; i < m.count && !m.off[r]; i++) {
            check_phrases(&m, rule, &m.said[i]);
            if (rule->most_words > 0)
                check_length(&m, rule, &m.said[i]);
            if (rule->most_commands > 0)
                check_commands(&m, rule, &m.said[i]);
        }
        for (size_t i = 0; i < rule->names.count && !m.off[r]; i++)
            check_names(&m, rule, rule->names.item[i]);
    }
}
