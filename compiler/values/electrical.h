/* electrical.h - what wire and fuse blocks share: the supply and the load that
 * they name, and a wire as it was computed. */
#ifndef ELECTRICAL_H
#define ELECTRICAL_H

#include "calc/load.h"
#include "calc/wire.h"
#include "values/drop_limit.h"
#include "values/model.h"

/* A supply as a wire or fuse sees it. */
struct feed {
    struct quantity *base;             /* voltage that per cent refer to */
    struct quantity *strongest;        /* for the largest fault current */
    struct quantity *weakest;          /* for the smallest */
    const struct quantity *resistance; /* inner; assumed when not written */
    bool bad;                /* something of the supply has a message already */
    bool drops;              /* of a wire block: something is lost on the way */
    struct drop_limit limit; /* as that states it; else the load's usual one */
};
/* "house", "house charging": the block's name, then which of its voltages. */
void electrical_split(struct text supply, struct text *name,
                      struct text *state);
/* `supply` of a block; false when absent or BAD. */
bool electrical_feed(struct values *v, const struct block *b, size_t variant,
                     struct feed *out);
/* The same of a supply that the block does not name by that setting; false: it
 * says no voltage, or something of it has a message. */
bool electrical_feed_of(struct values *v, const struct block *b,
                        const struct block *supply, size_t variant,
                        struct feed *out);

/* The source of a figure that the guide states, as its note has it. */
const char *electrical_stated(struct values *v, struct text note);
/* Of one that it does not. */
extern const char electrical_unstated[];

/* A rating of 1000 A and more is told in kA: "20 kA". */
void electrical_in_kiloampere(struct quantity *rating);

/* The voltages alone of a block that names no supply with a message. */
bool electrical_voltages(struct values *v, const struct block *b,
                         size_t variant, struct feed *out);

/* Whether the duty that a load or wire block states is cranking; NULL: no. */
bool electrical_cranks(struct values *v, const struct block *b, size_t variant);

/* What a load says it takes, and at which voltage. */
struct load_amount {
    enum load_kind kind;
    struct quantity *current;  /* NULL: not told */
    const struct quantity *at; /* NULL: not told, or as much at any voltage */
    struct drop_limit limit;   /* the usual one of such a load */
};
/* Of a load block: its `highest` as it stands, where it has one, else its
 * `current`. */
struct load_amount electrical_amount(struct values *v, const struct block *load,
                                     size_t variant);

/* What a load takes at the voltage of a feed, A, by its kind (load.h). What the
 * run loses on the way is left out, which is the safe side, but for a constant
 * power: it gets no more than the drop limit leaves. A circuit counts it in. */
struct load_current {
    struct quantity *used;         /* at the voltage that per cent refer to */
    struct quantity *most;         /* at the worst of the supply's voltages */
    const struct quantity *stated; /* as the load says it */
    /* At the lowest and the highest of that voltage; NULL where the load does
     * not ask for it. */
    struct quantity *low, *high;
};
/* The low or the high end of a voltage, exact. */
struct quantity *electrical_end(struct values *v, const struct quantity *volt,
                                bool high);
struct load_current electrical_load(struct values *v,
                                    const struct load_amount *amount,
                                    const struct feed *feed);
/* Of a block's `load` setting; NULL when absent or BAD. */
struct load_current electrical_current(struct values *v, const struct block *b,
                                       size_t variant, const struct feed *feed);

/* A current into a short is an estimate: printed with two digits, from 1000 A
 * on in kA. Ours: it hangs on the inner resistance of a battery, which nobody
 * knows better than to a fifth. Returns q, which nothing has printed so far. */
struct quantity *electrical_fault(struct quantity *q);
/* Gives such a figure, which is the caller's own, digits enough to tell that it
 * is below a limit, where it is; `limit` may be NULL. */
const struct quantity *electrical_fault_beside(struct quantity *fault,
                                               const struct quantity *limit);

/* A wire block after its computation, for the fuse that protects it. */
struct wire_outcome {
    const struct quantity *current;               /* the most that it carries */
    const struct quantity *load;                  /* as its load says it */
    const struct quantity *ampacity, *length;     /* of conductor */
    const struct quantity *per_metre;             /* ohm/m at 20 degC */
    const struct quantity *ambient, *temperature; /* of the conductor */
    const struct quantity *cranking_time; /* of one that is for cranking */
    const struct wire_run *run;
    const struct wire_size *size;
    const char *rejected; /* why smaller sizes fail, a line each */
    enum material material;
    double insulation; /* K */
    bool continuous, cranking;
    struct feed feed;
    bool has_feed;
};
/* Computes the wire block where that was not done; NULL when it failed. */
const struct wire_outcome *
electrical_wire(struct values *v, const struct block *wire, size_t variant);

/* Requirements and the field `pull`, once the size is known. */
void weak_link_require(struct values *v, const struct block *b, size_t variant,
                       const struct wire_outcome *o);

#endif
