/* weak_link.c - what limits a run besides its copper: tabs, studs, contacts;
 * and the force that proves its crimp. */
#include "base/arena.h"
#include "base/diag.h"
#include "calc/contact.h"
#include "values/electrical.h"
#include "values/range.h"

#include <math.h>

static void require(struct values *v, const struct block *b, size_t variant,
                    const struct wire_outcome *o, const char *setting,
                    const char *what, double ampere, const char *source,
                    const char *cure) {
    const struct value *at = block_setting(v, b, setting, variant);
    struct requirement r = {.block = b,
                            .variant = variant,
                            .rule = setting,
                            .what = what,
                            .source = source,
                            .cure = cure,
                            .trouble = "the table has no figure for this wire",
                            .relation = RELATION_AT_MOST,
                            .at = at->at};
    if (!isnan(ampere)) {
        r.left = o->current;
        r.right = block_table(v, ampere, (struct ends){ampere, ampere}, "A",
                              setting, source);
    }
    block_require(v, r);
}

/* Quick-connect: current by tab and wire, UL 310. */
static void check_tab(struct values *v, const struct block *b, size_t variant,
                      const struct wire_outcome *o) {
    struct text name = block_text(v, b, "tab", variant);
    const struct tab *tab = tab_find(name.start, name.len);
    if (name.len == 0 || tab == NULL)
        return;
    const char *row = NULL;
    double ampere = tab_current(tab, o->size, !o->continuous, &row);
    require(v, b, variant, o, "tab", "current through the quick-connect tab",
            ampere, tab_source(), "a ring on a stud, or two tabs");
}

static void check_stud(struct values *v, const struct block *b, size_t variant,
                       const struct wire_outcome *o) {
    struct text name = block_text(v, b, "stud", variant);
    const struct stud *stud = stud_find(name.start, name.len);
    if (name.len == 0 || stud == NULL)
        return;
    require(v, b, variant, o, "stud",
            "current through lugs pressed by the stud", stud->clamped,
            stud->source, "a larger stud");
}

/* A relay or switch is rated for a resistive load at 12 V; lamps, motors and a
 * higher voltage leave it a share of that. */
static void check_contact(struct values *v, const struct block *b,
                          size_t variant, const struct wire_outcome *o) {
    const struct value *rating = block_setting(v, b, "contact", variant);
    if (rating->type != VALUE_QUANTITY)
        return;
    struct text kind = text_of("motor"); /* the worst, where nothing is said */
    const struct block *load =
        values_block(v, b->scope, block_text(v, b, "load", variant), "load");
    if (load != NULL && block_text(v, load, "kind", variant).len > 0)
        kind = block_text(v, load, "kind", variant);
    const struct contact_load *share = contact_load_find(kind.start, kind.len);
    if (share == NULL)
        share = contact_load_find("resistive", 9);
    double by_volt = 1;
    if (o->has_feed)
        by_volt = contact_voltage_share(range_ends(o->feed.strongest).high);
    double ampere = range_ends(rating->quantity).low * share->share * by_volt;
    require(v, b, variant, o, "contact",
            arena_printf(v->c->arena,
                         "current through the contact, which keeps %.0f %% of "
                         "its rating for a %s load",
                         100 * share->share * by_volt, share->kind),
            ampere, share->source, "a contact with a larger rating");
}

/* UL 486A first, then the weaker standard that has a row. */
static void set_pull(struct values *v, const struct block *b, size_t variant,
                     const struct wire_outcome *o) {
    struct pull pull;
    if (!crimp_pull(PULL_UL486A, o->size, &pull) &&
        !crimp_pull(PULL_IEC60352, o->size, &pull))
        return;
    struct quantity *q =
        block_table(v, pull.force, (struct ends){pull.force, pull.force},
                    v->units == UNIT_SI ? "N" : "lbf", NULL, pull.source);
    q->decimals = 0;
    block_quantity(v, b, "pull", variant, "pull-out force of a crimp", q);
}

/* Colour and gauges of the insulated terminal that holds this wire; the colours
 * are those of copper. */
static void set_terminal(struct values *v, const struct block *b,
                         size_t variant, const struct wire_outcome *o) {
    const struct crimp *c = crimp_for(o->size);
    const char *words =
        o->material == MATERIAL_ALUMINIUM ? "one marked for aluminum"
        : c == NULL
            ? "bare lug"
            : arena_printf(v->c->arena, "%s (%s)", c->colour, c->gauges);
    block_field(v, b, "terminal", variant,
                (struct value){.type = VALUE_TEXT,
                               .text = text_of(words),
                               .decision = true});
}

void weak_link_require(struct values *v, const struct block *b, size_t variant,
                       const struct wire_outcome *o) {
    check_tab(v, b, variant, o);
    check_stud(v, b, variant, o);
    check_contact(v, b, variant, o);
    set_pull(v, b, variant, o);
    set_terminal(v, b, variant, o);
}
