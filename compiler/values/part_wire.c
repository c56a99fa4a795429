/* part_wire.c - a wire of a circuit: its size or block, length, ambient. */
#include "base/arena.h"
#include "calc/conductor.h"
#include "source/circuit_word.h"
#include "values/electrical.h"
#include "values/part_reader.h"
#include "values/range.h"
#include "values/size_word.h"
#include "values/wire_input.h"

struct wire_choice {
    struct ampacity_use use;
    const struct quantity *ambient;
    const struct quantity *cranking; /* for how long; NULL: what lasts */
};

static bool block_size(const struct part_reader *r, const struct block *wire,
                       struct wire_choice *w) {
    const struct wire_outcome *o = electrical_wire(r->v, wire, r->variant);
    if (o == NULL)
        return false;
    w->use = o->run->ampacity.use;
    w->ambient = o->ambient;
    w->cranking = o->cranking_time;
    return true;
}

static bool touches(const struct circuit_branch *b, size_t point) {
    return b->from == point || b->to == point;
}

static bool is_cranked_load(const struct part_reader *r, size_t i) {
    const struct circuit_element *e = &r->b->circuit->element[i];
    return e->part == CIRCUIT_LOAD && e->word_count > 0 &&
           (values_tagged(r->v, &e->tags) >> r->variant & 1) != 0 &&
           electrical_cranks(
               r->v, values_block(r->v, r->b->scope, e->word[0], "load"),
               r->variant);
}

/* The first of the elements from `i` up to but not `end` that is such a load;
 * `end`: none is. */
static size_t cranked_from(const struct part_reader *r, size_t i, size_t end) {
    while (i < end && !is_cranked_load(r, i))
        i++;
    return i;
}

/* Whether the path leads through a load that is cranked, and no other path
 * begins or ends on the way: all of it carries that one current, and none where
 * nothing is cranked. What the wire's block says of a start, `by_block`, counts
 * in a circuit without such a load: in another one the load tells which of the
 * currents is the start's. */
static bool carries_start_alone(const struct part_reader *r, bool by_block) {
    const struct circuit *c = r->b->circuit;
    size_t first = r->part->element->branch, last = first;
    while (first > 0 && !c->branch[first].begins)
        first--;
    while (last + 1 < c->branch_count && !c->branch[last + 1].begins)
        last++;
    for (size_t b = 0; b < c->branch_count; b++)
        for (size_t k = first; k < last && (b < first || b > last); k++)
            if (touches(&c->branch[b], c->branch[k].to))
                return false;
    size_t end = c->branch[last].first + c->branch[last].count;
    return cranked_from(r, c->branch[first].first, end) < end ||
           (by_block &&
            cranked_from(r, 0, c->element_count) == c->element_count);
}

/* A setting of the unnamed wire block, the guide's before the library's; NULL:
 * none says it. */
static const struct value *usual(const struct part_reader *r,
                                 const char *setting) {
    for (size_t i = r->v->guide->block_count; i-- > 0;) {
        const struct block *one = r->v->guide->blocks[i];
        if (one->kind->id != KIND_WIRE || one->name.len > 0)
            continue;
        const struct value *value =
            block_setting(r->v, one, setting, r->variant);
        if (value->type == VALUE_TEXT || value->type == VALUE_QUANTITY ||
            value->type == VALUE_TRUTH)
            return value;
    }
    return NULL;
}

static void assume(const struct part_reader *r, const char *what,
                   const char *value, const char *source) {
    block_assume(r->v, r->b, r->variant, what, value, source);
}

/* Bundle, engine space and table, as the unnamed block says them; what it does
 * not say is listed once for the circuit, as a wire block lists it. */
