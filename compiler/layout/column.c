/* column.c - widths of the columns of a table from what stands in them. */
#include "layout/column.h"

#include "base/arena.h"

#include <math.h>
#include <string.h>

static const struct words *cell_at(const struct grid *g, size_t row,
                                   size_t column) {
    return g->cell[row * g->columns + column];
}

/* Lines that a cell takes at this width, filled one after the other. */
static size_t count_lines(const struct words *w, double width) {
    size_t lines = w->count == 0 ? 0 : 1;
    double used = w->lead, piece = w->lead;
    for (size_t i = 0; i < w->count; i++) {
        const struct word *word = &w->word[i];
        bool breaks = word->gap == GAP_BREAK || word->gap == GAP_POOR ||
                      word->gap == GAP_INNER;
        if (word->gap == GAP_FORCED) {
            lines++;
            used = piece = 0;
        } else if (breaks) {
            piece = 0;
        }
        double gap = used > 0 ? word->gap_width : 0;
        if (used + gap + word->width > width + 0.01 && used > piece) {
            lines++; /* the piece that cannot be broken moves down whole */
            used = piece;
            gap = used > 0 ? word->gap_width : 0;
        }
        used += gap + word->width;
        piece += (piece > 0 ? word->gap_width : 0) + word->width;
    }
    return lines;
}

struct fit {
    const struct grid *grid;
    double *least, *natural, *width;
    size_t *lines; /* of each cell at the present widths */
};

static void measure(struct fit *f, double *sum_least, double *sum_natural) {
    const struct grid *g = f->grid;
    *sum_least = *sum_natural = 0;
    for (size_t k = 0; k < g->columns; k++) {
        for (size_t r = 0; r < g->rows; r++) {
            f->least[k] = fmax(f->least[k], cell_at(g, r, k)->widest);
            f->natural[k] = fmax(f->natural[k], cell_at(g, r, k)->line);
        }
        *sum_least += f->least[k];
        *sum_natural += f->natural[k];
    }
}

static void count_column(const struct fit *f, size_t k, double width,
                         size_t *lines) {
    for (size_t r = 0; r < f->grid->rows; r++)
        lines[r * f->grid->columns + k] =
            count_lines(cell_at(f->grid, r, k), width);
}

/* Height of the table in lines. */
static size_t height_of(const struct grid *g, const size_t *lines) {
    size_t height = 0;
    for (size_t r = 0; r < g->rows; r++) {
        size_t highest = 0;
        for (size_t k = 0; k < g->columns; k++) {
            size_t n = lines[r * g->columns + k];
            highest = n > highest ? n : highest;
        }
        height += highest;
    }
    return height;
}

/* The height; the sum over all cells breaks ties. */
static double cost_of(const struct grid *g, const size_t *lines) {
    size_t sum = 0;
    for (size_t i = 0; i < g->rows * g->columns; i++)
        sum += lines[i];
    return (double)height_of(g, lines) + 0.001 * (double)sum;
}

/* Tries to move `step` of width from one column to another. */
static bool improve(struct fit *f, size_t *trial, double *cost, double step) {
    const struct grid *g = f->grid;
    bool better = false;
    for (size_t from = 0; from < g->columns; from++)
        for (size_t to = 0; to < g->columns; to++) {
            double taken = fmin(step, fmin(f->width[from] - f->least[from],
                                           f->natural[to] - f->width[to]));
            if (from == to || taken < 0.5)
                continue;
            memcpy(trial, f->lines, g->rows * g->columns * sizeof *trial);
            count_column(f, from, f->width[from] - taken, trial);
            count_column(f, to, f->width[to] + taken, trial);
            double now = cost_of(g, trial);
            if (now >= *cost)
                continue;
            memcpy(f->lines, trial, g->rows * g->columns * sizeof *trial);
            f->width[from] -= taken;
            f->width[to] += taken;
            *cost = now;
            better = true;
        }
    return better;
}

