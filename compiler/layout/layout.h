/* layout.h - layout_pages() (stages.h) by a template and on a paper of the
 * caller's choice. */
#ifndef LAYOUT_H
#define LAYOUT_H

#include "base/text.h"
#include "stages.h"

#include <stdbool.h>
#include <stddef.h>

enum paper {
    PAPER_BY_GUIDE, /* the template's; if it names none, A4 where the guide says
                       `units: SI`, else Letter */
    PAPER_LETTER,
    PAPER_A4
};

struct passage {       /* what changes as one: see revise.h */
    struct text place; /* "step 14", or the heading that it stands under */
    struct text words; /* as printed, page numbers left out */
    int page;          /* from 1; 0: of an issued revision, not kept */
};

struct passages {
    const struct passage *list;
    size_t count;
    struct text revision; /* of the guide */
};

/* A copy, words and all. */
const struct passages *layout_passages(struct arena *a,
                                       const struct passages *p);

struct layout_options {
    enum paper paper;
    const char *template; /* its name; NULL: "shop" */
    /* An issued revision: what differs from it gets a bar. NULL: none. */
    const struct passages *issued;
    struct passages *passages; /* takes what is printed now; or NULL */
    bool frozen; /* this revision is issued: its pages do not say otherwise */
};

/* Reads the template alone; false after messages about it. Asked once before
 * guides, since what is wrong with it is no fault of theirs. */
bool layout_template(struct compile *c, const struct layout_options *options);

/* NULL after a message about the template. The same pages, breaks and code on
 * Letter and A4, unless the template names its own paper. */
struct pages *layout_pages_on(struct compile *c, const struct guide *g,
                              const struct values *v, const struct findings *f,
                              const struct layout_options *options);

#endif
