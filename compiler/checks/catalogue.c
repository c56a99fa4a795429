/* catalogue.c - the hazard catalogue: what a guide must warn of by itself. */
#include "checks/catalogue.h"

#include "base/arena.h"
#include "base/diag.h"
#include "source/kind.h"
#include "source/read.h"
#include "source/tree.h"

#include <string.h>
#include <sys/stat.h>

/* templates/hazards.md as it was when the program was built: shipped.S */
extern const char shipped_hazards[], shipped_hazards_end[];

static const char *setting(struct arena *a, const struct block *b,
                           const char *name) {
    const struct entry *e = tree_setting(b, name);
    if (e == NULL || e->choice_count == 0)
        return NULL;
    return text_cstr(a, text_squeezed(a, e->choices[0].text));
}

static size_t split(struct arena *a, const char *list, struct text **out) {
    size_t count = 0;
    *out = arena_alloc(a, list == NULL ? 1 : strlen(list) + 1, sizeof **out);
    struct text rest = text_of(list), word;
    while (text_next_part(&rest, ',', &word))
        if (word.len > 0)
            (*out)[count++] = word;
    return count;
}

static enum signal signal_of(const char *word) {
    static const char *const words[] = {"danger", "warning", "caution",
                                        "notice"};
    for (int i = 0; word != NULL && i < 4; i++)
        if (strcmp(word, words[i]) == 0)
            return (enum signal)i;
    return SIGNAL_WARNING;
}

static enum hazard_action action_of(const char *word) {
    if (word != NULL && strcmp(word, "flag") == 0)
        return ACTION_FLAG;
    if (word != NULL && strcmp(word, "refuse") == 0)
        return ACTION_REFUSE;
    return ACTION_INSERT;
}

static struct hazard read_row(struct arena *a, const struct block *b) {
    struct hazard h = {.id = text_cstr(a, b->name),
                       .title = setting(a, b, "title"),
                       .signal = signal_of(setting(a, b, "signal")),
                       .action = action_of(setting(a, b, "action")),
                       .hazard = setting(a, b, "hazard"),
                       .consequence = setting(a, b, "consequence"),
                       .avoidance = setting(a, b, "avoidance"),
                       .defer = setting(a, b, "defer"),
                       .source = setting(a, b, "source")};
    struct text *symbols = NULL;
    h.symbol_count = split(a, setting(a, b, "symbols"), &symbols);
    h.symbols = arena_alloc(a, h.symbol_count + 1, sizeof *h.symbols);
    for (size_t i = 0; i < h.symbol_count; i++)
        h.symbols[i] = text_cstr(a, symbols[i]);
    h.tag_count = split(a, setting(a, b, "tags"), &h.tags);
    return h;
}

/* The three texts of a panel stand together; a row that the checks judge may do
 * without. */
static bool is_complete(const struct hazard *h) {
    int texts =
        (h->hazard != NULL) + (h->consequence != NULL) + (h->avoidance != NULL);
    return texts == 3 || (texts == 0 && h->action != ACTION_INSERT);
}

static const struct guide *read_shipped(struct compile *c) {
    struct text shipped = {shipped_hazards,
                           (size_t)(shipped_hazards_end - shipped_hazards)};
    return source_read_catalogue_text(c, "templates/hazards.md", shipped);
}

/* The library's own catalogue, else the one that is linked in. */
static const struct guide *read_file(struct compile *c) {
    const char *own =
        strcmp(c->library, ".") == 0
            ? "templates/hazards.md"
            : arena_printf(c->arena, "%s/templates/hazards.md", c->library);
    struct stat status;
    return stat(own, &status) == 0 ? source_read_catalogue(c, own)
                                   : read_shipped(c);
}

static const struct catalogue *rows_of(struct compile *c,
                                       const struct guide *g) {
    if (g == NULL)
        return NULL;
    struct catalogue *k = arena_alloc(c->arena, 1, sizeof *k);
    k->row = arena_alloc(c->arena, g->block_count + 1, sizeof *k->row);
    for (size_t i = 0; i < g->block_count; i++) {
        const struct block *b = g->blocks[i];
        if (b->kind->id != KIND_HAZARD)
            continue;
        struct hazard h = read_row(c->arena, b);
        if (catalogue_find(k, h.id) != NULL)
            diag_add(c->diags, DIAG_NAME_TWICE, b->at, "'%s'", h.id);
        else if (!is_complete(&h))
            diag_add(c->diags, DIAG_SETTING_MISSING, b->at,
                     "a panel needs hazard, consequence and avoidance");
        else
            k->row[k->count++] = h;
    }
    return k;
}

const struct catalogue *catalogue_read(struct compile *c) {
    return rows_of(c, read_file(c));
}

const struct catalogue *catalogue_shipped(struct compile *c) {
    return rows_of(c, read_shipped(c));
}

const struct hazard *catalogue_find(const struct catalogue *k, const char *id) {
    for (size_t i = 0; i < k->count; i++)
        if (strcmp(k->row[i].id, id) == 0)
            return &k->row[i];
    return NULL;
}
