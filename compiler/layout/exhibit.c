/* exhibit.c - blocks that print where they stand: panels, tables, figures. */
#include "layout/exhibit.h"

#include "base/arena.h"
#include "base/diag.h"
#include "layout/connector.h"
#include "layout/plate.h"
#include "layout/refer.h"
#include "layout/revise.h"
#include "layout/table.h"
#include "layout/warn.h"
#include "source/circuit_tree.h"

#include <math.h>

/* Outside the steps a table may use the whole page. */
static bool is_wide(const struct block *b) {
    return tree_step(b->node) == NULL;
}

/* In which state of its circuit the readings of a sheet are taken: the one that
 * it names, else the usual one; absent where the circuit has none, or the
 * sheet tells nothing that hangs on it. */
static struct text state_of(const struct leaf *l, const struct block *b) {
    struct text none = {NULL, 0}, of, name;
    struct text show = leaf_block_setting(l, b, "show");
    if (b->kind->id != KIND_SHEET || text_is(show, "wires"))
        return none;
    struct text state = leaf_block_setting(l, b, "state");
    of = leaf_block_setting(l, b, "of");
    if (state.len > 0 || !text_next_part(&of, ',', &name))
        return state;
    const struct block *circuit =
        values_block(l->values, b->scope, text_trim(name), "circuit");
    return circuit == NULL || circuit->circuit == NULL ||
                   circuit->circuit->state_count == 0
               ? none
               : circuit->circuit->state[0].name;
}

/* "Readings to expect. State: sun" in one line, bold. */
static void add_state(struct leaf *l, struct rich *r, struct text state) {
    if (state.len == 0)
        return;
    leaf_add(l, r, l->style.table, FACE_BOLD,
             arena_printf(l->composer.arena, "%sState: %.*s",
                          r->count > 0 ? ". " : "", (int)state.len,
                          state.start));
}

/* What stands above a table: its title and, where it has one, its state;
 * returns the name for "continued". */
static struct text set_title(struct leaf *l, const struct block *b,
                             const struct spot *spot, const struct spot *cell) {
    struct text name = leaf_block_setting(l, b, "title");
    const struct node *section = tree_section(b->node);
    if (name.len == 0 && section != NULL)
        name = tree_plain(l->composer.arena, section->text);
    const struct entry *title = tree_setting(b, "title");
    struct text state = state_of(l, b);
    if (title != NULL || state.len > 0) {
        struct rich r = {0};
        if (title != NULL)
            prose_add_choices(l, &r, title->choices, title->choice_count, cell);
        add_state(l, &r, state);
        for (size_t i = 0; i < r.count; i++)
            r.chunk[i].tone.face = FACE_BOLD;
        flow_space(&l->flow, 8);
        bool wide = is_wide(b);
        flow_paragraph(&l->flow, &r, wide ? 0 : spot->x,
                       wide ? leaf_width(l) : spot->width, l->style.table,
                       b->at);
        leaf_join_title(l);
    }
    return name;
}

/* A row that is not for all readers says so in its first cell. */
static void add_readers(struct leaf *l, struct table_row *row, variant_set in,
                        variant_set of) {
    leaf_add_readers(l, &row->cell[0], l->style.table, in, of);
}

static void put_table(struct leaf *l, const struct block *b,
                      const struct table *t, const struct spot *spot) {
    if (tree_setting(b, "title") == NULL && state_of(l, b).len == 0)
        flow_space(&l->flow, 8);
    size_t from = l->flow.count;
    bool wide = is_wide(b);
    table_set(&l->flow, t, wide ? 0 : spot->x,
              wide ? leaf_width(l) : leaf_width(l) - spot->x, l->style.table);
    if (l->flow.count > from && b->node != NULL)
        l->flow.slab[from]->anchor = refer_node(l, b->node);
    flow_space(&l->flow, 10);
}

/* What the author wrote in rows. */
static struct table *read_table(struct leaf *l, const struct block *b,
                                const struct spot *spot,
                                const struct spot *cell, struct text name) {
    struct arena *a = l->composer.arena;
    struct table *t = table_new(a, b->column_count, name, b->at);
    /* What a row compares needs no head, least of all "label". */
    bool compares = b->kind->id == KIND_COMPARE;
    for (size_t k = 0; k < b->column_count; k++)
        if (!compares || !text_is(b->columns[k], "label"))
            rich_add(a, &t->head[k], leaf_tone(l->style.table, FACE_BOLD),
                     b->columns[k], b->at);
    for (size_t i = 0; i < b->entry_count; i++) {
        const struct entry *e = &b->entries[i];
        struct spot inner = *cell;
        inner.variants &= values_tagged(l->values, &e->tags);
        if (e->kind != ENTRY_ROW || inner.variants == 0)
            continue;
        struct table_row *row = table_add(a, t, e->at);
        for (size_t k = 0; k < b->column_count && k < e->cell_count; k++)
            prose_add_cell(l, &row->cell[k], &e->cells[k], &inner);
        add_readers(l, row, inner.variants, spot->variants);
    }
    return t;
}

