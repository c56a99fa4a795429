/* watch.c - for the owner: what to watch after the work, by what was worked on.
 *
 * Signs that a driver can hear, smell, see or feel; common practice, no source.
 */
#include "layout/watch.h"

#include "layout/prose.h"
#include "layout/schematic.h"

static const struct {
    const char *joint; /* NULL: wires and fuses */
    const char *sign;
} signs[] = {
    {NULL, "If a fuse opens again, a switch or a plug grows warm, or there is "
           "a smell of hot plastic, switch off and have it looked at by a "
           "trained person."},
    {"brake", "If the brake pedal goes down further than before or feels soft, "
              "the vehicle pulls to one side, or fluid drips, stop and have "
              "the brakes looked at by a trained person."},
    {"wheel", "If a wheel shakes or knocks, stop and have its nuts looked at."},
    {"steering", "If the steering wheel has play, pulls or knocks, stop and "
                 "have it looked at."},
    {"suspension", "If something knocks over bumps, or the vehicle sits lower "
                   "at one corner, have it looked at before the next trip."},
    {"seat", "If a seat moves or rattles, do not drive on it; have it looked "
             "at."},
    {"belt", "If a seat belt does not lock, wind up or stay in its buckle, "
             "leave that seat empty and have it looked at."},
    {"hitch", "If the coupling knocks or has play, do not tow; have it looked "
              "at."},
    {"propeller", "If the propeller shakes or knocks, or the shaft drips more "
                  "than before, throttle back, make for a berth, and have it "
                  "looked at."},
    {"rudder", "If the helm has play, binds or knocks, make for a berth and "
               "have it looked at before the next trip."},
    {"fuel", "If it smells of fuel or fuel drips, switch off, make no flame or "
             "spark, keep away, and have it looked at by a trained person."},
    {"LPG", "If it smells of gas, shut the valve at the tank, air the place, "
            "make no flame or spark, and have it looked at."},
};

static bool is_wired(const struct leaf *l) {
    return leaf_next(l, NULL, KIND_WIRE) != NULL ||
           leaf_next(l, NULL, KIND_FUSE) != NULL || schematic_any(l);
}

static bool has_joint(const struct leaf *l, const char *joint) {
    for (const struct block *b = leaf_next(l, NULL, KIND_TORQUE); b != NULL;
         b = leaf_next(l, b, KIND_TORQUE))
        if (b->name.len > 0 &&
            text_is(leaf_block_setting(l, b, "joint"), joint))
            return true;
    return false;
}

static bool concerns(const struct leaf *l, size_t sign) {
    return signs[sign].joint == NULL ? is_wired(l)
                                     : has_joint(l, signs[sign].joint);
}

static void say(struct leaf *l, const char *sign, bool last) {
    struct spot spot = prose_body(l, l->applies);
    struct rich r = {0};
    leaf_add(l, &r, spot.type, FACE_REGULAR, sign);
    if (last)
        leaf_add(l, &r, spot.type, FACE_REGULAR,
                 " Local codes and the vehicle maker's figures come first.");
    flow_paragraph(&l->flow, &r, spot.x, spot.width, spot.type,
                   l->guide->root->at);
    flow_space(&l->flow, 4);
}

void watch_set(struct leaf *l) {
    const char *before = NULL;
    for (size_t i = 0; i < sizeof signs / sizeof signs[0]; i++) {
        if (!concerns(l, i))
            continue;
        if (before != NULL)
            say(l, before, false);
        before = signs[i].sign;
    }
    if (before == NULL)
        before = "If what was worked on is loose, drips, or sounds or smells "
                 "otherwise than before, have it looked at by a trained "
                 "person.";
    say(l, before, true);
}
