/* shelf.c - the folders of a library: where guides lie and PDFs go. */
#include "library/shelf.h"

#include "base/arena.h"
#include "base/list.h"
#include "base/text.h"

#include <dirent.h>
#include <stdbool.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

static bool is_folder(const char *path) {
    struct stat status;
    return stat(path, &status) == 0 && S_ISDIR(status.st_mode);
}

static bool exists(const char *path) {
    struct stat status;
    return lstat(path, &status) == 0;
}

static bool same_folder(const char *a, const char *b) {
    struct stat one, two;
    return stat(a, &one) == 0 && stat(b, &two) == 0 &&
           one.st_dev == two.st_dev && one.st_ino == two.st_ino;
}

const char *shelf_root(struct arena *a) {
    const char *here = ".";
    for (int depth = 0; depth < 64; depth++) {
        if (is_folder(arena_printf(a, "%s/procedures", here)))
            return here;
        const char *above = depth == 0 ? ".." : arena_printf(a, "%s/..", here);
        if (same_folder(here, above))
            return NULL; /* the root of the file system */
        here = above;
    }
    return NULL;
}

const char *shelf_root_of(struct arena *a, const char *root,
                          const char *guide) {
    static const char folder[] = "procedures/";
    const char *found = NULL;
    for (const char *s = guide; (s = strstr(s, folder)) != NULL; s++)
        if (s == guide || s[-1] == '/')
            found = s;
    if (found == NULL)
        return root;
    if (found == guide)
        return ".";
    if (found == guide + 1)
        return "/";
    return arena_copy(a, guide, (size_t)(found - guide) - 1);
}

const char *shelf_place(struct arena *a, const char *root, const char *path) {
    return strcmp(root, ".") == 0 ? path : arena_printf(a, "%s/%s", root, path);
}

const char *shelf_from_root(const char *root, const char *path) {
    size_t len = strlen(root);
    if (strncmp(path, root, len) == 0 && path[len] == '/')
        path += len + 1;
    return strncmp(path, "./", 2) == 0 ? path + 2 : path;
}

static bool ends_in(const char *path, const char *ending) {
    size_t len = strlen(path), last = strlen(ending);
    return len > last && strcmp(path + len - last, ending) == 0;
}

static bool ends_in_md(const char *path) {
    return ends_in(path, ".md");
}

/* As it was written where that is a file, else in a folder of the library. */
static const char *source_in(struct arena *a, const char *root,
                             const char *folder, const char *name) {
    if (ends_in_md(name) || strchr(name, '/') != NULL)
        return name;
    const char *path =
        shelf_place(a, root, arena_printf(a, "%s/%s.md", folder, name));
    return !exists(path) && exists(name) && !is_folder(name) ? name : path;
}

const char *shelf_guide(struct arena *a, const char *root, const char *guide) {
    return source_in(a, root, "procedures", guide);
}

const char *shelf_job(struct arena *a, const char *root, const char *job) {
    return source_in(a, root, "procedures/jobs", job);
}

static int by_name(const void *left, const void *right) {
    const char *const *a = left, *const *b = right;
    return strcmp(*a, *b);
}

/* Names of a folder, in a list that grows. */
struct names {
    struct arena *arena;
    const char **list;
    size_t count, room;
};

static void add_name(struct names *n, const char *name) {
    n->list =
        list_grown(n->arena, n->list, n->count, &n->room, sizeof(*n->list));
    n->list[n->count++] = name;
}

static size_t finish(const struct names *n, const char *const **list) {
    if (n->count > 1)
        qsort(n->list, n->count, sizeof(*n->list), by_name);
    *list = (const char *const *)n->list;
    return n->count;
}

static size_t sources_in(struct arena *a, const char *root, const char *where,
                         const char *ending, const char *const **list) {
    const char *folder = shelf_place(a, root, where);
    struct names names = {.arena = a};
    DIR *dir = opendir(folder);
    struct dirent *entry;
    while (dir != NULL && (entry = readdir(dir)) != NULL)
        if (entry->d_name[0] != '.' && ends_in(entry->d_name, ending))
            add_name(&names, arena_printf(a, "%s/%s", folder, entry->d_name));
    if (dir != NULL)
        closedir(dir);
    return finish(&names, list);
}

size_t shelf_guides(struct arena *a, const char *root,
                    const char *const **list) {
    return sources_in(a, root, "procedures", ".md", list);
}

size_t shelf_jobs(struct arena *a, const char *root, const char *const **list) {
    return sources_in(a, root, "procedures/jobs", ".md", list);
}

const char *shelf_fleet(struct arena *a, const char *root, const char *fleet) {
    const char *path =
        shelf_place(a, root, arena_printf(a, "procedures/jobs/%s", fleet));
    bool here = exists(fleet) || strchr(fleet, '/') != NULL;
    return here || !exists(path) ? fleet : path;
}

size_t shelf_fleets(struct arena *a, const char *root,
                    const char *const **list) {
    return sources_in(a, root, "procedures/jobs", ".csv", list);
}

size_t shelf_templates(struct arena *a, const char *root,
                       const char *const **list) {
    return sources_in(a, root, "templates", ".md", list);
}

const char *shelf_stem(struct arena *a, const char *guide) {
    const char *slash = strrchr(guide, '/');
    const char *name = slash == NULL ? guide : slash + 1;
    size_t len = strlen(name);
    return arena_copy(a, name, ends_in_md(name) ? len - 3 : len);
}

const char *shelf_pdf(struct arena *a, const char *root, const char *stem,
                      const char *template) {
    bool usual = template == NULL || strcmp(template, "shop") == 0;
    return arena_printf(a, "%s/%s%s%s.pdf", shelf_place(a, root, "build"), stem,
                        usual ? "" : ".", usual ? "" : template);
}

const char *shelf_sheet(struct arena *a, const char *root, const char *stem,
                        const char *template) {
    bool usual = template == NULL || strcmp(template, "owner") == 0;
    return arena_printf(a, "%s/%s%s%s.pdf", shelf_place(a, root, "build/jobs"),
                        stem, usual ? "" : ".", usual ? "" : template);
}

/* STEM.pdf, STEM.TEMPLATE.pdf, STEM.VEHICLE.pdf or both behind one another, and
 * not that of a guide STEM.TEMPLATE. */
static bool is_pdf_of(struct arena *a, const char *root, const char *stem,
                      const char *name) {
    size_t len = strlen(name), head = strlen(stem);
    if (len < head + 4 || strncmp(name, stem, head) != 0 ||
        strcmp(name + len - 4, ".pdf") != 0 || name[head] != '.')
        return false;
    size_t dots = 0;
    for (size_t i = head + 1; i < len; i++) {
        if (name[i] != '.')
            continue;
        const char *other = arena_printf(a, "procedures/%.*s.md", (int)i, name);
        if (++dots > 2 || exists(shelf_place(a, root, other)))
            return false;
    }
    return true;
}

size_t shelf_pdfs(struct arena *a, const char *root, const char *stem,
                  const char *const **list) {
    const char *folder = shelf_place(a, root, "build");
    struct names names = {.arena = a};
    DIR *dir = opendir(folder);
    struct dirent *entry;
    while (dir != NULL && (entry = readdir(dir)) != NULL)
        if (is_pdf_of(a, root, stem, entry->d_name))
            add_name(&names, arena_printf(a, "%s/%s", folder, entry->d_name));
    if (dir != NULL)
        closedir(dir);
    return finish(&names, list);
}
