/* command_start.c - start: a library or a guide to begin with.
 *
 * The examples stand in templates/start, and a test builds them. A library gets
 * no hazard catalogue of its own: the one that is linked in follows the
 * program, a copy would stay as it was. */
#include "base/arena.h"
#include "base/diag.h"
#include "command/command.h"
#include "library/store.h"
#include "stages.h"

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

static int start_one(struct compile *c, const char *root, const char *name) {
    if (root == NULL)
        return command_usage("no library here: a library is a folder with "
                             "procedures/ in it; 'bayleaf start library NAME' "
                             "makes one");
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

int command_start(const struct request *r) {
    const char *what = r->word[0], *name = r->word[1];
    bool of_library = strcmp(what, "library") == 0;
    if (!of_library && strcmp(what, "guide") != 0)
        return command_usage("start what? one of: library, guide");
    if (!is_good_name(name))
        return command_usage("'%s' is no name for a %s: letters, digits, - and "
                             "_, at most %d of them, a letter or digit first",
                             name, what, (int)NAME_MAX_LEN);
    struct compile c = {.arena = r->arena, .diags = diag_new(r->arena)};
    int status =
        of_library ? start_library(&c, name) : start_one(&c, r->root, name);
    diag_print(c.diags, stderr, r->colour);
    return status;
}
