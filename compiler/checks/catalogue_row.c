/* catalogue_row.c - one block of the hazard catalogue as a record. */
#include "checks/catalogue_row.h"

#include "base/arena.h"
#include "base/diag.h"
#include "source/kind.h"
#include "source/suggest.h"
#include "source/tree.h"

#include <limits.h>
#include <stdlib.h>
#include <string.h>

const char *catalogue_row_setting(struct arena *a, const struct block *b,
                                  const char *name) {
    const struct entry *e = tree_setting(b, name);
    if (e == NULL || e->choice_count == 0)
        return NULL;
    return text_cstr(a, text_squeezed(a, e->choices[0].text));
}

bool catalogue_row_dropped(struct arena *a, const struct block *b) {
    const char *word = catalogue_row_setting(a, b, "in force");
    return word != NULL && strcmp(word, "no") == 0;
}

/* Those of `base`, then those of the setting. */
static struct items items_of(struct arena *a, const struct block *b,
                             const char *name, const struct items *base) {
    const char *list = catalogue_row_setting(a, b, name);
    struct items all = base != NULL ? *base : (struct items){NULL, 0};
    if (list == NULL)
        return all;
    struct text *item =
        arena_alloc(a, all.count + strlen(list) + 1, sizeof *item);
    for (size_t i = 0; i < all.count; i++)
        item[i] = all.item[i];
    struct text rest = text_of(list), word;
    while (text_next_part(&rest, ',', &word))
        if (word.len > 0)
            item[all.count++] = word;
    all.item = item;
    return all;
}

/* Index of the word in the list of choices, or `otherwise`. */
static int choice_of(const char *word, const char *const *choices, int count,
                     int otherwise) {
    for (int i = 0; word != NULL && i < count; i++)
        if (strcmp(word, choices[i]) == 0)
            return i;
    return otherwise;
}

static enum signal signal_of(const char *word, enum signal otherwise) {
    static const char *const words[] = {"danger", "warning", "caution",
                                        "notice"};
    return (enum signal)choice_of(word, words, 4, (int)otherwise);
}

static enum hazard_action action_of(const char *word,
                                    enum hazard_action otherwise) {
    static const char *const words[] = {"insert", "flag", "refuse"};
    return (enum hazard_action)choice_of(word, words, 3, (int)otherwise);
}

/* "1988 or later", "2005 or earlier" */
static void read_years(struct compile *c, const struct block *b,
                       struct hazard *h) {
    const char *words = catalogue_row_setting(c->arena, b, "years");
    if (words == NULL)
        return;
    char *behind;
    long year = strtol(words, &behind, 10);
    bool later = strcmp(behind, " or later") == 0;
    if (year < 1800 || year > 9999 ||
        (!later && strcmp(behind, " or earlier") != 0)) {
        diag_add(c->diags, DIAG_SETTING_VALUE, tree_setting(b, "years")->at,
                 "write 1988 or later, or 2005 or earlier");
        return;
    }
    h->first = later ? (int)year : 0;
    h->last = later ? INT_MAX : (int)year;
}

static void read_when(struct compile *c, const struct block *b,
                      struct hazard *h) {
    struct items list = items_of(c->arena, b, "when", NULL);
    struct condition *all =
        arena_alloc(c->arena, h->when_count + list.count + 1, sizeof *all);
    for (size_t i = 0; i < h->when_count; i++)
        all[i] = h->when[i];
    for (size_t i = 0; i < list.count; i++) {
        struct nearest near;
        if (condition_read(list.item[i], &all[h->when_count], &near))
            h->when_count++;
        else
            diag_add(c->diags, DIAG_SETTING_VALUE, tree_setting(b, "when")->at,
                     "'%.*s': write what is computed, and its bound: fault "
                     "current >= 200 A%s",
                     (int)list.item[i].len, list.item[i].start,
                     suggest(c->arena, near.wanted,
                             (struct text){near.best, near.best_len}));
    }
    h->when = all;
}

static void replace(const char **text, const char *own) {
    if (own != NULL)
        *text = own;
}

