/* circuit_guides.h - the guides of this library that hold circuits. */
#ifndef CIRCUIT_GUIDES_H
#define CIRCUIT_GUIDES_H

static const char *const circuit_guides[] = {
    "procedures/headlamp-relay.md", "procedures/house-battery-feed.md",
    "procedures/water-pump-circuit.md", "procedures/trailer-plug.md"};

enum { CIRCUIT_GUIDES = sizeof circuit_guides / sizeof circuit_guides[0] };

#endif
