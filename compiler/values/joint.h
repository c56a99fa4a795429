/* joint.h - what a bolt holds besides itself: nut, tapped hole, galling. */
#ifndef JOINT_H
#define JOINT_H

#include "calc/torque.h"
#include "values/model.h"

struct joint_case {
    const struct block *block;
    size_t variant;
    const struct torque_joint *joint;
    const struct grade *named; /* the bolt's, for its metal; `joint` has none
                                  where its strength is not known */
    const struct nut_factor *factor; /* of the thread's condition, or NULL */
    const struct quantity *preload;  /* NULL: not known */
    bool past_yield; /* an angle takes the bolt there: `preload` is what it
                        bears itself, from yielding to breaking */
    bool stated;     /* the torque is the maker's figure, not computed here */
};

/* What `preload` is, in words. */
const char *joint_load(const struct joint_case *j);

/* `into` or `under head`: the material in front of the comma, and the length
 * behind it; NULL where there is no comma. false when the setting is not
 * written, or after a message. */
bool joint_material(struct values *v, const struct block *b,
                    const char *setting, size_t variant, struct text *material,
                    const struct quantity **length);

/* Requirements by the settings `nut`, `into`, `under head` and `condition`. */
void joint_require(struct values *v, const struct joint_case *j);

#endif
