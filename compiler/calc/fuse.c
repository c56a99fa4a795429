/* fuse.c - fuses and breakers: choosing a rating, opening times, place. */
#include "calc/fuse.h"
#include "calc/fuse_table.h"
#include "calc/wire.h"
#include "calc/word.h"

#include <math.h>

#define ZERO_C 273.15
#define RATED_AT (ZERO_C + 25)
/* A rating and a figure that are the same but for the last bits are equal. */
#define SAME 1e-9

const struct fuse_style *fuse_style_find(const char *name, size_t len) {
    for (const struct fuse_style *s = fuse_style_table; s->name; s++)
        if (word_is(name, len, s->name))
            return s;
    return NULL;
}

const struct fuse_style *fuse_style_at(size_t index) {
    for (size_t i = 0; fuse_style_table[i].name; i++)
        if (i == index)
            return &fuse_style_table[i];
    return NULL;
}

const struct fuse_rating *fuse_rating_up(const struct fuse_style *s,
                                         double amp) {
    for (size_t i = 0; i < s->rating_count; i++)
        if (s->rating[i].amp >= amp * (1 - SAME))
            return &s->rating[i];
    return NULL;
}

const struct fuse_rating *fuse_rating_down(const struct fuse_style *s,
                                           double amp) {
    const struct fuse_rating *best = NULL;
    for (size_t i = 0; i < s->rating_count; i++)
        if (s->rating[i].amp <= amp * (1 + SAME))
            best = &s->rating[i];
    return best;
}

const struct fuse_rating *fuse_rating_find(const struct fuse_style *s,
                                           double amp) {
    const struct fuse_rating *r = fuse_rating_up(s, amp);
    return r && r->amp <= amp * (1 + SAME) ? r : NULL;
}

const char *fuse_colour(const struct fuse_style *s, double amp) {
    const struct fuse_rating *r = fuse_rating_find(s, amp);
    return r != NULL && r->colour != NULL ? r->colour : "as its maker's";
}

bool fuse_is_bolted(const struct fuse_style *s, double amp) {
    const struct fuse_style *plugged = fuse_style_find("maxi blade", 10);
    double most = plugged->rating[plugged->rating_count - 1].amp;
    return s != NULL ? s->bolted : amp > most * (1 + SAME);
}

double fuse_interrupt(const struct fuse_style *s, double volt) {
    return volt <= s->interrupt_volt ? s->interrupt : NAN;
}

double fuse_ambient_factor(const struct fuse_style *s, double ambient) {
    if (!(ambient >= s->coldest) || !(ambient <= s->hottest))
        return NAN;
    return fmin(1, 1 - s->per_kelvin * (ambient - RATED_AT));
}

/* y between (x0, y0) and (x1, y1) on log-log paper; where an end is 0 or
 * infinite there is no line, and the end that is asked for stands. */
static double between(double x, double x0, double y0, double x1, double y1,
                      double stands) {
    if (!(y0 > 0) || !(y1 > 0) || isinf(y0) || isinf(y1))
        return stands;
    return y0 * pow(y1 / y0, log(x / x0) / log(x1 / x0));
}

bool fuse_opening(const struct fuse_style *s, double multiple, double *shortest,
                  double *longest) {
    if (s->time_count == 0 || !(multiple >= 0))
        return false;
    const struct fuse_time *t = s->time;
    *shortest = *longest = INFINITY;
    if (multiple < t[0].multiple)
        return true;
    size_t i = 0;
    while (i + 1 < s->time_count && multiple >= t[i + 1].multiple)
        i++;
    if (i + 1 == s->time_count) {
        double square = t[i].multiple / multiple * (t[i].multiple / multiple);
        *shortest = t[i].shortest * square;
        *longest = t[i].longest * square;
        return true;
    }
    *longest = t[i].longest;
    const struct fuse_time *a = &t[i], *b = &t[i + 1];
    /* Without a line the safe end: it may open as early as the later point
     * allows, and need not open before that point is reached. */
    *shortest = between(multiple, a->multiple, a->shortest, b->multiple,
                        b->shortest, b->shortest);
    *longest = between(multiple, a->multiple, a->longest, b->multiple,
                       b->longest, a->longest);
    return true;
}

