#define _GNU_SOURCE /* wait4(), sched_setaffinity() */
/* bench.c - how long a guide takes, beside its own pages drawn again.
 *
 * `replay` draws a dumped display list through print/ alone: what it takes is
 * the floor, so the ratios tell what reading, evaluating, checking and laying
 * out add. Both are timed in turn in the same run, since the clock of a shared
 * machine wanders; medians are printed. A cold figure is a whole process, start
 * and end included; the others are per guide over COPIES guides in one process:
 * on one processor, and on all of them, which the replay never uses. */
#include <fcntl.h>
#include <limits.h>
#include <sched.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include "timing.h"

#define LIBRARY BUILD "/bench"

enum { COPIES = 200, COLD_RUNS = 41, WARM_RUNS = 5 };

/* One of nine pages, and the one with most. */
static const char *const guides[] = {"water-pump-circuit", "headlamp-relay"};

static char here[PATH_MAX], program[PATH_MAX + 64], replay[PATH_MAX + 64];

static double largest_mb; /* of the processes that were timed last */

static bool one_processor; /* for the processes that are timed */

static void stay_on_one(void) {
    cpu_set_t set;
    if (sched_getaffinity(0, sizeof set, &set) != 0)
        return;
    size_t first = 0;
    while (first < CPU_SETSIZE && !CPU_ISSET(first, &set))
        first++;
    CPU_ZERO(&set);
    CPU_SET(first, &set);
    sched_setaffinity(0, sizeof set, &set);
}

/* Runs argv in the bench library with stdout to a file; milliseconds. */
static double run(const char *const *argv, const char *out) {
    unlink("build/index.txt"); /* nothing stands as it was */
    double start = now_ms();
    pid_t child = fork();
    if (child == 0) {
        int to = open(out, O_WRONLY | O_CREAT | O_TRUNC, 0666);
        if (to < 0 || dup2(to, 1) < 0)
            _exit(126);
        if (one_processor)
            stay_on_one();
        execv(argv[0], (char *const *)(const void *)argv);
        _exit(127);
    }
    int status = 0;
    struct rusage used = {0};
    if (child < 0 || wait4(child, &status, 0, &used) < 0 || status != 0) {
        fprintf(stderr, "bench: %s failed\n", argv[0]);
        exit(1);
    }
    largest_mb = (double)used.ru_maxrss / 1024;
    return now_ms() - start;
}

/* The library, copied, with the guide COPIES times under names of its own. */
static void make_library(const char *guide) {
    const char *remove[] = {"/bin/rm", "-rf", LIBRARY, NULL};
    run(remove, "/dev/null");
    mkdir(LIBRARY, 0777);
    const char *copy[] = {"/bin/cp",   "-r",    "procedures",
                          "templates", LIBRARY, NULL};
    run(copy, "/dev/null");
    static char text[1 << 20];
    char original[PATH_MAX];
    snprintf(original, sizeof original, "procedures/%s.md", guide);
    FILE *in = fopen(original, "rb");
    size_t len = in != NULL ? fread(text, 1, sizeof text, in) : 0;
    if (in != NULL)
        fclose(in);
    for (int i = 0; i < COPIES; i++) {
        char path[PATH_MAX];
        snprintf(path, sizeof path, LIBRARY "/procedures/copy-%03d.md", i);
        FILE *f = fopen(path, "wb");
        char *id = strstr(text, "\nid: "); /* each has a number of its own */
        size_t head = id == NULL ? 0 : (size_t)(id - text);
        size_t tail = head + 1 + strcspn(text + head + 1, "\n");
        if (id == NULL || f == NULL || fwrite(text, 1, head, f) != head ||
            fprintf(f, "\nid: CP-%03d", i) < 0 ||
            fwrite(text + tail, 1, len - tail, f) != len - tail ||
            fclose(f) != 0) {
            fprintf(stderr, "bench: cannot write %s\n", path);
            exit(1);
        }
    }
}

static void report(const char *what, double build, double again) {
    printf("%-44s %8.2f ms %8.2f ms %6.2f\n", what, build, again,
           build / again);
}

