/* torque_words.c - what settings of a bolted joint may say, for messages. */
#include "values/torque_words.h"

#include "base/arena.h"
#include "calc/strip.h"
#include "calc/torque.h"

#include <string.h>

const char *torque_words_conditions(struct values *v) {
    struct buf b = buf_in(v->c->arena);
    const struct nut_factor *k;
    for (size_t i = 0; (k = nut_factor_at(i)) != NULL; i++)
        buf_printf(&b, "%s%s", i == 0 ? "" : "; ", k->condition);
    return buf_cstr(&b);
}

const char *torque_words_materials(struct values *v) {
    struct buf b = buf_in(v->c->arena);
    const struct engagement_rule *rule;
    for (size_t i = 0; (rule = engagement_at(i)) != NULL; i++)
        if (rule->shear > 0)
            buf_printf(&b, "%s%s", b.len == 0 ? "" : ", ", rule->into);
    return buf_cstr(&b);
}

const char *torque_words_grades(struct values *v, bool unified) {
    struct buf b = buf_in(v->c->arena);
    const struct grade *g;
    const char *last = "";
    buf_puts(&b, "write one of ");
    for (size_t i = 0; (g = grade_at(i)) != NULL; i++) {
        if (g->stainless || g->metric == unified || strcmp(g->name, last) == 0)
            continue;
        buf_printf(&b, "%s, ", g->name);
        last = g->name;
    }
    buf_puts(&b, "A2-70, A4-80 or another stainless class");
    return buf_cstr(&b);
}
