/* symbol.c - safety signs as tables of paths.
 *
 * Each drawing lives in a square of 100, y downward. Paths are written with the
 * letters of SVG (M L H V C Z, absolute) and O x,y,r for a circle. The drawings
 * are our own and claim no conformity; proportions: triangle edge and corner
 * 0.05 of the side, ring 0.10 of the diameter, bar 0.08. The comment behind
 * each row names the registered sign whose meaning it has (ISO 7010). */
#include "layout/symbol.h"

#include "layout/pen.h"

#include <string.h>

enum sign { SIGN_WARNING, SIGN_MANDATORY, SIGN_PROHIBITION };

enum paint { PAINT_BLACK, PAINT_WHITE, PAINT_YELLOW, PAINT_BLUE, PAINT_RED };

struct stroke {
    enum paint paint;
    double width; /* 0: filled */
    const char *path;
};

enum { SYMBOL_STROKES = 6 };

struct symbol {
    const char *name;
    enum sign sign;
    struct stroke stroke[SYMBOL_STROKES];
};

static const struct symbol symbols[] = {
    {"general", /* W001 */
     SIGN_WARNING,
     {{PAINT_BLACK, 0, "M45,30 L55,30 L52.5,60 L47.5,60 Z O50,69,4.5"}}},
    {"electricity", /* W012 */
     SIGN_WARNING,
     {{PAINT_BLACK, 0,
       "M48,30 L57,30 L50,50 L59,47 L51,70 L55,69 L48,80 L45,67 L48,69 L52,54 "
       "L41,58 Z"}}},
    {"hot surface", /* W017 */
     SIGN_WARNING,
     {{PAINT_BLACK, 0, "M30,74 H70 V78 H30 Z"},
      {PAINT_BLACK, 3.5,
       "M38,70 C33,63 43,57 38,50 M50,70 C44,60 56,52 50,42 M62,70 C57,63 "
       "67,57 62,50"}}},
    {"flame", /* W021 */
     SIGN_WARNING,
     {{PAINT_BLACK, 0,
       "M52,32 C61,44 65,52 65,61 C65,69 59,74 50,74 C41,74 35,69 35,61 "
       "C35,55 39,51 41,46 C43,50 44,52 46,53 C50,48 52,41 52,32 Z"},
      {PAINT_YELLOW, 0,
       "M50,56 C54,60 57,63 57,67 C57,71 54,73 50,73 C46,73 43,71 43,67 "
       "C43,63 47,61 50,56 Z"},
      {PAINT_BLACK, 0, "M33,77 H67 V80 H33 Z"}}},
    {"battery", /* W026 */
     SIGN_WARNING,
     {{PAINT_BLACK, 3, "M31,50 H65 V72 H31 Z"},
      {PAINT_BLACK, 0, "M35,44 H42 V49 H35 Z M54,44 H61 V49 H54 Z"},
      {PAINT_BLACK, 2.5, "M35,61 H43 M39,57 V65 M53,61 H61"},
      {PAINT_BLACK, 0,
       "M65,60 C70,60 69,70 73,72 C76,74 76,79 72,79 L58,79 C56,76 62,74 "
       "65,73 Z"}}},
    {"crushing", /* W019 */
     SIGN_WARNING,
     {{PAINT_BLACK, 0, "M30,30 H70 V38 H30 Z M27,75 H73 V80 H27 Z"},
      {PAINT_BLACK, 0, "M47,40 H53 V47 H58 L50,55 L42,47 H47 Z"},
      {PAINT_BLACK, 0, "O33,66,4.5 M39,62 H58 L70,68 V73 H39 Z"}}},
    {"fan", /* W024, moving parts */
     SIGN_WARNING,
     {{PAINT_BLACK, 0,
       "M50,58 C44,50 42,40 50,34 C58,40 56,50 50,58 Z M50,58 C60,57 69,61 "
       "70,71 C61,75 53,68 50,58 Z M50,58 C47,68 39,75 30,71 C31,61 40,57 "
       "50,58 Z"},
      {PAINT_YELLOW, 0, "O50,58,3.5"},
      {PAINT_BLACK, 0, "O50,58,2"}}},
    {"fall", /* W008, drop */
     SIGN_WARNING,
     {{PAINT_BLACK, 0, "M24,56 H48 V80 H24 Z M58,76 H78 V80 H58 Z"},
      {PAINT_BLACK, 0, "O64,38,5"},
      {PAINT_BLACK, 5,
       "M60,44 L52,53 M52,53 L60,60 L56,68 M58,46 L68,52 M57,47 "
       "L48,44"}}},
    {"gas", /* W016, toxic: gas from an exhaust */
     SIGN_WARNING,
     {{PAINT_BLACK, 0, "M28,66 H48 V76 H28 Z"},
      {PAINT_BLACK, 3.5,
       "M52,68 C58,64 62,74 72,66 M52,74 C60,70 64,80 76,73 M50,62 C54,54 "
       "60,62 62,52 M56,58 C62,54 66,60 70,54"},
      {PAINT_BLACK, 0, "O50,42,5 M45,49 H55 L53,54 H47 Z"}}},
    {"mask", /* M017 */
     SIGN_MANDATORY,
     {{PAINT_WHITE, 0,
       "M50,14 C72,14 78,30 77,46 C76,68 64,86 50,86 C36,86 24,68 23,46 "
       "C22,30 28,14 50,14 Z"},
      {PAINT_BLUE, 0,
       "M33,54 C40,48 60,48 67,54 C68,68 60,78 50,78 C40,78 "
       "32,68 33,54 Z"},
      {PAINT_WHITE, 0, "O42,64,5 O58,64,5"},
      {PAINT_BLUE, 0, "O40,38,3.5 O60,38,3.5"},
      {PAINT_BLUE, 2.5, "M24,48 L34,55 M76,48 L66,55"}}},
    {"disconnect", /* M021 */
     SIGN_MANDATORY,
     {{PAINT_WHITE, 0, "M20,44 L34,36 V42 H48 V46 H34 V52 Z"},
      {PAINT_WHITE, 0, "M46,16 H58 V34 H46 Z M46,80 H58 V90 H46 Z"},
      {PAINT_WHITE, 0, "M50,72 L72,30 L80,34 L58,76 Z O53,76,8"}}},
    {"eye protection", /* M004 */
     SIGN_MANDATORY,
     {{PAINT_WHITE, 0,
       "M50,14 C72,14 78,30 77,46 C76,68 64,86 50,86 C36,86 24,68 23,46 "
       "C22,30 28,14 50,14 Z"},
      {PAINT_BLUE, 0,
       "M22,38 H78 V42 L74,44 C74,55 68,58 62,58 C56,58 52,54 51,49 H49 "
       "C48,54 44,58 38,58 C32,58 26,55 26,44 L22,42 Z"},
      {PAINT_WHITE, 0, "O38,48,6 O62,48,6"}}},
    {"gloves", /* M009 */
     SIGN_MANDATORY,
     {{PAINT_WHITE, 0,
       "M42,82 V66 L34,54 C31,49 37,46 40,49 L44,53 L41,30 C41,25 47,25 "
       "48,30 L50,44 V25 C50,20 56,20 56,25 L57,44 L60,28 C61,23 66,24 66,29 "
       "L64,60 L60,66 V82 Z"}}},
    {"no flame", /* P003 */
     SIGN_PROHIBITION,
     {{PAINT_BLACK, 0, "M44,82 L56,44 L60,45.5 L48,83 Z"},
      {PAINT_BLACK, 0,
       "M60,14 C66,23 68,29 67,35 C66,41 62,44 57,44 C52,44 48,40 49,34 "
       "C50,30 53,28 54,24 C56,27 57,28 58,28 C60,24 60,19 60,14 Z"}}},
};

