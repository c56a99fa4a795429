/* replay.c - a dumped display list through print/ alone: what a build is
 * measured against (`make bench`).
 *
 *   replay DUMP [COUNT] [-o OUT.pdf]
 *
 * Prints the list COUNT times (1 when absent). With COUNT it says how long one
 * took; without, nothing: the caller times the whole process. */
#include "base/arena.h"
#include "base/diag.h"
#include "base/heap.h"
#include "layout/display.h"
#include "stages.h"

#include <stdlib.h>
#include <string.h>

#include "timing.h"

static struct text read_file(struct arena *a, const char *path) {
    FILE *in = fopen(path, "rb");
    if (in == NULL) {
        perror(path);
        exit(3);
    }
    fseek(in, 0, SEEK_END);
    long size = ftell(in);
    rewind(in);
    char *bytes = arena_alloc(a, size > 0 ? (size_t)size : 1, 1);
    size_t len = fread(bytes, 1, size > 0 ? (size_t)size : 0, in);
    if (ferror(in)) {
        perror(path);
        exit(3);
    }
    fclose(in);
    return (struct text){bytes, len};
}

static void write_file(const char *path, const unsigned char *bytes,
                       size_t len) {
    FILE *out = fopen(path, "wb");
    if (out == NULL || fwrite(bytes, 1, len, out) != len || fclose(out) != 0) {
        perror(path);
        exit(3);
    }
}

/* Prints once, in an arena of its own, as each guide has one. */
static void print_once(const struct pages *pages, const char *out) {
    struct arena *a = arena_new();
    struct compile c = {.arena = a, .diags = diag_new(a), .library = "."};
    size_t len = 0;
    const unsigned char *bytes = print_pdf(&c, pages, &len);
    if (bytes == NULL) {
        diag_print(c.diags, stderr, false);
        exit(diag_status(c.diags));
    }
    if (out != NULL)
        write_file(out, bytes, len);
    arena_free(a);
}

int main(int argc, char **argv) {
    heap_keep(); /* as the program does */
    void *gap = heap_large_pages(12 << 20);
    const char *dump = NULL, *out = NULL, *count_text = NULL;
    for (int i = 1; i < argc; i++) {
        if (strcmp(argv[i], "-o") == 0 && i + 1 < argc)
            out = argv[++i];
        else if (dump == NULL)
            dump = argv[i];
        else
            count_text = argv[i];
    }
    long count = count_text == NULL ? 1 : strtol(count_text, NULL, 10);
    if (dump == NULL || count < 1) {
        fputs("usage: replay DUMP [COUNT] [-o OUT.pdf]\n", stderr);
        return 2;
    }
    struct arena *a = arena_new();
    size_t line = 0;
    const struct pages *pages = display_read(a, read_file(a, dump), &line);
    if (pages == NULL) {
        fprintf(stderr, "%s:%zu: error: not a full display list\n", dump, line);
        return 2;
    }
    double start = now_ms();
    for (long i = 0; i < count; i++)
        print_once(pages, i == 0 ? out : NULL);
    if (count_text != NULL)
        printf("%.3f ms\n", (now_ms() - start) / (double)count);
    arena_free(a);
    free(gap);
    return 0;
}
