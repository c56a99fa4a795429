/* trigger_probe.h - what the files that find triggers share. */
#ifndef TRIGGER_PROBE_H
#define TRIGGER_PROBE_H

#include "checks/trigger.h"
#include "source/kind.h"

/* All that a trigger is found from, and the trigger. */
struct probe {
    struct compile *c;
    const struct guide *guide;
    const struct values *values;
    const struct verdicts *judged;
    struct triggers *found;
    struct trigger *trigger;
    const struct condition *condition;
};

/* 29 CFR 1910.333: from here on it is line voltage, and no battery's. */
#define LINE_VOLT 50.0

void trigger_fire(struct trigger *t, const struct block *b);
bool trigger_is_facts(const struct block *b);
/* Blocks of the guide that compute; those of the facts are for others. */
bool trigger_is_of_guide(const struct block *b, enum kind_id kind);

/* In trigger_supply.c: sources, and what hangs on them. */
void trigger_find_voltage(const struct probe *p);
void trigger_find_battery(const struct probe *p);
void trigger_find_lithium(const struct probe *p);
void trigger_find_overcharge(const struct probe *p);
void trigger_find_safety_drop(const struct probe *p);
/* What batteries the guide may meet, for the words of the cautions. */
void trigger_find_chemistry(const struct guide *g, const struct values *v,
                            struct triggers *e);

#endif
