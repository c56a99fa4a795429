/* circuit_ohm.c - stated resistances of contacts that no sound contact has.
 *
 * By the table of contacts one that is aged still works, and one that fails is
 * above its high end (contact.h). A figure from there on is a slip of the pen,
 * or was measured: then the line says so. */
#include "values/circuit_ohm.h"

#include "base/arena.h"
#include "calc/contact.h"
#include "values/circuit_rule.h"
#include "values/circuit_solve.h"
#include "values/range.h"

static bool has_source(const struct circuit_element *e) {
    bool measured = e->note.len > 0;
    for (size_t i = 0; i < e->word_count; i++)
        measured = measured || text_is(e->word[i], "measured");
    return measured;
}

static bool is_contact(enum circuit_part part) {
    return part == CIRCUIT_SWITCH || part == CIRCUIT_CONTACT ||
           part == CIRCUIT_CONNECTOR || part == CIRCUIT_SPLICE ||
           part == CIRCUIT_JOINT;
}

static void question(struct circuit_work *w, size_t part) {
    const struct circuit_piece *p = &w->part[part];
    const struct contact *c = circuit_part_contact(p->element);
    double least = range_ends(p->figure[0]).low, most = c->aged.high;
    if (least <= most)
        return;
    struct quantity *stated = block_table(
        w->v, least, (struct ends){least, least}, "mohm", "", "the circuit");
    stated->unit = p->figure[0]->unit;
    struct requirement r = circuit_rule(w, part, "resistance");
    r.what = arena_printf(w->v->c->arena,
                          "resistance of %s, against that of %s %s that is "
                          "aged and still works",
                          p->name, c->name[0] == 'a' ? "an" : "a", c->name);
    r.left = stated;
    r.right = block_table(w->v, most, (struct ends){most, most}, "mohm", "",
                          c->aged.source);
    r.source = c->aged.source;
    r.cure = "mend the figure, or write 'measured' or its source behind it";
    r.flag = true;
    block_require(w->v, r);
}

void circuit_ohm_require(struct circuit_work *w) {
    for (size_t i = 0; i < w->c->element_count; i++) {
        const struct circuit_element *e = &w->c->element[i];
        if (is_contact(e->part) && w->part[i].law == LAW_RESISTANCE &&
            !has_source(e))
            question(w, i);
    }
}
