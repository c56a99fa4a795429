/* command_start.c - start: a library, a guide or a job to begin with.
 *
 * The examples stand in templates/start, and a test builds them. A library gets
 * no hazard catalogue of its own: the one that is linked in follows the
 * program, a copy would stay as it was. */
#include "base/arena.h"
#include "base/diag.h"
#include "command/command.h"
#include "library/guidework.h"
#include "library/shelf.h"
#include "library/store.h"
#include "source/kind.h"
#include "source/tree.h"
#include "stages.h"
#include "values/figure.h"
#include "values/job_maker.h"
#include "values/plain.h"
#include "values/quantity.h"
#include "values/values.h"

#include <errno.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>

extern const char start_guide[], start_guide_end[];
extern const char start_first[], start_first_end[];
extern const char start_vehicle[], start_vehicle_end[];
extern const char start_shop[], start_shop_end[];
extern const char start_isolation[], start_isolation_end[];

/* A folder has no bytes; each stands before what is in it. */
static const struct example {
    const char *path, *start, *end;
} library[] = {
    {"procedures", NULL, NULL},
    {"procedures/facts", NULL, NULL},
    {"procedures/facts/reed.md", start_vehicle, start_vehicle_end},
    {"procedures/facts/shop.md", start_shop, start_shop_end},
    {"procedures/shared", NULL, NULL},
    {"procedures/shared/battery-isolation.md", start_isolation,
     start_isolation_end},
    {"procedures/water-pump.md", start_first, start_first_end},
    {"build", NULL, NULL},
};

enum { EXAMPLES = sizeof library / sizeof library[0], NAME_MAX_LEN = 28 };

/* What every file system and every printed page can hold. */
static bool is_good_name(const char *name) {
    size_t len = strlen(name);
    if (len == 0 || len > NAME_MAX_LEN || name[0] == '-' || name[0] == '_')
        return false;
    for (const char *s = name; *s != '\0'; s++)
        if (!((*s >= 'a' && *s <= 'z') || (*s >= 'A' && *s <= 'Z') ||
              (*s >= '0' && *s <= '9') || *s == '-' || *s == '_'))
            return false;
    return true;
}

static int is_there(const char *path) {
    return command_usage("%s is there already; nothing was changed", path);
}

/* Each NAME of an example becomes the guide's own name. */
static struct text named(struct arena *a, const char *start, const char *end,
                         const char *name) {
    struct buf b = buf_in(a);
    while (start < end) {
        const char *at = strstr(start, "NAME");
        if (at == NULL)
            at = end;
        buf_add(&b, start, (size_t)(at - start));
        if (at < end)
            buf_puts(&b, name);
        start = at < end ? at + 4 : end;
    }
    return buf_as_text(&b);
}

static bool make_folder(struct compile *c, const char *path) {
    if (mkdir(path, 0777) == 0)
        return true;
    diag_add(c->diags, DIAG_CANNOT_WRITE, (struct span){0}, "%s: %s", path,
             strerror(errno));
    return false;
}

static const char *path_in(struct compile *c, const char *folder, size_t i) {
    return arena_printf(c->arena, "%s/%s", folder, library[i].path);
}

/* What was made before one could not be is taken away again. */
static bool make_library(struct compile *c, const char *folder) {
    size_t i = 0;
    bool exists = false;
    for (; i < EXAMPLES; i++) {
        const struct example *e = &library[i];
        const char *path = path_in(c, folder, i);
        if (e->start == NULL
                ? !make_folder(c, path)
                : !store_create(c, path, (const unsigned char *)e->start,
                                (size_t)(e->end - e->start), &exists))
            break;
    }
    if (i == EXAMPLES)
        return true;
    while (i-- > 0)
        remove(path_in(c, folder, i));
    remove(folder);
    return false;
}

