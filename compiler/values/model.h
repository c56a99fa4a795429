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
#include "values/trial.h"
#include "values/values.h"

enum slot_state { SLOT_UNTOUCHED, SLOT_AT_WORK, SLOT_DONE };

/* A name and how to find its value: a definition, a written setting, or a field
 * that a block computes. */
struct slot {
    struct named named;
    const struct scope *visible; /* where the name is known */
    const struct scope
        *evaluated;            /* where the names in its text are looked up */
    const struct entry *entry; /* definitions and settings; NULL: not written */
    const struct setting *setting; /* settings */
    const struct field *field;     /* fields */
    enum slot_state *state;        /* by variant */
    bool
        hidden; /* of an unnamed block, or of a kind whose names are not used */
    size_t order;
};

/* A cell that holds a limit or a quantity, as printed, by variant. */
struct cell_value {
    const struct cell *cell;
    const char **text;
    const struct quantity **quantity; /* NULL in it where it is a limit */
};

struct block_slots { /* the slots of one block, settings then fields */
    size_t first, count;
    enum slot_state *state; /* of the block's computation, by variant */
    bool *failed;           /* its computation, by variant */
    const struct wire_outcome **outcome; /* of a wire block, by variant */
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
    struct requirement *requirement;
    size_t requirement_count, requirement_room;
    struct assumption *assumption;
    size_t assumption_count, assumption_room;
    struct working_row *working;
    size_t working_count, working_room;
    const char ***mark_text; /* by mark index, then variant */
    struct cell_value *cell;
    size_t cell_count, cell_room;
    enum unit_system units; /* of computed values: `units` of the guide */
    const struct trial_size *trial; /* a size put in to see whether it passes */
    int depth;                      /* of names that need names */
};

/* A line of the calculation annex: which quantity, of which field. */
struct working_row {
    const struct block *block;
    size_t variant;
    const char *what;
    const struct quantity *quantity;
};

/* names.c */
void names_collect(struct values *v);
struct slot *names_find(const struct values *v, const struct scope *from,
                        struct text name);
struct slot *names_setting(const struct values *v, const struct block *b,
                           const char *name);
struct slot *names_field(const struct values *v, const struct block *b,
                         const char *name);
void names_suggest(const struct values *v, const struct scope *from,
                   struct nearest *near);

/* evaluate.c: evaluates on demand; a cycle is reported once and is BAD. */
const struct value *evaluate_slot(struct values *v, struct slot *s,
                                  size_t variant);
/* The entry that holds for a setting of a block: its own, else that of the
 * unnamed block of its kind in its file, else in the facts. NULL: not written.
 */
const struct entry *evaluate_entry(const struct values *v,
                                   const struct block *b, const char *setting);

/* present.c: values in running text and cells, evaluated and worded once. */
void marks_check(struct values *v);
void cells_check(struct values *v);

/* needs.c: values passed to a shared file fit what it needs. */
void needs_check(struct values *v);
/* instrument.c: the instrument of a limit is finer than its band. */
void instrument_require(struct values *v);
/* stands.c: a raised vehicle needs stands that carry its axle load. */
void stands_require(struct values *v);
/* protection.c: a wire on a supply that no fuse protects counts as unfused. */
void protection_require(struct values *v);

/* Computes the fields of a block, once for each variant. */
void evaluate_block(struct values *v, const struct block *b, size_t variant);

/* setting.c */
struct value setting_value(struct values *v, const struct slot *s,
                           const struct choice *choice, size_t variant);

/* variant.c */
void variant_collect(struct values *v);
/* The one alternative that holds for a variant; NULL after a message. */
const struct choice *variant_choose(struct values *v, const struct entry *e,
                                    size_t variant);

/* Those that read a node: the {for} marks on it and above it. */
variant_set variant_of_node(const struct values *v, const struct node *n);

/* Blocks that compute: fill the block's fields for one variant. false when they
 * could not, after a message or a requirement that never holds. */
bool wire_block_compute(struct values *v, const struct block *b,
                        size_t variant);
bool fuse_block_compute(struct values *v, const struct block *b,
                        size_t variant);
bool torque_block_compute(struct values *v, const struct block *b,
                          size_t variant);

/* A block by its name as seen from a scope; NULL when there is none. `kinds`
 * are kind names parted by '|'. */
const struct block *block_named(const struct values *v,
                                const struct scope *from, struct text name,
                                const char *kinds);

/* compute.c: helpers for the three above. */
const struct value *block_setting(struct values *v, const struct block *b,
                                  const char *name, size_t variant);
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
