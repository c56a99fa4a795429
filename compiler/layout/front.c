/* front.c - what the sheet is: title block, applicability, revision record. */
#include "layout/front.h"

#include "base/arena.h"
#include "base/diag.h"
#include "layout/columns.h"
#include "layout/plate.h"
#include "layout/prose.h"
#include "layout/qr.h"
#include "layout/record.h"
#include "layout/revise.h"
#include "layout/shape.h"
#include "layout/sheet.h"
#include "layout/table.h"
#include "values/plain.h"

#include <math.h>
#include <string.h>

static const double qr_side = 70; /* a module of 0.85 mm for 29 of them */

const char *front_status(const struct leaf *l) {
    struct text status = leaf_setting(l, "status");
    if (text_is(status, "draft"))
        return "DRAFT";
    if (text_is(status, "withdrawn"))
        return "WITHDRAWN";
    return l->frozen ? NULL : "NOT ISSUED";
}

/* As few lines as the width allows, all about equally long. */
static const struct lines *balanced(const struct composer *c,
                                    const struct rich *r, double width,
                                    struct type type) {
    const struct words *w = words_of(c, r);
    const struct lines *best = paragraph_break(c, w, width, type, 1);
    for (double less = width * 0.96; less > w->widest; less *= 0.96) {
        const struct lines *l = paragraph_break(c, w, less, type, 1);
        if (l->count > best->count)
            break;
        best = l;
    }
    return best;
}

static const char *cstr(struct leaf *l, struct text t) {
    return text_cstr(l->composer.arena, t);
}

static const struct block *vehicle_block(const struct leaf *l) {
    const struct variant *list;
    if (values_variants(l->values, &list) == 0 || list[0].row == NULL)
        return NULL;
    for (size_t i = 0; i < l->guide->block_count; i++) {
        const struct block *b = l->guide->blocks[i];
        if (b->kind->id == KIND_VEHICLE && list[0].row >= b->entries &&
            list[0].row < b->entries + b->entry_count)
            return b;
    }
    return NULL;
}

/* "Wendlow Fen", or the name of the vehicle block, or nothing. */
static const char *vehicle_name(struct leaf *l, const struct block *b) {
    if (b == NULL)
        return "";
    struct text maker = leaf_block_setting(l, b, "maker");
    struct text model = leaf_block_setting(l, b, "model");
    if (maker.len == 0 && model.len == 0)
        return "";
    const char *gap = maker.len > 0 && model.len > 0 ? " " : "";
    return arena_printf(l->composer.arena, "%.*s%s%.*s", (int)maker.len,
                        maker.len > 0 ? maker.start : "", gap, (int)model.len,
                        model.len > 0 ? model.start : "");
}

static const char *variants_in_words(struct leaf *l) {
    struct arena *a = l->composer.arena;
    const char *name = vehicle_name(l, vehicle_block(l));
    const struct variant *list;
    size_t count = values_variants(l->values, &list);
    if (count == 0 || list[0].name.len == 0)
        return name[0] == '\0' ? "no vehicle named" : name;
    struct buf b = buf_in(a);
    for (size_t i = 0; i < count; i++) {
        if ((l->applies & (variant_set)1 << i) == 0)
            continue;
        buf_puts(&b, b.len > 0 ? ", " : "");
        buf_text(&b, list[i].name);
    }
    return arena_printf(a, "%s%s%s", name, name[0] == '\0' ? "" : ": ",
                        buf_cstr(&b));
}

static struct span identity_place(const struct leaf *l) {
    return l->guide->identity == NULL ? l->guide->root->at
                                      : l->guide->identity->at;
}

struct foot front_foot(struct leaf *l) {
    return (struct foot){
        .id = cstr(l, leaf_setting(l, "id")),
        .revision = arena_printf(l->composer.arena, "revision %s",
                                 cstr(l, leaf_setting(l, "revision"))),
        .title = cstr(l, values_title(l->values, l->composer.arena, l->guide)),
        .status = front_status(l),
        .variants = variants_in_words(l),
        .at = identity_place(l),
    };
}

/* A tag, and the gap behind it; nothing for a revision that is issued. */
static double draw_status(struct leaf *l, struct slab *s, double x, double y) {
    const struct composer *c = &l->composer;
    struct type type = l->style.heading;
    struct text status = text_of(front_status(l));
    double size = l->style.note.size;
    if (status.len == 0)
        return 14;
    double wide = shape_width(c->shaper, FACE_BOLD, size, status) + 12;
    slab_fill(c, s, x, y, wide, type.leading, style_black());
    slab_text(c, s, x + 6, y + (type.leading + size * 0.73) / 2, FACE_BOLD,
              size, style_white(), status);
    return wide + 14;
}

/* Number, revision, status; behind them the vehicle where there is room, else
 * it is left to the caller. */
