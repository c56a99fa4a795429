/* jobwalk.c - the job files of the library, one at a time. */
#include "command/jobwalk.h"

#include "base/arena.h"
#include "library/shelf.h"

struct jobwalk jobwalk_start(const struct request *r) {
    struct jobwalk w = {.r = r};
    w.count = shelf_jobs(r->arena, r->root, &w.path);
    return w;
}

bool jobwalk_next(struct jobwalk *w) {
    arena_free(w->job.compile.arena);
    w->job.compile.arena = NULL;
    if (w->next == w->count)
        return false;
    sheetwork_file(w->r, arena_new(), &w->job, w->path[w->next++]);
    return true;
}
