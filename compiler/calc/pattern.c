/* pattern.c - the order in which the fasteners of one joint are tightened. */
#include "calc/pattern.h"
#include "calc/word.h"

static const char *const names[PATTERNS] = {
    [PATTERN_STAR] = "star",
    [PATTERN_SPIRAL] = "spiral",
};

const char *pattern_name(enum pattern p) {
    return names[p];
}

bool pattern_find(const char *name, size_t len, enum pattern *out) {
    for (int p = 0; p < PATTERNS; p++) {
        if (word_is(name, len, names[p])) {
            *out = (enum pattern)p;
            return true;
        }
    }
    return false;
}

/* Places between two on a circle of so many. */
static int apart(int a, int b, int count) {
    int d = a > b ? a - b : b - a;
    return d < count - d ? d : count - d;
}

static bool is_tight(int place, const int *order, int done) {
    for (int i = 0; i < done; i++)
        if (order[i] == place)
            return true;
    return false;
}

static int nearest_tight(int place, const int *order, int done, int count) {
    int least = count;
    for (int i = 0; i < done; i++) {
        int d = apart(place, order[i], count);
        if (d < least)
            least = d;
    }
    return least;
}

/* The second of a pair lies farthest from the first; the first of a new pair in
 * the largest gap, then farthest from the last. The lowest place wins a tie. */
static int next_star(const int *order, int done, int count) {
    int best = 0, best_score = -1;
    for (int place = 1; place <= count; place++) {
        if (is_tight(place, order, done))
            continue;
        int score = apart(place, order[done - 1], count);
        if (done % 2 == 0)
            score += count * nearest_tight(place, order, done, count);
        if (score > best_score) {
            best = place;
            best_score = score;
        }
    }
    return best;
}

/* From the middle: 3, 2, 4, 1, 5 of five; 3, 4, 2, 5, 1, 6 of six. */
static int spiral(int i, int count) {
    int middle = (count + 1) / 2;
    int out = (i + 1) / 2;
    bool right = (i % 2 == 1) == (count % 2 == 0);
    return right ? middle + out : middle - out;
}

bool pattern_order(enum pattern p, int count, int order[PATTERN_MOST]) {
    if (count < PATTERN_LEAST || count > PATTERN_MOST)
        return false;
    order[0] = 1;
    for (int i = p == PATTERN_STAR; i < count; i++)
        order[i] =
            p == PATTERN_STAR ? next_star(order, i, count) : spiral(i, count);
    return true;
}