static double draw_identity(struct leaf *l, struct slab *s, double y,
                            struct text *vehicle, double width) {
    const struct composer *c = &l->composer;
    const double gap = 14;
    struct type type = l->style.heading;
    double baseline = y + paragraph_baseline(type);
    double x = gap + slab_text(c, s, 0, baseline, FACE_BOLD, type.size,
                               style_black(), leaf_setting(l, "id"));
    x += gap +
         slab_text(c, s, x, baseline, FACE_REGULAR, type.size, style_black(),
                   text_of(arena_printf(c->arena, "revision %s",
                                        cstr(l, leaf_setting(l, "revision")))));
    x += draw_status(l, s, x, y);
    if (x + shape_width(c->shaper, FACE_BOLD, type.size, *vehicle) <= width) {
        slab_text(c, s, x, baseline, FACE_BOLD, type.size, style_black(),
                  *vehicle);
        *vehicle = (struct text){NULL, 0};
    }
    return y + type.leading;
}

static struct text letterhead(const struct leaf *l, const char *setting) {
    struct text t = sheet_setting(l->sheet, setting);
    for (size_t i = 0; t.len == 0 && i < l->guide->block_count; i++)
        if (l->guide->blocks[i]->kind->id == KIND_SHOP &&
            strcmp(setting, "shop") == 0)
            t = leaf_block_setting(l, l->guide->blocks[i], "name");
    return t;
}

/* Whose paper it is: logo, name, address. */
static void set_letterhead(struct leaf *l) {
    const struct composer *c = &l->composer;
    struct text shop = letterhead(l, "shop"),
                address = letterhead(l, "address");
    struct slab *logo = plate_logo(l);
    double x = logo == NULL ? 0 : logo->ops[0].width + 10;
    if (logo == NULL && shop.len == 0 && address.len == 0)
        return;
    struct rich r = {0};
    struct type type = l->style.note;
    rich_add(c->arena, &r, leaf_tone(type, FACE_BOLD), shop,
             l->guide->root->at);
    if (address.len > 0) {
        rich_add(c->arena, &r, leaf_tone(type, FACE_REGULAR),
                 text_of(shop.len > 0 ? "\xE2\x80\x82 " : ""),
                 l->guide->root->at);
        rich_add(c->arena, &r, leaf_tone(type, FACE_REGULAR), address,
                 l->guide->root->at);
    }
    const struct lines *lines =
        paragraph_break(c, words_of(c, &r), leaf_width(l) - x, type, 1);
    double text = paragraph_height(lines);
    double height = logo == NULL ? text : fmax(text, logo->height);
    struct slab *s = flow_slab(&l->flow, height, l->guide->root->at);
    if (logo != NULL)
        slab_copy(c, s, logo, 0, (height - logo->height) / 2);
    paragraph_draw_all(c, s, lines, x, height - text);
    flow_bond(&l->flow, BOND_FAST);
    flow_space(&l->flow, 4);
}

/* Title on the left, room for the QR code on the right. */
void front_set_title(struct leaf *l) {
    const struct composer *c = &l->composer;
    struct span at = identity_place(l);
    struct spot spot = {.width = leaf_width(l) - qr_side - 18,
                        .type = l->style.title,
                        .value = FACE_BOLD,
                        .variants = l->applies};
    struct rich title = {0}, vehicle = {0};
    if (l->guide->title_text != NULL)
        prose_add(l, &title, l->guide->title_text, &spot);
    else
        rich_add(c->arena, &title, leaf_tone(spot.type, FACE_BOLD),
                 l->guide->title, at);
    for (size_t i = 0; i < title.count; i++)
        title.chunk[i].tone.face = FACE_BOLD;
    set_letterhead(l);
    struct slab *s = flow_slab(&l->flow, 0, at);
    s->anchor = &l->code_place;
    slab_fill(c, s, 0, 0, leaf_width(l), 3, style_black());
    /* Which variants, the table below says, where there is one. */
    struct text name =
        text_of(vehicle_block(l) == NULL ? variants_in_words(l)
                                         : vehicle_name(l, vehicle_block(l)));
    double y = draw_identity(l, s, 9, &name, spot.width) + 4;
    rich_add(c->arena, &vehicle, leaf_tone(l->style.heading, FACE_BOLD), name,
             at);
    size_t outer = tag_open(c->tags, TAG_TITLE, (struct text){NULL, 0});
    y += paragraph_draw_all(
             c, s, balanced(c, &title, spot.width, l->style.title), 0, y) +
         1;
    tag_close(c->tags, outer);
    y += paragraph_draw_all(c, s,
                            paragraph_break(c, words_of(c, &vehicle),
                                            spot.width, l->style.heading, 1),
                            0, y);
    s->height = y > qr_side ? y : qr_side;
    flow_space(&l->flow, 6);
}

void front_set_particulars(struct leaf *l) {
    struct arena *a = l->composer.arena;
    const struct named *time =
        l->guide->identity == NULL
            ? NULL
            : values_of(l->values, l->guide->identity, "time");
    const char *hours =
        time == NULL
            ? NULL
            : values_print_over(l->values, a, time, l->applies, PRINT_PLAIN);
    struct field_box box[] = {
        {"date", 3, leaf_setting(l, "date")},
        {"status", 2, leaf_setting(l, "status")},
        {"written by", 3, leaf_setting(l, "author")},
        {"approved by", 3, leaf_setting(l, "approver")},
        {"working time", 2, text_of(hours)},
    };
    record_row(&l->flow, box, sizeof box / sizeof box[0], 0, leaf_width(l), 26,
               l->guide->root->at);
}

