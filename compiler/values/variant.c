/* variant.c - vehicle variants: which there are, which a guide or value is for.
 */
#include "base/arena.h"
#include "base/diag.h"
#include "source/suggest.h"
#include "values/model.h"
#include "values/variant_range.h"

enum { VARIANTS_MAX = 64 }; /* bits of a variant_set */

static variant_set bit(size_t variant) {
    return (variant_set)1 << variant;
}

static void add_variant(struct values *v, const struct block *vehicle,
                        const struct entry *row, const struct cell *name) {
    struct diags *d = v->c->diags;
    for (size_t i = 0; i < v->variant_count; i++) {
        if (!text_equal(v->variant[i].name, name->text))
            continue;
        diag_add(d, DIAG_VARIANT_TWICE, name->at, "'%.*s'", (int)name->text.len,
                 name->text.start);
        return;
    }
    if (v->variant_count == VARIANTS_MAX) {
        diag_add(d, DIAG_VARIANT_MANY, name->at, "at most %d", VARIANTS_MAX);
        return;
    }
    size_t index = v->variant_count++;
    v->variant[index] = (struct variant){name->text, index, row, vehicle};
    variant_range_check(v, vehicle, row);
}

static bool find_variant(const struct values *v, struct text name,
                         size_t *index) {
    for (size_t i = 0; i < v->variant_count; i++) {
        if (!text_equal(v->variant[i].name, name))
            continue;
        *index = i;
        return true;
    }
    return false;
}

static void report_unknown(const struct values *v, struct text name,
                           struct span at) {
    struct nearest near = nearest_to(name);
    for (size_t i = 0; i < v->variant_count; i++)
        nearest_offer(&near, v->variant[i].name);
    if (name.len == 0)
        diag_add(v->c->diags, DIAG_LIST_FORM, at, "nothing between two commas");
    else if (names_word_told(v, name))
        return;
    else if (v->variant[0].name.len == 0)
        diag_add(v->c->diags, DIAG_VARIANT_UNKNOWN, at,
                 "'%.*s'; no file in use has a vehicle block", (int)name.len,
                 name.start);
    else if (near.best != NULL && near.distance < 4)
        diag_add(v->c->diags, DIAG_VARIANT_UNKNOWN, at,
                 "'%.*s' (did you mean '%.*s'?)", (int)name.len, name.start,
                 (int)near.best_len, near.best);
    else
        diag_add(v->c->diags, DIAG_VARIANT_UNKNOWN, at,
                 "'%.*s'; the vehicle block has: %s", (int)name.len, name.start,
                 values_variant_names(v, v->c->arena, ~(variant_set)0));
}

static struct span place_in(struct span near, struct text slice) {
    return near.src == NULL ? near : place_of(near.src, slice);
}

/* The names in a list like `mark 1, mark 2`, without `others`. */
static variant_set named_set(const struct values *v, const struct tags *t,
                             bool *others, bool report) {
    variant_set s = 0;
    for (size_t i = 0; i < t->count; i++) {
        size_t index;
        if (text_is(t->tag[i], "others"))
            *others = true;
        else if (find_variant(v, t->tag[i], &index))
            s |= bit(index);
        else if (report)
            report_unknown(v, t->tag[i], place_in(t->at, t->tag[i]));
    }
    return s;
}

static variant_set all_variants(const struct values *v) {
    return v->variant_count == VARIANTS_MAX ? ~(variant_set)0
                                            : bit(v->variant_count) - 1;
}

static variant_set read_applies(const struct values *v) {
    const struct block *b = v->guide->identity;
    const struct entry *e = b == NULL ? NULL : tree_setting(b, "applies");
    if (e == NULL || e->choice_count == 0)
        return all_variants(v);
    variant_set s = 0;
    struct text rest = e->choices[0].text, name;
    while (text_next_part(&rest, ',', &name)) {
        size_t index;
        if (find_variant(v, name, &index))
            s |= bit(index);
        else
            report_unknown(v, name, place_in(e->at, name));
    }
    return s == 0 ? all_variants(v) : s;
}

/* Those that the user asks for: by name, model year or identification number.
 */
static variant_set only_set(const struct values *v) {
    struct text wanted = text_trim(text_of(v->c->only));
    size_t index;
    return find_variant(v, wanted, &index)
               ? bit(index)
               : variant_range_of(v, wanted, "years") |
                     variant_range_of(v, wanted, "numbers");
}

