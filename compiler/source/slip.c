/* slip.c - lines of running text that Markdown takes for something else than
 * was meant.
 *
 *   2 Bolt on.       a step of its own, were it "2. Bolt on."
 *   2.Bolt on.       the same, and so "2 . Bolt on.", "2: Bolt on."
 *   2. Bolt on.      right below a line of text, where only "1. " begins a list
 *   --- | ---        the line below the head of a table
 *   ##Wires          a heading, were it "## Wires"
 *   a. Lift it.      a step below a step, were it "1. Lift it."
 *
 * And lines that are indented less than what they belong to, or so far that
 * they are no lines of their own:
 *
 *   10. Undo it.
 *      1. Hold it.   four blanks, since "10. " is four signs wide */
#include "source/slip.h"

#include "base/diag.h"
#include "calc/unit.h"
#include "stages.h"

#include <string.h>

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

/* "2 . Bolt", "2: Bolt", "2- Bolt": another sign, or a blank before it. */
static bool has_odd_sign(struct text behind) {
    size_t n = 0;
    while (n < behind.len && behind.start[n] == ' ')
        n++;
    if (n + 2 >= behind.len || behind.start[n + 1] != ' ' ||
        memchr(".):-", behind.start[n], 4) == NULL)
        return false;
    struct text word = text_trim(text_part(behind, n + 1, behind.len));
    return word.len > 0 && word.start[0] >= 'A' && word.start[0] <= 'Z' &&
           begins_word(word) &&
           (n > 0 || behind.start[n] == ':' || behind.start[n] == '-');
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
    if (has_odd_sign(text_part(s.line, n, s.line.len))) {
        s.digits = n;
        return s;
    }
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

/* Blanks in front of a node. */
static size_t indent_of(const struct node *n) {
    return place_position(n->at.src, n->at.start).column - 1;
}

/* How far what belongs to a step is indented: its number, the sign behind it
 * and the blanks there, of which Markdown counts up to four. */
static size_t inner_indent(const struct node *step) {
    struct text t = place_text(step->at);
    size_t digits = 0, blanks = 0;
    while (digits < t.len && is_digit(t.start[digits]))
        digits++;
    while (digits + 1 + blanks < t.len && t.start[digits + 1 + blanks] == ' ')
        blanks++;
    return indent_of(step) + digits + 1 +
           (blanks > 4 || blanks == 0 ? 1 : blanks);
}

/* Whether a line indented so far belongs to a step: Markdown gives it up to
 * three blanks more. */
static bool is_inside(size_t indent, const struct node *step) {
    size_t inner = inner_indent(step);
    return indent >= inner && indent < inner + 4;
}

static void report_indent(struct compile *c, struct span at, size_t indent,
                          const struct node *step) {
    diag_add(c->diags, DIAG_STEP_INDENT, at,
             "%zu blanks; what belongs to step '%ld.' has %zu in front, the "
             "next step %zu",
             indent, written_number(step), inner_indent(step), indent_of(step));
}

/* Whether it is indented more than the step above, and less than what belongs
 * to that. */
static bool is_between(struct compile *c, const struct node *n,
                       const struct node *step) {
    size_t indent = indent_of(n);
    if (step == NULL || indent <= indent_of(step) ||
        indent >= inner_indent(step))
        return false;
    size_t line_end = n->at.start;
    while (line_end < n->at.end && n->at.src->text.start[line_end] != '\n')
        line_end++;
    report_indent(c, (struct span){n->at.src, n->at.start, line_end}, indent,
                  step);
    return true;
}

/* Of the steps of one list; the last one of them, or NULL after a message, so
 * that what goes with it is not told as well. */
static const struct node *check_list(struct compile *c, const struct node *list,
                                     const struct node *above) {
    for (const struct node *n = list->first; n != NULL; n = n->next) {
        above = is_between(c, n, above) ? NULL : n;
    }
    return above;
}

void slip_check_indent(struct compile *c, const struct node *parent) {
    const struct node *above = NULL;
    for (const struct node *n = parent->first; n != NULL; n = n->next) {
        if (n->kind == NODE_STEPS)
            above = check_list(c, n, above);
        else if (is_between(c, n, above) ||
                 (above != NULL && n->kind != NODE_BLOCK &&
                  indent_of(n) <= indent_of(above)))
            above = NULL;
    }
}

/* "1. Hold" or "- Hold", which Markdown takes for running text where it is
 * indented too far. */
static bool begins_item(struct text line) {
    size_t n = 0;
    while (n < line.len && is_digit(line.start[n]))
        n++;
    if (n > 3 || n + 2 >= line.len)
        return false;
    char sign = line.start[n], next = line.start[n + 2];
    return (n == 0 ? sign == '-' || sign == '*' : sign == '.' || sign == ')') &&
           line.start[n + 1] == ' ' &&
           (is_letter(next) || next == '{' || next == '*');
}

/* Hashes of a heading without a blank behind; 0: none. One hash is a number's,
 * "#1 cylinder", unless a word stands alone behind it. */
static size_t hashes_of(struct text line, bool alone) {
    size_t n = 0;
    while (n < line.len && line.start[n] == '#')
        n++;
    if (n == 0 || n > 6 || n == line.len)
        return 0;
    char next = line.start[n];
    if (n > 1)
        return is_letter(next) || is_digit(next) || next == '{' ? n : 0;
    bool word = begins_word(text_part(line, n, line.len));
    return alone && word && next >= 'A' && next <= 'Z' ? n : 0;
}

/* "a. Lift", "a) Lift", "(a) Lift": the letter, in small; else 0. */
static char letter_of(struct text line, bool *capital, char *sign) {
    size_t n = line.len > 0 && line.start[0] == '(';
    if (n + 3 >= line.len || !is_letter(line.start[n]) ||
        line.start[n + 2] != ' ')
        return 0;
    struct text rest = text_trim(text_part(line, n + 2, line.len));
    *sign = line.start[n + 1];
    *capital = line.start[n] < 'a';
    if ((*sign != ')' && (*sign != '.' || n > 0)) || rest.len == 0 ||
        (!begins_word(rest) && rest.start[0] != '{'))
        return 0;
    return *capital ? (char)(line.start[n] - 'A' + 'a') : line.start[n];
}

/* The next line from *from on, without blanks around. */
static bool next_line(struct text t, size_t *from, struct text *line) {
    if (*from >= t.len)
        return false;
    size_t end = *from;
    while (end < t.len && t.start[end] != '\n')
        end++;
    *line = text_trim(text_part(t, *from, end));
    *from = end + 1;
    return true;
}

static bool has_letter_b(struct text t, size_t from, char wanted) {
    bool capital;
    char sign;
    for (struct text line; next_line(t, &from, &line);)
        if (letter_of(line, &capital, &sign) == 'b' && sign == wanted)
            return true;
    return false;
}

/* The first line that begins with an a: it counts steps where nothing stands
 * before it that it could be the last word of, or where a b follows; only
 * where both hold, if it is a capital, which initials of people are as well, or
 * stands behind the number of its step. */
static bool check_letters(struct compile *c, const struct node *n) {
    struct text t = place_text(n->at), line, above = {NULL, 0};
    bool inner = n->parent != NULL && (n->parent->kind == NODE_STEP ||
                                       n->parent->kind == NODE_BULLET);
    bool command = inner && n->parent->first == n;
    for (size_t from = 0; next_line(t, &from, &line); above = line) {
        bool capital;
        char sign;
        if (letter_of(line, &capital, &sign) != 'a')
            continue;
        bool begins = above.len == 0 || above.start[above.len - 1] == ':';
        bool follows = has_letter_b(t, from, sign);
        bool doubtful = capital || (command && above.len == 0);
        if (doubtful ? !begins || !follows : !begins && !follows)
            return false;
        diag_add(c->diags, DIAG_STEP_LETTER, place_of(n->at.src, line),
                 "steps are numbered: write '1. ', '2. '; indented below a "
                 "step they print as 1.1, 1.2");
        return true;
    }
    return false;
}

static bool check_hashes(struct compile *c, const struct node *n) {
    struct text t = place_text(n->at), line;
    bool alone = memchr(t.start, '\n', t.len) == NULL;
    for (size_t from = 0; next_line(t, &from, &line);) {
        size_t hashes = hashes_of(line, alone);
        if (hashes == 0)
            continue;
        diag_add(c->diags, DIAG_HEADING_FORM, place_of(n->at.src, line),
                 "write '%.*s %.*s', with a blank behind the hashes, at the "
                 "left margin",
                 (int)hashes, line.start, (int)(line.len - hashes),
                 line.start + hashes);
        return true;
    }
    return false;
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
    if (check_hashes(c, n) || check_letters(c, n) ||
        (n->parent != NULL && n->parent->kind == NODE_BULLET))
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
        bool item = begins_item(s.line),
             number = item && is_digit(*s.line.start);
        if (number && (in_step ? is_inside(s.indent, n->parent) : line > 0)) {
            diag_add(c->diags, DIAG_STEP_BELOW_TEXT, at,
                     "only '1. ' begins steps there, this prints as a line of "
                     "the text; leave the line above it empty, or, where it "
                     "is no step, wrap the text elsewhere");
            return;
        }
        if (in_step && item) {
            report_indent(c, at, s.indent, n->parent);
            return;
        }
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

/* Columns in front of a line: a tab leads to the next multiple of four. */
static size_t columns_before(struct text line) {
    size_t columns = 0;
    for (size_t i = 0; i < line.len; i++) {
        if (line.start[i] != ' ' && line.start[i] != '\t')
            break;
        columns = line.start[i] == '\t' ? columns / 4 * 4 + 4 : columns + 1;
    }
    return columns;
}

/* A step, an item, a block, or a mark. */
static bool is_meant(struct text line) {
    const char *open = memchr(line.start, '{', line.len);
    size_t rest = open == NULL ? 0 : line.len - (size_t)(open - line.start);
    return begins_item(line) || text_starts(line, "```") ||
           (rest > 0 && memchr(open, '}', rest) != NULL);
}

void slip_check_verbatim(struct compile *c, const struct node *n) {
    const struct source *src = n->at.src;
    size_t number = place_position(src, n->at.start).line, from = 0;
    struct text opening = text_trim(place_line(src, number)), line;
    if (text_starts(opening, "```") || text_starts(opening, "~~~"))
        return; /* a fence */
    for (; next_line(n->verbatim, &from, &line); number++) {
        if (line.len == 0 || !is_meant(line))
            continue;
        struct text whole = place_line(src, number);
        size_t columns = columns_before(whole);
        struct span at = place_of(src, text_trim(whole));
        if (n->parent != NULL && n->parent->kind == NODE_STEP)
            report_indent(c, at, columns, n->parent);
        else
            diag_add(c->diags, DIAG_STEP_INDENT, at,
                     "%zu blanks in front, a tab counts as up to four: "
                     "Markdown prints such a line as it is written; begin it "
                     "at the left margin",
                     columns);
        return;
    }
}
