/* present.c - values as the page, the annex and the messages print them. */
#include "base/arena.h"
#include "base/diag.h"
#include "values/expression.h"
#include "values/limit.h"
#include "values/limit_unit.h"
#include "values/misread.h"
#include "values/range.h"
#include "values/setting_torque.h"

#include <math.h>
#include <string.h>

#define NBSP "\xC2\xA0"

static enum figure_form form_of(enum print_form form) {
    switch (form) {
    case PRINT_PLAIN:
        break;
    case PRINT_RANGE:
        return FIGURE_RANGE;
    case PRINT_LOW:
        return FIGURE_LOW;
    case PRINT_HIGH:
        return FIGURE_HIGH;
    }
    return FIGURE_PLAIN;
}

static const char *limit_text(struct arena *a, const struct value *value) {
    if (value->low != NULL)
        return arena_printf(a, "\xE2\x89\xA5" NBSP "%s",
                            figure_both(a, value->low, FIGURE_AT_LEAST));
    return arena_printf(a, "\xE2\x89\xA4" NBSP "%s",
                        figure_both(a, value->high, FIGURE_AT_MOST));
}

/* `28 A for 60 ms`, `5 in from battery +`, `25 N·m, then 90°, then 90°`. */
static const char *with_second(struct arena *a, const char *first,
                               const struct value *value,
                               enum figure_form form) {
    if (value->joint == NULL)
        return first;
    bool turned = strcmp(value->joint, "then") == 0;
    bool parted = turned || strcmp(value->joint, "step") == 0;
    const char *second =
        turned                ? setting_stages_print(a, value->with, NULL, form)
        : value->text.len > 0 ? text_cstr(a, value->text)
                              : figure_of(a, value->with, FIGURE_PLAIN);
    return arena_printf(a, "%s%s %s %s", first, parted ? "," : "", value->joint,
                        second);
}

static const char *value_text(struct arena *a, const struct value *value,
                              enum print_form form) {
    switch (value->type) {
    case VALUE_BAD:
    case VALUE_ABSENT:
        return NULL;
    case VALUE_QUANTITY: {
        if (value->staged)
            return setting_stages_print(a, value->quantity, NULL,
                                        form_of(form));
        bool tool = value->joint != NULL && strcmp(value->joint, "step") == 0;
        const char *first =
            tool ? figure_spread(a, value->quantity,
                                 figure_unit(value->quantity))
                 : figure_both(a, value->quantity, form_of(form));
        return with_second(a, first, value, form_of(form));
    }
    case VALUE_SIZE:
        return value->size->label;
    case VALUE_TEXT:
        return text_cstr(a, value->text);
    case VALUE_TRUTH:
        return value->truth ? "yes" : "no";
    case VALUE_LIMIT:
        return limit_text(a, value);
    }
    return NULL;
}

const char *values_print(const struct values *v, struct arena *a,
                         const struct named *n, size_t variant,
                         enum print_form form) {
    (void)v;
    return value_text(a, &n->by_variant[variant], form);
}

/* Texts by variant joined to one: the commonest first and bare, the others
 * behind the names of their variants. With no common one all are named. */
static const char *merge(const struct values *v, struct arena *a,
                         const char *const *text, variant_set s) {
    variant_set group[64];
    const char *of_group[64];
    size_t groups = 0, main = 0;
    int sizes[64] = {0};
    for (size_t i = 0; i < v->variant_count; i++) {
        if ((s >> i & 1) == 0 || text[i] == NULL)
            continue;
        size_t g = 0;
        while (g < groups && strcmp(of_group[g], text[i]) != 0)
            g++;
        if (g == groups) {
            of_group[groups] = text[i];
            group[groups++] = 0;
        }
        group[g] |= (variant_set)1 << i;
        if (++sizes[g] > sizes[main])
            main = g;
    }
    if (groups == 0)
        return NULL;
    if (groups == 1)
        return of_group[0];
    struct buf b = buf_in(a);
    bool bare = sizes[main] > 1;
    if (bare)
        buf_puts(&b, of_group[main]);
    for (size_t g = 0; g < groups; g++) {
        if (bare && g == main)
            continue;
        buf_printf(&b, "%s%s: %s", b.len > 0 ? "; " : "",
                   text_held(a, values_variant_names(v, a, group[g])),
                   of_group[g]);
    }
    return buf_cstr(&b);
}

const char *values_print_over(const struct values *v, struct arena *a,
                              const struct named *n, variant_set s,
                              enum print_form form) {
    const char *text[64] = {NULL};
    for (size_t i = 0; i < v->variant_count; i++)
        if ((s & v->applies) >> i & 1)
            text[i] = value_text(a, &n->by_variant[i], form);
    return merge(v, a, text, s & v->applies);
}