static void read_use(const struct part_reader *r, struct ampacity_use *use) {
    const struct value *bundle = usual(r, "bundle");
    const struct value *engine = usual(r, "engine space");
    const struct value *table = usual(r, "ampacity");
    use->bundled = 1;
    if (bundle != NULL && bundle->type == VALUE_QUANTITY)
        use->bundled = (int)bundle->quantity->nominal;
    else
        assume(r, "bundle", "each wire runs alone", "none is stated");
    use->engine_space =
        engine != NULL && engine->type == VALUE_TRUTH && engine->truth;
    if (engine == NULL || engine->type != VALUE_TRUTH)
        assume(r, "engine space", "each wire stays outside it",
               "none is stated");
    use->table = AMPACITY_33CFR;
    if (table == NULL || table->type != VALUE_TEXT ||
        !ampacity_table_find(table->text.start, table->text.len, &use->table))
        assume(r, "ampacity table", ampacity_table_name(use->table),
               "the library's default table");
}

/* A wire has its block by the word in place of its size, not by its name: one
 * that has the name alone would be another wire here than in the block's table.
 * In a circuit as found it is another. */
static bool has_own_name(const struct part_reader *r) {
    const struct circuit_element *e = r->part->element;
    if (values_block(r->v, r->b->scope, e->name, "wire") == NULL ||
        circuit_part_is_found(r->v, r->b, r->variant))
        return true;
    return part_reader_fail(
        r, arena_printf(
               r->v->c->arena,
               "has the name of a wire block and a size of its own, %.*s; "
               "write 'wire W1 %.*s, %.*s' for a wire of that block, or give "
               "this one another name",
               (int)e->word[0].len, e->word[0].start, (int)e->name.len,
               e->name.start, (int)e->word[1].len, e->word[1].start));
}

static bool read_size(const struct part_reader *r, struct wire_choice *w) {
    struct text word = r->part->element->word[0];
    const struct block *wire = values_block(r->v, r->b->scope, word, "wire");
    if (wire != NULL)
        return block_size(r, wire, w);
    read_use(r, &w->use);
    w->use.material = MATERIAL_COPPER;
    w->use.insulation = 273.15 + 60;
    const struct value *insulation = usual(r, "insulation");
    if (insulation != NULL && insulation->type == VALUE_QUANTITY)
        w->use.insulation = range_ends(insulation->quantity).low;
    else
        assume(r, "insulation", "60\xC2\xA0°C",
               "the lowest class: none is stated");
    const struct value *conductor = usual(r, "conductor");
    enum wire_system system =
        conductor != NULL && conductor->type == VALUE_TEXT
            ? size_system_find(conductor->text.start, conductor->text.len)
            : WIRE_UNDECLARED;
    switch (size_read(word.start, word.len, system, &w->use.size)) {
    case SIZE_FOUND:
        return has_own_name(r);
    case SIZE_MISMATCH:
        return part_reader_fail(
            r, arena_printf(
                   r->v->c->arena,
                   "has '%.*s', which is not of the conductor %s%s",
                   (int)word.len, word.start, size_system_name(system),
                   size_word_cure(r->v->c->arena, word, system,
                                  "in a wire block, and name the block here")));
    case SIZE_AMBIGUOUS:
    case SIZE_UNKNOWN:
    case SIZE_UNREADABLE:
        break;
    }
    return part_reader_fail(
        r, arena_printf(
               r->v->c->arena,
               "has a size that is neither a wire block nor a size%s; write "
               "'12 AWG', with 'conductor' in a wire block without a name",
               part_reader_near(r, word, "wire")));
}

static bool has_word(const struct circuit_piece *p, const char *word) {
    for (size_t i = 2; i < p->element->word_count; i++)
        if (text_is(p->element->word[i], word))
            return true;
    return false;
}

bool circuit_part_sheathed(const struct circuit_piece *p) {
    return has_word(p, "sheathed");
}

bool circuit_part_existing(const struct circuit_piece *p) {
    return has_word(p, "existing");
}

static bool is_digits(struct text t) {
    for (size_t i = 0; i < t.len; i++)
        if (t.start[i] < '0' || t.start[i] > '9')
            return false;
    return t.len > 0;
}

