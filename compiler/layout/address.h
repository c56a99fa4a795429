/* address.h - the address of a link, as paper needs it. */
#ifndef ADDRESS_H
#define ADDRESS_H

#include "layout/rich.h"

/* Whether these words are the address itself, with or without its "https://".
 */
bool address_is_words(struct text uri, struct text words);
/* Adds " (ADDRESS)" where it leads out of the guide and the words from chunk
 * `from` on are not the address; where they are, they may be parted as an
 * address is: behind / ? & and =, and a long piece anywhere, so that none is
 * wider than its column. "https:" and "mailto:" go without saying. */
void address_print(struct arena *a, struct rich *r, size_t from,
                   struct text uri, struct tone tone);

#endif