static double size_kb(const char *path) {
    struct stat s;
    return stat(path, &s) == 0 ? (double)s.st_size / 1000 : 0;
}

/* The same words, a paragraph for each run of text, by groff, where it has its
 * PDF device. */
static void report_groff(const char *display, double build) {
    const char *words[] = {"/bin/sed", "-n",
                           "s/^text [^\"]*\"\\(.*\\)\" .*glyphs.*/.PP\\n\\1/p",
                           display, NULL};
    const char *set[] = {"/usr/bin/groff", "-k",       "-ms",
                         "-Tpdf",          "words.ms", NULL};
    double ms[7];
    if (access("/usr/bin/groff", X_OK) != 0 ||
        access("/usr/share/groff/current/font/devpdf/DESC", R_OK) != 0)
        return;
    run(words, "words.ms");
    for (size_t i = 0; i < 7; i++)
        ms[i] = run(set, "/dev/null");
    report("a cold process beside groff -Tpdf", build, median(ms, 7));
}

static void bench_guide(const char *guide) {
    static char name[COPIES][64], source[64], pdf[64];
    const char *many[COPIES + 3] = {program, "build"};
    make_library(guide);
    if (chdir(LIBRARY) != 0)
        exit(1);
    for (int i = 0; i < COPIES; i++) {
        snprintf(name[i], sizeof name[i], "procedures/copy-%03d.md", i);
        many[i + 2] = name[i];
    }
    char count[16];
    snprintf(count, sizeof count, "%d", COPIES);
    snprintf(source, sizeof source, "procedures/%s.md", guide);
    snprintf(pdf, sizeof pdf, "build/%s.pdf", guide);
    const char *one[] = {program, "build", source, NULL};
    const char *dump[] = {program, "dump", "display", source, NULL};
    const char *replay_one[] = {replay, "display", NULL};
    const char *replay_many[] = {replay, "display", count, NULL};
    run(dump, "display");
    run(one, "/dev/null"); /* the file stands from now on */
    double cold[COLD_RUNS], cold_replay[COLD_RUNS];
    for (size_t i = 0; i < COLD_RUNS; i++) {
        cold[i] = run(one, "/dev/null");
        cold_replay[i] = run(replay_one, "/dev/null");
    }
    run(one, "/dev/null");
    double one_mb = largest_mb;
    double warm[WARM_RUNS], all[WARM_RUNS], warm_replay[WARM_RUNS];
    for (size_t i = 0; i < WARM_RUNS; i++) {
        one_processor = true;
        warm[i] = run(many, "/dev/null") / COPIES;
        warm_replay[i] = run(replay_many, "/dev/null") / COPIES;
        one_processor = false;
        all[i] = run(many, "/dev/null") / COPIES;
    }
    printf("%-44s %11s %11s %6s\n", source + strlen("procedures/"), "build",
           "replay", "ratio");
    report("a cold process", median(cold, COLD_RUNS),
           median(cold_replay, COLD_RUNS));
    report("the fastest of 41", cold[0], cold_replay[0]); /* median() sorts */
    double again = median(warm_replay, WARM_RUNS);
    report("per guide, 200 in a process, one processor",
           median(warm, WARM_RUNS), again);
    char what[64];
    snprintf(what, sizeof what, "per guide, 200 in a process, %ld processors",
             sysconf(_SC_NPROCESSORS_ONLN));
    report(what, median(all, WARM_RUNS), again);
    report_groff("display", median(cold, COLD_RUNS));
    printf("%.1f MiB of memory, file of %.1f kB\n", one_mb, size_kb(pdf));
    if (chdir(here) != 0)
        exit(1);
}

int main(void) {
    if (getcwd(here, sizeof here) == NULL)
        return 1;
    snprintf(program, sizeof program, "%s/" BUILD "/bayleaf", here);
    snprintf(replay, sizeof replay, "%s/" BUILD "/tests/bench/replay", here);
    for (size_t i = 0; i < sizeof guides / sizeof guides[0]; i++)
        bench_guide(guides[i]);
    return 0;
}