static bool column_used(const struct leaf *l, size_t k) {
    const struct variant *list;
    size_t count = values_variants(l->values, &list);
    for (size_t i = 0; i < count; i++)
        if ((l->applies & (variant_set)1 << i) != 0 && list[i].row != NULL &&
            k < list[i].row->cell_count && list[i].row->cells[k].text.len > 0)
            return true;
    return false;
}

/* Loads and the like are facts of the vehicle, nothing to know it by. */
static bool tells_apart(const struct block *b, size_t k) {
    return b->column[k] == NULL || b->column[k]->type != SETTING_QUANTITY;
}

/* The rows of the vehicle that the guide is for. */
static void set_vehicles(struct leaf *l, const struct block *b) {
    struct arena *a = l->composer.arena;
    struct spot cell = prose_body(l, l->applies);
    cell.type = l->style.table;
    size_t *used = arena_alloc(a, b->column_count + 1, sizeof *used);
    size_t columns = 0;
    for (size_t k = 0; k < b->column_count; k++)
        if (column_used(l, k) && tells_apart(b, k))
            used[columns++] = k;
    struct table *t = table_new(a, columns, text_of("Applies to"), b->at);
    for (size_t k = 0; k < columns; k++)
        rich_add(a, &t->head[k], leaf_tone(l->style.table, FACE_BOLD),
                 text_is(b->columns[used[k]], "variant") ? text_of("applies to")
                                                         : b->columns[used[k]],
                 b->at);
    const struct variant *list;
    size_t count = values_variants(l->values, &list);
    for (size_t i = 0; i < count; i++) {
        const struct entry *e = list[i].row;
        if ((l->applies & (variant_set)1 << i) == 0 || e == NULL)
            continue;
        struct table_row *row = table_add(a, t, e->at);
        for (size_t k = 0; k < columns; k++)
            if (used[k] < e->cell_count)
                prose_add_cell(l, &row->cell[k], &e->cells[used[k]], &cell);
    }
    flow_space(&l->flow, 9);
    table_set(&l->flow, t, 0, leaf_width(l), l->style.table);
}

/* Modification state and changes: all lines of a setting behind its label. */
static void add_lines(struct leaf *l, struct columns *p, const char *label,
                      const char *setting, const char *none) {
    struct spot spot = prose_body(l, l->applies);
    const struct block *b = l->guide->identity;
    struct rich r = {0};
    spot.type = l->style.note;
    for (size_t i = 0; b != NULL && i < b->entry_count; i++) {
        const struct entry *e = &b->entries[i];
        if (e->setting == NULL || !text_is(e->key, setting))
            continue;
        leaf_add(l, &r, spot.type, r.count == 0 ? FACE_BOLD : FACE_REGULAR,
                 r.count == 0 ? label : ";");
        leaf_add(l, &r, spot.type, FACE_REGULAR, " ");
        prose_add_choices(l, &r, e->choices, e->choice_count, &spot);
    }
    if (r.count == 0 && none != NULL) {
        leaf_add(l, &r, spot.type, FACE_BOLD, label);
        leaf_add(l, &r, spot.type, FACE_REGULAR, none);
    }
    if (r.count > 0)
        *columns_add(l->composer.arena, p) = r;
}

void front_set_changes(struct leaf *l) {
    struct columns state = {0};
    bool first = text_is(leaf_setting(l, "revision"), "1");
    add_lines(l, &state, "Only after:", "after", NULL);
    add_lines(l, &state, "Only before:", "before", NULL);
    add_lines(l, &state, "Changes:", "change",
              first ? " none, first revision" : NULL);
    struct rich since = {0};
    revise_add_list(l, &since, l->style.note);
    if (since.count > 0)
        *columns_add(l->composer.arena, &state) = since;
    flow_space(&l->flow, 4);
    columns_set(&l->flow, &state, 0, leaf_width(l), l->style.note,
                identity_place(l));
}

bool front_any_applicability(const struct leaf *l) {
    return vehicle_block(l) != NULL;
}

void front_set_applicability(struct leaf *l) {
    set_vehicles(l, vehicle_block(l));
}

void front_draw_code(struct leaf *l, struct pages *out, const char *code) {
    const struct composer *c = &l->composer;
    struct slab *s = slab_new(c, qr_side, (struct span){NULL, 0, 0});
    struct page *page = &out->page[l->code_place.page];
    const char *payload =
        arena_printf(c->arena, "%s %s %s", cstr(l, leaf_setting(l, "id")),
                     cstr(l, leaf_setting(l, "revision")), code);
    if (!qr_draw(c, s, 0, 0, qr_side, payload)) {
        diag_add(c->diags, DIAG_TOO_WIDE, identity_place(l),
                 "the id does not fit into a QR code");
        return;
    }
    for (size_t i = 0; i < s->op_count; i++)
        *display_op(c->arena, page, s->ops[i].kind) =
            slab_moved(c->arena, &s->ops[i], l->style.right - qr_side + 9,
                       l->code_place.y + 2);
}
