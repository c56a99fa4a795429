/* datasheet.h - what the blocks compute, as tables: wires and fuses, torque,
 * limits. */
#ifndef DATASHEET_H
#define DATASHEET_H

#include "layout/leaf.h"

bool datasheet_any_electrical(const struct leaf *l);
void datasheet_set_electrical(struct leaf *l);
/* For the owner: what fuses are rated, and what wires may carry. */
bool datasheet_any_ratings(const struct leaf *l);
void datasheet_set_ratings(struct leaf *l);
bool datasheet_any_torque(const struct leaf *l);
void datasheet_set_torque(struct leaf *l);
bool datasheet_any_limits(const struct leaf *l);
void datasheet_set_limits(struct leaf *l);

#endif
