/* fuzz_fleet.c - any bytes as a table of jobs: each row is read, and each that
 * is none has its message. */
#include "base/arena.h"
#include "base/diag.h"
#include "library/fleet.h"
#include "source/job.h"
#include "stages.h"

#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <unistd.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

static const char *table_of(const uint8_t *data, size_t size) {
    static char path[] = "/tmp/fuzz-fleet-XXXXXX";
    static int file = -1;
    if (file < 0)
        file = mkstemp(path);
    if (file < 0 || ftruncate(file, 0) != 0 ||
        pwrite(file, data, size, 0) != (ssize_t)size)
        abort();
    return path;
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size) {
    struct compile c = {.arena = arena_new(), .library = "/nonexistent"};
    c.diags = diag_new(c.arena);
    struct fleet *f = fleet_open(&c, table_of(data, size));
    if (f == NULL && diag_count(c.diags, LEVEL_REFUSED) == 0)
        abort();
    size_t last = 0;
    for (bool end = f == NULL; !end;) {
        struct compile one = {.arena = arena_new(), .library = "/nonexistent"};
        one.diags = diag_new(one.arena);
        size_t row;
        struct source *src = fleet_next(f, &one, &row, &end);
        if (!end && row <= last)
            abort();
        last = row;
        if (src != NULL)
            job_read(&one, src);
        else if (!end && diag_count(one.diags, LEVEL_REFUSED) == 0)
            abort();
        arena_free(one.arena);
    }
    if (f != NULL)
        fleet_close(f);
    arena_free(c.arena);
    return 0;
}
