/* census.c - what the guides of a library state and print. */
#include "library/census.h"

#include "base/arena.h"
#include "base/list.h"
#include "layout/display.h"
#include "library/census_work.h"
#include "library/freeze.h"
#include "library/shelf.h"
#include "source/landmark.h"
#include "source/tree.h"

#include <stdlib.h>
#include <string.h>

const char *census_copy(struct census *s, const char *text) {
    return text == NULL ? "" : arena_copy(s->arena, text, strlen(text));
}

static struct text copied(struct census *s, struct text t) {
    return t.start == NULL ? t : (struct text){text_cstr(s->arena, t), t.len};
}

/* --- figures --- */

bool census_where(const struct guidework *w, struct span at, const char **path,
                  size_t *line) {
    if (at.src == NULL)
        return false;
    *path = shelf_from_root(w->root, at.src->path);
    *line = place_position(at.src, at.start).line;
    return true;
}

struct census_figure *census_find(const struct census *s, const char *path,
                                  size_t line, struct text name,
                                  const char *printed) {
    struct census_figure *found = NULL;
    for (size_t i = s->chain[line % CENSUS_CHAINS]; i > 0;
         i = s->figure[i - 1].next) {
        struct census_figure *f = &s->figure[i - 1];
        if (f->line == line && strcmp(f->path, path) == 0 &&
            (name.len == 0 || text_is(name, f->name)) &&
            (printed == NULL || strcmp(printed, f->printed) == 0))
            found = f; /* the first that was listed */
    }
    return found;
}

/* Seen by one more guide. */
static void see(struct census_figure *f, const struct census_of *o,
                variant_set in) {
    if (f->vehicle == NULL || o->vehicle == NULL ||
        strcmp(f->vehicle, o->vehicle) != 0)
        f->vehicle = NULL;
    f->in |= in;
}

struct census_figure *census_list(const struct census_of *o, struct span at,
                                  struct text name, const char *printed,
                                  variant_set in, const char *origin) {
    struct census *s = o->census;
    const struct guidework *w = o->work;
    const char *path;
    size_t line;
    if (printed == NULL || !census_where(w, at, &path, &line))
        return NULL;
    struct census_figure *f =
        census_find(s, path, line, name, origin[0] == '\0' ? NULL : printed);
    if (f != NULL) {
        see(f, o, in);
        return f;
    }
    s->figure =
        list_grown(s->arena, s->figure, s->count, &s->room, sizeof *s->figure);
    f = &s->figure[s->count++];
    *f = (struct census_figure){
        .name = text_cstr(s->arena, name),
        .printed = census_copy(s, printed),
        .source = "",
        .origin = origin,
        .path = census_copy(s, path),
        .line = line,
        .shared = strcmp(path, shelf_from_root(w->root, w->path)) != 0,
        .vehicle = o->vehicle,
        .in = in,
        .next = s->chain[line % CENSUS_CHAINS]};
    s->chain[line % CENSUS_CHAINS] = s->count;
    return f;
}

static int page_of(const struct passages *printed, const char *place) {
    for (size_t i = 0; i < printed->count; i++)
        if (text_is(printed->list[i].place, place))
            return printed->list[i].page;
    return 0;
}

void census_use(const struct census_of *o, struct census_figure *f,
                const char *place) {
    for (size_t i = 0; i < f->use_count; i++)
        if (strcmp(f->use[i].guide, o->guide) == 0 &&
            strcmp(f->use[i].place, place) == 0)
            return;
    f->use = list_grown(o->census->arena, f->use, f->use_count, &f->use_room,
                        sizeof *f->use);
    f->use[f->use_count++] =
        (struct census_use){o->guide, place, page_of(o->printed, place)};
}

/* --- guides --- */

/* "HB-004 Battery care": the number in front, where that is one. */
static void add_tie(struct census *s, struct census_guide *g, struct text item,
                    bool after) {
    struct text id = landmark_guide(item);
    if (id.len == 0)
        return;
    g->tie = list_grown(s->arena, g->tie, g->tie_count, &g->tie_room,
                        sizeof *g->tie);
    g->tie[g->tie_count++] =
        (struct census_tie){text_cstr(s->arena, id), after};
}

static void add_ties(struct census *s, struct census_guide *g,
                     const struct block *b) {
    for (size_t i = 0; b != NULL && i < b->entry_count; i++) {
        const struct entry *e = &b->entries[i];
        bool after = e->setting != NULL && text_is(e->key, "after");
        if (!after && (e->setting == NULL || !text_is(e->key, "before")))
            continue;
        for (size_t n = 0; n < e->choice_count; n++)
            for (size_t k = 0; k < e->choices[n].item_count; k++)
                add_tie(s, g, e->choices[n].items[k].text, after);
    }
}

