/* csv.h - tests/reference/NAME.csv row by row, and the count of what agreed.
 *
 * Quoted fields may hold commas and doubled quotes, no line ends. */
#ifndef CSV_H
#define CSV_H

#include "check.h"

enum { CSV_COLUMNS = 24, CSV_LINE = 4096 };

struct csv {
    const char *name;
    FILE *file;
    char head[CSV_LINE], line[CSV_LINE];
    char *title[CSV_COLUMNS], *cell[CSV_COLUMNS];
    size_t columns;
    int row;
    /* the tally */
    int checked, agreed, misprints, memory, skipped;
};

/* Splits a line in place; the number of its fields. */
static inline size_t csv_split(char *line, char *field[CSV_COLUMNS]) {
    size_t n = 0;
    line[strcspn(line, "\r\n")] = '\0';
    for (char *from = line, *to = line; n < CSV_COLUMNS;) {
        field[n++] = to;
        bool quoted = *from == '"';
        if (quoted)
            from++;
        while (*from && (quoted || *from != ',')) {
            if (quoted && *from == '"' && *++from != '"')
                quoted = false;
            else
                *to++ = *from++;
        }
        bool more = *from == ',';
        from += more;
        *to++ = '\0';
        if (!more)
            return n;
    }
    return n;
}

static inline struct csv csv_open(const char *name) {
    char path[200];
    struct csv c = {.name = name};
    snprintf(path, sizeof path, "tests/reference/%s.csv", name);
    c.file = fopen(path, "r");
    if (!c.file || !fgets(c.head, sizeof c.head, c.file))
        fail_msg("cannot read %s", path);
    return c;
}

static inline bool csv_next(struct csv *c) {
    if (c->columns == 0)
        c->columns = csv_split(c->head, c->title);
    if (!fgets(c->line, sizeof c->line, c->file)) {
        fclose(c->file);
        return false;
    }
    c->row++;
    size_t n = csv_split(c->line, c->cell);
    if (n != c->columns)
        fail_msg("%s row %d: %zu fields", c->name, c->row, n);
    return true;
}

static inline const char *csv_text(const struct csv *c, const char *title) {
    for (size_t i = 0; i < c->columns; i++)
        if (strcmp(c->title[i], title) == 0)
            return c->cell[i];
    fail_msg("%s has no column %s", c->name, title);
    return c->cell[0]; /* not reached */
}

/* NAN for an empty cell. */
static inline double csv_number(const struct csv *c, const char *title) {
    const char *s = csv_text(c, title);
    char *end = NULL;
    double x = strtod(s, &end);
    return end == s ? NAN : x;
}

static inline bool csv_is(const struct csv *c, const char *title,
                          const char *wanted) {
    return strcmp(csv_text(c, title), wanted) == 0;
}

static inline bool csv_has(const struct csv *c, const char *title,
                           const char *part) {
    return strstr(csv_text(c, title), part) != NULL;
}

/* One figure of a row that must agree. */
static inline void csv_check(const struct csv *c, const char *title, double got,
                             double share) {
    double wanted = csv_number(c, title);
    if (!near(got, wanted, share))
        fail_msg("%s row %d (%s), %s: %.8g, published %.8g", c->name, c->row,
                 c->cell[0], title, got, wanted);
}

/* A row is done: every figure of it agreed. */
static inline void csv_agreed(struct csv *c) {
    c->checked++;
    c->agreed++;
    if (csv_has(c, "provenance", "memory"))
        c->memory++;
}

/* A row whose published figure is wrong: ours must be the right one, and differ
 * from what is printed by more than `share`. */
static inline void csv_misprint(struct csv *c, double got, double right,
                                double printed, double share,
                                const char *name) {
    if (!near(got, right, share) || near(got, printed, share))
        fail_msg("%s row %d, %s: %.8g, right %.8g, printed %.8g", c->name,
                 c->row, name, got, right, printed);
    c->checked++;
    c->misprints++;
    print_message("  misprint  %-20s %s\n", c->name, name);
}

/* A row that the library does not compute, and why. */
static inline void csv_skip(struct csv *c) {
    c->skipped++;
}

struct total {
    int checked, agreed, misprints, memory, skipped;
};
static struct total total;

static inline void csv_close(const struct csv *c) {
    if (c->checked == 0)
        fail_msg("%s: no row was checked", c->name);
    print_message("  %-20s %4d rows checked, %4d agree\n", c->name, c->checked,
                  c->agreed);
    total.checked += c->checked;
    total.agreed += c->agreed;
    total.misprints += c->misprints;
    total.memory += c->memory;
    total.skipped += c->skipped;
}

static inline int csv_summary(void **state) {
    (void)state;
    print_message("  reference: %d rows checked, %d agree, %d named misprints, "
                  "%d rows wholly or partly from memory, %d not computed\n",
                  total.checked, total.agreed, total.misprints, total.memory,
                  total.skipped);
    return total.checked == total.agreed + total.misprints ? 0 : -1;
}

#endif
