/* variant_range.c - model years and identification numbers of a variant.
 *
 *   range = end [" to " end];  end = head digits
 *
 * The head is what stands before the digits at its end, the same in both. */
#include "values/variant_range.h"

#include "base/diag.h"

#include <string.h>

struct end {
    struct text head, digits;
    double number;
};

/* Digits at the end, and what stands before them. */
static bool read_end(struct text t, struct end *out) {
    size_t at = t.len;
    while (at > 0 && t.start[at - 1] >= '0' && t.start[at - 1] <= '9')
        at--;
    *out = (struct end){text_part(t, 0, at), text_part(t, at, t.len), 0};
    for (size_t i = at; i < t.len; i++)
        out->number = out->number * 10 + (t.start[i] - '0');
    return at < t.len;
}

/* "1976 to 1979", "W30-100001 to W30-104400", or one alone. */
static bool read_range(struct text range, struct end *from, struct end *to) {
    static const char word[] = " to ";
    size_t len = sizeof word - 1, at = 0;
    while (at + len <= range.len &&
           !text_is(text_part(range, at, at + len), word))
        at++;
    bool both = at + len <= range.len;
    struct text first = text_trim(both ? text_part(range, 0, at) : range);
    struct text last =
        both ? text_trim(text_part(range, at + len, range.len)) : first;
    return read_end(first, from) && read_end(last, to);
}

static bool holds(struct text range, struct text wanted) {
    struct end from, to, one;
    return read_range(range, &from, &to) && read_end(wanted, &one) &&
           text_equal(from.head, one.head) &&
           (to.head.len == 0 || text_equal(to.head, one.head)) &&
           one.number >= from.number && one.number <= to.number;
}

variant_set variant_range_of(const struct values *v, struct text wanted,
                             const char *column) {
    variant_set s = 0;
    for (size_t i = 0; i < v->variant_count; i++) {
        const struct variant *one = &v->variant[i];
        const struct cell *cell =
            one->row == NULL ? NULL : tree_cell(one->vehicle, one->row, column);
        if (cell != NULL && holds(text_trim(cell->text), wanted))
            s |= (variant_set)1 << i;
    }
    return s;
}

/* Of all the numbers of four digits, however they are parted: the hazards go
 * by the first and the last of them. */
static bool turns_round(struct text years) {
    long first = 0, last = 0;
    for (size_t i = 0, digits; i<years.len; i += digits> 0 ? digits : 1) {
        long year = 0;
        for (digits = 0;
             i + digits < years.len && digits < 9 &&
             years.start[i + digits] >= '0' && years.start[i + digits] <= '9';
             digits++)
            year = year * 10 + (years.start[i + digits] - '0');
        if (digits != 4)
            continue;
        first = first == 0 ? year : first;
        last = year;
    }
    return last < first;
}

static const char *wrong_in(struct text range, bool years) {
    struct end from, to;
    if (years && turns_round(range))
        return "the last year is before the first; write the first one first";
    if (memchr(range.start, ',', range.len) != NULL ||
        !read_range(range, &from, &to))
        return NULL; /* words, which print as they are */
    if (years && to.head.len == 0 && from.digits.len == 4 && to.digits.len < 4)
        return "write both years whole: 1976 to 1979";
    if (to.head.len > 0 && !text_equal(from.head, to.head))
        return years ? NULL
                     : "what stands before the digits is not the same in both, "
                       "so that no number is between them; write such a "
                       "range under chassis, in words";
    return to.number < from.number
               ? "it ends before it begins; write the smaller one first"
               : NULL;
}

void variant_range_check(const struct values *v, const struct block *vehicle,
                         const struct entry *row) {
    static const char *const columns[] = {"years", "numbers"};
    for (size_t i = 0; i < 2; i++) {
        const struct cell *cell = tree_cell(vehicle, row, columns[i]);
        struct text t = {"", 0};
        if (cell != NULL && cell->text.len > 0)
            t = text_trim(cell->text);
        const char *why = wrong_in(t, i == 0);
        if (why != NULL)
            diag_add(v->c->diags, DIAG_VARIANT_RANGE, cell->at, "'%.*s': %s",
                     (int)t.len, t.start, why);
    }
}
