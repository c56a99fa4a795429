/* command.h - runs programs and reads files, for tests of the whole program.
 *
 * A header of static functions: each test program is one source file. */
#ifndef COMMAND_H
#define COMMAND_H

#include "base/arena.h"
#include "base/text.h"

#include <fcntl.h>
#include <stdio.h>
#include <sys/wait.h>
#include <unistd.h>

/* Runs argv (argv[0] is a path, or a name found in PATH) in a folder, its two
 * outputs to files. The exit status; 128 and the signal; 125 to 127 when it
 * could not be started. */
static inline int command_run(const char *const *argv, const char *folder,
                              const char *out, const char *err) {
    pid_t child = fork();
    if (child == 0) {
        int in = open("/dev/null", O_RDONLY);
        int to_out = open(out, O_WRONLY | O_CREAT | O_TRUNC, 0666);
        int to_err = open(err, O_WRONLY | O_CREAT | O_TRUNC, 0666);
        if (in < 0 || to_out < 0 || to_err < 0 || dup2(in, 0) < 0 ||
            dup2(to_out, 1) < 0 || dup2(to_err, 2) < 0 || chdir(folder) != 0)
            _exit(126);
        execvp(argv[0], (char *const *)(const void *)argv);
        _exit(127);
    }
    int status = 0;
    if (child < 0 || waitpid(child, &status, 0) < 0)
        return 125;
    return WIFEXITED(status) ? WEXITSTATUS(status) : 128 + WTERMSIG(status);
}

/* The whole file, with a NUL behind; absent when it cannot be read. */
static inline struct text command_read(struct arena *a, const char *path) {
    FILE *f = fopen(path, "rb");
    if (f == NULL)
        return (struct text){0};
    struct buf b = buf_in(a);
    char block[1 << 16];
    size_t got;
    while ((got = fread(block, 1, sizeof block, f)) > 0)
        buf_add(&b, block, got);
    fclose(f);
    return (struct text){buf_cstr(&b), b.len};
}

static inline bool command_write(const char *path, struct text t) {
    FILE *f = fopen(path, "wb");
    if (f == NULL)
        return false;
    bool written = t.len == 0 || fwrite(t.start, 1, t.len, f) == t.len;
    return fclose(f) == 0 && written;
}

#endif
