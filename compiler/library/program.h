/* program.h - which program runs here, as one hash: another build of it, or
 * another library that it is linked with, gives another. */
#ifndef PROGRAM_H
#define PROGRAM_H

#include "base/digest.h"

#include <stdbool.h>

struct arena;

/* Of the marks of the files that run; they are listed by where the system put
 * them, which is anywhere. False: the system does not tell. */
bool program_running(struct arena *a, char hash[DIGEST_HEX]);

#endif
