/* point.h - where a place is measured from: `6 in from battery +`. */
#ifndef POINT_H
#define POINT_H

#include "base/place.h"
#include "values/model.h"

enum point_kind {
    POINT_NONE,    /* after a message */
    POINT_BATTERY, /* a post of a battery */
    POINT_SOURCE,  /* another source: a busbar, the output of a converter */
};

/* A supply by its name, or what the trade calls a source of a circuit; a post
 * or terminal may stand behind. */
enum point_kind point_find(struct values *v, const struct scope *from,
                           struct text point);
/* The post that stands behind a source: "boat -". */
enum point_post { POINT_NO_POST, POINT_PLUS, POINT_MINUS };
enum point_post point_post(struct text behind);
/* Whether a wire that a supply feeds has its other end at this place: the post
 * of another supply, or of a battery where this one is none, or an alternator
 * where it is one. A busbar or a panel may be fed by the same one. */
bool point_is_far(struct values *v, const struct scope *from, struct text point,
                  const struct block *supply);
/* As point_find, and a message at `at` when it is none, or when what stands
 * behind a supply is no post. */
bool point_check(struct values *v, const struct scope *from, struct text point,
                 struct span at);

#endif
