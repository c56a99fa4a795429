/* expression.h - the value of a text such as `feed.drop * 2` for one variant.
 *
 *   value   = string | `yes` | `no` | limit | sum
 *   limit   = (`>=` | `<=` | ≥ | ≤) sum
 *   sum     = product {(+ | -) product}
 *   product = power {(* | /) power}
 *   power   = primary [^ whole number]
 *   primary = literal | wire size | name | `(` sum `)` | function
 *   function = (`min` | `max`) `(` sum {, sum} `)` | (`abs` | `sqrt`) `(` sum
 * `)`
 *
 * Operators have a blank on each side; without, `30-87` is one word. */
#ifndef EXPRESSION_H
#define EXPRESSION_H

#include "calc/size.h"
#include "values/model.h"
#include "values/scan.h"

struct expression {
    struct values *values;
    const struct scope *scope;
    size_t variant;
    enum wire_system conductor; /* in which a bare gauge is read */
    struct scan scan;
    int depth;
    bool named;  /* the value of a name, which may be a text */
    bool braced; /* between braces: the word may have been meant as a mark */
};

/* A cursor over a slice of the scope's source. */
struct expression expression_over(struct values *v, const struct scope *scope,
                                  size_t variant, struct text text);
/* The whole text is one value; BAD after a message. */
struct value expression_value(struct expression *x);
/* One sum from the cursor on, for settings with more behind it; BAD ... */
struct value expression_sum(struct expression *x);
/* Two sums and the relation between them. */
bool expression_comparison(struct expression *x, struct value *left,
                           struct value *right, enum relation *relation);
/* A message unless the value is a quantity of the unit's dimension. */
bool expression_fits(struct expression *x, const struct value *value,
                     const char *unit, const char *what);

#endif
