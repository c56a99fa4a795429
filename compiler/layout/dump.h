/* dump.h - the words of a dumped display list, line by line (see display.c).
 *
 * Nothing is believed: what is not exactly as it is written makes the reader
 * `bad`, and it stays so; what is read then means nothing. */
#ifndef DUMP_H
#define DUMP_H

#include "base/text.h"

#include <stdbool.h>
#include <stddef.h>

struct arena;

struct dump {
    struct arena *arena;
    struct text text;
    size_t next;       /* where the line behind this one begins */
    struct text line;  /* what is left of the line at hand */
    size_t line_count; /* lines begun */
    bool bad, cut_short;
};

/* Begins the next line; false at the end, and where a line does not end. */
bool dump_line(struct dump *r);
/* The next word; one blank stands before each but the first. */
struct text dump_word(struct dump *r);
/* True, and past the word, when it comes next. */
bool dump_follows(struct dump *r, const char *wanted);
/* The word must come next. */
void dump_expect(struct dump *r, const char *wanted);
/* The next word as a decimal number. */
double dump_number(struct dump *r);
/* A part of a word as one. */
float dump_small_number(struct dump *r, struct text t);
/* As a whole number, 0 to `most`. */
unsigned long dump_count(struct dump *r, struct text t, unsigned long most);
/* A text in quotes; absent for a dash. */
struct text dump_string(struct dump *r);
/* 0 to 15; -1: no hexadecimal digit. */
int dump_hex(char c);

#endif
