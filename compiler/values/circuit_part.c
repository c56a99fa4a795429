/* circuit_part.c - what an element of a circuit is in one variant. */
#include "values/circuit_part.h"

#include "base/arena.h"
#include "base/diag.h"
#include "calc/contact.h"
#include "calc/load.h"
#include "calc/relay.h"
#include "source/suggest.h"
#include "values/circuit_duty.h"
#include "values/expression.h"
#include "values/part_reader.h"
#include "values/range.h"
#include "values/self_limit.h"

#include <math.h>
#include <string.h>

bool part_reader_fail(const struct part_reader *r, const char *why) {
    diag_add(r->v->c->diags, DIAG_CIRCUIT_FIGURE, r->part->element->at, "%s %s",
             r->part->name, why);
    return false;
}

bool part_reader_is(const struct quantity *q, const char *unit) {
    return dim_same(q->dim, unit_find(unit, strlen(unit))->dim);
}

const char *part_reader_near(const struct part_reader *r, struct text word,
                             const char *kind) {
    struct nearest near = nearest_to(word);
    const struct guide *g = r->v->guide;
    for (size_t i = 0; i < g->block_count; i++)
        if (strcmp(g->blocks[i]->kind->name, kind) == 0)
            nearest_offer(&near, g->blocks[i]->name);
    return near.best == NULL ? ""
                             : suggest(r->v->c->arena, word,
                                       (struct text){near.best, near.best_len});
}

struct quantity *part_reader_figure(const struct part_reader *r,
                                    struct text word, struct text *rest) {
    struct expression x = expression_over(r->v, r->b->scope, r->variant, word);
    struct value value = expression_sum(&x);
    *rest = text_trim(text_part(word, x.scan.at, word.len));
    if (value.type != VALUE_QUANTITY)
        return NULL;
    struct quantity *q = value.quantity;
    if (q->op == QUANTITY_ROOT && q->name.len == 0)
        q->name = text_of(r->part->name); /* so that a message can tell it */
    return q;
}

struct quantity *part_reader_whole(const struct part_reader *r,
                                   struct text word) {
    struct text rest;
    struct quantity *q = part_reader_figure(r, word, &rest);
    return q == NULL || part_reader_ends(r, rest) ? q : NULL;
}

bool part_reader_ends(const struct part_reader *r, struct text rest) {
    return rest.len == 0 ||
           part_reader_fail(
               r, arena_printf(r->v->c->arena,
                               "says '%.*s' behind a figure; leave it out, or "
                               "put a comma between them",
                               (int)rest.len, rest.start));
}

bool part_reader_resistance(const struct part_reader *r, struct quantity *q) {
    if (range_ends(q).low <= 0)
        return part_reader_fail(r, "has a resistance that is not above 0");
    r->part->law = LAW_RESISTANCE;
    r->part->figure[0] = q;
    r->part->figure_count = 1;
    return true;
}

bool circuit_part_is_found(struct values *v, const struct block *circuit,
                           size_t variant) {
    const struct value *found = block_setting(v, circuit, "as found", variant);
    return found->type == VALUE_TRUTH && found->truth;
}

bool part_reader_assume(const struct part_reader *r,
                        const struct contact_range *c, const char *what) {
    const struct quantity *q = block_assumed(
        r->v, r->b, r->variant,
        arena_printf(r->v->c->arena, "%s, %s", r->part->name, what), c->typical,
        (struct ends){c->low, c->high}, "mohm", c->source);
    r->part->law = LAW_RESISTANCE;
    r->part->figure[0] = q;
    r->part->figure_count = 1;
    return true;
}

static enum circuit_law law_of(struct text kind) {
    if (text_is(kind, "lamp"))
        return LAW_LAMP;
    if (text_is(kind, "motor") || text_is(kind, "constant current"))
        return LAW_CURRENT; /* a motor that turns against a constant torque */
    if (text_is(kind, "constant power"))
        return LAW_POWER;
    return text_is(kind, "resistive") || text_is(kind, "heater")
               ? LAW_RESISTANCE
               : LAWS;
}

bool circuit_part_is_kind(struct text word) {
    return law_of(word) != LAWS;
}

/* `load`: the block that says it, or NULL. */
static bool take_load(const struct part_reader *r, const struct block *load,
                      struct text kind, const struct quantity *amp,
                      const struct quantity *volt) {
    struct circuit_piece *p = r->part;
    p->law = law_of(kind);
    p->figure[0] = amp;
    p->figure[1] = volt;
    p->figure_count = 2;
    if (p->law == LAWS)
        return part_reader_fail(
            r, arena_printf(
                   r->v->c->arena,
                   "is no load block and no kind of load%s: resistive, lamp, "
                   "motor, heater, constant current, constant power",
                   part_reader_near(r, kind, "load")));
    if (amp == NULL || range_ends(amp).low <= 0)
        return part_reader_fail(r, "needs a current above 0: 7.6 A at 13.2 V");
    if (volt != NULL)
        return true;
    if (load == NULL)
        return part_reader_fail(
            r, "does not say at which voltage it takes its current");
    diag_add(r->v->c->diags, DIAG_CIRCUIT_FIGURE,
             block_place(r->v, load, "current"),
             "circuit %.*s needs the voltage at which load %.*s was measured: "
             "current: 7.6 A at 13.2 V",
             (int)r->b->name.len, r->b->name.start, (int)load->name.len,
             load->name.start);
    return false;
}

