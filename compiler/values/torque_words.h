/* torque_words.h - what settings of a bolted joint may say, for messages. */
#ifndef TORQUE_WORDS_H
#define TORQUE_WORDS_H

#include "values/model.h"

/* Each in a row: conditions that the table has a nut factor for; materials that
 * hold a thread; "write one of" the grades of bolts for inch, or for metric,
 * threads. */
const char *torque_words_conditions(struct values *v);
const char *torque_words_materials(struct values *v);
const char *torque_words_grades(struct values *v, bool unified);

#endif
