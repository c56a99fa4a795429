/* circuit_guides.h - the guides of this library that hold circuits; behind them
 * inputs whose sources limit themselves. */
#ifndef CIRCUIT_GUIDES_H
#define CIRCUIT_GUIDES_H

static const char *const circuit_guides[] = {
    "procedures/headlamp-relay.md",
    "procedures/house-battery-feed.md",
    "procedures/water-pump-circuit.md",
    "procedures/trailer-plug.md",
    "tests/golden/circuit/alternator-at-its-knee.md",
    "tests/golden/circuit/alternator-charges-at-its-rating.md",
    "tests/golden/circuit/alternator-comes-to-its-limit.md",
    "tests/golden/circuit/alternator-leaves-its-limit.md",
    "tests/golden/circuit/charger-at-its-rating.md",
    "tests/golden/circuit/charger-beside-its-load.md",
    "tests/golden/circuit/charger-that-carries-its-load.md",
    "tests/golden/circuit/charger-without-a-battery.md"};

enum {
    CIRCUIT_INPUTS = sizeof circuit_guides / sizeof circuit_guides[0],
    CIRCUIT_GUIDES = 4
};

#endif
