/* slip.c - lines of running text that Markdown takes for something else than
 * was meant.
 *
 *   2 Bolt on.       a step of its own, were it "2. Bolt on."
 *   2.Bolt on.       the same
 *   --- | ---        the line below the head of a table */
#include "source/slip.h"

#include "base/diag.h"
#include "calc/unit.h"
#include "stages.h"

static bool is_digit(char c) {
    return c >= '0' && c <= '9';
}

static bool is_letter(char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
}

bool slip_is_rule(struct text line) {
    size_t dashes = 0, bars = 0;
    line = text_trim(line);
    for (size_t i = 0; i < line.len; i++) {
        char c = line.start[i];
        dashes += c == '-';
        bars += c == '|';
        if (c != '-' && c != '|' && c != ':' && c != ' ')
            return false;
    }
    return dashes >= 3 && bars > 0;
}

/* The start of a line that could be meant as one of a step. */
struct start {
    struct text line; /* without blanks in front */
    size_t indent;
    size_t digits; /* 0: it is none */
    long number;
    bool sign; /* a point or parenthesis stands behind, and no blank */
};

/* The word behind the number; a unit makes it a quantity: 30 A fuse. */
static bool begins_word(struct text t) {
    size_t end = 0;
    while (end < t.len && is_letter(t.start[end]))
        end++;
    return end > 1 && unit_find(t.start, end) == NULL;
}

static struct start start_of(struct text line) {
    struct start s = {.line = line};
    while (s.indent < line.len && line.start[s.indent] == ' ')
        s.indent++;
    s.line = text_trim(line);
    size_t n = 0;
    while (n < s.line.len && n < 4 && is_digit(s.line.start[n]))
        s.number = s.number * 10 + (s.line.start[n++] - '0');
    if (n == 0 || n > 3 || n == s.line.len)
        return s;
    char c = s.line.start[n];
    s.sign = c == '.' || c == ')';
    if (!s.sign && c != ' ')
        return s;
    struct text rest = text_part(s.line, n + 1, s.line.len);
    bool capital = rest.len > 0 && rest.start[0] >= 'A' && rest.start[0] <= 'Z';
    if (begins_word(rest) && (s.sign || capital))
        s.digits = n;
    return s;
}

/* As written at the start of a step; -1: none. */
static long written_number(const struct node *step) {
    struct text t = place_text(step->at);
    struct start s = {0};
    for (size_t i = 0; i < t.len && i < 9 && is_digit(t.start[i]); i++) {
        s.number = s.number * 10 + (t.start[i] - '0');
        s.digits++;
    }
    return s.digits == 0 ? -1 : s.number;
}

static void report_step(struct compile *c, struct span at,
                        const struct start *s) {
    diag_add(
        c->diags, DIAG_STEP_FORM, at,
        "write '%ld. ' with a point and a blank; indent a line that goes on",
        s->number);
}

/* The number that stands before these lines: of the step that they are in, or
 * of the last one above. */
static long number_before(const struct node *n, const struct node *before) {
    const struct node *step = n->parent;
    if (step != NULL && step->kind == NODE_STEP)
        return written_number(step);
    if (before != NULL && before->kind == NODE_STEPS && before->last != NULL)
        return written_number(before->last);
    return -1;
}

void slip_check(struct compile *c, const struct node *n,
                const struct node *before) {
    struct text t = place_text(n->at);
    long above = number_before(n, before);
    bool in_step = n->parent != NULL && n->parent->kind == NODE_STEP;
    size_t margin =
        in_step ? place_position(n->at.src, n->parent->at.start).column : 1;
    if (n->parent != NULL && n->parent->kind == NODE_BULLET)
        return;
    for (size_t from = 0, line = 0; from < t.len; line++) {
        size_t end = from;
        while (end < t.len && t.start[end] != '\n')
            end++;
        struct text one = text_part(t, from, end);
        struct span at = {n->at.src, n->at.start + from, n->at.start + end};
        from = end + 1;
        if (line > 0 && slip_is_rule(one)) {
            diag_add(c->diags, DIAG_TABLE_RULE, at,
                     "a table is a 'table' block with rows of cells between "
                     "bars, and no line below the first");
            return;
        }
        if (line == 0 && in_step)
            continue; /* its number has its point */
        struct start s = start_of(one);
        bool next = above >= 0 && s.indent < margin &&
                    (s.number == above || s.number == above + 1);
        if (s.digits > 0 && (next || (s.sign && line == 0))) {
            report_step(c, at, &s);
            return;
        }
        if (s.digits > 0)
            above = s.number;
    }
}