/* A job is one vehicle's. */
static variant_set restrict_job(struct values *v, variant_set applies) {
    const struct block *job = v->guide->job;
    variant_set first = applies & (~applies + 1);
    if (job == NULL || applies == first)
        return applies;
    diag_add(v->c->diags, DIAG_VARIANT_ONLY, job->at,
             "which one is it? write variant: and one of %s",
             values_variant_names(v, v->c->arena, applies));
    return first;
}

/* "mark 1 (1974 to 1979), mark 2 (1980 to 1984)" */
static const char *names_with_years(const struct values *v,
                                    variant_set applies) {
    struct buf b = buf_in(v->c->arena);
    for (size_t i = 0; i < v->variant_count; i++) {
        const struct variant *one = &v->variant[i];
        const struct cell *years =
            one->row == NULL ? NULL
                             : tree_cell(one->vehicle, one->row, "years");
        if ((applies & bit(i)) == 0)
            continue;
        buf_puts(&b, b.len > 0 ? ", " : "");
        buf_text(&b, one->name);
        if (years != NULL && years->text.len > 0)
            buf_printf(&b, " (%.*s)", (int)years->text.len, years->text.start);
    }
    return buf_cstr(&b);
}

/* "mrk 1" is "mark 1" misspelt, "mark 9" is another. */
static bool same_digits(struct text a, struct text b) {
    size_t i = 0, k = 0;
    for (;; i++, k++) {
        while (i < a.len && (a.start[i] < '0' || a.start[i] > '9'))
            i++;
        while (k < b.len && (b.start[k] < '0' || b.start[k] > '9'))
            k++;
        if (i == a.len || k == b.len || a.start[i] != b.start[k])
            return i == a.len && k == b.len;
    }
}

static variant_set restrict_to(struct values *v, variant_set applies) {
    if (v->c->only == NULL)
        return restrict_job(v, applies);
    variant_set s = only_set(v) & applies;
    if (s != 0)
        return s;
    const struct block *b = v->guide->identity;
    const struct entry *asked =
        v->guide->job == NULL ? NULL : tree_setting(v->guide->job, "variant");
    struct span at = asked != NULL ? asked->at
                     : b != NULL   ? b->at
                                   : (struct span){0};
    struct text wanted = text_trim(text_of(v->c->only));
    struct nearest near = nearest_to(wanted);
    for (size_t i = 0; i < v->variant_count; i++)
        if ((applies & bit(i)) != 0 && same_digits(wanted, v->variant[i].name))
            nearest_offer(&near, v->variant[i].name);
    struct text best = {near.best, near.best_len};
    diag_add(v->c->diags, DIAG_VARIANT_ONLY, at, "'%s'%s; the guide is for %s",
             v->c->only, suggest(v->c->arena, wanted, best),
             v->variant[0].name.len == 0 ? "no vehicle by name"
                                         : names_with_years(v, applies));
    return applies;
}

void variant_collect(struct values *v) {
    const struct guide *g = v->guide;
    v->variant = arena_alloc(v->c->arena, VARIANTS_MAX, sizeof *v->variant);
    for (size_t i = 0; i < g->block_count; i++) {
        const struct block *b = g->blocks[i];
        if (b->kind->id != KIND_VEHICLE)
            continue;
        for (size_t k = 0; k < b->entry_count; k++) {
            const struct entry *row = &b->entries[k];
            const struct cell *name =
                row->kind == ENTRY_ROW ? tree_cell(b, row, "variant") : NULL;
            if (name != NULL && name->text.len > 0)
                add_variant(v, b, row, name);
        }
    }
    if (v->variant_count == 0) /* no vehicle: one variant without a name */
        v->variant_count = 1;
    v->applies = restrict_to(v, read_applies(v));
}

/* Those that some alternative of an entry names. */
static variant_set named_of(const struct values *v, const struct entry *e,
                            bool report) {
    variant_set s = 0;
    bool others = false;
    for (size_t i = 0; i < e->choice_count; i++)
        s |= named_set(v, &e->choices[i].tags, &others, report);
    return s;
}

variant_set values_tagged(const struct values *v, const struct tags *t) {
    if (t->count == 0)
        return all_variants(v);
    bool others = false;
    variant_set s = named_set(v, t, &others, true);
    if (others && t->among != NULL)
        return s | (all_variants(v) & ~named_of(v, t->among, false));
    if (others) {
        diag_add(v->c->diags, DIAG_OTHERS_ALONE, t->at, NULL);
        return 0;
    }
    return s;
}

/* Whether an alternative holds for a variant; `taken` are those that some
 * alternative of the entry names. */
