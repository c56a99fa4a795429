/* forms.h - the tables of the program in other forms: `help --as`. */
#ifndef FORMS_H
#define FORMS_H

#include "base/text.h"

/* The manual page, in the mdoc language that man reads. */
void manual_write(struct buf *b);
/* The completion of command lines, for bash. */
void completion_write(struct buf *b);
/* Kinds, words and units in Markdown: the last part of docs/language.md. */
void reference_write(struct buf *b);

#endif
