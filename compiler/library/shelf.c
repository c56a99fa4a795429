/* shelf.c - the folders of a library: where guides lie and PDFs go. */
#include "library/shelf.h"

#include "base/arena.h"
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
    return arena_copy(a, guide, (size_t)(found - guide) - 1);
}

static bool ends_in_md(const char *path) {
    size_t len = strlen(path);
    return len > 3 && strcmp(path + len - 3, ".md") == 0;
}

const char *shelf_guide(struct arena *a, const char *root, const char *guide) {
    if (ends_in_md(guide) || strchr(guide, '/') != NULL)
        return guide;
    const char *path =
        strcmp(root, ".") == 0
            ? arena_printf(a, "procedures/%s.md", guide)
            : arena_printf(a, "%s/procedures/%s.md", root, guide);
    return !exists(path) && exists(guide) && !is_folder(guide) ? guide : path;
}

static int by_name(const void *left, const void *right) {
    const char *const *a = left, *const *b = right;
    return strcmp(*a, *b);
}

size_t shelf_guides(struct arena *a, const char *root,
                    const char *const **list) {
    const char *folder = strcmp(root, ".") == 0
                             ? "procedures"
                             : arena_printf(a, "%s/procedures", root);
    const char **names = NULL;
    size_t count = 0, room = 0;
    DIR *dir = opendir(folder);
    struct dirent *entry;
    while (dir != NULL && (entry = readdir(dir)) != NULL) {
        if (entry->d_name[0] == '.' || !ends_in_md(entry->d_name))
            continue;
        if (count == room) {
            size_t more = room == 0 ? 16 : room * 2;
            names = arena_grow(a, names, count, more, sizeof(*names));
            room = more;
        }
        names[count++] = arena_printf(a, "%s/%s", folder, entry->d_name);
    }
    if (dir != NULL)
        closedir(dir);
    if (count > 1)
        qsort(names, count, sizeof(*names), by_name);
    *list = (const char *const *)names;
    return count;
}

const char *shelf_stem(struct arena *a, const char *guide) {
    const char *slash = strrchr(guide, '/');
    const char *name = slash == NULL ? guide : slash + 1;
    size_t len = strlen(name);
    return arena_copy(a, name, ends_in_md(name) ? len - 3 : len);
}

const char *shelf_pdf(struct arena *a, const char *root, const char *stem) {
    if (strcmp(root, ".") == 0)
        return arena_printf(a, "build/%s.pdf", stem);
    return arena_printf(a, "%s/build/%s.pdf", root, stem);
}