/* `7.6 A at 13.2 V`, or a resistance. */
static bool read_amount(const struct part_reader *r, struct text kind,
                        struct text word) {
    struct text rest;
    struct quantity *q = part_reader_figure(r, word, &rest), *volt = NULL;
    if (q == NULL)
        return false;
    if (part_reader_is(q, "A") && text_starts(rest, "at ")) {
        volt = part_reader_whole(r, text_trim(text_part(rest, 3, rest.len)));
        if (volt == NULL)
            return false;
    } else if (!part_reader_ends(r, rest)) {
        return false;
    }
    if (part_reader_is(q, "ohm"))
        return part_reader_resistance(r, q);
    if (!part_reader_is(q, "A") || (volt != NULL && !part_reader_is(volt, "V")))
        return part_reader_fail(
            r, "needs a current at a voltage: 7.6 A at 13.2 V");
    return take_load(r, NULL, kind, q, volt);
}

/* More stands behind a load than it takes. */
static bool refuse_surplus(const struct part_reader *r,
                           const struct block *load) {
    if (load == NULL)
        return part_reader_fail(r, "says more than a kind, current and duty");
    if (!circuit_part_is_kind(load->name))
        return part_reader_fail(r, "takes all its figures from its load block; "
                                   "leave out what stands behind it");
    return part_reader_fail(
        r, arena_printf(r->v->c->arena,
                        "takes all its figures from load block '%.*s', which "
                        "hides the kind of that name; leave out what stands "
                        "behind it, or give that block another name",
                        (int)load->name.len, load->name.start));
}

/* A load's highest current, brought from its own voltage to that of `current`
 * by the law of its kind; at the worst of the ends. */
static double highest_at(struct text kind, const struct value *highest,
                         const struct quantity *volt) {
    const struct calculation *law =
        load_calculation(load_kind_find(kind.start, kind.len));
    double amp = range_ends(highest->quantity).high, most = 0;
    if (law == NULL || highest->with == NULL || volt == NULL)
        return amp;
    struct ends own = range_ends(highest->with), to = range_ends(volt);
    for (int i = 0; i < 4; i++) {
        const double in[] = {amp, i < 2 ? own.low : own.high,
                             i % 2 == 0 ? to.low : to.high};
        most = fmax(most, law->value(NULL, in));
    }
    return most;
}

/* The current of a load as far as its highest one, at the same voltage: what
 * carries it is chosen for that. */
static const struct quantity *as_far_as(const struct part_reader *r,
                                        const struct block *load,
                                        struct text kind,
                                        const struct value *current,
                                        const struct value *stated) {
    const struct quantity *amp = current->quantity;
    const struct quantity *highest = stated->quantity;
    struct ends e = range_ends(amp);
    double most = highest_at(kind, stated, current->with);
    if (most <= e.high)
        return amp;
    struct quantity *q =
        quantity_root(&r->v->maker, ROOT_LITERAL, amp->nominal,
                      (struct ends){e.low, most}, amp->dim, amp->unit);
    q->name = text_of(arena_printf(r->v->c->arena, "%.*s.highest",
                                   (int)load->name.len, load->name.start));
    q->at = highest->at;
    return q;
}

bool circuit_part_dropping(const struct circuit_element *e) {
    return e->part == CIRCUIT_LOAD && e->word_count == 3 &&
           text_is(e->word[0], "resistive") && text_is(e->word[2], "dropping");
}

static bool read_load(const struct part_reader *r) {
    const struct circuit_element *e = r->part->element;
    const struct block *load =
        values_block(r->v, r->b->scope, e->word[0], "load");
    bool third = circuit_part_dropping(e) || circuit_duty_is_said(e);
    if (e->word_count > (load != NULL ? 1 : third ? 3 : 2))
        return refuse_surplus(r, load);
    if (load == NULL && e->word_count > 1)
        return read_amount(r, e->word[0], e->word[1]);
    if (load == NULL)
        return take_load(r, NULL, e->word[0], NULL, NULL);
    const struct value *amp = block_setting(r->v, load, "current", r->variant);
    const struct value *kind = block_setting(r->v, load, "kind", r->variant);
    const struct value *most = block_setting(r->v, load, "highest", r->variant);
    const struct value *peak =
        block_setting(r->v, load, "starting", r->variant);
    if (amp->type == VALUE_BAD || kind->type == VALUE_BAD ||
        most->type == VALUE_BAD || peak->type == VALUE_BAD)
        return false;
    const struct quantity *current =
        amp->type == VALUE_QUANTITY ? amp->quantity : NULL;
    if (current != NULL && most->type == VALUE_QUANTITY)
        current = as_far_as(r, load, kind->text, amp, most);
    if (peak->type == VALUE_QUANTITY) {
        r->part->starting = peak->quantity;
        r->part->at = amp->with;
    }
    return take_load(r, load, kind->text, current, amp->with);
}