static struct colour paint_colour(enum paint p) {
    switch (p) {
    case PAINT_BLACK:
        return style_black();
    case PAINT_WHITE:
        return style_white();
    case PAINT_YELLOW:
        return style_yellow();
    case PAINT_BLUE:
        return style_blue();
    case PAINT_RED:
        return style_red();
    }
    return style_black();
}

const struct symbol *symbol_at(size_t index) {
    return index < sizeof symbols / sizeof symbols[0] ? &symbols[index] : NULL;
}

const struct symbol *symbol_find(const char *name) {
    for (size_t i = 0; symbol_at(i) != NULL; i++)
        if (strcmp(symbols[i].name, name) == 0)
            return &symbols[i];
    return NULL;
}

const char *symbol_name(const struct symbol *s) {
    return s->name;
}

/* Corners cut by short curves: the outer edge of the triangle, radius 5. */
static const char triangle_outer[] =
    "M45.7,2.5 C47.6,-0.8 52.4,-0.8 54.3,2.5 L99.3,80.4 C101.2,83.7 98.8,87.9 "
    "95,87.9 L5,87.9 C1.2,87.9 -1.2,83.7 0.7,80.4 Z";
static const char triangle_inner[] =
    "M50,9.4 L92,82.1 C92.2,82.5 92,82.9 91.5,82.9 L8.5,82.9 C8,82.9 7.8,82.5 "
    "8,82.1 Z";

void symbol_draw(const struct composer *c, struct slab *s,
                 const struct symbol *symbol, double x, double y, double side) {
    struct pen_square q = {x, y, side};
    switch (symbol->sign) {
    case SIGN_WARNING: /* 88 high: centred on the square */
        q.y += side * 0.06;
        pen_draw(c, s, q, triangle_outer, 0, style_black());
        pen_draw(c, s, q, triangle_inner, 0, style_yellow());
        break;
    case SIGN_MANDATORY:
        pen_draw(c, s, q, "O50,50,50", 0, style_blue());
        break;
    case SIGN_PROHIBITION:
        pen_draw(c, s, q, "O50,50,49", 0, style_white());
        break;
    }
    for (size_t i = 0; i < SYMBOL_STROKES && symbol->stroke[i].path; i++) {
        const struct stroke *one = &symbol->stroke[i];
        pen_draw(c, s, q, one->path, one->width, paint_colour(one->paint));
    }
    if (symbol->sign == SIGN_PROHIBITION) {
        pen_draw(c, s, q, "M18,18 L82,82", 8, style_red());
        pen_draw(c, s, q, "O50,50,45", 10, style_red());
    }
}

void symbol_draw_alert(const struct composer *c, struct slab *s, double x,
                       double y, double side, struct colour fill,
                       struct colour sign) {
    struct pen_square q = {x, y + side * 0.06, side};
    pen_draw(c, s, q, triangle_outer, 0, fill);
    pen_draw(c, s, q, symbols[0].stroke[0].path, 0, sign);
}
