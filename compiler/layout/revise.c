/* revise.c - what changed since an issued revision. */
#include "layout/revise.h"

#include "base/arena.h"
#include "image/picture.h"
#include "layout/refer.h"

#include <inttypes.h>

struct revision { /* by number of the passage, from 1; [0] is none */
    const struct node **step; /* or NULL */
    struct text *heading;     /* that it stands under */
    bool *changed;
    size_t room;
    const char *left_out; /* places of passages that are gone, or NULL */
};

static struct revision *store(struct leaf *l) {
    struct arena *a = l->composer.arena;
    if (l->revision == NULL)
        l->revision = arena_alloc(a, 1, sizeof *l->revision);
    struct revision *r = l->revision;
    size_t need = l->flow.passage_count + 1;
    if (need > r->room) {
        size_t room = need * 2 + 64;
        r->step = arena_grow(a, r->step, r->room, room, sizeof(*r->step));
        r->heading =
            arena_grow(a, r->heading, r->room, room, sizeof *r->heading);
        r->changed =
            arena_grow(a, r->changed, r->room, room, sizeof *r->changed);
        for (size_t i = r->room; i < room; i++) {
            r->step[i] = NULL;
            r->heading[i] = (struct text){NULL, 0};
            r->changed[i] = false;
        }
        r->room = room;
    }
    return r;
}

void revise_begin(struct leaf *l, const struct node *n) {
    if (!l->flow.passages)
        return;
    l->flow.passage = ++l->flow.passage_count;
    store(l)->step[l->flow.passage] = n == NULL ? NULL : tree_step(n);
}

void revise_end(struct leaf *l) {
    l->flow.passage = 0;
}

void revise_add_slab(struct leaf *l, const struct node *n, struct slab *s) {
    bool alone = l->flow.passage == 0;
    if (alone)
        revise_begin(l, n);
    flow_add(&l->flow, s);
    if (alone)
        revise_end(l);
}

/* A picture is told by its samples. */
static void add_picture(struct buf *b, const struct picture *p) {
    const struct text samples = {(const char *)p->bytes, p->len};
    buf_printf(b, "picture %016" PRIx64 " ", text_hash(samples));
}

/* All that is printed in a slab but the number of the step. */
static void add_words(struct buf *b, const struct slab *s,
                      const struct node *step) {
    for (size_t i = 0; i < s->op_count; i++) {
        const struct op *op = &s->ops[i];
        if (op->kind == OP_IMAGE)
            add_picture(b, op->picture);
        if (op->kind != OP_TEXT)
            continue;
        if (i == 0 && step != NULL && step->number != NULL &&
            text_is(op->text, step->number))
            continue;
        buf_text(b, op->text);
        buf_puts(b, " ");
    }
}

static struct text place_of_passage(struct leaf *l, const struct revision *r,
                                    size_t passage) {
    const struct node *step = r->step[passage];
    if (step == NULL || step->number == NULL)
        return r->heading[passage];
    return text_of(
        arena_printf(l->composer.arena, "step\xC2\xA0%s", step->number));
}

struct passages revise_passages(struct leaf *l) {
    struct arena *a = l->composer.arena;
    const struct flow *f = &l->flow;
    struct revision *r = store(l);
    struct passage *list = arena_alloc(a, f->passage_count + 1, sizeof *list);
    struct text heading = {NULL, 0};
    for (size_t i = 0; i < f->count;) {
        size_t passage = f->slab[i]->passage;
        struct buf b = buf_in(a);
        if (f->slab[i]->outline_level == 1)
            heading = f->slab[i]->outline;
        if (passage == 0) {
            i++;
            continue;
        }
        r->heading[passage] = heading;
        for (; i < f->count && f->slab[i]->passage == passage; i++)
            add_words(&b, f->slab[i], r->step[passage]);
        list[passage - 1].place = place_of_passage(l, r, passage);
        list[passage - 1].words = text_squeezed(a, text_trim(buf_as_text(&b)));
    }
    return (struct passages){.list = list, .count = f->passage_count};
}

