/* stale.c - PDFs in build/ that say what no guide says any more. */
#include "library/stale.h"

#include "base/arena.h"
#include "library/shelf.h"
#include "source/file.h"

#include <string.h>

/* The hazard catalogue stands among the templates, and is none. */
static bool is_template(const char *root, const char *path) {
    const char *own = shelf_from_root(root, path);
    return strncmp(own, "templates/", strlen("templates/")) == 0 &&
           strcmp(own, "templates/hazards.md") != 0;
}

size_t stale_prints(struct arena *a, const char *root, const char *stem,
                    const char *written, const struct file_reads *of,
                    const char *const **list) {
    int64_t newest = INT64_MIN;
    for (size_t i = 0; i < of->count; i++) {
        const struct file_read *r = &of->list[i];
        if (r->text.start != NULL && !is_template(root, r->path) &&
            r->mark.time > newest)
            newest = r->mark.time;
    }
    const char *const *all;
    size_t count = shelf_pdfs(a, root, stem, &all), old = 0;
    const char **kept = arena_alloc(a, count + 1, sizeof(*kept));
    for (size_t i = 0; i < count; i++) {
        struct file_mark mark;
        if (strcmp(all[i], written) != 0 && file_mark_of(all[i], &mark) &&
            mark.time < newest)
            kept[old++] = all[i];
    }
    *list = kept;
    return old;
}