enum { ROUNDS_MAX = 12, HALVINGS = 9 };

static size_t height_with(const struct fit *f, size_t k, double width,
                          size_t *trial) {
    size_t cells = f->grid->rows * f->grid->columns;
    memcpy(trial, f->lines, cells * sizeof *trial);
    count_column(f, k, width, trial);
    return height_of(f->grid, trial);
}

static void set_width(struct fit *f, size_t k, double width) {
    f->width[k] = width;
    count_column(f, k, width, f->lines);
}

/* About the least width of a column with which the table is no higher. */
static double least_width(const struct fit *f, size_t k, double most,
                          size_t height, size_t *trial) {
    double low = f->least[k], high = most;
    if (height_with(f, k, low, trial) <= height)
        return low;
    for (int i = 0; i < HALVINGS; i++) {
        double middle = (low + high) / 2;
        if (height_with(f, k, middle, trial) <= height)
            high = middle;
        else
            low = middle;
    }
    return high;
}

/* What all columns can spare together, to the columns that make the table
 * lower: one that needs a little from each of the others gets it from no pair.
 * True when that was of use; else all widths are as before. */
static bool pool(struct fit *f, double *before, size_t *trial) {
    const struct grid *g = f->grid;
    size_t height = height_of(g, f->lines), start = height;
    double spare = 0;
    memcpy(before, f->width, g->columns * sizeof *before);
    for (size_t k = 0; k < g->columns; k++) {
        double width = least_width(f, k, f->width[k], height, trial);
        spare += f->width[k] - width;
        set_width(f, k, width);
    }
    for (bool better = true; better;) {
        better = false;
        for (size_t k = 0; k < g->columns; k++) {
            double most = fmin(f->natural[k], f->width[k] + spare);
            size_t now = height_with(f, k, most, trial);
            if (now >= height)
                continue;
            double width = least_width(f, k, most, now, trial);
            spare -= width - f->width[k];
            set_width(f, k, width);
            height = now;
            better = true;
        }
    }
    for (size_t k = 0; k < g->columns; k++)
        set_width(f, k,
                  height < start ? f->width[k] + spare / (double)g->columns
                                 : before[k]);
    return height < start;
}

static void search(struct arena *a, struct fit *f, double room) {
    const struct grid *g = f->grid;
    size_t cells = g->rows * g->columns;
    size_t *trial = arena_alloc(a, cells + 1, sizeof *trial);
    f->lines = arena_alloc(a, cells + 1, sizeof *f->lines);
    for (size_t k = 0; k < g->columns; k++)
        count_column(f, k, f->width[k], f->lines);
    double *before = arena_alloc(a, g->columns, sizeof *before);
    for (int turn = 0; turn < ROUNDS_MAX; turn++) {
        double cost = cost_of(g, f->lines);
        for (double step = room / 8; step > 3; step /= 2)
            for (int round = 0; round < ROUNDS_MAX; round++)
                if (!improve(f, trial, &cost, step))
                    break;
        if (!pool(f, before, trial))
            return;
    }
}

bool column_fit(struct arena *a, const struct grid *g, double room,
                double *width) {
    struct fit f = {
        .grid = g,
        .least = arena_alloc(a, g->columns, sizeof *f.least),
        .natural = arena_alloc(a, g->columns, sizeof *f.natural),
        .width = width,
    };
    double sum_least, sum_natural;
    measure(&f, &sum_least, &sum_natural);
    if (sum_least > room + 0.01)
        return false;
    double wish = sum_natural - sum_least;
    for (size_t k = 0; k < g->columns; k++) {
        if (sum_natural <= room)
            width[k] = f.natural[k] + (room - sum_natural) / (double)g->columns;
        else
            width[k] = f.least[k] +
                       (f.natural[k] - f.least[k]) / wish * (room - sum_least);
    }
    if (sum_natural > room)
        search(a, &f, room);
    return true;
}
