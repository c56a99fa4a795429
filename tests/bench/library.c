/* library.c - how long a library takes: guides built, guides that are as they
 * were, sheets of a fleet; at 10, 100, 1,000 (and 10,000 rows), with the
 * exponent of the growth: 1 is in proportion. Of a fleet the most memory that
 * was resident, too, and from 1,000 rows on, when all that a run keeps of
 * shaping is full or nearly so, how much each row more adds to it. */
#define _DEFAULT_SOURCE /* wait4: the memory of one child, not of the largest  \
                         */
#include <fcntl.h>
#include <limits.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include "timing.h"

#define ROOM BUILD "/bench-library"

static char program[PATH_MAX + 64];
static char room[PATH_MAX + 64];
static double resident_kb; /* at most, of the last child */

static void fail(const char *what) {
    fprintf(stderr, "bench: %s\n", what);
    exit(1);
}

/* In the room; milliseconds. */
static double run(const char *const *argv) {
    double start = now_ms();
    pid_t child = fork();
    if (child == 0) {
        int to = open("/dev/null", O_WRONLY);
        if (to < 0 || dup2(to, 1) < 0 || chdir(room) != 0)
            _exit(126);
        execv(argv[0], (char *const *)(const void *)argv);
        _exit(127);
    }
    int status = 0;
    struct rusage used;
    if (child < 0 || wait4(child, &status, 0, &used) < 0 || status != 0)
        fail(argv[0]);
    resident_kb = (double)used.ru_maxrss;
    return now_ms() - start;
}

static double shell(const char *words) {
    const char *argv[] = {"/bin/sh", "-c", words, NULL};
    return run(argv);
}

static void new_room(void) {
    char words[3 * PATH_MAX];
    mkdir(ROOM, 0777);
    if (realpath(ROOM, room) == NULL)
        fail(ROOM);
    snprintf(words, sizeof words,
             "rm -rf procedures templates build; mkdir build; "
             "cp -r ../../procedures ../../templates .; "
             "find procedures templates -exec touch -d 2025-01-01 {} +");
    shell(words);
}

static void report(const char *what, size_t count, double ms, double before) {
    printf("%-26s %6zu %10.1f ms %8.2f ms each %9.0f a second", what, count, ms,
           ms / (double)count, 1000 * (double)count / ms);
    if (before > 0)
        printf("  exponent %.2f", log10(ms / before));
    puts("");
}

static void guides(void) {
    double cold = 0, warm = 0;
    for (size_t count = 10; count <= 1000; count *= 10) {
        char words[256];
        const char *build[] = {program, "build", NULL};
        new_room();
        snprintf(words, sizeof words,
                 "cd procedures; for i in $(seq %zu); do sed \"s/^id: .*/id: "
                 "W-$i/\" "
                 "wheel-fitting.md >../w$i.md; done; rm *.md; "
                 "touch -d 2025-01-01 ../w*.md; mv ../w*.md .",
                 count);
        shell(words);
        double ms = run(build);
        report("guides built", count, ms, cold);
        cold = ms;
        ms = run(build);
        report("guides as they were", count, ms, warm);
        warm = ms;
    }
}

static void write_fleet(size_t count) {
    char path[PATH_MAX + 128];
    snprintf(path, sizeof path, "%s/fleet.csv", room);
    FILE *f = fopen(path, "w");
    if (f == NULL)
        fail(path);
    fputs("number,guide,variant,vehicle,owner,date,set pump.run,R1 found,R1 "
          "left\n",
          f);
    for (size_t i = 1; i <= count; i++)
        fprintf(f,
                "N-%zu,water-pump-circuit,mark 1,\"Fen, unit %zu\",A. "
                "Hirer,26 November 2025,4.2 m,%zu.%zu V,0.%zu V\n",
                i, i, 2 + i % 2, i % 10, 40 + i % 30);
    fclose(f);
}

static void fleets(size_t most) {
    double before = 0, memory = 0;
    for (size_t count = 10; count <= most; count *= 10) {
        const char *sheet[] = {program, "sheet", "--from=fleet.csv", NULL};
        new_room();
        write_fleet(count);
        double ms = run(sheet);
        report("sheets of a fleet", count, ms, before);
        printf("%-26s %6.1f MiB resident at most", "", resident_kb / 1024);
        if (count > 1000)
            printf(", %.0f bytes a row more",
                   (resident_kb - memory) * 1024 / (0.9 * (double)count));
        puts("");
        before = ms;
        memory = resident_kb;
    }
}

int main(int argc, char **argv) {
    static char here[PATH_MAX];
    if (getcwd(here, sizeof here) == NULL)
        return 1;
    snprintf(program, sizeof program, "%s/" BUILD "/bayleaf", here);
    guides();
    fleets(argc > 1 ? (size_t)atol(argv[1]) : 1000);
    shell("rm -rf procedures templates build");
    return 0;
}
