/* apart.c - parts of the page that a guide writes in two places. */
#include "layout/apart.h"

#include "base/diag.h"
#include "base/list.h"
#include "layout/part.h"
#include "layout/prose.h"
#include "layout/sheet.h"
#include "source/tree.h"

/* A section as it prints. */
struct written {
    const struct node *section;
    enum part_id part; /* PART_COUNT: of a heading of its own */
    variant_set in;    /* 0: it does not print */
    bool steps;
};

static bool has_steps(const struct node *n) {
    for (const struct node *k = n->first; k != NULL; k = k->next)
        if (k->kind == NODE_STEPS || has_steps(k))
            return true;
    return false;
}

static struct written written_in(struct leaf *l, const struct node *n) {
    struct written w = {.section = n, .steps = has_steps(n)};
    w.part = part_of_section(l->composer.arena, n);
    if (w.part == PART_COUNT || l->sheet->insert[w.part] != NULL)
        w.in = prose_variants(l, n, l->applies);
    return w;
}

static void report(struct leaf *l, const struct node *before,
                   const struct node *between, const struct node *section) {
    struct text title = tree_plain(l->composer.arena, section->text);
    struct text other = tree_plain(l->composer.arena, between->text);
    diag_add(l->composer.diags, DIAG_PART_APART, section->at,
             "both sections '%.*s' print together, and the steps of '%.*s' no "
             "more between them; write them in one, or give one another "
             "heading",
             (int)title.len, title.start, (int)other.len, other.start);
    diag_note(l->composer.diags, before->at, "the other one is here");
    diag_note(l->composer.diags, between->at, "these steps stand between");
}

/* The last section of the same part before this one that a vehicle has with it,
 * if one of the two has steps. */
static const struct written *before_it(const struct written *list,
                                       const struct written *w) {
    for (const struct written *k = w; w->part != PART_COUNT && k-- > list;)
        if (k->part == w->part && (k->in & w->in) != 0 &&
            (k->steps || w->steps))
            return k;
    return NULL;
}

/* Steps between the two, for a vehicle that has all three. */
static const struct written *between(const struct written *before,
                                     const struct written *behind) {
    for (const struct written *k = before + 1; k < behind; k++)
        if (k->steps && k->part != behind->part &&
            (k->in & before->in & behind->in) != 0)
            return k;
    return NULL;
}

/* Its place among the parts that print. */
static size_t place_of_part(const struct leaf *l, const struct written *w) {
    return l->sheet->insert[w->part]->index;
}

/* The first section with steps before this one that prints behind it, for a
 * vehicle that has both. */
static const struct written *behind_it(const struct leaf *l,
                                       const struct written *list,
                                       const struct written *w) {
    if (!w->steps || w->in == 0 || w->part == PART_COUNT)
        return NULL;
    for (const struct written *k = list; k < w; k++)
        if (k->steps && k->part != PART_COUNT && (k->in & w->in) != 0 &&
            place_of_part(l, k) > place_of_part(l, w))
            return k;
    return NULL;
}

static void report_order(struct leaf *l, const struct written *first,
                         const struct written *second) {
    struct text title = tree_plain(l->composer.arena, second->section->text);
    struct text other = tree_plain(l->composer.arena, first->section->text);
    diag_add(l->composer.diags, DIAG_PART_ORDER, second->section->at,
             "'%.*s' is written behind '%.*s' and prints before it, so that "
             "its steps have the higher numbers; write it before",
             (int)title.len, title.start, (int)other.len, other.start);
    diag_note(l->composer.diags, first->section->at, "the other one is here");
}

void apart_check(struct leaf *l) {
    struct written *list = NULL;
    size_t count = 0, room = 0;
    for (const struct node *n = l->guide->root->first; n != NULL; n = n->next) {
        if (n->kind != NODE_SECTION)
            continue;
        list = list_grown(l->composer.arena, list, count, &room, sizeof *list);
        list[count++] = written_in(l, n);
    }
    for (size_t i = 0; i < count; i++) {
        const struct written *before = before_it(list, &list[i]);
        const struct written *other =
            before == NULL ? NULL : between(before, &list[i]);
        const struct written *late = behind_it(l, list, &list[i]);
        if (other != NULL)
            report(l, before->section, other->section, list[i].section);
        else if (late != NULL)
            report_order(l, late, &list[i]);
    }
}
