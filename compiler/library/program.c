/* program.c - which program runs here: its files and those of its libraries. */
#include "library/program.h"

#include "base/arena.h"
#include "base/list.h"
#include "source/file.h"

#include <inttypes.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static int by_words(const void *left, const void *right) {
    const char *const *a = left, *const *b = right;
    return strcmp(*a, *b);
}

bool program_running(struct arena *a, char hash[DIGEST_HEX]) {
    FILE *maps = fopen("/proc/self/maps", "r");
    char line[4096];
    const char **used = NULL;
    size_t count = 0, room = 0;
    if (maps == NULL)
        return false;
    while (fgets(line, sizeof line, maps) != NULL) {
        char *path = strchr(line, '/');
        if (path == NULL)
            continue;
        path[strcspn(path, "\n")] = '\0';
        used = list_grown(a, used, count, &room, sizeof *used);
        used[count++] = arena_copy(a, path, strlen(path));
    }
    fclose(maps);
    if (count == 0)
        return false;
    qsort(used, count, sizeof *used, by_words);
    struct buf all = buf_in(a);
    for (size_t i = 0; i < count; i++) {
        struct file_mark m;
        if ((i == 0 || strcmp(used[i], used[i - 1]) != 0) &&
            file_mark_of(used[i], &m))
            buf_printf(&all, "%s %" PRIu64 " %" PRIu64 " %" PRId64 "\n",
                       used[i], m.number, m.size, m.time);
    }
    digest_hex(all.bytes, all.len, hash);
    return all.len > 0;
}