static int start_library(struct compile *c, const char *name) {
    if (mkdir(name, 0777) != 0) {
        if (errno == EEXIST)
            return is_there(name);
        diag_add(c->diags, DIAG_CANNOT_WRITE, (struct span){0}, "%s: %s", name,
                 strerror(errno));
        return STATUS_SYSTEM;
    }
    if (!make_library(c, name))
        return STATUS_SYSTEM;
    for (size_t i = 0; i < EXAMPLES; i++)
        printf("%s%s\n", path_in(c, name, i),
               library[i].start == NULL ? "/" : "");
    printf("now: cd %s, then bayleaf build\n", name);
    return STATUS_GOOD;
}

static int no_library(void) {
    return command_usage("no library here: a library is a folder with "
                         "procedures/ in it; 'bayleaf start library NAME' "
                         "makes one");
}

static int start_one(struct compile *c, const char *root, const char *name) {
    if (root == NULL)
        return no_library();
    const char *path =
        strcmp(root, ".") == 0
            ? arena_printf(c->arena, "procedures/%s.md", name)
            : arena_printf(c->arena, "%s/procedures/%s.md", root, name);
    struct text t = named(c->arena, start_guide, start_guide_end, name);
    bool exists = false;
    if (!store_create(c, path, (const unsigned char *)t.start, t.len, &exists))
        return exists ? is_there(path) : STATUS_SYSTEM;
    printf("%s\nnow: bayleaf build %s\n", path, name);
    return STATUS_GOOD;
}

/* --- a job --- */

static bool ends_in(struct text t, const char *word) {
    size_t len = strlen(word);
    return t.len > len && t.start[t.len - len - 1] == '.' &&
           text_is(text_part(t, t.len - len, t.len), word);
}

/* What may be measured on one vehicle: facts and figures of supplies and loads;
 * of runs and fuses how long and how hot, the rest is what is fitted. */
static bool is_measured(const struct named *n) {
    enum kind_id kind = n->block->kind->id;
    if (n->name.len == 0 || n->name.start[0] == '.')
        return false;
    if (kind == KIND_WIRE || kind == KIND_FUSE)
        return ends_in(n->name, "ambient") || ends_in(n->name, "length");
    return kind == KIND_FACTS || kind == KIND_VALUES || kind == KIND_SUPPLY ||
           kind == KIND_LOAD;
}

/* The figure of the first variant; NULL: a job sets something else. */
static const struct quantity *settable(const struct named *n, size_t variant) {
    const struct value *value = &n->by_variant[variant];
    return is_measured(n) && !n->computed && value->type == VALUE_QUANTITY &&
                   value->quantity->op == QUANTITY_ROOT
               ? value->quantity
               : NULL;
}

/* With blanks as a keyboard makes them. */
static const char *typed(struct arena *a, const char *figure) {
    struct buf b = buf_in(a);
    for (const char *s = figure; *s != '\0'; s++) {
        bool fixed = s[0] == '\xC2' && s[1] == '\xA0';
        buf_add(&b, fixed ? " " : s, 1);
        s += fixed;
    }
    return buf_cstr(&b);
}

/* As remarks in the block, with the figures of others of its sort. */
static void add_settable(struct buf *b, struct arena *a, struct values *v) {
    size_t variant = values_first(v);
    buf_puts(b, "# What was measured on this vehicle; without # it counts, and "
                "how it was measured\n# may stand in quotes behind it.\n");
    for (size_t i = 0; i < values_count(v); i++) {
        const struct named *n = values_at(v, i);
        const struct quantity *q = settable(n, variant);
        bool limit;
        if (q == NULL || job_maker_use(v, q, variant, &limit) != NULL)
            continue;
        buf_printf(b, "# set: %.*s = %s", (int)n->name.len, n->name.start,
                   typed(a, figure_of(a, q, FIGURE_PLAIN)));
        const struct value *value = &n->by_variant[variant];
        if (value->with != NULL) /* 17.6 A at 13.2 V */
            buf_printf(b, " %s %s", value->joint,
                       typed(a, figure_of(a, value->with, FIGURE_PLAIN)));
        buf_puts(b, "\n");
    }
}

