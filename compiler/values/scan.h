/* scan.h - a cursor over the text of one value, and its messages. */
#ifndef SCAN_H
#define SCAN_H

#include "base/diag.h"
#include "base/text.h"

#include <stdbool.h>
#include <stddef.h>

struct scan {
    struct text text; /* a slice of src, or text made by the compiler */
    size_t at;
    const struct source *src; /* NULL: the text stands nowhere, use `near` */
    struct span near;
    struct diags *diags;
    struct arena *arena;
    bool failed; /* a message was given */
};

void scan_blanks(struct scan *s);     /* line ends are blanks */
bool scan_end(struct scan *s);        /* after blanks */
char scan_peek(const struct scan *s); /* the byte at the cursor, or 0 */
/* After blanks: the literal text, taken when it is there. */
bool scan_take(struct scan *s, const char *token);
/* After blanks: a whole word (a blank, bracket or the end behind it). */
bool scan_take_word(struct scan *s, const char *word);
/* After blanks: an operator with blanks around it. */
bool scan_take_operator(struct scan *s, const char *operator);
/* After blanks: the run up to a blank, parenthesis, comma or `^`; not taken. */
struct text scan_word(struct scan *s);
/* After blanks: a digit, or a minus sign with a digit behind it. */
bool scan_at_number(struct scan *s);
struct span scan_span(const struct scan *s, size_t from, size_t to);
/* Gives the message once for this text; later ones would only repeat it. */
void scan_fail(struct scan *s, enum diag_id id, size_t from, size_t to,
               const char *detail, ...) __attribute__((format(printf, 5, 6)));

#endif
