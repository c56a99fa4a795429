/* relay.c - coils of vehicle relays. */
#include "calc/relay.h"

/* A 24 V coil of the same power has twice the voltages and four times the
 * resistance. */
#define SHEETS                                                                 \
    "makers' sheets of seven relays: 68 to 300 ohm at 12 V, pulled at 58 % "   \
    "to "                                                                      \
    "70 % of the nominal voltage, dropped at 4 % to 10 %"

static const struct relay_coil coils[] = {
    {12, {68, 85, 300, SHEETS}, 8.4, 0.5, SHEETS},
    {24, {272, 320, 1200, SHEETS}, 16.8, 1, SHEETS},
};

const struct relay_coil *relay_coil_for(double volt) {
    if (volt <= 16)
        return &coils[0];
    return volt <= 32 ? &coils[1] : NULL;
}
