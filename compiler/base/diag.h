/* diag.h - messages about the author's document: collect, sort, print. */
#ifndef DIAG_H
#define DIAG_H

#include "base/place.h"

#include <stdbool.h>
#include <stdio.h>

struct arena;
struct shown;

/* The worst level decides the exit status: 0 for a warning, else the value. */
enum diag_level {
    LEVEL_WARNING = 0,
    LEVEL_REFUSED = 1, /* the guide is sound but its numbers do not hold */
    LEVEL_MISTAKE = 2, /* in the source or the command line */
    LEVEL_SYSTEM = 3,  /* cannot read, cannot write */
};

/* One id a message; level and wording stand in one table in diag.c, the
 * explanation in docs/messages.md. Keep each group in its stage's order. */
enum diag_id {
#include "base/messages.def"
    DIAG_COUNT
};

struct diags *diag_new(struct arena *a);
/* "error: WORDING: DETAIL". The detail may be NULL. */
void diag_add(struct diags *d, enum diag_id id, struct span at,
              const char *detail, ...) __attribute__((format(printf, 4, 5)));
/* A line of its own under the message added last, with its own place. */
void diag_note(struct diags *d, struct span at, const char *note, ...)
    __attribute__((format(printf, 3, 4)));
int diag_status(const struct diags *d); /* exit status of the worst one */
/* The same without those in files below a folder ("templates/"). */
int diag_status_outside(const struct diags *d, const char *folder);
size_t diag_count(const struct diags *d, enum diag_level at_least);
void diag_print(struct diags *d, FILE *out, bool colour);
/* The same without those that this run has printed before, of other guides that
 * rest on the same file; returns how many they are. */
size_t diag_print_new(struct diags *d, struct shown *shown, FILE *out,
                      bool colour);
enum { DIAG_NAME_MAX = 64 };
void diag_name(enum diag_id id, char out[DIAG_NAME_MAX]); /* "name-unknown" */
const char *diag_wording(enum diag_id id);

#endif
