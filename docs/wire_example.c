/* wire_example.c - the calculation library by itself: size a wire.
 *
 *   cc -std=c17 -Icompiler docs/wire_example.c libbayleafcalc.a -lm
 *
 * Prints the smallest stranded AWG size that carries 30 A over a loop of 16 ft
 * at 50 degC and loses no more than 3 % of 13.5 V, and why each smaller one
 * fails. */
#include "calc/ampacity.h"
#include "calc/conductor.h"
#include "calc/rounding.h"
#include "calc/wire.h"

#include <stdio.h>

int main(void) {
    const double current = 30, ambient = 50 + 273.15, length = 16 * 0.3048;
    const double supply = 13.5, limit = 0.03;
    const struct wire_size *size = NULL;
    size_read("18 AWG", 6, WIRE_AWG_STRANDED, &size);
    for (; size; size = size_up(size)) {
        struct ampacity_use use = {
            .table = AMPACITY_33CFR,
            .size = size,
            .material = MATERIAL_COPPER,
            .insulation = 105 + 273.15,
            .bundled = 1,
        };
        struct wire_run run;
        const char *why;
        if (!ampacity_find(&use, &run.ampacity, &why)) {
            printf("%s: %s\n", size->label, why);
            continue;
        }
        struct resistance r;
        conductor_resistance(size, use.material, &r);
        double in[] = {current, ambient, length, r.most, 0, supply};
        double share = wire_calculation(WIRE_DROP_SHARE)->value(&run, in);
        double carries = ampacity_at(&run.ampacity, ambient);
        char drop[ROUND_TEXT_MAX], amps[ROUND_TEXT_MAX];
        round_text(drop, share * 100, 1, ROUND_UP);
        round_text(amps, carries, 1, ROUND_DOWN);
        bool passes = carries >= current && share <= limit;
        printf("%s: carries %s A, loses %s %%%s\n", size->label, amps, drop,
               passes ? "" : ": no");
        if (passes)
            return 0;
    }
    return 1;
}
