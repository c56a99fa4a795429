/* owner.c - the parts of the sheet that a customer keeps: one job.
 *
 * Names of people come from the job file and are printed here only: nothing of
 * them goes into the PDF's information. */
#include "layout/owner.h"

#include "base/arena.h"
#include "layout/bars.h"
#include "layout/partlist.h"
#include "layout/prose.h"
#include "layout/record.h"
#include "layout/table.h"
#include "source/job.h"
#include "source/namesake.h"
#include "values/job_result.h"
#include "values/plain.h"
#include "values/quantity.h"

#include <math.h>
#include <string.h>

static const double box_height = 26;

static const struct block *job_of(const struct leaf *l) {
    return l->guide->job;
}

static struct text setting(const struct leaf *l, const char *name) {
    return job_of(l) == NULL ? (struct text){NULL, 0}
                             : job_setting(l->composer.arena, job_of(l), name);
}

/* NULL also where running text says "none": there is nothing to tell. That no
 * parts were fitted is told. */
static const struct entry *entry_of(const struct leaf *l, const char *name) {
    const struct entry *e =
        job_of(l) == NULL ? NULL : tree_setting(job_of(l), name);
    if (e == NULL || e->choice_count == 0)
        return NULL;
    bool none = e->setting->type == SETTING_PROSE && e->choice_count == 1 &&
                text_is(e->choices[0].text, "none");
    return none ? NULL : e;
}

static struct span place(const struct leaf *l) {
    return job_of(l) == NULL ? l->guide->root->at : job_of(l)->at;
}

/* A setting of running text as a paragraph over the whole width. */
static bool set_words(struct leaf *l, const char *name) {
    const struct entry *e = entry_of(l, name);
    if (e == NULL)
        return false;
    struct spot spot = prose_body(l, l->applies);
    struct rich r = {0};
    prose_add_choices(l, &r, e->choices, e->choice_count, &spot);
    flow_paragraph(&l->flow, &r, spot.x, spot.width, spot.type, e->at);
    flow_space(&l->flow, 4);
    return true;
}

void owner_set_job(struct leaf *l) {
    const struct field_box about[] = {
        {"job", 2, setting(l, "number")},
        {"date", 3, setting(l, "date")},
        {"vehicle", 5, setting(l, "vehicle")},
        {"variant", 2,
         text_of(
             values_variant_names(l->values, l->composer.arena, l->applies))},
    };
    const struct field_box whose[] = {
        {"owner", 1, setting(l, "owner")},
    };
    size_t from = l->flow.count;
    record_row(&l->flow, about, 4, 0, leaf_width(l), box_height, place(l));
    record_row(&l->flow, whose, 1, 0, leaf_width(l), box_height, place(l));
    flow_together(&l->flow, from, BOND_FAST);
    flow_space(&l->flow, 6);
}

bool owner_any_complaint(const struct leaf *l) {
    return entry_of(l, "complaint") != NULL;
}

void owner_set_complaint(struct leaf *l) {
    set_words(l, "complaint");
}

/* Without the job's own words the guide's title says it. */
void owner_set_work(struct leaf *l) {
    if (!set_words(l, "work")) {
        struct spot spot = prose_body(l, l->applies);
        struct rich r = {0};
        leaf_add(l, &r, spot.type, FACE_REGULAR, "The work of guide ");
        rich_add(l->composer.arena, &r, leaf_tone(spot.type, FACE_REGULAR),
                 leaf_setting(l, "id"), place(l));
        leaf_add(l, &r, spot.type, FACE_REGULAR, ", “");
        rich_add(l->composer.arena, &r, leaf_tone(spot.type, FACE_REGULAR),
                 values_title(l->values, l->composer.arena, l->guide),
                 place(l));
        leaf_add(l, &r, spot.type, FACE_REGULAR, "”.");
        flow_paragraph(&l->flow, &r, spot.x, spot.width, spot.type, place(l));
        flow_space(&l->flow, 4);
    }
    set_words(l, "remarks");
}

/* --- readings --- */

static const char *limit_of(struct leaf *l, const struct job_reading *r) {
    return values_print_cell(l->values, l->composer.arena, r->limits, r->row,
                             "limit", l->applies);
}

static const char *word_of(enum job_verdict v) {
    switch (v) {
    case JOB_NO_VERDICT:
        return NULL;
    case JOB_IN_LIMIT:
        return "passes";
    case JOB_OUT_OF_LIMIT:
        return "FAILS";
    }
    return NULL;
}

bool owner_any_readings(const struct leaf *l) {
    const struct job_reading *list;
    return values_job_readings(l->values, &list) > 0;
}

static void add_row(struct leaf *l, struct table *t,
                    const struct job_reading *r) {
    struct type type = l->style.table;
    struct spot spot = prose_body(l, l->applies);
    spot.type = type;
    struct table_row *row = table_add(l->composer.arena, t, r->row->at);
    const struct cell *what = tree_cell(r->limits, r->row, "characteristic");
    if (what != NULL)
        prose_add_cell(l, &row->cell[0], what, &spot);
    leaf_add_value(l, &row->cell[1], type, FACE_REGULAR, r->found_text);
    leaf_add_value(l, &row->cell[2], type, FACE_BOLD, r->left_text);
    leaf_add_value(l, &row->cell[3], type, FACE_REGULAR, limit_of(l, r));
    leaf_add_value(l, &row->cell[4], type, FACE_BOLD, word_of(r->is));
}

static struct text plain(struct leaf *l, const struct cell *cell) {
    return cell == NULL || cell->prose == NULL
               ? (struct text){NULL, 0}
               : tree_plain(l->composer.arena, cell->prose);
}

static bool has_bars(const struct job_reading *r) {
    return r->found != NULL && r->left != NULL && r->found->nominal >= 0 &&
           r->left->nominal >= 0 && !r->found->dim.point;
}