struct hazard catalogue_row_hazard(struct compile *c, const struct block *b,
                                   const struct hazard *base) {
    struct arena *a = c->arena;
    struct hazard h = {
        .id = text_cstr(a, b->name), .signal = SIGNAL_WARNING, .last = INT_MAX};
    if (base != NULL)
        h = *base;
    replace(&h.title, catalogue_row_setting(a, b, "title"));
    replace(&h.hazard, catalogue_row_setting(a, b, "hazard"));
    replace(&h.consequence, catalogue_row_setting(a, b, "consequence"));
    replace(&h.avoidance, catalogue_row_setting(a, b, "avoidance"));
    replace(&h.cure, catalogue_row_setting(a, b, "cure"));
    replace(&h.defer, catalogue_row_setting(a, b, "defer"));
    replace(&h.source, catalogue_row_setting(a, b, "source"));
    h.signal = signal_of(catalogue_row_setting(a, b, "signal"), h.signal);
    h.action = action_of(catalogue_row_setting(a, b, "action"), h.action);
    h.tags = items_of(a, b, "tags", &h.tags);
    h.settled = items_of(a, b, "settled by", &h.settled);
    h.with = items_of(a, b, "with", &h.with);
    h.words = items_of(a, b, "words", &h.words);
    read_years(c, b, &h);
    read_when(c, b, &h);
    h.spares_lithium |= tree_setting(b, "unless") != NULL;
    const char *shop_only = catalogue_row_setting(a, b, "shop only");
    h.shop_only |= shop_only != NULL && strcmp(shop_only, "yes") == 0;
    struct items symbols = items_of(a, b, "symbols", NULL);
    if (symbols.count == 0)
        return h;
    h.symbol_count = symbols.count;
    h.symbols = arena_alloc(a, symbols.count, sizeof *h.symbols);
    for (size_t i = 0; i < symbols.count; i++)
        h.symbols[i] = text_cstr(a, symbols.item[i]);
    return h;
}

/* The words of a shop add to those of the shipped rule of that name, except
 * where more of them would let more through. */
struct order catalogue_row_order(struct compile *c, const struct block *b,
                                 const struct order *base) {
    struct arena *a = c->arena;
    bool barred = tree_setting(b, "from") != NULL;
    struct order o = {.id = text_cstr(a, b->name), .wanted = !barred};
    const char *grounded = catalogue_row_setting(a, b, "grounded only");
    o.grounded = grounded != NULL && strcmp(grounded, "yes") == 0;
    if (base != NULL)
        o = *base;
    replace(&o.title, catalogue_row_setting(a, b, "title"));
    replace(&o.cure, catalogue_row_setting(a, b, "cure"));
    replace(&o.source, catalogue_row_setting(a, b, "source"));
    o.step = items_of(a, b, "step", &o.step);
    o.step_words = items_of(a, b, "step words", &o.step_words);
    if (base == NULL || !o.wanted)
        o.set = items_of(a, b, o.wanted ? "needs" : "from", &o.set);
    if (base == NULL)
        o.set_words = items_of(a, b, "needs words", &o.set_words);
    if (base == NULL || o.wanted)
        o.end = items_of(a, b, o.wanted ? "undone by" : "until", &o.end);
    if (base == NULL || o.wanted)
        o.end_words = items_of(a, b, "undone words", &o.end_words);
    return o;
}

static size_t count_of(struct arena *a, const struct block *b,
                       const char *name) {
    const char *digits = catalogue_row_setting(a, b, name);
    return digits == NULL ? 0 : (size_t)strtoul(digits, NULL, 10);
}

struct style_rule catalogue_row_style(struct compile *c,
                                      const struct block *b) {
    struct arena *a = c->arena;
    return (struct style_rule){
        .id = text_cstr(a, b->name),
        .title = catalogue_row_setting(a, b, "title"),
        .words = items_of(a, b, "words", NULL),
        .verbs = items_of(a, b, "verbs", NULL),
        .names = items_of(a, b, "names", NULL),
        .most_words = count_of(a, b, "most words"),
        .most_commands = count_of(a, b, "most commands"),
    };
}