static bool holds_for(const struct values *v, const struct choice *c,
                      variant_set taken, size_t variant) {
    bool others = false;
    variant_set s = named_set(v, &c->tags, &others, false);
    return c->tags.count == 0 || (s & bit(variant)) != 0 ||
           (others && (taken & bit(variant)) == 0);
}

/* A name that no variant has: the gap that it leaves is no second mistake. */
static bool names_unknown(const struct values *v, const struct entry *e) {
    for (size_t i = 0; i < e->choice_count; i++) {
        const struct tags *t = &e->choices[i].tags;
        for (size_t k = 0; k < t->count; k++) {
            size_t index;
            if (!text_is(t->tag[k], "others") &&
                !find_variant(v, t->tag[k], &index))
                return true;
        }
    }
    return false;
}

/* Once for the entry, with all variants that lack a value. */
static void report_gap(const struct values *v, const struct entry *e,
                       variant_set taken) {
    variant_set without = 0;
    for (size_t i = 0; i < v->variant_count; i++) {
        bool any = (v->applies & bit(i)) == 0;
        for (size_t k = 0; k < e->choice_count && !any; k++)
            any = holds_for(v, &e->choices[k], taken, i);
        if (!any)
            without |= bit(i);
    }
    const char *names = values_variant_names(v, v->c->arena, without);
    if (e->kind == ENTRY_REQUIREMENT)
        diag_add(v->c->diags, DIAG_VARIANT_GAP, e->at,
                 "nothing is asked of %s; add what is, or [others]", names);
    else
        diag_add(v->c->diags, DIAG_VARIANT_GAP, e->at,
                 "'%.*s' has no value for %s; add one, or [others]",
                 (int)e->key.len, e->key.start, names);
}

static void report_overlap(const struct values *v, const struct entry *e,
                           const struct choice *second, size_t variant) {
    struct text name = v->variant[variant].name;
    struct span at = second->tags.count > 0 ? second->tags.at : e->at;
    if (v->variant_count > 1)
        diag_add(v->c->diags, DIAG_VARIANT_OVERLAP, at,
                 "'%.*s' has two values for %.*s", (int)e->key.len,
                 e->key.start, (int)name.len, name.start);
    else
        diag_add(v->c->diags, DIAG_VARIANT_OVERLAP, at, "'%.*s' has two values",
                 (int)e->key.len, e->key.start);
}

const struct choice *variant_choose(struct values *v, const struct entry *e,
                                    size_t variant) {
    if (e->bad)
        return NULL; /* it has its message */
    variant_set taken = named_of(v, e, true);
    const struct choice *found = NULL;
    for (size_t i = 0; i < e->choice_count; i++) {
        const struct choice *one = &e->choices[i];
        if (!holds_for(v, one, taken, variant))
            continue;
        if (found != NULL) {
            report_overlap(v, e, one, variant);
            return NULL;
        }
        found = one;
    }
    if (found == NULL && !names_unknown(v, e))
        report_gap(v, e, taken);
    return found;
}

variant_set values_readers(const struct values *v, const struct node *n) {
    variant_set s = all_variants(v);
    for (; n != NULL; n = n->parent)
        for (size_t i = 0; i < n->mark_count; i++)
            if (n->marks[i]->kind == MARK_FOR)
                s &= values_tagged(v, &n->marks[i]->list);
    return s;
}

variant_set values_of_row(const struct values *v, const struct block *b,
                          const struct entry *row) {
    return v->applies & values_readers(v, b->node) &
           values_tagged(v, &row->tags);
}

size_t values_variants(const struct values *v, const struct variant **list) {
    *list = v->variant;
    return v->variant_count;
}

variant_set values_applies(const struct values *v) {
    return v->applies;
}

size_t values_first(const struct values *v) {
    size_t i = 0;
    while (i + 1 < v->variant_count && (v->applies >> i & 1) == 0)
        i++;
    return i;
}

const char *values_variant_names(const struct values *v, struct arena *a,
                                 variant_set s) {
    struct buf b = buf_in(a);
    for (size_t i = 0; i < v->variant_count; i++) {
        if ((s & bit(i)) == 0 || v->variant[i].name.len == 0)
            continue;
        if (b.len > 0)
            buf_puts(&b, ", ");
        buf_text(&b, v->variant[i].name);
    }
    return buf_cstr(&b);
}

struct text variant_cell(const struct values *v, const struct cell *cell,
                         size_t variant) {
    for (size_t i = 0; cell->choice_count > 1 && i < cell->choice_count; i++)
        if (values_tagged(v, &cell->choices[i].tags) >> variant & 1)
            return cell->choices[i].text;
    return cell->text;
}
