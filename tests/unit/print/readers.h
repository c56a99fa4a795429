/* readers.h - other people's readers of PDF files, on a file named FILE_STEM,
 * which the test program defines. */
#ifndef TEST_READERS_H
#define TEST_READERS_H

#include "unit/print/sheet.h"

#include <sys/wait.h>

/* What a command says; its exit status must be 0. `errors`: what it says on
 * the standard error must be nothing. */
static inline const char *run(struct sheet *s, const char *command) {
    struct buf out = buf_in(s->arena);
    FILE *in = popen(command, "r");
    char part[4096];
    size_t len;
    assert_non_null(in);
    while ((len = fread(part, 1, sizeof part, in)) > 0)
        buf_add(&out, part, len);
    int status = pclose(in);
    if (!WIFEXITED(status) || WEXITSTATUS(status) != 0)
        fail_msg("%s: %s", command, buf_cstr(&out));
    return buf_cstr(&out);
}

/* Writes the file, and asks each reader whether anything is wrong with it. */
static inline void check_readers(struct sheet *s) {
    static const char *const silent[] = {
        "pdftotext " FILE_STEM ".pdf - 2>&1 >/dev/null",
        "pdffonts " FILE_STEM ".pdf 2>&1 >/dev/null",
        "pdfinfo -struct " FILE_STEM ".pdf 2>&1 >/dev/null",
        "pdftoppm -r 40 " FILE_STEM ".pdf 2>&1 >/dev/null",
    };
    FILE *out = fopen(FILE_STEM ".pdf", "wb");
    assert_non_null(out);
    assert_int_equal(fwrite(s->bytes, 1, s->len, out), s->len);
    assert_int_equal(fclose(out), 0);
    const char *verdict = run(s, "qpdf --check " FILE_STEM ".pdf 2>&1");
    assert_non_null(strstr(verdict, "No syntax or stream encoding errors"));
    assert_null(strstr(verdict, "WARNING"));
    for (size_t i = 0; i < sizeof silent / sizeof *silent; i++)
        assert_string_equal(run(s, silent[i]), "");
}

/* Two more that share no code with poppler and qpdf; slow to start. Debian's
 * mupdf always says that it does no ICC colours. */
static inline void check_other_readers(struct sheet *s) {
    assert_string_equal(run(s, "mutool draw -F txt -o /dev/null " FILE_STEM
                               ".pdf 2>&1 | grep -v -e '^page ' -e 'warning: "
                               "ICC support is not available' || true"),
                        "");
    assert_string_equal(
        run(s,
            "gs -q -dNOPAUSE -dBATCH -sDEVICE=nullpage " FILE_STEM ".pdf 2>&1"),
        "");
}

#endif
