/* read.h - source_read() for files that are no guide; see stages.h. */
#ifndef READ_H
#define READ_H

#include "base/text.h"

struct compile;
struct guide;
struct source;

/* One file of facts: its blocks, in guide->blocks, and no tree. NULL when it
 * cannot be read. */
struct guide *source_read_facts(struct compile *c, const char *path);
/* The hazard catalogue, the same way; NULL when there is no source. */
struct guide *source_read_catalogue(struct compile *c, struct source *src);
/* The same for text that the program holds already; the path is for messages.
 * Never NULL. */
struct guide *source_read_catalogue_text(struct compile *c, const char *path,
                                         struct text text);
/* A template: its tree, without a place for any node. NULL after a message. */
struct guide *source_read_template(struct compile *c, const char *path);
struct guide *source_read_template_text(struct compile *c, const char *path,
                                        struct text text);
/* A guide that is no file; of a source, its lines may have names. Never NULL.
 */
struct guide *source_read_made(struct compile *c, struct source *src);
struct guide *source_read_text(struct compile *c, const char *path,
                               struct text text);

#endif
