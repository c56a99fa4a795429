/* signoff.h - records and sign-off: the vehicle, the people, remarks. */
#ifndef SIGNOFF_H
#define SIGNOFF_H

#include "layout/leaf.h"

void signoff_set(struct leaf *l);

#endif
