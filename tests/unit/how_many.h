/* how_many.h - how many cases a test puts together at random. */
#ifndef HOW_MANY_H
#define HOW_MANY_H

#include <stdbool.h>
#include <stdlib.h>

#if defined __SANITIZE_ADDRESS__
#define HOW_MANY_SANITIZED true
#else
#define HOW_MANY_SANITIZED false
#endif

/* What an environment variable asks for, else as many as there is time for:
 * under the sanitizers, which take several times as long, fewer. */
static inline size_t how_many(const char *variable, size_t plain,
                              size_t sanitized) {
    const char *wanted = getenv(variable);
    if (wanted != NULL)
        return strtoul(wanted, NULL, 10);
    return HOW_MANY_SANITIZED ? sanitized : plain;
}

#endif
