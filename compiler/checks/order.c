/* order.c - steps that stand in a dangerous order. */
#include "checks/order.h"

#include "base/arena.h"
#include "base/diag.h"
#include "checks/trigger.h"
#include "checks/waiver.h"

#include <stdint.h>

struct ordering {
    struct compile *c;
    const struct values *values;
    const struct steps *steps;
    const struct order *rule;
};

/* Where in a step something happens: 0 by a mark, else behind that many words;
 * SIZE_MAX when it does not. What is refused must be commanded: a step that
 * looks at a crimp makes none. */
static size_t happens(const struct step_words *s, const struct items *marks,
                      const struct items *phrases, bool commanded) {
    size_t first = SIZE_MAX;
    if (walk_mark(s, marks->item, marks->count) != NULL)
        return 0;
    for (size_t i = 0; i < phrases->count; i++) {
        size_t at = commanded ? spoken_command(&s->said, phrases->item[i])
                              : spoken_find(&s->said, phrases->item[i]);
        if (at != SIZE_MAX && at + 1 < first)
            first = at + 1;
    }
    return first;
}

static struct span place_in(const struct step_words *s,
                            const struct items *marks,
                            const struct items *phrases) {
    const struct mark *m = walk_mark(s, marks->item, marks->count);
    if (m != NULL)
        return m->at;
    for (size_t i = 0; i < phrases->count; i++)
        if (spoken_find(&s->said, phrases->item[i]) != SIZE_MAX)
            return spoken_place(&s->said, phrases->item[i]);
    return s->step->at;
}

/* The state of one variant, from step to step. */
struct state {
    bool on;
    const struct step_words *by; /* that set it, or ended it last */
};

/* Where in a step the three sorts of thing happen. */
struct moments {
    size_t step, set, end;
};

static struct moments moments_of(const struct order *o,
                                 const struct step_words *s) {
    struct items none = {NULL, 0};
    return (struct moments){
        .step = happens(s, &o->step,
                        walk_touches_nothing(s) ? &none : &o->step_words, true),
        .set = happens(s, &o->set, &o->set_words, false),
        .end = happens(s, &o->end, &o->end_words, false),
    };
}

/* Whether a step finds the state wrong. In one step what sets the state comes
 * first unless the words say otherwise. */
static bool pass_step(const struct order *o, const struct step_words *s,
                      const struct moments *m, struct state *now) {
    size_t step = m->step, set = m->set, end = m->end;
    bool told_by_words = step != 0; /* a mark stands for the whole step */
    bool set_before =
        set != SIZE_MAX && (set <= step || (o->wanted && !told_by_words));
    bool end_before = end != SIZE_MAX && end < step &&
                      (set == SIZE_MAX || set < end || set > step);
    bool on = (now->on || set_before) && !end_before;
    bool wrong = step != SIZE_MAX && on != o->wanted;
    if (set != SIZE_MAX && (!now->on || o->wanted))
        *now = (struct state){true, s};
    if (end != SIZE_MAX && (set == SIZE_MAX || end >= set))
        *now = (struct state){false, s};
    if (wrong && set_before)
        now->by = s;
    return wrong;
}

/* The other place: what ended the state or began it, else the step that comes
 * too late. */
static void note_other(const struct ordering *r, size_t index,
                       const struct state *before) {
    const struct order *o = r->rule;
    struct diags *d = r->c->diags;
    if (!o->wanted) {
        const struct step_words *from =
            before->on ? before->by : &r->steps->step[index];
        diag_note(d, place_in(from, &o->set, &o->set_words),
                  "it begins here, in step %s", from->step->number);
        return;
    }
    if (before->by != NULL)
        diag_note(d, place_in(before->by, &o->end, &o->end_words),
                  "it is undone here, in step %s", before->by->step->number);
    for (size_t i = index; i < r->steps->count; i++) {
        const struct step_words *late = &r->steps->step[i];
        if (happens(late, &o->set, &o->set_words, false) == SIZE_MAX)
            continue;
        diag_note(d, place_in(late, &o->set, &o->set_words),
                  "it is done only here, in step %s", late->step->number);
        return;
    }
    if (before->by == NULL)
        diag_note(d, (struct span){0}, "no step of the guide does it");
}

static void report(const struct ordering *r, size_t index, variant_set in,
                   const struct state *before) {
    const struct order *o = r->rule;
    const struct step_words *s = &r->steps->step[index];
    struct arena *a = r->c->arena;
    const char *names = in == values_applies(r->values)
                            ? ""
                            : values_variant_names(r->values, a, in);
    diag_add(r->c->diags, DIAG_ORDER_WRONG,
             place_in(s, &o->step, &o->step_words), "step %s: %s%s%s%s%s",
             s->step->number, o->title, names[0] == '\0' ? "" : "; in ", names,
             o->cure == NULL ? "" : "; ", o->cure == NULL ? "" : o->cure);
    note_other(r, index, before);
    diag_note(r->c->diags, (struct span){0}, "rule %s: %s", o->id,
              o->source == NULL ? "common practice" : o->source);
}

static void check_rule(const struct ordering *r,
                       const struct verdicts *judged) {
    size_t count = r->steps->count;
    variant_set *wrong = arena_alloc(r->c->arena, count + 1, sizeof *wrong);
    struct state *before = arena_alloc(r->c->arena, count + 1, sizeof *before);
    struct moments *m = arena_alloc(r->c->arena, count + 1, sizeof *m);
    for (size_t i = 0; i < count; i++)
        m[i] = moments_of(r->rule, &r->steps->step[i]);
    variant_set applies = values_applies(r->values);
    for (size_t k = 0; k < 64 && applies >> k != 0; k++) {
        variant_set bit = (variant_set)1 << k;
        struct state now = {false, NULL};
        for (size_t i = 0; i < count; i++) {
            const struct step_words *s = &r->steps->step[i];
            struct state was = now;
            if ((s->variants & bit) == 0 || !pass_step(r->rule, s, &m[i], &now))
                continue;
            before[i] = was;
            wrong[i] |= bit;
        }
    }
    for (size_t i = 0; i < count; i++)
        if (wrong[i] != 0 && !waiver_covers(judged, r->rule->id, NULL))
            report(r, i, wrong[i], &before[i]);
}

void order_check(struct compile *c, const struct guide *g,
                 const struct values *v, const struct catalogue *k,
                 const struct steps *steps, const struct verdicts *judged) {
    bool isolated = trigger_is_isolated(g, v);
    for (size_t i = 0; i < k->order_count; i++) {
        if (isolated && k->order[i].grounded)
            continue;
        struct ordering r = {c, v, steps, &k->order[i]};
        check_rule(&r, judged);
    }
}
