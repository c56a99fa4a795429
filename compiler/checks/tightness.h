/* tightness.h - what the steps say of how tight a joint is. */
#ifndef TIGHTNESS_H
#define TIGHTNESS_H

#include "checks/judge.h"
#include "checks/walk.h"

/* The variants that are told in the step, or in one within it, the torque of a
 * `torque` block: {NAME.torque}, {NAME.setting}, or the value that its `figure`
 * is. */
variant_set tightness_said(struct compile *c, const struct values *v,
                           const struct step_words *s, const struct block *b);
/* Questions a torque in braces above that of the joint that its step is about;
 * `override torque` answers. And a step that says the torque of a joint whose
 * wrench, with its extension, is set to another figure, where no step says that
 * one. `override wrench` answers. */
void tightness_check(struct compile *c, const struct guide *g,
                     const struct values *v, const struct steps *steps,
                     const struct verdicts *judged);

#endif