static void set_table(struct leaf *l, const struct block *b,
                      const struct spot *spot) {
    struct spot cell = prose_body(l, spot->variants);
    cell.type = l->style.table;
    struct text name = set_title(l, b, spot, &cell);
    put_table(l, b, read_table(l, b, spot, &cell, name), spot);
}

/* The height of a table in a column; INFINITY: it is too wide for that. */
static double height_in(struct leaf *l, const struct table *t, double width) {
    struct composer trial = l->composer;
    struct flow flow = {.c = &trial};
    trial.diags = diag_new(trial.arena);
    size_t outer = tag_pause(trial.tags);
    table_set(&flow, t, 0, width, l->style.table);
    tag_close(trial.tags, outer);
    return diag_status(trial.diags) == 0 ? flow_height(&flow, 0) : INFINITY;
}

/* Right of a face, in one slab with it. */
static void put_beside(struct leaf *l, struct slab *face, const struct table *t,
                       double x) {
    struct flow flow = {.c = &l->composer};
    double y = 0;
    table_set(&flow, t, x, leaf_width(l) - x, l->style.table);
    for (size_t i = 0; i < flow.count; i++) {
        slab_copy(&l->composer, face, flow.slab[i], 0, y);
        y += flow.slab[i]->height;
    }
    face->height = fmax(face->height, y);
}

/* The face of a connector and what is in it: beside each other where the table
 * is about as high as the face with its caption, or lower. */
static void set_pinout(struct leaf *l, const struct block *b,
                       const struct spot *spot) {
    const struct type *note = &l->style.note;
    double right, gap = 18, width = leaf_width(l) - spot->x;
    struct slab *face = connector_face(l, b, spot, &right);
    if (face == NULL) {
        set_table(l, b, spot);
        return;
    }
    struct spot cell = prose_body(l, spot->variants);
    cell.type = l->style.table;
    const struct table *t =
        read_table(l, b, spot, &cell, (struct text){NULL, 0});
    double column = fmax(right - spot->x, 16 * note->size); /* of the caption */
    double room = width - column - gap;
    bool beside = tree_setting(b, "title") == NULL && room > 0 &&
                  height_in(l, t, room) <= face->height + 2 * note->leading;
    connector_caption(l, face, b, spot->x, beside ? column : width);
    if (beside)
        put_beside(l, face, t, spot->x + column + gap);
    flow_space(&l->flow, 8);
    revise_add_slab(l, b->node, face);
    if (beside) {
        flow_space(&l->flow, 10);
        return;
    }
    flow_bond(&l->flow, BOND_FIRM);
    set_table(l, b, spot);
}

/* A table that a circuit gives by itself. */
static void set_circuit_table(struct leaf *l, const struct block *b,
                              const struct spot *spot) {
    struct arena *a = l->composer.arena;
    const struct circuit_table *from = values_table(l->values, b);
    struct spot cell = prose_body(l, spot->variants);
    cell.type = l->style.table;
    if (from == NULL || from->count == 0)
        return;
    struct text name = set_title(l, b, spot, &cell);
    struct table *t = table_new(a, from->column_count, name, b->at);
    t->drop_empty = true;
    for (size_t k = 0; k < from->column_count; k++)
        rich_add(a, &t->head[k], leaf_tone(l->style.table, FACE_BOLD),
                 text_of(from->head[k]), b->at);
    for (size_t i = 0; i < from->count; i++) {
        variant_set in = from->row[i].in & spot->variants;
        if (in == 0)
            continue;
        struct table_row *row = table_add(a, t, b->at);
        for (size_t k = 0; k < from->column_count; k++) {
            const char *text =
                values_print_table(l->values, a, &from->row[i], k, in);
            if (text == NULL)
                continue;
            if (from->figure[k])
                leaf_add_value(l, &row->cell[k], l->style.table, FACE_REGULAR,
                               text);
            else
                leaf_add(l, &row->cell[k], l->style.table, FACE_REGULAR, text);
        }
        add_readers(l, row, in, spot->variants);
    }
    put_table(l, b, t, spot);
}

/* Text right before a figure speaks of it. */
static bool is_introduced(const struct node *n) {
    const struct node *before = n->parent == NULL ? NULL : n->parent->first;
    while (before != NULL && before != n && before->next != n)
        before = before->next;
    return before != NULL && before != n && before->kind == NODE_PARAGRAPH;
}

void exhibit_set(struct leaf *l, const struct block *b,
                 const struct spot *spot) {
    if (warn_set_block(l, b, spot))
        return;
    if ((b->kind->id == KIND_PINOUT || b->kind->id == KIND_FIGURE) &&
        is_introduced(b->node))
        flow_bond(&l->flow, BOND_FIRM);
    if (b->kind->id == KIND_PINOUT)
        set_pinout(l, b, spot);
    else if (b->kind->id == KIND_SHEET)
        set_circuit_table(l, b, spot);
    else if (b->kind->flags & KIND_PRINTS_TABLE)
        set_table(l, b, spot);
    else if (b->kind->id == KIND_FIGURE)
        plate_set_block(l, b, spot);
}
