/* job_vehicle.c - what a job calls its vehicle is of the variant that it names.
 * A row that was copied keeps the variant of the one above it, and the sheet
 * judges by the limits of another sort. */
#include "base/diag.h"
#include "source/job.h"
#include "values/job_set.h"
#include "values/variant_range.h"

#include <string.h>

/* The next word of "Wendlow Fen, 1982 (W30-107311)"; false at the end. */
static bool next_word(struct text *rest, struct text *word) {
    static const char apart[] = " \n,;()";
    size_t from = 0;
    while (from < rest->len && strchr(apart, rest->start[from]) != NULL)
        from++;
    size_t to = from;
    while (to < rest->len && strchr(apart, rest->start[to]) == NULL)
        to++;
    *word = text_part(*rest, from, to);
    *rest = text_part(*rest, to, rest->len);
    return word->len > 0;
}

/* A word of the vehicle that is of other variants alone, by that column; absent
 * where there is none, or another word is of its own. */
static struct text foreign(const struct values *v, struct text vehicle,
                           const char *column, bool *own) {
    variant_set mine = (variant_set)1 << values_first(v);
    struct text word, other = {NULL, 0};
    *own = false;
    while (next_word(&vehicle, &word)) {
        variant_set s = variant_range_of(v, word, column);
        if ((s & mine) != 0)
            *own = true;
        else if (s != 0 && other.len == 0)
            other = word;
    }
    return *own ? (struct text){NULL, 0} : other;
}

/* A number says more than a year, which may be that of its registration. */
void job_check_vehicle(struct values *v) {
    const struct block *job = v->guide->job;
    const struct entry *e = job == NULL ? NULL : tree_setting(job, "vehicle");
    if (e == NULL || e->choice_count == 0)
        return;
    struct arena *a = v->c->arena;
    struct text vehicle = e->choices[0].text;
    bool own = false, asked = false;
    const char *column = "numbers";
    struct text other = foreign(v, vehicle, column, &own);
    foreign(v, job_setting(a, job, "variant"), column, &asked);
    if (other.len == 0 && !own && !asked) {
        column = "years";
        other = foreign(v, vehicle, column, &own);
    }
    if (other.len == 0)
        return;
    variant_set mine = (variant_set)1 << values_first(v);
    const char *its =
        values_variant_names(v, a, variant_range_of(v, other, column));
    diag_add(v->c->diags, DIAG_JOB_VEHICLE, place_of(job->scope->src, other),
             "%.*s is %s, and the job is for %s; correct variant: or vehicle:"
             "%s",
             (int)other.len, other.start, its, values_variant_names(v, a, mine),
             strcmp(column, "years") == 0
                 ? ", where the model year stands, not that of its registration"
                 : "");
}