/* By the first supply of the circuit, as it charges or rests; a 12 V relay's
 * where that says nothing. */
static const struct relay_coil *coil_of(const struct part_reader *r) {
    static const char *const states[] = {"charging", "resting"};
    const struct circuit *c = r->b->circuit;
    const struct block *supply =
        c->supply_count == 0
            ? NULL
            : values_block(r->v, r->b->scope, c->supply[0].name, "supply");
    for (size_t i = 0; supply != NULL && i < 2; i++) {
        const struct value *volt =
            block_setting(r->v, supply, states[i], r->variant);
        if (volt->type == VALUE_QUANTITY &&
            relay_coil_for(volt->quantity->nominal) != NULL)
            return relay_coil_for(volt->quantity->nominal);
    }
    return relay_coil_for(12);
}

static bool read_coil(const struct part_reader *r) {
    const struct circuit_element *e = r->part->element;
    if (e->word_count > 1)
        return part_reader_fail(r, "says more than a current or a resistance");
    if (e->word_count > 0)
        return read_amount(r, text_of("resistive"), e->word[0]);
    const struct relay_coil *usual = coil_of(r);
    return part_reader_assume(
        r, &usual->resistance,
        arena_printf(r->v->c->arena, "coil of a %g V relay", usual->nominal));
}

static bool read_element(const struct part_reader *r) {
    switch (r->part->element->part) {
    case CIRCUIT_FUSE:
    case CIRCUIT_BREAKER:
        return part_reader_fuse(r);
    case CIRCUIT_WIRE:
        return part_reader_wire(r);
    case CIRCUIT_COIL:
        return read_coil(r);
    case CIRCUIT_LOAD:
        return read_load(r);
    case CIRCUIT_DIODE:
        r->part->law = LAW_DIODE;
        return r->part->element->word_count == 0 ||
               part_reader_fail(r, "is a diode, which has no words");
    case CIRCUIT_SWITCH:
    case CIRCUIT_CONTACT:
    case CIRCUIT_CONNECTOR:
    case CIRCUIT_SPLICE:
    case CIRCUIT_JOINT:
        return part_reader_contact(r);
    case CIRCUIT_PARTS:
        break;
    }
    return false;
}

bool circuit_part_read(struct values *v, const struct block *b, size_t variant,
                       struct circuit_piece *part) {
    const struct circuit *c = b->circuit;
    bool good = true;
    for (size_t i = 0; i < c->element_count; i++) {
        part[i] =
            (struct circuit_piece){.element = &c->element[i], .law = LAWS};
        part[i].name = text_cstr(v->c->arena, c->element[i].id);
        struct part_reader r = {v, b, variant, &part[i]};
        if (c->element[i].choice != NULL &&
            variant_choose(v, c->element[i].choice, variant) == NULL)
            good = false;
        else if (values_tagged(v, &c->element[i].tags) >> variant & 1)
            good = read_element(&r) && good;
    }
    return good;
}

bool circuit_part_supply(struct values *v, const struct block *b,
                         size_t variant, const struct circuit_supply *s,
                         struct text word, struct circuit_piece *out) {
    *out = (struct circuit_piece){.law = LAWS};
    out->name = text_cstr(v->c->arena, s->name);
    if (text_is(word, "off"))
        return true;
    const struct block *supply = values_block(v, b->scope, s->name, "supply");
    struct text wanted = word.len > 0 ? word : s->state;
    const char *state = text_is(wanted, "resting") ? "resting" : "charging";
    if (supply == NULL || (wanted.len > 0 && !text_is(wanted, state))) {
        diag_add(v->c->diags, DIAG_CIRCUIT_FIGURE, s->at, "'%.*s' %s",
                 (int)s->name.len, s->name.start,
                 supply == NULL ? "is no supply block"
                                : "is resting, charging or off");
        return false;
    }
    const struct value *volt = block_setting(v, supply, state, variant);
    if (volt->type == VALUE_ABSENT && wanted.len == 0)
        volt = block_setting(v, supply, "resting", variant);
    const struct value *ohm = block_setting(v, supply, "resistance", variant);
    if (volt->type == VALUE_BAD || ohm->type == VALUE_BAD ||
        block_is_bad(v, supply, "rated output", variant))
        return false;
    if (volt->type != VALUE_QUANTITY) {
        block_missing(v, supply, state, "the circuit needs its voltage");
        return false;
    }
    out->law = LAW_SUPPLY;
    out->figure[0] = volt->quantity;
    out->figure[1] =
        ohm->type == VALUE_QUANTITY
            ? ohm->quantity
            : block_assumed(v, b, variant,
                            arena_printf(v->c->arena, "inner resistance of %s",
                                         out->name),
                            0.005, (struct ends){0.002, 0.01}, "mohm",
                            "common practice, no source");
    out->figure[2] = self_limit_output(v, supply, variant);
    out->figure_count = out->figure[2] == NULL ? 2 : 3;
    if (out->figure[2] != NULL)
        out->law = LAW_LIMITED;
    return true;
}
