/* mark.h - what stands between braces in running text. */
#ifndef MARK_H
#define MARK_H

#include "base/place.h"
#include "base/text.h"
#include "source/tree.h"

#include <stdbool.h>
#include <stddef.h>

struct compile;

/* The byte behind the closing brace of the one at `brace`; 0 when it is not
 * closed on its line. */
size_t mark_end(struct text text, size_t brace);

/* Where a scan over separators goes on from the brace at `brace`: behind its
 * closing brace, behind the second of two, or behind itself. */
size_t mark_skip(struct text text, size_t brace);

/* Parses "{...}", braces included. NULL after a message. */
struct mark *mark_parse(struct compile *c, const struct scope *scope,
                        struct text braced);

/* Reports a closing brace that closes nothing. */
void mark_stray(struct compile *c, struct span at);

/* Whether it must stand at the start of a heading, paragraph or step. */
bool mark_leads(enum mark_kind kind);

/* Words of the table of marks by kind: "touches", "shop only"; NULL for a
 * value. */
const char *mark_word(enum mark_kind kind);
/* Reports one that leads, but stands inside. */
void mark_misplaced(struct compile *c, const struct mark *m);

/* A text of a block with its {...}: TEXT and MARK inlines. `{{` and `}}` are
 * braces, and so is a `}` that a `{{` stands before.
 * False after a message; what could be read is in *out. */
bool mark_prose(struct compile *c, const struct scope *scope, struct text text,
                struct inlines **out);

#endif