void revise_place(const struct leaf *l, struct passages *passages,
                  const size_t *starts, size_t pages) {
    struct passage *list =
        arena_grow(l->composer.arena, passages->list, passages->count,
                   passages->count + 1, sizeof *list);
    for (size_t i = 0, page = 0; i < l->flow.count; i++) {
        size_t passage = l->flow.slab[i]->passage;
        while (page + 1 < pages && starts[page + 1] <= i)
            page++;
        if (passage > 0 && passage <= passages->count &&
            list[passage - 1].page == 0)
            list[passage - 1].page = (int)page + 1;
    }
    passages->list = list;
}

/* Each passage of the one side answers for one of the other. */
static bool take(const struct passages *from, bool *taken, struct text words) {
    for (size_t i = 0; i < from->count; i++)
        if (!taken[i] && text_reads_same(from->list[i].words, words))
            return taken[i] = true;
    return false;
}

static bool named_before(const struct passages *u, const bool *skip, size_t i) {
    for (size_t k = 0; k < i; k++)
        if (!skip[k] && text_equal(u->list[k].place, u->list[i].place))
            return true;
    return false;
}

void revise_compare(struct leaf *l, const struct passages *now,
                    const struct passages *issued) {
    struct arena *a = l->composer.arena;
    struct revision *r = store(l);
    bool *taken = arena_alloc(a, issued->count + 1, sizeof *taken);
    struct buf gone = buf_in(a);
    l->issued = issued;
    for (size_t i = 0; i < now->count; i++)
        r->changed[i + 1] = !take(issued, taken, now->list[i].words);
    /* What took a changed passage's place is told by that passage. */
    for (size_t i = 0; i < now->count; i++)
        for (size_t k = 0; r->changed[i + 1] && k < issued->count; k++)
            if (!taken[k] &&
                text_equal(issued->list[k].place, now->list[i].place)) {
                taken[k] = true;
                break;
            }
    for (size_t k = 0; k < issued->count; k++)
        if (!taken[k] && !named_before(issued, taken, k)) {
            buf_puts(&gone, gone.len > 0 ? ", " : "");
            buf_text(&gone, issued->list[k].place);
        }
    r->left_out = gone.len > 0 ? buf_cstr(&gone) : NULL;
}

void revise_bars(struct leaf *l) {
    const struct revision *r = l->revision;
    for (size_t i = 0; l->issued != NULL && i < l->flow.count; i++) {
        struct slab *s = l->flow.slab[i];
        if (s->passage == 0 || !r->changed[s->passage])
            continue;
        bool goes_on = i > 0 && l->flow.slab[i - 1]->passage == s->passage;
        s->bar = true;
        /* The grid may set it lower than it asked for. */
        s->bar_above = goes_on && s->space > 0 ? s->space + l->style.grid : 0;
    }
}

static bool same_place(const struct revision *r, size_t a, size_t b) {
    return r->step[a] != NULL || r->step[b] != NULL
               ? r->step[a] == r->step[b]
               : text_equal(r->heading[a], r->heading[b]);
}

static bool is_listed(const struct revision *r, size_t passage) {
    for (size_t i = 1; i < passage; i++)
        if (r->changed[i] && same_place(r, i, passage))
            return true;
    return false;
}

void revise_add_list(struct leaf *l, struct rich *r, struct type type) {
    struct arena *a = l->composer.arena;
    const struct revision *v = l->revision;
    bool any = false;
    if (l->issued == NULL)
        return;
    leaf_add(l, r, type, FACE_BOLD,
             arena_printf(a, "Changed since revision %.*s:",
                          (int)l->issued->revision.len,
                          l->issued->revision.start));
    for (size_t i = 1; i < v->room; i++) {
        if (!v->changed[i] || is_listed(v, i))
            continue;
        leaf_add(l, r, type, FACE_REGULAR, any ? ", " : " ");
        any = true;
        if (v->step[i] != NULL)
            refer_step(l, r, leaf_tone(type, FACE_REGULAR), v->step[i]);
        else
            leaf_add(l, r, type, FACE_REGULAR,
                     arena_printf(a, "“%.*s”", (int)v->heading[i].len,
                                  v->heading[i].start));
    }
    if (v->left_out != NULL)
        leaf_add(
            l, r, type, FACE_REGULAR,
            arena_printf(a, "%s left out: %s", any ? ";" : "", v->left_out));
    else if (!any)
        leaf_add(l, r, type, FACE_REGULAR, " nothing");
}
