/* job_set.c - what a job sets, put in place of the guide's own. */
#include "values/job_set.h"

#include "base/arena.h"
#include "base/diag.h"
#include "source/suggest.h"

#include <stdint.h>
#include <string.h>

static bool can_be_set(enum setting_type type) {
    switch (type) {
    case SETTING_QUANTITY:
    case SETTING_BLOCK_OR_QUANTITY:
    case SETTING_SIZE:
    case SETTING_COUNT:
    case SETTING_STARTING:
    case SETTING_AT:
    case SETTING_DROP:
    case SETTING_YES_NO:
    case SETTING_PLACE:
    case SETTING_STAGES:
        return true;
    case SETTING_TEXT:
    case SETTING_PROSE:
    case SETTING_LIMIT:
    case SETTING_CHOICE:
    case SETTING_BLOCK:
    case SETTING_BLOCKS:
    case SETTING_LIST:
    case SETTING_VARIANTS:
    case SETTING_FILES:
    case SETTING_DATE:
    case SETTING_WRENCH:
        break;
    }
    return false;
}

/* A torque is its figure where that is written. */
static const char *computed_from(struct values *v, const struct slot *s) {
    const struct block *b = s->named.block;
    bool figure = s->field != NULL && b->kind->id == KIND_TORQUE &&
                  strcmp(s->field->name, "torque") == 0 &&
                  tree_setting(b, "figure") != NULL;
    return figure ? arena_printf(v->c->arena,
                                 "is computed from %.*s.figure, which a job "
                                 "sets within what its maker allows only",
                                 (int)b->name.len, b->name.start)
                  : "is computed: set what it is computed from";
}

/* By a name that the guide knows; NULL after a message. */
static struct slot *find(struct values *v, struct text name) {
    const struct block *job = v->guide->job;
    struct slot *s = names_find(v, job->scope, name);
    struct span at = place_of(job->scope->src, name);
    if (s == NULL) {
        struct nearest near = nearest_to(name);
        names_suggest(v, job->scope, &near);
        struct text best = {near.best, near.best_len};
        diag_add(v->c->diags, DIAG_JOB_SET, at, "no figure is named '%.*s'%s",
                 (int)name.len, name.start, suggest(v->c->arena, name, best));
        return NULL;
    }
    const char *why = NULL;
    if (s->field != NULL || s->output != NULL)
        why = computed_from(v, s);
    else if (s->setting != NULL && !can_be_set(s->setting->type))
        why = "is no figure";
    for (size_t i = 0; i < v->job_set_count && why == NULL; i++)
        if (text_equal(v->job_set[i].name, name))
            why = "is set twice";
    if (why == NULL)
        return s;
    diag_add(v->c->diags, DIAG_JOB_SET, at, "'%.*s' %s", (int)name.len,
             name.start, why);
    return NULL;
}

static struct entry *entry_of(struct values *v, const struct entry *set,
                              const struct slot *s, struct text value) {
    struct entry *e = arena_alloc(v->c->arena, 1, sizeof *e);
    if (s->entry != NULL)
        *e = *s->entry;
    e->kind = s->setting != NULL ? ENTRY_SETTING : ENTRY_DEFINITION;
    e->setting = s->setting;
    e->at = set->at;
    e->choices = arena_alloc(v->c->arena, 1, sizeof *e->choices);
    e->choices[0].text = value;
    e->choice_count = 1;
    e->note = set->note;
    if (e->note.len == 0)
        e->note = text_of("measured on this vehicle");
    return e;
}

static void put(struct values *v, const struct entry *set) {
    const struct block *job = v->guide->job;
    struct text all = set->choices[0].text;
    size_t sign = 0;
    while (sign < all.len && all.start[sign] != '=')
        sign++;
    struct text name = text_trim(text_part(all, 0, sign));
    struct text value = sign == all.len
                            ? text_part(all, sign, sign)
                            : text_trim(text_part(all, sign + 1, all.len));
    if (name.len == 0 || value.len == 0 || set->choice_count > 1 ||
        set->choices[0].tags.count > 0) {
        diag_add(v->c->diags, DIAG_JOB_SET, set->at,
                 "write a name, = and a figure, for this vehicle alone: set: "
                 "pump.run = 5.3 m");
        return;
    }
    struct slot *s = find(v, name);
    if (s == NULL)
        return;
    struct job_set *one = &v->job_set[v->job_set_count++];
    *one = (struct job_set){name, set->note, place_of(job->scope->src, name),
                            (size_t)(s - v->slot), SIZE_MAX};
    struct entry *e = entry_of(v, set, s, value);
    if (s->entry != NULL) {
        one->was = names_copy(v, one->slot);
        s = &v->slot[one->slot];
    }
    s->entry = e;
    s->evaluated = job->scope;
    s->named.at = e->at;
}

void job_silence(struct values *v, const struct job_set *s) {
    struct slot *slot = &v->slot[s->slot];
    for (size_t i = 0; i < v->variant_count; i++) {
        slot->named.by_variant[i] = (struct value){.type = VALUE_BAD};
        slot->state[i] = SLOT_DONE;
    }
}

void job_set_all(struct values *v) {
    const struct block *job = v->guide->job;
    if (job == NULL)
        return;
    v->job_set =
        arena_alloc(v->c->arena, job->entry_count + 1, sizeof *v->job_set);
    for (size_t i = 0; i < job->entry_count; i++) {
        const struct entry *e = &job->entries[i];
        if (e->kind == ENTRY_SETTING && e->setting != NULL &&
            strcmp(e->setting->name, "set") == 0 && e->choice_count > 0)
            put(v, e);
    }
}