/* Behind the size and the length. */
static bool knows_words(const struct part_reader *r) {
    const struct circuit_element *e = r->part->element;
    /* 0,4 m: the list is parted there. */
    struct text word = e->word_count > 2 ? e->word[2] : (struct text){NULL, 0};
    if (is_digits(e->word[1]) && word.len > 0 && word.start[0] >= '0' &&
        word.start[0] <= '9')
        return part_reader_fail(
            r,
            arena_printf(r->v->c->arena,
                         "says '%.*s,%.*s'; write a decimal point: %.*s.%.*s",
                         (int)e->word[1].len, e->word[1].start, (int)word.len,
                         word.start, (int)e->word[1].len, e->word[1].start,
                         (int)word.len, word.start));
    struct text second[2];
    for (size_t i = 2; i < e->word_count; i++)
        if (circuit_word_colour(e->word[i], second))
            return part_reader_fail(
                r, arena_printf(r->v->c->arena,
                                "has two colours; a wire with a tracer is "
                                "written %.*s/%.*s",
                                (int)e->colour[0].len, e->colour[0].start,
                                (int)second[0].len, second[0].start));
        else if (!text_is(e->word[i], "sheathed") &&
                 !text_is(e->word[i], "existing"))
            return part_reader_fail(
                r, arena_printf(r->v->c->arena,
                                "says '%.*s', which is no colour; "
                                "behind the length stand colours, or "
                                "'sheathed' or 'existing'",
                                (int)e->word[i].len, e->word[i].start));
    return true;
}

bool part_reader_wire(const struct part_reader *r) {
    struct circuit_piece *p = r->part;
    struct wire_choice w = {0};
    if (!knows_words(r))
        return false;
    struct quantity *length = part_reader_whole(r, p->element->word[1]);
    if (length == NULL)
        return false;
    char dim[UNIT_TEXT];
    if (!part_reader_is(length, "m"))
        return part_reader_fail(
            r, dim_none(length->dim)
                   ? "has a length without a unit: 0.4 m, 16 in"
                   : arena_printf(r->v->c->arena,
                                  "has %s where its length stands: 0.4 m",
                                  dim_name(length->dim, dim)));
    if (range_ends(length).low <= 0)
        return part_reader_fail(r, "has no length above 0");
    if (!read_size(r, &w))
        return false;
    struct wire_run *run = arena_alloc(r->v->c->arena, 1, sizeof *run);
    struct resistance ohm;
    const char *why = NULL;
    if (!conductor_resistance(w.use.size, w.use.material, &ohm) ||
        !ampacity_find(&w.use, &run->ampacity, &why))
        return part_reader_fail(r, why == NULL ? "has no such conductor" : why);
    const struct value *ambient =
        w.ambient == NULL ? usual(r, "ambient") : NULL;
    if (ambient != NULL && ambient->type == VALUE_QUANTITY)
        w.ambient = ambient->quantity;
    if (w.ambient == NULL) {
        double k = ampacity_assumed_ambient(&run->ampacity);
        w.ambient = block_assumed(r->v, r->b, r->variant, "ambient", k,
                                  (struct ends){k, k}, "degC",
                                  "the table's own ambient");
    }
    p->law = LAW_WIRE;
    p->run = run;
    p->figure[0] = length;
    p->figure[1] = block_table(
        r->v, ohm.nominal, (struct ends){ohm.nominal, ohm.most}, "mohm/m",
        arena_printf(r->v->c->arena, "resistance of %s at 20 °C",
                     w.use.size->label),
        ohm.source);
    p->figure[2] = w.ambient;
    p->figure_count = 3;
    if (carries_start_alone(r, w.cranking != NULL))
        p->figure[p->figure_count++] =
            w.cranking != NULL ? w.cranking
                               : wire_input_cranking(r->v, r->b, r->variant);
    return true;
}