static void add_bars(struct leaf *l, const struct job_reading *r) {
    struct bars b = {
        .label = plain(l, tree_cell(r->limits, r->row, "characteristic")),
        .found = r->found->nominal,
        .left = r->left->nominal,
        .low = r->low,
        .high = r->high,
        .found_text = text_of(r->found_text),
        .left_text = text_of(r->left_text),
        .limit_text = text_of(limit_of(l, r)),
        .verdict = text_of(word_of(r->is)),
    };
    struct spot spot = prose_body(l, l->applies);
    flow_space(&l->flow, 10);
    bars_set(&l->flow, &b, spot.x, spot.width, r->row->at);
}

void owner_set_readings(struct leaf *l) {
    static const char *const heads[] = {"measured", "before", "after", "limit",
                                        ""};
    const struct job_reading *list;
    size_t count = values_job_readings(l->values, &list);
    struct table *t =
        table_new(l->composer.arena, 5, text_of("Readings"), place(l));
    for (size_t k = 0; k < 5; k++)
        leaf_add(l, &t->head[k], l->style.table, FACE_BOLD, heads[k]);
    for (size_t i = 0; i < count; i++)
        add_row(l, t, &list[i]);
    table_set(&l->flow, t, 0, leaf_width(l), l->style.table);
    for (size_t i = 0; i < count; i++)
        if (has_bars(&list[i]))
            add_bars(l, &list[i]);
    flow_space(&l->flow, 6);
}

/* --- figures of this vehicle --- */

bool owner_any_measured(const struct leaf *l) {
    const struct job_figure *list;
    return values_job_figures(l->values, &list) > 0;
}

/* "pump.run" in words. */
static const char *spoken(struct arena *a, struct text name) {
    char *out = arena_copy(a, name.start, name.len);
    for (char *c = out; *c != '\0'; c++)
        if (*c == '.')
            *c = ' ';
    return out;
}

void owner_set_measured(struct leaf *l) {
    static const char *const heads[] = {"figure", "this vehicle",
                                        "others of its sort", "how"};
    struct type type = l->style.table;
    const struct job_figure *list;
    size_t count = values_job_figures(l->values, &list);
    struct table *t = table_new(l->composer.arena, 4,
                                text_of("Figures of this vehicle"), place(l));
    t->drop_empty = true;
    for (size_t k = 0; k < 4; k++)
        leaf_add(l, &t->head[k], type, FACE_BOLD, heads[k]);
    for (size_t i = 0; i < count; i++) {
        const struct job_figure *f = &list[i];
        struct table_row *row = table_add(l->composer.arena, t, place(l));
        leaf_add(l, &row->cell[0], type, FACE_REGULAR,
                 spoken(l->composer.arena, f->name));
        leaf_add_value(l, &row->cell[1], type, FACE_BOLD, f->set);
        leaf_add_value(l, &row->cell[2], type, FACE_REGULAR, f->stated);
        if (f->outside)
            leaf_add(l, &row->cell[2], type, FACE_BOLD,
                     "; this vehicle is outside");
        if (f->note.len > 0)
            rich_add(l->composer.arena, &row->cell[3],
                     leaf_tone(type, FACE_REGULAR), f->note, place(l));
    }
    table_set(&l->flow, t, 0, leaf_width(l), type);
    flow_space(&l->flow, 6);
}

/* --- parts, the next check, names --- */

bool owner_any_fitted(const struct leaf *l) {
    return entry_of(l, "parts used") != NULL || partlist_any(l);
}

void owner_set_fitted(struct leaf *l) {
    if (!set_words(l, "parts used") && partlist_any(l))
        partlist_set(l);
}

/* When a bolted joint is tightened again: "30 days"; NULL: never. */
static const char *again(const struct leaf *l, const struct block *b) {
    const struct named *n = values_of(l->values, b, "re-check");
    return n == NULL ? NULL
                     : values_print_over(l->values, l->composer.arena, n,
                                         l->applies, PRINT_PLAIN);
}

static const struct block *next_again(const struct leaf *l,
                                      const struct block *after) {
    do
        after = leaf_next(l, after, KIND_TORQUE);
    while (after != NULL && (after->name.len == 0 || again(l, after) == NULL));
    return after;
}

bool owner_any_next(const struct leaf *l) {
    return entry_of(l, "next check") != NULL || next_again(l, NULL) != NULL;
}

void owner_set_next(struct leaf *l) {
    struct arena *a = l->composer.arena;
    set_words(l, "next check");
    for (const struct block *b = next_again(l, NULL); b != NULL;
         b = next_again(l, b)) {
        struct spot spot = prose_body(l, l->applies);
        struct rich r = {0};
        const char *when = again(l, b);
        bool said = strncmp(when, "after ", 6) == 0;
        leaf_add(l, &r, spot.type, FACE_REGULAR,
                 arena_printf(a,
                              "Bolted joint “%s”: have it tightened again "
                              "%s",
                              namesake_name(a, l->guide, b),
                              said ? "" : "after "));
        leaf_add_value(l, &r, spot.type, FACE_REGULAR, when);
        leaf_add(l, &r, spot.type, FACE_REGULAR, ".");
        flow_paragraph(&l->flow, &r, spot.x, spot.width, spot.type, b->at);
        flow_space(&l->flow, 4);
    }
}

void owner_set_signed(struct leaf *l) {
    const struct field_box box[] = {
        {"work done by", 3, setting(l, "done by")},
        {"signature", 3, {NULL, 0}},
        {"inspected by", 3, setting(l, "inspected by")},
        {"signature", 3, {NULL, 0}},
    };
    record_row(&l->flow, box, 4, 0, leaf_width(l), box_height, place(l));
}
