/* reference.c - the tables as Markdown: kinds of block, words of marks, units.
 *
 * `make docs` puts this between two marks of docs/language.md, and a test
 * compares: what the page says is what the program reads. */
#include "base/arena.h"
#include "base/diag.h"
#include "calc/unit.h"
#include "checks/catalogue.h"
#include "checks/hazards.h"
#include "command/forms.h"
#include "command/wording.h"
#include "stages.h"

#include <string.h>

/* In a cell of a table a bar would end the cell. */
static void add_cell(struct buf *b, const char *s) {
    buf_puts(b, " ");
    for (; *s != '\0'; s++)
        buf_puts(b, *s == '|' ? "\\|" : (char[]){*s, '\0'});
    buf_puts(b, " |");
}

static void add_code(struct buf *b, const char *prefix, const char *name) {
    buf_printf(b, "| `%s%s` |", prefix, name);
}

static const char *value_of(struct arena *a, enum setting_type type,
                            const char *unit, const char *choices) {
    struct buf b = buf_in(a);
    wording_value(&b, type, unit, choices);
    return buf_cstr(&b);
}

static const char *remarks(struct arena *a, const char *meaning, bool required,
                           bool repeats) {
    return arena_printf(a, "%s%s%s", meaning, required ? "; required" : "",
                        repeats ? "; may be repeated" : "");
}

static void add_settings(struct buf *b, const struct kind *k) {
    if (k->settings == NULL)
        return;
    buf_puts(b, "\n| setting | value | meaning |\n| --- | --- | --- |\n");
    for (const struct setting *s = k->settings; s->name != NULL; s++) {
        add_code(b, "", s->name);
        add_cell(b, value_of(b->arena, s->type, s->unit, s->choices));
        add_cell(b, remarks(b->arena, s->meaning, s->required, s->repeats));
        buf_puts(b, "\n");
    }
}

static void add_columns(struct buf *b, const struct kind *k) {
    if (k->columns == NULL)
        return;
    buf_puts(b, "\n| column | cell | meaning |\n| --- | --- | --- |\n");
    for (const struct column *c = k->columns; c->name != NULL; c++) {
        add_code(b, "", c->name);
        add_cell(b, value_of(b->arena, c->type, c->unit, NULL));
        add_cell(b, remarks(b->arena, c->meaning, c->required, c->repeats));
        buf_puts(b, "\n");
    }
}

static void add_fields(struct buf *b, const struct kind *k) {
    if (k->fields == NULL)
        return;
    buf_puts(b, "\n| value it gives | unit | meaning |\n| --- | --- | --- |\n");
    for (const struct field *f = k->fields; f->name != NULL; f++) {
        add_code(b, "NAME.", f->name);
        add_cell(b, wording_unit(f->unit));
        add_cell(b, f->meaning);
        buf_puts(b, "\n");
    }
}

static void add_lines(struct buf *b, const struct kind *k) {
    if (k->flags & KIND_HOLDS_DEFINITIONS)
        buf_puts(b,
                 "\nIts lines are definitions: `name = value \"source\"`.\n");
    if (k->flags & KIND_HOLDS_REQUIREMENTS)
        buf_puts(b, "\nIts lines are requirements: `left <= right \"why\"`.\n");
    if (k->flags & KIND_FREE_SETTINGS)
        buf_puts(b, "\nThe names before the colon are your own.\n");
    if (k->flags & KIND_FREE_COLUMNS)
        buf_puts(b, "\nIt holds rows; the columns are your own.\n");
}

static void add_kind(struct buf *b, const struct kind *k) {
    buf_puts(b, "\n#### `");
    wording_heading(b, k);
    buf_puts(b, "`\n\n");
    wording_sentence(b, k->meaning);
    buf_puts(b, " Stands in ");
    wording_places(b, k);
    buf_puts(b, ".\n");
    add_lines(b, k);
    add_settings(b, k);
    add_columns(b, k);
    add_fields(b, k);
}

/* --- words of marks --- */

static bool is_deed(struct text word) {
    const char *deed;
    for (size_t i = 0; (deed = hazards_deed(i)) != NULL; i++)
        if (text_is(word, deed))
            return true;
    return false;
}

static bool has_tag(const struct hazard *h, struct text tag) {
    return catalogue_lists(&h->tags, tag) || catalogue_lists(&h->with, tag);
}

