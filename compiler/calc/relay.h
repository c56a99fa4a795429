/* relay.h - coils of vehicle relays: what they are like, when they move. */
#ifndef RELAY_H
#define RELAY_H

#include "calc/contact.h"

struct relay_coil {
    double nominal;                  /* V */
    struct contact_range resistance; /* where the author states none */
    double operates; /* V; from here on every relay has pulled */
    double releases; /* V; below this every relay has dropped */
    const char *source;
};
/* For a supply of up to 16 V the 12 V coil, up to 32 V the 24 V one; NULL
 * above. */
const struct relay_coil *relay_coil_for(double volt);

#endif