/* A range that stands here, not behind a name. */
static bool is_own_spread(const struct value *value) {
    return value->type == VALUE_QUANTITY && value->joint == NULL &&
           value->quantity->spread != NULL &&
           value->quantity->at.src == value->at.src &&
           value->quantity->at.start == value->at.start;
}

/* A figure that stands here, or behind a name of the author's: 20 C, which
 * would print as coulombs. Where a setting wants a charge it was meant. True
 * after a message. */
static bool refuse_degrees(struct values *v, const struct mark *m,
                           const struct slot *slot, const struct value *value) {
    bool defined = slot == NULL || (slot->setting == NULL &&
                                    slot->field == NULL && !slot->output);
    if (value->type != VALUE_QUANTITY || !defined ||
        value->quantity->op != QUANTITY_ROOT)
        return false;
    struct arena *a = v->c->arena;
    const char *meant = misread_degrees(
        a, value->quantity->unit, figure_spread(a, value->quantity, NULL));
    if (meant != NULL)
        diag_add(v->c->diags, DIAG_DIMENSION, m->at, "%s", meant);
    return meant != NULL;
}

const char *marks_text(struct values *v, const struct mark *m, size_t variant) {
    struct arena *a = v->c->arena;
    struct text text = m->text;
    const struct slot *slot = names_find(v, m->scope, text_trim(text));
    if (m->supply.len > 0 && slot != NULL && slot->output != NULL)
        text.len = /* with `at` and the voltage */
            (size_t)(m->supply.start + m->supply.len - text.start);
    struct expression x = expression_over(v, m->scope, variant, text);
    if (m->supply.len > 0 && text.len == m->text.len) {
        scan_fail(&x.scan, DIAG_MARK_AT, 0, text.len, NULL);
        return NULL;
    }
    x.braced = true;
    struct value value = expression_value(&x);
    if (value.type == VALUE_BAD || refuse_degrees(v, m, slot, &value))
        return NULL;
    enum figure_form form = m->range ? FIGURE_RANGE : FIGURE_PLAIN;
    bool as_written = !m->range && is_own_spread(&value);
    if (m->unit.len == 0 && as_written)
        return figure_spread(a, value.quantity, NULL);
    if (m->unit.len == 0)
        return value_text(a, &value, m->range ? PRINT_RANGE : PRINT_PLAIN);
    const struct unit *unit = unit_find(m->unit.start, m->unit.len);
    if (unit == NULL) {
        diag_add(v->c->diags, DIAG_UNIT_UNKNOWN,
                 place_of(m->scope->src, m->unit), "'%.*s'", (int)m->unit.len,
                 m->unit.start);
        return NULL;
    }
    if (!expression_fits(&x, &value, unit->name, "this unit"))
        return NULL;
    if (as_written)
        return figure_spread(a, value.quantity, unit);
    const char *figure =
        value.staged ? setting_stages_print(a, value.quantity, unit, form)
                     : figure_in(a, value.quantity, unit, form);
    /* A torque is not told without the angle behind it. */
    return value.joint != NULL && strcmp(value.joint, "then") == 0
               ? with_second(a, figure, &value, form)
               : figure;
}

void marks_check(struct values *v) {
    const struct guide *g = v->guide;
    struct arena *a = v->c->arena;
    v->mark_text = arena_alloc(a, g->mark_count + 1, sizeof *v->mark_text);
    for (size_t k = 0; k < g->mark_count; k++) {
        const struct mark *m = g->marks[k];
        if (m->kind != MARK_VALUE)
            continue;
        v->mark_text[m->index] =
            arena_alloc(a, v->variant_count, sizeof(const char *));
        variant_set s = values_readers(v, m->node) & v->applies;
        for (size_t i = 0; i < v->variant_count; i++)
            if (s >> i & 1)
                v->mark_text[m->index][i] = marks_text(v, m, i);
    }
}

const char *values_print_mark(const struct values *v, struct arena *a,
                              const struct mark *m, variant_set s) {
    const char **text = v->mark_text[m->index];
    return text == NULL ? NULL : merge(v, a, text, s & v->applies);
}

/* Limits and quantities of a row, evaluated beforehand like the marks. */
static bool is_evaluated(const struct column *c) {
    return c != NULL &&
           (c->type == SETTING_LIMIT || c->type == SETTING_QUANTITY);
}

