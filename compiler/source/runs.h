/* runs.h - running text with its placeholders -> text and marks, each with its
 * place. */
#ifndef RUNS_H
#define RUNS_H

#include "source/locate.h"
#include "source/tree.h"

struct compile;
struct mask;

struct runs {
    struct compile *c;
    const struct scope *scope;
    struct mask *mask;
    struct locator locator; /* in the masked source: where we are */
};

/* Adds an inline at *end and moves *end behind it. */
struct inlines *runs_add(struct runs *r, struct inlines ***end,
                         enum inline_kind kind, struct span at);
/* Adds a text as Markdown gave it, escapes and entities resolved. */
void runs_text(struct runs *r, struct text t, struct inlines ***end);

#endif
