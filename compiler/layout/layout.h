/* layout.h - layout_pages() (stages.h) by a template and on a paper of the
 * caller's choice. */
#ifndef LAYOUT_H
#define LAYOUT_H

#include "stages.h"

enum paper {
    PAPER_BY_GUIDE, /* the template's; if it names none, A4 where the guide says
                       `units: SI`, else Letter */
    PAPER_LETTER,
    PAPER_A4
};

struct layout_options {
    enum paper paper;
    const char *template; /* its name; NULL: "shop" */
};

/* NULL after a message about the template. The same pages, breaks and code on
 * Letter and A4, unless the template names its own paper. */
struct pages *layout_pages_on(struct compile *c, const struct guide *g,
                              const struct values *v, const struct findings *f,
                              const struct layout_options *options);

#endif
