/* bounds.c - how much of one thing a source may hold before Markdown reads it.
 *
 * The library takes time with the depth for each line, blank ones too, and with
 * the images of a paragraph for each link in it. No guide comes near these
 * limits; a text that was made to hang its reader does. */
#include "source/bounds.h"

#include "base/diag.h"

enum { BLANKS = 2 * BOUNDS_LEVELS, IMAGES = 200 };

static bool is_digit(char c) {
    return c >= '0' && c <= '9';
}

static bool is_blank(char c) {
    return c == ' ' || c == '\t';
}

/* Length of the sign of a quotation or list item at `at`, or 0. */
static size_t marker(struct text line, size_t at) {
    size_t i = at;
    if (line.start[i] == '>')
        return 1;
    while (i < line.len && is_digit(line.start[i]))
        i++;
    bool number = i > at && i < line.len &&
                  (line.start[i] == '.' || line.start[i] == ')');
    bool bullet = i == at && (line.start[i] == '-' || line.start[i] == '+' ||
                              line.start[i] == '*');
    if (!number && !bullet)
        return 0;
    i++;
    return i == line.len || is_blank(line.start[i]) ? i - at : 0;
}

/* A level takes one sign on the line that opens it, with a blank behind it, and
 * two blanks at least on the lines that go on with it. */
static bool is_deep(struct text line) {
    size_t at = 0, signs = 0, blanks = 0;
    while (at < line.len) {
        size_t step = marker(line, at);
        if (step == 0 && !is_blank(line.start[at]))
            break;
        if (step > 0)
            signs++;
        else
            blanks += line.start[at] == '\t' ? 4 : 1;
        at += step > 0 ? step : 1;
    }
    return signs > BOUNDS_LEVELS || blanks > BLANKS + signs;
}

static size_t count_images(struct text line) {
    size_t count = 0;
    for (size_t i = 0; i + 1 < line.len; i++)
        count += line.start[i] == '!' && line.start[i + 1] == '[';
    return count;
}

bool bounds_check(struct diags *d, const struct source *src) {
    size_t images = 0; /* since the last blank line, which ends a paragraph */
    for (size_t i = 1; i <= src->line_count; i++) {
        struct text line = place_line(src, i);
        if (text_trim(line).len == 0) {
            images = 0;
            continue;
        }
        if (is_deep(line)) {
            diag_add(d, DIAG_NESTING_DEEP, place_of(src, line),
                     "more than %d levels, or %d blanks before the text",
                     (int)BOUNDS_LEVELS, (int)BLANKS);
            return false;
        }
        images += count_images(line);
        if (images > IMAGES) {
            diag_add(d, DIAG_IMAGES_MANY, place_of(src, line), "more than %d",
                     (int)IMAGES);
            return false;
        }
    }
    return true;
}