/* The panels that a word of a mark brings. */
static void add_panels(struct buf *b, const struct catalogue *k,
                       struct text tag) {
    bool first = true;
    for (size_t i = 0; i < k->count; i++) {
        if (!has_tag(&k->row[i], tag))
            continue;
        buf_printf(b, "%s%s (%s)", first ? "" : "; ", k->row[i].title,
                   k->row[i].id);
        first = false;
    }
    if (first)
        buf_puts(b, "none");
}

static void add_word(struct buf *b, const struct catalogue *k,
                     struct text tag) {
    struct buf panels = buf_in(b->arena);
    add_panels(&panels, k, tag);
    buf_printf(b, "| `%.*s` |", (int)tag.len, tag.start);
    add_cell(b, buf_cstr(&panels));
    buf_puts(b, "\n");
}

/* Words of {touches}, each once, in the order of the catalogue. */
struct words {
    struct text *word;
    size_t count;
};

static void add_items(struct words *all, const struct items *list) {
    for (size_t i = 0; i < list->count; i++) {
        struct items seen = {all->word, all->count};
        if (!is_deed(list->item[i]) && !catalogue_lists(&seen, list->item[i]))
            all->word[all->count++] = list->item[i];
    }
}

static struct words words_of_touches(struct arena *a,
                                     const struct catalogue *k) {
    size_t room = 0;
    for (size_t i = 0; i < k->count; i++)
        room += k->row[i].tags.count + k->row[i].with.count;
    for (size_t i = 0; i < k->order_count; i++)
        room += k->order[i].step.count + k->order[i].set.count;
    struct words all = {arena_alloc(a, room + 1, sizeof *all.word), 0};
    for (size_t i = 0; i < k->count; i++) {
        add_items(&all, &k->row[i].tags);
        add_items(&all, &k->row[i].with);
    }
    for (size_t i = 0; i < k->order_count; i++) {
        add_items(&all, &k->order[i].step);
        add_items(&all, &k->order[i].set);
    }
    return all;
}

static void add_words(struct buf *b) {
    struct compile c = {.arena = b->arena, .diags = diag_new(b->arena)};
    const struct catalogue *k = catalogue_shipped(&c);
    const char *deed;
    if (k == NULL)
        return;
    buf_puts(b, "\n### Words of {touches}\n\n| word | panels that it brings "
                "|\n| --- | --- |\n");
    struct words all = words_of_touches(b->arena, k);
    for (size_t i = 0; i < all.count; i++)
        add_word(b, k, all.word[i]);
    buf_puts(b, "\n### Words of {does}\n\n| word | panels that it brings |\n| "
                "--- | --- |\n");
    for (size_t i = 0; (deed = hazards_deed(i)) != NULL; i++)
        add_word(b, k, text_of(deed));
}

/* --- units --- */

static void add_spellings(struct buf *b, const struct unit *u) {
    const struct unit *of;
    const char *spelling;
    bool first = true;
    for (size_t i = 0; (spelling = unit_spelling_at(i, &of)) != NULL; i++) {
        if (of != u || strcmp(spelling, u->name) == 0)
            continue;
        buf_printf(b, "%s`%s`", first ? "" : " ", spelling);
        first = false;
    }
}

static void add_unit(struct buf *b, const struct unit *u) {
    struct buf spellings = buf_in(b->arena);
    add_spellings(&spellings, u);
    add_code(b, "", u->name);
    add_cell(b, u->label[0] == '\0' ? "a plain number" : u->label);
    add_cell(b, buf_cstr(&spellings));
    buf_puts(b, "\n");
}

/* One table for each dimension, in the order of the first unit of each. */
static void add_units(struct buf *b) {
    const struct unit *u, *other;
    buf_puts(b, "\n### Units\n");
    for (size_t i = 0; (u = unit_at(i)) != NULL; i++) {
        bool first = true;
        for (size_t k = 0; k < i; k++)
            first = first && !dim_equal(unit_at(k)->dim, u->dim);
        if (!first)
            continue;
        char name[UNIT_TEXT];
        buf_printf(b,
                   "\n#### %s\n\n| unit | printed | also read |\n| --- | --- "
                   "| --- |\n",
                   dim_name(u->dim, name));
        for (size_t k = i; (other = unit_at(k)) != NULL; k++)
            if (dim_equal(other->dim, u->dim))
                add_unit(b, other);
    }
}

void reference_write(struct buf *b) {
    buf_puts(b, "\n### Kinds of block\n");
    for (int i = 0; i < KIND_COUNT; i++)
        add_kind(b, kind_by_id((enum kind_id)i));
    add_words(b);
    add_units(b);
    buf_puts(b, "\n");
}