/* True after a message. */
static bool refuse_single(struct values *v, const struct cell *cell,
                          const struct value *value) {
    if (!limit_is_single(value))
        return false;
    int len = (int)cell->text.len;
    const char *text = cell->text.start;
    bool ends = strstr(text_cstr(v->c->arena, cell->text), " to ") != NULL;
    if (ends)
        diag_add(v->c->diags, DIAG_SETTING_VALUE, cell->at,
                 "both ends of %.*s are the same; write two, or <= or >= "
                 "before one",
                 len, text);
    else
        diag_add(v->c->diags, DIAG_SETTING_VALUE, cell->at,
                 "a single figure is no limit: write <= %.*s, >= %.*s or a "
                 "range",
                 len, text, len, text);
    return true;
}

/* A bare number where the row is of something that has a unit: true after a
 * message. 0 is the same in all of them. */
static bool refuse_bare(struct values *v, const struct block *b,
                        const struct entry *row, const struct cell *cell,
                        const struct value *value) {
    const struct cell *of = tree_cell(b, row, "characteristic");
    const struct quantity *q = value->low != NULL ? value->low : value->high;
    if (value->type != VALUE_LIMIT)
        q = value->type == VALUE_QUANTITY ? value->quantity : NULL;
    const char *unit = of == NULL || q == NULL || q->unit != NULL ||
                               !dim_none(q->dim) || q->nominal == 0
                           ? NULL
                           : limit_unit_wanted(of->text);
    if (unit == NULL)
        return false;
    diag_add(v->c->diags, DIAG_UNIT_MISSING, cell->at,
             "'%.*s' has a unit; write %.*s %s, or in its own unit; a row of "
             "plain numbers says so: ratio, share, count, turns",
             (int)of->text.len, of->text.start, (int)cell->text.len,
             cell->text.start, unit);
    return true;
}

static const char *cell_text(struct values *v, const struct block *b,
                             const struct entry *row,
                             const struct column *column,
                             const struct cell *cell, size_t variant,
                             const struct quantity **quantity) {
    struct expression x =
        expression_over(v, b->scope, variant, variant_cell(v, cell, variant));
    struct value value = expression_value(&x);
    if (value.type == VALUE_BAD)
        return NULL;
    if (column->unit != NULL) {
        struct value end = value;
        if (value.type == VALUE_LIMIT) {
            end.type = VALUE_QUANTITY;
            end.quantity = value.low != NULL ? value.low : value.high;
        }
        if (!expression_fits(&x, &end, column->unit, column->name))
            return NULL;
    }
    if (column->type == SETTING_LIMIT && (refuse_single(v, cell, &value) ||
                                          refuse_bare(v, b, row, cell, &value)))
        return NULL;
    if (value.type == VALUE_QUANTITY)
        *quantity = value.quantity;
    if (column->type == SETTING_LIMIT && value.type == VALUE_QUANTITY)
        return figure_band(v->c->arena, value.quantity);
    if (is_own_spread(&value))
        return figure_spread(v->c->arena, value.quantity, NULL);
    return value_text(v->c->arena, &value, PRINT_PLAIN);
}

static struct cell_value *evaluate_cell(struct values *v, const struct block *b,
                                        const struct entry *row,
                                        const struct column *column,
                                        const struct cell *cell,
                                        variant_set s) {
    struct cell_value *own = arena_alloc(v->c->arena, 1, sizeof *own);
    own->quantity =
        arena_alloc(v->c->arena, v->variant_count, sizeof(*own->quantity));
    own->text =
        arena_alloc(v->c->arena, v->variant_count, sizeof(const char *));
    for (size_t i = 0; i < v->variant_count; i++)
        if (s >> i & 1)
            own->text[i] =
                cell_text(v, b, row, column, cell, i, &own->quantity[i]);
    return own;
}

static void check_rows(struct values *v, const struct block *b) {
    struct cell_value **all = arena_alloc(
        v->c->arena, b->entry_count * b->column_count + 1, sizeof(*all));
    v->of_block[b->index].cell = all;
    for (size_t i = 0; i < b->entry_count; i++) {
        const struct entry *row = &b->entries[i];
        if (row->kind != ENTRY_ROW)
            continue;
        variant_set s = values_of_row(v, b, row);
        for (size_t k = 0; k < b->column_count; k++)
            if (is_evaluated(b->column[k]) && row->cells[k].text.len > 0)
                all[i * b->column_count + k] =
                    evaluate_cell(v, b, row, b->column[k], &row->cells[k], s);
    }
}

void cells_check(struct values *v) {
    const struct guide *g = v->guide;
    for (size_t i = 0; i < g->block_count; i++)
        if (g->blocks[i]->column != NULL)
            check_rows(v, g->blocks[i]);
}

/* What was evaluated of a cell; NULL: it is running text, or empty. */
static const struct cell_value *value_of(const struct values *v,
                                         const struct block *b,
                                         const struct entry *row,
                                         const struct cell *cell) {
    struct cell_value *const *all = v->of_block[b->index].cell;
    if (all == NULL || cell == NULL)
        return NULL;
    return all[(size_t)(row - b->entries) * b->column_count +
               (size_t)(cell - row->cells)];
}

