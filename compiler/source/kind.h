/* kind.h - the table of block kinds: every setting, field and column, with its
 * unit and meaning. Parsing, evaluation, `bayleaf help`, docs/language.md and
 * suggestions all come from it. */
#ifndef KIND_H
#define KIND_H

#include "base/text.h"

#include <stdbool.h>
#include <stddef.h>

/* What a setting's value may be. */
enum setting_type {
    SETTING_TEXT,     /* a few words; a string behind them is their source */
    SETTING_PROSE,    /* running text with {...}; quotation marks are plain */
    SETTING_QUANTITY, /* quantity, tolerance or expression of dimension `unit`
                       */
    SETTING_LIMIT,    /* quantity, range, or a limit such as <= 0.1 V */
    SETTING_SIZE,     /* wire size: 10 AWG, SAE 10, 2.5 mm2 */
    SETTING_CHOICE,   /* one of `choices` */
    SETTING_YES_NO,
    SETTING_COUNT,             /* whole number */
    SETTING_BLOCK,             /* name of a block of kind `choices` */
    SETTING_BLOCKS,            /* names of such blocks, with commas */
    SETTING_BLOCK_OR_QUANTITY, /* name of such a block, or a quantity */
    SETTING_LIST,              /* items of running text, with commas */
    SETTING_VARIANTS,          /* names of vehicle variants, with commas */
    SETTING_FILES,             /* stems of files under procedures/facts/ */
    SETTING_DATE,              /* 24 November 2025 */
    SETTING_STARTING,          /* 28 A for 60 ms */
    SETTING_AT,     /* 7.6 A at 13.2 V: quantity `unit` at one of volts */
    SETTING_DROP,   /* 0.4 V, 3 %, 3 % of 13.8 V */
    SETTING_PLACE,  /* 5 in from battery +: length, then a point */
    SETTING_WRENCH, /* 5 lbf·ft to 75 lbf·ft, step 1 lbf·ft */
    SETTING_STAGES, /* 90 deg, then 90 deg: quantities `unit` that add up */
};

struct setting {
    const char *name;
    enum setting_type type;
    const char *unit;    /* a unit of the dimension wanted, or NULL */
    const char *choices; /* "a|b|c", or kinds of block, or NULL */
    const char *meaning; /* one line, for help and docs/language.md */
    bool required;
    bool repeats; /* may be written several times (change) */
};

struct field { /* what a block computes, used as NAME.field */
    const char *name;
    const char *unit; /* NULL for a size or a text */
    const char *meaning;
};

struct column { /* of a kind that holds rows */
    const char *name;
    enum setting_type type;
    const char *unit;
    const char *meaning;
    bool required;
    bool repeats; /* the last column may: each further cell is one more */
};

enum kind_id {
    KIND_GUIDE,
    KIND_VEHICLE,
    KIND_SHOP,
    KIND_FACTS,
    KIND_VALUES,
    KIND_NEEDS, /* what a shared file must be given */
    KIND_PRELIMINARY,
    KIND_PARTS,
    KIND_SUPPLY,
    KIND_LOAD,
    KIND_WIRE,
    KIND_FUSE,
    KIND_PINOUT,
    KIND_CIRCUIT,
    KIND_SHEET,
    KIND_TORQUE,
    KIND_CHECK,
    KIND_LIMITS,
    KIND_OVERRIDE,
    KIND_TABLE,
    KIND_COMPARE,
    KIND_FAULTS,
    KIND_FIGURE,
    KIND_DANGER,
    KIND_WARNING,
    KIND_CAUTION,
    KIND_NOTICE,
    KIND_INCLUDE,
    KIND_HAZARD,
    KIND_ORDER,
    KIND_STYLE,
    KIND_PAGE,
    KIND_INSERT,
    KIND_JOB,
    KIND_COUNT
};

enum kind_naming { NAME_NONE, NAME_OPTIONAL, NAME_REQUIRED };

/* What lines a block may hold, and in which files it may stand. */
enum kind_flag {
    KIND_HOLDS_SETTINGS = 1,
    KIND_HOLDS_DEFINITIONS = 2,
    KIND_HOLDS_REQUIREMENTS = 4,
    KIND_HOLDS_ROWS = 8,
    KIND_FREE_SETTINGS = 16, /* `needs`: any name may stand before the colon */
    KIND_IN_GUIDE = 32,
    KIND_IN_FACTS = 64,
    KIND_IN_SHARED = 128,
    KIND_IN_CATALOGUE = 256,    /* templates/hazards.md */
    KIND_FREE_COLUMNS = 512,    /* `table`: the first row names any columns */
    KIND_PRINTS_TABLE = 1024,   /* its rows print where it stands */
    KIND_IN_TEMPLATE = 2048,    /* templates/NAME.md */
    KIND_HOLDS_ELEMENTS = 4096, /* `circuit`: one element a line */
    KIND_IN_JOB = 8192,         /* procedures/jobs/NAME.md */
};

struct kind {
    enum kind_id id;
    const char *name;
    const char *meaning;
    enum kind_naming naming;
    unsigned flags;
    const struct setting *settings; /* each ends with a NULL name, or is NULL */
    const struct field *fields;
    const struct column *columns;
};

const struct kind *kind_by_id(enum kind_id id);
const struct kind *kind_find(struct text name); /* NULL when unknown */
const struct setting *kind_setting(const struct kind *k, struct text name);
const struct field *kind_field(const struct kind *k, struct text name);
const struct column *kind_column(const struct kind *k, struct text name);

/* The spelling nearest to one that was not found; NULL when none is near. */
const char *kind_nearest(struct text name, unsigned place);
const char *kind_nearest_setting(const struct kind *k, struct text name);
const char *kind_nearest_column(const struct kind *k, struct text name);

#endif