static void add_readings(struct buf *b, const struct guide *g) {
    buf_puts(b, "\nreading | found | left\n");
    for (size_t i = 0; i < g->block_count; i++) {
        const struct block *block = g->blocks[i];
        for (size_t k = 0;
             block->kind->id == KIND_LIMITS && k < block->entry_count; k++) {
            const struct cell *id =
                block->entries[k].kind == ENTRY_ROW
                    ? tree_cell(block, &block->entries[k], "id")
                    : NULL;
            if (id != NULL)
                buf_printf(b, "%.*s | | \n", (int)id->text.len, id->text.start);
        }
    }
}

static struct text job_text(struct arena *a, const struct guidework *w,
                            const char *stem, const char *number) {
    const struct guide *g = w->guide;
    struct buf b = buf_in(a);
    const char *title = typed(a, text_cstr(a, values_title(w->values, a, g)));
    const char *variants =
        values_variant_names(w->values, a, values_applies(w->values));
    buf_printf(&b, "# %s\n\n```job\nnumber: %s\nguide: %s\n", title, number,
               stem);
    const struct entry *revision =
        g->identity == NULL ? NULL : tree_setting(g->identity, "revision");
    if (revision != NULL && revision->choice_count > 0) {
        struct text t = text_trim(revision->choices[0].text);
        buf_printf(&b, "revision: %.*s\n", (int)t.len, t.start);
    }
    if (variants[0] != '\0')
        buf_printf(&b, "variant: one of %s, a year, or the number\n", variants);
    buf_puts(&b, "date: day month year\n"
                 "# vehicle: make, year, plate\n# owner: name\n"
                 "# complaint: what was wrong\n# remarks: for the owner\n"
                 "# parts used: one, another\n# done by: name\n"
                 "# inspected by: name\n# next check: when, and of what\n");
    add_settable(&b, a, w->values);
    add_readings(&b, g);
    buf_puts(&b, "```\n");
    return buf_as_text(&b);
}

static int start_job(struct compile *c, const struct request *r,
                     const char *guide) {
    const char *path = shelf_guide(c->arena, r->root, guide);
    struct guidework *w =
        guidework_run(r->root, path, STAGE_VALUES, &r->layout);
    int status = guidework_status(w);
    if (status != STATUS_GOOD || w->values == NULL)
        diag_print(w->compile.diags, stderr, r->colour);
    const char *stem = shelf_stem(c->arena, path);
    bool made = false, exists = true;
    for (size_t n = 1; status == STATUS_GOOD && exists && !made; n++) {
        const char *number = arena_printf(c->arena, "%s-%zu", stem, n);
        struct text t = job_text(c->arena, w, stem, number);
        const char *file = shelf_job(c->arena, r->root, number);
        made = store_create(c, file, (const unsigned char *)t.start, t.len,
                            &exists);
        if (made)
            printf("%s\nnow: fill it in, then bayleaf sheet %s\n", file,
                   number);
    }
    guidework_end(w);
    return status != STATUS_GOOD ? status : made ? STATUS_GOOD : STATUS_SYSTEM;
}

int command_start(const struct request *r) {
    const char *what = r->word[0], *name = r->word[1];
    bool of_library = strcmp(what, "library") == 0;
    struct compile c = {.arena = r->arena, .diags = diag_new(r->arena)};
    if (strcmp(what, "job") == 0) {
        if (r->root == NULL)
            return no_library();
        int made = start_job(&c, r, name);
        diag_print(c.diags, stderr, r->colour);
        return made;
    }
    if (!of_library && strcmp(what, "guide") != 0)
        return command_usage("start what? one of: library, guide, job");
    if (!is_good_name(name))
        return command_usage("'%s' is no name for a %s: letters, digits, - and "
                             "_, at most %d of them, a letter or digit first",
                             name, what, (int)NAME_MAX_LEN);
    int status =
        of_library ? start_library(&c, name) : start_one(&c, r->root, name);
    diag_print(c.diags, stderr, r->colour);
    return status;
}
