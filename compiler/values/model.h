/* model.h - the inside of values/: slots, requirements, the state of
 * evaluation. Other stages see values.h only. */
#ifndef MODEL_H
#define MODEL_H

#include "source/kind.h"
#include "source/tree.h"
#include "stages.h"
#include "values/figure.h"
#include "values/quantity.h"
#include "values/requirement.h"
#include "values/values.h"

struct circuit_output;
struct circuit_work;
struct trial_wire;

enum slot_state { SLOT_UNTOUCHED, SLOT_AT_WORK, SLOT_DONE };

/* A name and how to find its value: a definition, a written setting, or a field
 * that a block computes. */
struct slot {
    struct named named;
    const struct scope *visible;   /* where the name is known */
    const struct scope *evaluated; /* where its text stands, a default's own
                                      file, and its names are looked up */
    const struct entry *entry; /* definitions and settings; NULL: not written */
    const struct setting *setting;       /* settings */
    const struct field *field;           /* fields */
    const struct circuit_output *output; /* fields of a circuit */
    enum slot_state *state;              /* by variant */
    bool
        hidden; /* of an unnamed block, or of a kind whose names are not used */
};

/* A cell that holds a limit or a quantity, by variant. */
struct cell_value {
    const char **text;                /* as printed */
    const struct quantity **quantity; /* NULL in it where it is a limit */
};

/* A line of the calculation annex: which quantity, of which field. */
struct working_row {
    size_t variant;
    const char *what;
    const struct quantity *quantity;
};

/* What is known of one block. */
struct block_slots {
    size_t first, count;           /* its slots: settings, then fields */
    enum slot_state *state;        /* of the block's computation, by variant */
    bool *failed;                  /* its computation, by variant */
    struct circuit_work **circuit; /* of a circuit, by variant; NULL: failed */
    const struct wire_outcome **outcome; /* of a wire block, by variant */
    struct fuse_waiting **waiting; /* of a fuse block, by variant; or NULL */
    const struct circuit_table *table; /* of a `sheet` block */
    struct circuit_extremes *extremes; /* of a circuit that was solved */
    struct working_row *working;
    size_t working_count, working_room;
    size_t *assumed; /* indices in values.assumption */
    size_t assumed_count, assumed_room;
    struct cell_value **cell; /* by row and column; NULL: none is evaluated */
};

/* A word that is not known is told once, however often it is used. */
struct reported {
    struct text *word;
    size_t count, room;
};

/* What of a limit is left once the instrument's error is taken off. */
struct accepted {
    const struct entry *row;
    size_t variant;
    double low, high;
};

struct values {
    struct compile *c;
    const struct guide *guide;
    struct quantity_maker maker;
    struct variant *variant;
    size_t variant_count;
    variant_set applies;
    struct slot *slot;
    size_t slot_count, slot_room;
    size_t *sorted; /* indices of the slots that are not hidden, by name */
    size_t sorted_count;
    struct block_slots *of_block; /* by block index */
    const struct block **by_name; /* sorted; a NULL behind the last */
    struct requirement *requirement;
    size_t requirement_count, requirement_room;
    struct assumption *assumption;
    size_t assumption_count, assumption_room;
    const char ***mark_text; /* by mark index, then variant */
    enum unit_system units;  /* of computed values: `units` of the guide */
    const struct trial_wire *trial; /* a size put in to see whether it passes */
    struct reported *told;          /* names and variants that are not known */
    /* Of the job that the guide is compiled for. */
    struct job_set *job_set;
    size_t job_set_count;
    struct accepted *accepted;
    size_t accepted_count, accepted_room;
    struct job_figure *job_figure;
    size_t job_figure_count;
    struct job_reading *job_reading;
    size_t job_reading_count;
    int depth; /* of names that need names, and of their parentheses */
};

/* blocks.c */
void blocks_collect(struct values *v);
/* The block whose entry holds for a setting: this one, else the unnamed block
 * of its kind in its file, else in the facts. NULL: not written. */
const struct block *blocks_stating(const struct values *v,
                                   const struct block *b, const char *setting);
const struct entry *blocks_entry(const struct values *v, const struct block *b,
                                 const char *setting);
/* Blocks by a list of names with commas; those that are not there are left out.
 */
size_t blocks_listed(const struct values *v, const struct block *from,
                     struct text names, const char *kinds,
                     const struct block *const **list);
/* An earlier block of that scope whose name b has too, of a kind whose names
 * count; NULL. */
const struct block *blocks_same_name(const struct values *v,
                                     const struct block *b,
                                     const struct scope *in);

/* names.c */
void names_collect(struct values *v);
/* Whether the settings and fields of a block are known by its name. */
bool names_has(const struct block *b);
/* A hidden copy of a slot as it is, not evaluated yet; its index. Slots may
 * have moved. */
size_t names_copy(struct values *v, size_t slot);
struct slot *names_find(const struct values *v, const struct scope *from,
                        struct text name);
struct slot *names_setting(const struct values *v, const struct block *b,
                           const char *name);
struct slot *names_field(const struct values *v, const struct block *b,
                         const char *name);
/* Whether a message about a name, or a block, that is not known need not be
 * given: it was, of another use, or of another field of the block. */