/* As it would be issued, in the census' own memory. */
static void add_guide(struct census *s, const struct guidework *w,
                      const struct passages *printed, const char *stem) {
    struct issued now = freeze_whole(w->compile.arena, w->root, w->guide,
                                     w->values, w->pages, printed);
    struct passage *list =
        arena_alloc(s->arena, printed->count + 1, sizeof *list);
    for (size_t i = 0; i < printed->count; i++)
        list[i] = (struct passage){copied(s, printed->list[i].place),
                                   copied(s, printed->list[i].words),
                                   printed->list[i].page};
    struct issued_value *value =
        arena_alloc(s->arena, now.value_count + 1, sizeof *value);
    for (size_t i = 0; i < now.value_count; i++)
        value[i] = (struct issued_value){copied(s, now.value[i].name),
                                         copied(s, now.value[i].printed)};
    now.printed.list = list;
    now.value = value;
    now.id = copied(s, now.id);
    now.guide = copied(s, now.guide);
    now.title = copied(s, now.title);
    now.author = copied(s, now.author);
    now.approver = copied(s, now.approver);
    now.code = copied(s, now.code);
    now.source = NULL;
    now.source_count = 0;
    s->guide = list_grown(s->arena, s->guide, s->guide_count, &s->guide_room,
                          sizeof *s->guide);
    struct census_guide *g = &s->guide[s->guide_count++];
    *g = (struct census_guide){
        .stem = stem,
        .path = census_copy(s, shelf_from_root(w->root, w->path)),
        .now = now};
    add_ties(s, g, w->guide->identity);
}

static const char *vehicle_of(struct census *s, const struct guidework *w) {
    const struct variant *list;
    size_t count = values_variants(w->values, &list);
    return count == 0 || list[0].vehicle == NULL
               ? NULL
               : text_cstr(s->arena, list[0].vehicle->name);
}

void census_add(struct census *s, const struct guidework *w,
                const struct passages *printed) {
    const char *stem = census_copy(s, w->guide->stem);
    const struct census_of own = {s, w, printed, stem, vehicle_of(s, w)};
    census_stated(&own);
    census_uses(&own);
    add_guide(s, w, printed, stem);
}

/* --- what they say together --- */

static int by_place(const void *left, const void *right) {
    const struct census_figure *a = left, *b = right;
    int order = strcmp(a->path, b->path);
    if (order != 0)
        return order;
    if (a->line != b->line)
        return a->line < b->line ? -1 : 1;
    order = strcmp(a->name, b->name);
    return order != 0 ? order : strcmp(a->printed, b->printed);
}

/* By what they are called, then in the order of their files. */
static int by_key(const void *left, const void *right) {
    const struct census_figure *const *a = left, *const *b = right;
    int order = strcmp((*a)->key, (*b)->key);
    return order != 0 ? order : *a < *b ? -1 : *a > *b;
}

/* One vehicle may have two figures, each for some of its variants; two vehicles
 * have their own. */
static bool may_meet(const struct census_figure *f,
                     const struct census_figure *g) {
    return f->vehicle == NULL || g->vehicle == NULL ||
           (strcmp(f->vehicle, g->vehicle) == 0 && (f->in & g->in) != 0);
}

static void add_conflict(struct census *s, const struct census_figure *f,
                         const struct census_figure *g) {
    if (strcmp(f->path, g->path) == 0 || strcmp(f->printed, g->printed) == 0 ||
        !may_meet(f, g))
        return;
    s->conflict = list_grown(s->arena, s->conflict, s->conflict_count,
                             &s->conflict_room, sizeof *s->conflict);
    s->conflict[s->conflict_count++] = (struct census_conflict){f, g};
}

static int by_first(const void *left, const void *right) {
    const struct census_conflict *a = left, *b = right;
    if (a->one != b->one)
        return a->one < b->one ? -1 : 1;
    return a->other < b->other ? -1 : a->other > b->other;
}

static void find_conflicts(struct census *s) {
    const struct census_figure **known =
        arena_alloc(s->arena, s->count + 1, sizeof(*known));
    size_t count = 0;
    for (size_t i = 0; i < s->count; i++)
        if (s->figure[i].key != NULL)
            known[count++] = &s->figure[i];
    if (count > 1)
        qsort(known, count, sizeof(*known), by_key);
    for (size_t i = 0; i < count; i++)
        for (size_t k = i + 1;
             k < count && strcmp(known[i]->key, known[k]->key) == 0; k++)
            add_conflict(s, known[i], known[k]);
    if (s->conflict_count > 1)
        qsort(s->conflict, s->conflict_count, sizeof *s->conflict, by_first);
}

static void find_missing(struct census *s) {
    for (size_t i = 0; i < s->guide_count; i++)
        for (size_t k = 0; k < s->guide[i].tie_count; k++) {
            const struct census_guide *g = &s->guide[i];
            if (census_guide_of(s, g->tie[k].id) != NULL)
                continue;
            s->missing = list_grown(s->arena, s->missing, s->missing_count,
                                    &s->missing_room, sizeof *s->missing);
            s->missing[s->missing_count++] =
                (struct census_missing){g, &g->tie[k]};
        }
}

void census_settle(struct census *s) {
    if (s->count > 1)
        qsort(s->figure, s->count, sizeof *s->figure, by_place);
    find_conflicts(s);
    find_missing(s);
}

const struct census_guide *census_guide_of(const struct census *s,
                                           const char *id) {
    for (size_t i = 0; i < s->guide_count; i++)
        if (text_is(s->guide[i].now.id, id))
            return &s->guide[i];
    return NULL;
}
