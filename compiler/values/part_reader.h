/* part_reader.h - inside circuit_part: the words of an element of a circuit,
 * for one variant. */
#ifndef PART_READER_H
#define PART_READER_H

#include "calc/contact.h"
#include "values/circuit_part.h"

struct part_reader {
    struct values *v;
    const struct block *b;
    size_t variant;
    struct circuit_piece *part;
};

/* A message at the element's line; false. */
bool part_reader_fail(const struct part_reader *r, const char *why);
bool part_reader_is(const struct quantity *q, const char *unit);
/* A figure at the start of a word; *rest is what stands behind it. NULL after a
 * message. */
struct quantity *part_reader_figure(const struct part_reader *r,
                                    struct text word, struct text *rest);
/* The same where nothing may stand behind it. */
struct quantity *part_reader_whole(const struct part_reader *r,
                                   struct text word);
/* Nothing stands behind a figure; false after a message. */
bool part_reader_ends(const struct part_reader *r, struct text rest);
/* A stated resistance; false after a message. */
bool part_reader_resistance(const struct part_reader *r, struct quantity *q);
/* One that is taken from the table, and listed as assumed; true. */
bool part_reader_assume(const struct part_reader *r,
                        const struct contact_range *c, const char *what);
/* " (did you mean 'feed'?)": a block of that kind whose name is near, or "". */
const char *part_reader_near(const struct part_reader *r, struct text word,
                             const char *kind);
/* part_contact.c: `20 A`, `5mohm`, or a name that the guide knows; a bare
 * number is a cavity. */
bool part_reader_is_figure(struct values *v, const struct scope *scope,
                           struct text word);
/* "15 A blade": what stands behind the unit, or behind a name. */
struct text part_reader_behind(struct text word);
/* part_wire.c: a `wire`: its size or block, length, ambient. */
bool part_reader_wire(const struct part_reader *r);
/* part_contact.c: a `fuse` or `breaker`: its rating, style, age. */
bool part_reader_fuse(const struct part_reader *r);
/* A `switch`, `contact`, `connector`, `splice`, `joint`: what it is, its
 * resistance, its rating. */
bool part_reader_contact(const struct part_reader *r);

#endif