bool names_told(const struct values *v, struct text name);
bool names_word_told(const struct values *v, struct text word);
void names_suggest(const struct values *v, const struct scope *from,
                   struct nearest *near);

/* evaluate.c: evaluates on demand; a cycle is reported once and is BAD. */
const struct value *evaluate_slot(struct values *v, struct slot *s,
                                  size_t variant);
/* present.c: values in running text and cells, evaluated and worded once. */
void marks_check(struct values *v);
/* A mark's value in one variant; NULL after a message. */
const char *marks_text(struct values *v, const struct mark *m, size_t variant);
void cells_check(struct values *v);
/* A cell that is a quantity; NULL when it is none, or after a message. */
const struct quantity *cells_quantity(const struct values *v,
                                      const struct block *b,
                                      const struct entry *row,
                                      const char *column, size_t variant);

/* Adds to the text of a cell that was evaluated. */
void cells_add(struct values *v, const struct block *b, const struct entry *row,
               const char *column, size_t variant, const char *text);

/* needs.c: values passed to a shared file fit what it needs. */
void needs_check(struct values *v);
/* instrument.c: the instrument of a limit is finer than its band; adds to the
 * limit the readings to accept. */
void instrument_require(struct values *v);
/* The readings to accept in a row of limits, SI, as they are printed; an end
 * that has none is infinite. False: the limit itself. */
bool instrument_accepts(const struct values *v, const struct entry *row,
                        size_t variant, double *low, double *high);
/* stands.c: a raised vehicle needs stands that carry its axle load. */
void stands_require(struct values *v);
/* sag.c: a source's inner resistance is one that a source can have. */
void sag_require(struct values *v);
/* protection.c: a wire on a supply that no fuse protects counts as unfused. */
void protection_require(struct values *v);

/* One level down in names and parentheses, since the stack is finite; false,
 * and no level, from DEPTH_MAX on. A name that needs a name takes two. */
enum { DEPTH_MAX = 400 };
bool evaluate_deeper(struct values *v);
void evaluate_higher(struct values *v);
/* Computes the fields of a block, once for each variant. */
void evaluate_block(struct values *v, const struct block *b, size_t variant);
/* An entry of a `check`, as a requirement. */
void evaluate_check(struct values *v, const struct block *b,
                    const struct entry *e, size_t variant);
/* All names collected, nothing evaluated. */
struct values *evaluate_open(struct compile *c, const struct guide *g);

/* setting.c */
struct value setting_value(struct values *v, const struct slot *s,
                           const struct choice *choice, size_t variant);

/* variant.c */
void variant_collect(struct values *v);
/* The one alternative that holds for a variant; NULL after a message. */
const struct choice *variant_choose(struct values *v, const struct entry *e,
                                    size_t variant);
/* The text of a cell, `2 m [mark 1] 3 m [others]`, for a variant. */
struct text variant_cell(const struct values *v, const struct cell *cell,
                         size_t variant);

/* Blocks that compute: fill the block's fields for one variant. false when they
 * could not, after a message or a requirement that never holds. */
bool wire_block_compute(struct values *v, const struct block *b,
                        size_t variant);
bool fuse_block_compute(struct values *v, const struct block *b,
                        size_t variant);
/* The faults of a fuse that stands in a circuit, which needs its rating before
 * it can tell them: worked out once its fields are asked for. */
void fuse_block_faults(struct values *v, const struct block *b, size_t variant);
bool torque_block_compute(struct values *v, const struct block *b,
                          size_t variant);

/* compute.c: helpers for the three above. */
const struct value *block_setting(struct values *v, const struct block *b,
                                  const char *name, size_t variant);
/* The setting where it is a text, else the absent text. */
struct text block_text(struct values *v, const struct block *b,
                       const char *name, size_t variant);
bool block_is_bad(struct values *v, const struct block *b, const char *name,
                  size_t variant);
/* Where the setting that holds stands; the block where there is none. */
struct span block_place(const struct values *v, const struct block *b,
                        const char *setting);
/* "wire feed says no load; CURE" */
void block_missing(struct values *v, const struct block *b, const char *setting,
                   const char *cure);
/* A figure of a table or standard. */
struct quantity *block_table(struct values *v, double nominal,
                             struct ends range, const char *unit,
                             const char *name, const char *source);
void block_field(struct values *v, const struct block *b, const char *name,
                 size_t variant, struct value value);
/* A field that is a quantity, with its line in the annex; printed in the unit
 * that the kind table gives it. */
void block_quantity(struct values *v, const struct block *b, const char *name,
                    size_t variant, const char *what, struct quantity *q);
void block_require(struct values *v, struct requirement r);
void block_working(struct values *v, const struct block *b, size_t variant,
                   const char *what, const struct quantity *q);
void block_assume(struct values *v, const struct block *b, size_t variant,
                  const char *what, const char *value, const char *source);
/* An input the author left out: a root with a range, listed as assumed. */
const struct quantity *block_assumed(struct values *v, const struct block *b,
                                     size_t variant, const char *what,
                                     double nominal, struct ends range,
                                     const char *unit, const char *source);

#endif
