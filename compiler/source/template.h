/* template.h - what a template may hold beside its blocks: plain words. */
#ifndef TEMPLATE_H
#define TEMPLATE_H

struct compile;
struct guide;

/* Nothing of a template is evaluated: it is read before any guide and stands in
 * all of them. So it has no {...}, no steps, no images in its text and nothing
 * by variant; each is reported. */
void template_check(struct compile *c, const struct guide *t);

#endif
