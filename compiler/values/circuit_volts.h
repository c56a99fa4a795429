/* circuit_volts.h - a voltage as a meter shows it. */
#ifndef CIRCUIT_VOLTS_H
#define CIRCUIT_VOLTS_H

#include "base/arena.h"
#include "calc/rounding.h"

/* V, to two digits, as a meter with millivolts tells them apart; from 1 V on
 * to 10 mV: "46 mV", "12.60 V". */
const char *circuit_volts(struct arena *a, double si, enum round_way way);
/* What is expected, and what is accepted: the end rounded towards it, in
 * steps so fine that what is expected is accepted. */
void circuit_volts_expect(struct arena *a, double expected, double end,
                          const char **expects, const char **accepts);

#endif
