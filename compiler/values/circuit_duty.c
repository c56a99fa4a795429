/* circuit_duty.c - how long a load of a circuit is on, as it says. */
#include "values/circuit_duty.h"

#include "source/circuit_tree.h"
#include "values/model.h"

bool circuit_duty_is_said(const struct circuit_element *load) {
    return load->part == CIRCUIT_LOAD && load->word_count == 3 &&
           (text_is(load->word[2], "intermittent") ||
            text_is(load->word[2], "continuous"));
}

struct text circuit_duty_of(struct values *v, const struct block *circuit,
                            const struct circuit_element *load,
                            size_t variant) {
    const struct block *b =
        load->word_count > 0
            ? values_block(v, circuit->scope, load->word[0], "load")
            : NULL;
    if (b != NULL)
        return block_text(v, b, "duty", variant);
    return circuit_duty_is_said(load) ? load->word[2] : (struct text){NULL, 0};
}
