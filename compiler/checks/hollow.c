/* hollow.c - torques computed for bolts that are drilled. */
#include "checks/hollow.h"

#include "base/diag.h"
#include "checks/deference.h"
#include "checks/waiver.h"
#include "source/kind.h"

#include <stdint.h>
#include <string.h>

static const char *const words[] = {"banjo", "hollow"};

/* Its own, or the default of its file. */
static bool has_figure(const struct values *v, const struct block *b) {
    const struct named *n = values_of(v, b, "figure");
    const struct variant *list;
    size_t count = values_variants(v, &list);
    for (size_t i = 0; n != NULL && i < count; i++)
        if (n->by_variant[i].type != VALUE_ABSENT)
            return true;
    return false;
}

static bool is_called_hollow(const struct block *b) {
    for (size_t w = 0; w < sizeof words / sizeof words[0]; w++) {
        size_t len = strlen(words[w]);
        for (size_t i = 0; i + len <= b->name.len; i++)
            if (memcmp(b->name.start + i, words[w], len) == 0)
                return true;
    }
    return false;
}

/* The step says so, and tightens nothing else that could be meant. */
static bool is_said_hollow(const struct step_words *s, const struct block *b) {
    if (spoken_find(&s->said, text_of("banjo bolt|screw")) == SIZE_MAX &&
        spoken_find(&s->said, text_of("hollow bolt|screw")) == SIZE_MAX)
        return false;
    bool named = false;
    for (size_t i = 0; i < s->named_count; i++) {
        if (s->named[i] != b && s->named[i]->kind->id == KIND_TORQUE)
            return false;
        named = named || s->named[i] == b;
    }
    return named;
}

static bool is_hollow(const struct steps *steps, const struct block *b) {
    if (is_called_hollow(b))
        return true;
    for (size_t i = 0; i < steps->count; i++)
        if (is_said_hollow(&steps->step[i], b))
            return true;
    return false;
}

void hollow_check(struct compile *c, const struct guide *g,
                  const struct values *v, const struct steps *steps,
                  const struct verdicts *judged) {
    for (size_t i = 0; i < g->block_count; i++) {
        const struct block *b = g->blocks[i];
        if (b->kind->id != KIND_TORQUE || b->name.len == 0 ||
            has_figure(v, b) || !is_hollow(steps, b) ||
            waiver_covers(judged, "hollow", b))
            continue;
        diag_add(c->diags, deference_flag(g), b->at,
                 "a drilled bolt has about half the section of a solid one, "
                 "which its torque is computed for; write the maker's figure: "
                 "with its source");
        diag_note(c->diags, (struct span){0},
                  "rule hollow: common practice, no source");
    }
}
