/* lookup_joint.c - `bayleaf size` for threads, screws and wrenches. */
#include "base/arena.h"
#include "calc/hole.h"
#include "calc/pattern.h"
#include "calc/screw.h"
#include "calc/thread.h"
#include "calc/torque.h"
#include "command/answer.h"
#include "values/range.h"

#include <math.h>
#include <string.h>

int lookup_thread(const struct lookup *l, const struct request *r,
                  const char *const *value) {
    struct answer a;
    int status = answer_begin(&a, l, r, value);
    if (status != STATUS_GOOD)
        return status;
    struct thread t;
    switch (thread_read(value[0], strlen(value[0]), &t)) {
    case THREAD_FOUND:
        break;
    case THREAD_UNREADABLE:
        return command_usage("'%s' is no thread; write M8 x 1.25, 5/16-18 or "
                             "#10-32",
                             value[0]);
    case THREAD_PITCH_MISSING:
        return command_usage("'%s': coarse and fine exist; write the pitch",
                             value[0]);
    case THREAD_UNKNOWN:
        return command_usage("'%s': no standard has this pitch at this "
                             "diameter",
                             value[0]);
    case THREAD_SERIES_WRONG:
        return command_usage("'%s': this pitch belongs to another series",
                             value[0]);
    }
    answer_text(&a, "thread", arena_copy(r->arena, t.name, strlen(t.name)));
    answer_length(&a, "diameter", t.diameter, t.unified);
    answer_length(&a, "pitch", t.pitch, t.unified);
    answer_length(&a, "pitch diameter", t.pitch_diameter, t.unified);
    answer_length(&a, "minor diameter", t.minor, t.unified);
    answer_length(&a, "root diameter", t.root, t.unified);
    answer_number(&a, "stress area", t.stress_area, t.unified ? "in2" : "mm2");
    a.source = t.unified ? "ASME B1.1" : "ISO 68-1, ISO 724, ISO 898-1";
    return answer_end(&a);
}

int lookup_tap(const struct lookup *l, const struct request *r,
               const char *const *value) {
    struct answer a;
    struct thread t;
    int status = answer_begin(&a, l, r, value);
    if (status != STATUS_GOOD)
        return status;
    if (thread_read(value[0], strlen(value[0]), &t) != THREAD_FOUND)
        return command_usage("'%s' is no thread; write M8 x 1.25, 5/16-18 or "
                             "#10-32",
                             value[0]);
    const char *drill = NULL, *source = NULL;
    double tap = hole_tap(&t, &drill, &source);
    answer_text(&a, "thread", arena_copy(r->arena, t.name, strlen(t.name)));
    if (!isnan(tap)) {
        answer_length(&a, "tap drill", tap, t.unified);
        answer_number(&a, "share of thread", hole_thread_share(&t, tap), "%");
        a.source = source;
    }
    if (drill != NULL)
        answer_text(&a, "drill", drill);
    static const char *const fits[HOLE_FITS] = {[HOLE_CLOSE] = "hole, close",
                                                [HOLE_MEDIUM] = "hole, medium",
                                                [HOLE_COARSE] = "hole, coarse"};
    for (int i = 0; i < HOLE_FITS; i++) {
        double hole = hole_clearance(&t, (enum hole_fit)i, &source);
        if (isnan(hole))
            continue;
        answer_length(&a, fits[i], hole, t.unified);
        if (a.source == NULL)
            a.source = source;
    }
    return answer_end(&a);
}

int lookup_pilot(const struct lookup *l, const struct request *r,
                 const char *const *value) {
    struct answer a;
    int status = answer_begin(&a, l, r, value);
    if (status != STATUS_GOOD)
        return status;
    const struct tapping_screw *s =
        tapping_screw_find(value[0], strlen(value[0]));
    if (s == NULL)
        return command_usage("'%s' is no tapping screw; write ST4.2, #8 or "
                             "#8 AB",
                             value[0]);
    const struct quantity *sheet = answer_input(&a, 1);
    answer_text(&a, "screw", s->name);
    if (s->former != NULL)
        answer_text(&a, "formerly", s->former);
    if (sheet != NULL) {
        double hole = screw_pilot_sheet(s, range_ends(sheet).high);
        if (isnan(hole))
            return command_usage("the table has no pilot hole for %s in sheet "
                                 "of %s",
                                 s->name, value[1]);
        answer_length(&a, "pilot, sheet", hole, false);
    }
    const struct {
        const char *name;
        double hole;
        bool inch;
    } holes[] = {
        {"pilot, plastic", screw_pilot_plastic(s, false), false},
        {"pilot, thermoset", screw_pilot_plastic(s, true), false},
        {"pilot, thin metal", screw_pilot_inch(s, false), true},
        {"pilot, thick metal", screw_pilot_inch(s, true), true},
    };
    for (size_t i = 0; i < sizeof holes / sizeof holes[0]; i++)
        if (!isnan(holes[i].hole))
            answer_length(&a, holes[i].name, holes[i].hole, holes[i].inch);
    answer_number(&a, "most torque", s->breaking / 2, "N.m");
    answer_number(&a, "usual, from", s->low, "N.m");
    answer_number(&a, "usual, to", s->high, "N.m");
    a.source = screw_pilot_source();
    return answer_end(&a);
}

int lookup_pattern(const struct lookup *l, const struct request *r,
                   const char *const *value) {
    struct answer a;
    int status = answer_begin(&a, l, r, value);
    if (status != STATUS_GOOD)
        return status;
    enum pattern pattern;
    if (!pattern_find(value[0], strlen(value[0]), &pattern))
        return command_usage("unknown pattern '%s'; star, spiral", value[0]);
    const struct quantity *count = answer_input(&a, 1);
    double n = count == NULL ? NAN : count->nominal;
    int order[PATTERN_MOST];
    if (!(n >= PATTERN_LEAST && n <= PATTERN_MOST) || n != floor(n) ||
        !pattern_order(pattern, (int)n, order))
        return command_usage("a pattern has %d to %d fasteners", PATTERN_LEAST,
                             PATTERN_MOST);
    struct buf b = buf_in(r->arena);
    for (int i = 0; i < (int)n; i++)
        buf_printf(&b, "%s%d", i == 0 ? "" : " ", order[i]);
    answer_text(&a, "order", buf_cstr(&b));
    answer_text(&a, "places",
                pattern == PATTERN_STAR ? "counted clockwise round the circle"
                                        : "counted along the row");
    a.source = "common practice, no source";
    return answer_end(&a);
}

int lookup_extension(const struct lookup *l, const struct request *r,
                     const char *const *value) {
    struct answer a;
    int status = answer_begin(&a, l, r, value);
    if (status != STATUS_GOOD)
        return status;
    const struct unit *degree = unit_find("deg", 3);
    const struct calculation *c = extension_calculation(EXTENSION_SETTING);
    const struct quantity *angle = answer_input(&a, 3);
    const struct quantity *of[] = {
        answer_input(&a, 0), answer_input(&a, 1), answer_input(&a, 2),
        angle != NULL ? angle
                      : quantity_exact(&a.maker, 0, degree->dim, degree)};
    struct quantity *setting = quantity_call(&a.maker, c, NULL, of);
    setting->unit = of[0]->unit;
    if (isnan(setting->nominal))
        return command_usage("extension: outside its validity: %s",
                             c->validity);
    answer_quantity(&a, "setting", setting);
    a.source = c->source;
    return answer_end(&a);
}