double fuse_multiple(const struct fuse_style *s, double t) {
    if (s->time_count == 0)
        return NAN;
    const struct fuse_time *end = &s->time[s->time_count - 1];
    double shortest, longest;
    if (!fuse_opening(s, end->multiple, &shortest, &longest) || longest > t)
        return NAN;
    double low = 0, high = end->multiple;
    for (int i = 0; i < 200 && high - low > high * 1e-12; i++) {
        double middle = (low + high) / 2;
        fuse_opening(s, middle, &shortest, &longest);
        *(longest <= t ? &high : &low) = middle;
    }
    return high;
}

bool fuse_wire_margin(const struct fuse_style *s, double rating,
                      const struct wire_run *wire, double ti, double ta,
                      double tf, double from, double *margin, double *worst) {
    enum { STEPS = 400 };
    if (s->time_count == 0)
        return false;
    *margin = INFINITY;
    *worst = NAN;
    /* Beyond the last point both times fall as 1/I^2 and their quotient stands:
     * nothing new happens there. */
    double to = fmax(from, s->time[s->time_count - 1].multiple);
    for (int i = 0; i <= STEPS; i++) {
        double multiple = from * pow(to / from, (double)i / STEPS);
        double shortest, longest;
        fuse_opening(s, multiple, &shortest, &longest);
        double holds = wire_time(wire, rating * multiple, ti, ta, tf);
        if (isinf(holds))
            continue;
        double here = isinf(longest) ? 0 : holds / longest;
        if (!(here >= *margin)) {
            *margin = here;
            *worst = multiple;
        }
    }
    return true;
}

static double value_least(const void *fixed, const double *in) {
    (void)fixed;
    if (!(in[0] >= 0) || !(in[1] > 0) || !(in[2] > 0))
        return NAN;
    return in[0] / (in[1] * in[2]);
}

static double value_most(const void *fixed, const double *in) {
    (void)fixed;
    return in[0] >= 0 && in[1] >= 0 ? in[0] * in[1] : NAN;
}

static const struct calculation calculations[FUSE_RESULTS] = {
    [FUSE_LEAST] =
        {
            .name = "least fuse rating for a continuous load",
            .formula = "In = I / (s * f)",
            .source = "s: 0.80 from memory: NFPA 70 210.20(A), load x 1.25; "
                      "0.75 a maker's fuse guide",
            .validity = "I not negative; s and f above 0",
            .unit = "A",
            .input_count = 3,
            .input = {{"I", "continuous current", "A", TREND_RISING},
                      {"s", "share of the rating", "%", TREND_FALLING},
                      {"f", "ambient factor", "1", TREND_FALLING}},
            .value = value_least,
        },
    [FUSE_MOST] =
        {
            .name = "largest fuse rating for a wire",
            .formula = "In = n * Ia",
            .source = "33 CFR 183.455(c), 46 CFR 111.50-3, IEC 60364-4-43",
            .validity = "not negative; n = 1.5 below 50 V only",
            .unit = "A",
            .input_count = 2,
            .input = {{"Ia", "ampacity at the ambient", "A", TREND_RISING},
                      {"n", "share by the rule", "1", TREND_RISING}},
            .value = value_most,
        },
};

const struct calculation *fuse_calculation(enum fuse_result r) {
    return &calculations[r];
}

const struct fuse_rule *fuse_rule_find(const char *name, size_t len) {
    for (const struct fuse_rule *r = fuse_rule_table; r->name; r++)
        if (word_is(name, len, r->name))
            return r;
    return NULL;
}

const struct fuse_rule *fuse_rule_at(size_t index) {
    for (size_t i = 0; fuse_rule_table[i].name; i++)
        if (i == index)
            return &fuse_rule_table[i];
    return NULL;
}

const struct fuse_place *fuse_place_find(bool at_battery, bool sheathed) {
    for (const struct fuse_place *p = fuse_place_table; p->words; p++)
        if (p->at_battery == at_battery && p->sheathed == sheathed)
            return p;
    return NULL;
}

const struct fuse_place *fuse_place_at(size_t index) {
    for (size_t i = 0; fuse_place_table[i].words; i++)
        if (i == index)
            return &fuse_place_table[i];
    return NULL;
}