const char *values_print_cell(const struct values *v, struct arena *a,
                              const struct block *b, const struct entry *row,
                              const char *column, variant_set s) {
    const struct cell *cell = tree_cell(b, row, column);
    if (cell == NULL)
        return NULL;
    const struct cell_value *value = value_of(v, b, row, cell);
    if (value != NULL)
        return merge(v, a, value->text, s & v->applies);
    return text_cstr(a, cell->text);
}

static void add_limits(const struct values *v, const struct block *b,
                       struct text id, const char **text) {
    for (size_t k = 0; k < b->entry_count; k++) {
        const struct entry *row = &b->entries[k];
        const struct cell *own = tree_cell(b, row, "id");
        if (row->kind != ENTRY_ROW || own == NULL || !text_equal(own->text, id))
            continue;
        const struct cell_value *value =
            value_of(v, b, row, tree_cell(b, row, "limit"));
        for (size_t i = 0; value != NULL && i < v->variant_count; i++)
            if (value->text[i] != NULL)
                text[i] = value->text[i];
    }
}

const char *values_print_limit(const struct values *v, struct arena *a,
                               struct text id, variant_set s) {
    const char *text[64] = {NULL};
    for (size_t i = 0; i < v->guide->block_count; i++)
        if (v->guide->blocks[i]->kind->id == KIND_LIMITS)
            add_limits(v, v->guide->blocks[i], id, text);
    return merge(v, a, text, s & v->applies);
}

const struct circuit_extremes *values_extremes(const struct values *v,
                                               const struct block *b) {
    return v->of_block[b->index].extremes;
}

const struct circuit_table *values_table(const struct values *v,
                                         const struct block *b) {
    return v->of_block[b->index].table;
}

const char *values_print_table(const struct values *v, struct arena *a,
                               const struct circuit_row *row, size_t column,
                               variant_set s) {
    return merge(v, a, row->text + column * v->variant_count, s & v->applies);
}

void cells_add(struct values *v, const struct block *b, const struct entry *row,
               const char *column, size_t variant, const char *text) {
    const struct cell_value *value =
        value_of(v, b, row, tree_cell(b, row, column));
    if (value != NULL && value->text[variant] != NULL)
        value->text[variant] =
            arena_printf(v->c->arena, "%s%s", value->text[variant], text);
}

const struct quantity *cells_quantity(const struct values *v,
                                      const struct block *b,
                                      const struct entry *row,
                                      const char *column, size_t variant) {
    const struct cell_value *value =
        value_of(v, b, row, tree_cell(b, row, column));
    return value == NULL ? NULL : value->quantity[variant];
}

double values_cell_number(const struct values *v, const struct block *b,
                          const struct entry *row, const char *column,
                          size_t variant) {
    const struct quantity *q = cells_quantity(v, b, row, column, variant);
    return q == NULL ? NAN : q->nominal;
}

size_t values_count(const struct values *v) {
    return v->slot_count;
}

const struct named *values_at(const struct values *v, size_t index) {
    return &v->slot[index].named;
}

const struct named *values_find(const struct values *v,
                                const struct scope *from, struct text name) {
    const struct slot *s = names_find(v, from, name);
    return s == NULL ? NULL : &s->named;
}

const struct named *values_of(const struct values *v, const struct block *b,
                              const char *name) {
    const struct slot *s = names_field(v, b, name);
    if (s == NULL)
        s = names_setting(v, b, name);
    if (s == NULL)
        return NULL;
    for (size_t i = 0; i < v->variant_count; i++)
        if (s->named.by_variant[i].type != VALUE_ABSENT &&
            s->named.by_variant[i].type != VALUE_BAD)
            return &s->named;
    return NULL;
}

double values_highest(const struct values *v, const struct block *b,
                      const char *name) {
    const struct named *n = values_of(v, b, name);
    double most = NAN;
    for (size_t i = 0; n != NULL && i < v->variant_count; i++)
        if ((values_applies(v) >> i & 1) != 0 &&
            n->by_variant[i].type == VALUE_QUANTITY)
            most = fmax(most, range_ends(n->by_variant[i].quantity).high);
    return most;
}

size_t values_assumptions(const struct values *v,
                          const struct assumption **list) {
    *list = v->assumption;
    return v->assumption_count;
}

bool values_assumed(const struct values *v, const struct block *b,
                    const char *what) {
    const struct block_slots *own = &v->of_block[b->index];
    for (size_t i = 0; i < own->assumed_count; i++)
        if (strcmp(v->assumption[own->assumed[i]].what, what) == 0)
            return true;
    return false;
}
