/* census_work.h - inside the census: one guide that is added to it. */
#ifndef CENSUS_WORK_H
#define CENSUS_WORK_H

#include "library/census.h"

struct block;
struct named;

/* A guide, and where it prints what. */
struct census_of {
    struct census *census;
    const struct guidework *work;
    const struct passages *printed;
    const char *guide;   /* stem */
    const char *vehicle; /* name of its block; NULL: it names none */
};

/* A string in the census' own memory; "" for NULL. */
const char *census_copy(struct census *s, const char *text);
/* A span to its file, from the library's root, and line. */
bool census_where(const struct guidework *w, struct span at, const char **path,
                  size_t *line);
/* What is listed at a line under a name, or under any if that is empty; NULL.
 * `printed`: only if it prints so; NULL: however. */
struct census_figure *census_find(const struct census *s, const char *path,
                                  size_t line, struct text name,
                                  const char *printed);
/* Lists what stands at a span, once; the caller fills in source and key. What
 * somebody wrote (`origin` "") is one figure, though guides for some of its
 * variants print less of it; what comes out differently is another one. NULL:
 * `at` is no place, or it does not print. */
struct census_figure *census_list(const struct census_of *o, struct span at,
                                  struct text name, const char *printed,
                                  variant_set in, const char *origin);
/* It is printed at a place, "step 9", on the page that the guide has it on. */
void census_use(const struct census_of *o, struct census_figure *f,
                const char *place);

/* census_stated.c: figures that the guide's files state: values, limits, lines
 * of circuits. */
void census_stated(const struct census_of *o);
/* A row of `limits`, listed; NULL where it does not print. */
struct census_figure *census_limit(const struct census_of *o,
                                   const struct block *limits,
                                   const struct entry *row);
/* census_uses.c: where the guide prints them, and what else it prints. */
void census_uses(const struct census_of *o);

#endif
