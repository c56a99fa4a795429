/* self_limit.c - sources that limit their own current.
 *
 * An alternator gives little more than its rating, also into a short: a cable
 * that carries this needs no fuse at the alternator, only one at the battery at
 * its other end. Sources: ISO 13297:2020, 12.3, a page that its publisher shows
 * (protection at an alternator or charger, self-limiting devices excepted);
 * ABYC E-11, as a forum of boat owners quotes it (none at an alternator where
 * the ampacity is at least its rated output); 33 CFR 183.460, from memory. */
#include "values/self_limit.h"

#include "base/diag.h"

static bool limits_itself(struct values *v, const struct block *supply,
                          size_t variant) {
    return text_is(block_text(v, supply, "chemistry", variant), "none");
}

const struct quantity *self_limit_output(struct values *v,
                                         const struct block *supply,
                                         size_t variant) {
    if (supply == NULL || !limits_itself(v, supply, variant))
        return NULL;
    const struct value *output =
        block_setting(v, supply, "rated output", variant);
    return output->type == VALUE_QUANTITY ? output->quantity : NULL;
}

bool self_limit_holds(struct values *v, struct requirement r,
                      const struct quantity *output,
                      const struct quantity *ampacity) {
    if (output == NULL || !requirement_at_most(&v->maker, output, ampacity))
        return false;
    r.rule = "H05";
    r.left = output;
    r.right = ampacity;
    r.relation = RELATION_AT_MOST;
    r.source = "ISO 13297, 12.3: no fuse at a source that limits itself; ABYC "
               "E-11, as quoted: on a wire that carries its rated output";
    block_require(v, r);
    return true;
}

void self_limit_check(struct values *v) {
    const struct guide *g = v->guide;
    for (size_t i = 0; i < g->block_count; i++) {
        const struct block *b = g->blocks[i];
        for (size_t n = 0; b->kind->id == KIND_SUPPLY && n < v->variant_count;
             n++) {
            if ((v->applies >> n & 1) == 0 ||
                block_setting(v, b, "rated output", n)->type !=
                    VALUE_QUANTITY ||
                limits_itself(v, b, n))
                continue;
            diag_add(v->c->diags, DIAG_SETTING_VALUE,
                     block_place(v, b, "rated output"),
                     "only what limits its own current has a rated output, an "
                     "alternator or a charger: a battery gives a short all it "
                     "has; write chemistry: none, or leave it out");
            break;
        }
    }
}
