/* entry.h - the text behind a colon or an equals sign: alternatives by variant,
 * and the source in quotes. */
#ifndef ENTRY_H
#define ENTRY_H

#include "base/text.h"
#include "source/kind.h"
#include "source/tree.h"

#include <stdbool.h>

struct compile;

/* "mark 1, mark 2" to its words. False after a message. */
bool entry_tags(struct compile *c, const struct source *src, struct text list,
                struct tags *out);

/* How quotation marks are read. */
enum entry_quotes {
    QUOTES_SOURCE, /* a string at the end is the source, others are values */
    QUOTES_PLAIN,  /* running text: they mean nothing */
};

/* Fills choices and note. False after a message. */
bool entry_split(struct compile *c, const struct source *src, struct text value,
                 enum entry_quotes quotes, struct entry *e);

/* Checks the form of a choice, count, yes or no, or date; makes the inlines of
 * running text and the items of lists. False after a message. */
bool entry_read(struct compile *c, const struct scope *scope,
                const struct setting *setting, struct entry *e);

/* A cell or item of this text. */
bool entry_cell(struct compile *c, const struct scope *scope, struct text text,
                struct cell *out);

#endif
