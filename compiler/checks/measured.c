/* measured.c - readings, and the rows of limits that describe them. */
#include "checks/measured.h"

#include "base/arena.h"
#include "base/diag.h"
#include "source/kind.h"
#include "source/suggest.h"
#include "source/tree.h"
#include "values/values.h"

#include <stdlib.h>

struct row {
    const struct cell *id;
    const struct block *block;
    const struct entry *entry;
    size_t order;
    bool taken; /* a {reading} names its id */
};

/* By id, then as they stand. */
struct rows {
    struct row *row;
    size_t count;
};

static int by_id(const void *left, const void *right) {
    const struct row *a = left, *b = right;
    int order = text_compare(a->id->text, b->id->text);
    return order != 0 ? order : a->order < b->order ? -1 : a->order > b->order;
}

static struct rows collect(struct arena *a, const struct guide *g) {
    size_t room = 0;
    for (size_t i = 0; i < g->block_count; i++)
        if (g->blocks[i]->kind->id == KIND_LIMITS)
            room += g->blocks[i]->entry_count;
    struct rows r = {arena_alloc(a, room + 1, sizeof *r.row), 0};
    for (size_t i = 0; i < g->block_count; i++) {
        const struct block *b = g->blocks[i];
        for (size_t k = 0; b->kind->id == KIND_LIMITS && k < b->entry_count;
             k++) {
            const struct cell *id = tree_cell(b, &b->entries[k], "id");
            if (id != NULL && id->text.len > 0)
                r.row[r.count] =
                    (struct row){id, b, &b->entries[k], r.count, false};
            r.count += id != NULL && id->text.len > 0;
        }
    }
    if (r.count > 1)
        qsort(r.row, r.count, sizeof *r.row, by_id);
    return r;
}

static variant_set readers(const struct values *v, const struct row *r) {
    return values_of_row(v, r->block, r->entry);
}

/* A row before this one with its id, for a variant of it. */
static const struct row *same_id(const struct values *v, const struct rows *r,
                                 size_t at) {
    variant_set mine = readers(v, &r->row[at]);
    for (size_t i = at; i-- > 0;) {
        if (!text_equal(r->row[i].id->text, r->row[at].id->text))
            return NULL;
        if ((readers(v, &r->row[i]) & mine) != 0)
            return &r->row[i];
    }
    return NULL;
}

static void check_twice(struct compile *c, const struct values *v,
                        const struct rows *r) {
    for (size_t i = 1; i < r->count; i++) {
        const struct row *one = &r->row[i], *other = same_id(v, r, i);
        if (other == NULL)
            continue;
        diag_add(c->diags, DIAG_NAME_TWICE, one->id->at, "'%.*s'",
                 (int)one->id->text.len, one->id->text.start);
        diag_note(c->diags, other->id->at, "the other one is here");
    }
}

/* The first row of this id, or where it would stand. */
static size_t find_row(const struct rows *r, struct text id) {
    struct cell cell = {.text = id};
    struct row wanted = {.id = &cell};
    size_t low = 0, high = r->count; /* the first that is not before it */
    while (low < high) {
        size_t middle = low + (high - low) / 2;
        if (by_id(&r->row[middle], &wanted) < 0)
            low = middle + 1;
        else
            high = middle;
    }
    return low;
}

static bool is_row(const struct rows *r, size_t at, struct text id) {
    return at < r->count && text_equal(r->row[at].id->text, id);
}

enum { TOLD_MAX = 200 }; /* as many as are shown */

/* Ids that no row has, each told once. */
struct told {
    struct text id[TOLD_MAX];
    size_t count;
};

static bool is_told(struct told *told, struct text id) {
    for (size_t i = 0; i < told->count; i++)
        if (text_equal(told->id[i], id))
            return true;
    if (told->count < TOLD_MAX)
        told->id[told->count++] = id;
    return false;
}

static void report_unknown(struct compile *c, const struct rows *r,
                           const struct mark *m, struct text id) {
    struct nearest near = nearest_to(id);
    for (size_t i = 0; i < r->count; i++)
        nearest_offer(&near, r->row[i].id->text);
    struct buf rows =
        buf_in(c->arena); /* where none is near and they are few */
    for (size_t i = 0; near.best == NULL && i < r->count && r->count <= 8; i++)
        buf_printf(&rows, "%s%.*s", i == 0 ? "; there are: " : ", ",
                   (int)r->row[i].id->text.len, r->row[i].id->text.start);
    diag_add(c->diags, DIAG_SEE_UNKNOWN, m->at,
             "'%.*s': no row of limits has this id%s%s", (int)id.len, id.start,
             suggest(c->arena, id, (struct text){near.best, near.best_len}),
             buf_cstr(&rows));
}

/* A reading that some variants do not take is printed so; one that is taken by
 * none that reads the step has no limit. One vehicle: the whole guide was held
 * to this before. */
static void require_row(struct compile *c, const struct values *v,
                        const struct rows *r, size_t first,
                        const struct mark *m, struct text id) {
    variant_set takers = values_readers(v, m->node) & values_applies(v);
    if (c->only != NULL || takers == 0)
        return;
    for (size_t i = first; is_row(r, i, id); i++)
        if ((readers(v, &r->row[i]) & takers) != 0)
            return;
    diag_add(c->diags, DIAG_SEE_UNKNOWN, m->at,
             "'%.*s': no row of limits with this id is for %s, whose step "
             "takes it; write one, or another {for} on the step",
             (int)id.len, id.start, values_variant_names(v, c->arena, takers));
}

/* Prints as a limit among others, and nobody is told when to measure it. A job
 * was made of a guide that has its messages. */
static void question_untaken(struct compile *c, const struct values *v,
                             const struct rows *r) {
    for (size_t i = 0; i < r->count && c->job == NULL && c->only == NULL; i++) {
        const struct row *one = &r->row[i];
        if (!one->taken && (readers(v, one) & values_applies(v)) != 0)
            diag_add(c->diags, DIAG_READING_UNTAKEN, one->id->at,
                     "write {reading %.*s} into the step that measures it",
                     (int)one->id->text.len, one->id->text.start);
    }
}

void measured_check(struct compile *c, const struct guide *g,
                    const struct values *v) {
    struct rows r = collect(c->arena, g);
    struct told *told = arena_alloc(c->arena, 1, sizeof *told);
    check_twice(c, v, &r);
    for (size_t i = 0; i < g->mark_count; i++) {
        const struct mark *m = g->marks[i];
        struct text id = text_trim(m->text);
        if (m->kind != MARK_READING)
            continue;
        size_t at = find_row(&r, id);
        for (size_t k = at; is_row(&r, k, id); k++)
            r.row[k].taken = true;
        if (is_row(&r, at, id))
            require_row(c, v, &r, at, m, id);
        else if (!is_told(told, id))
            report_unknown(c, &r, m, id);
    }
    question_untaken(c, v, &r);
}
