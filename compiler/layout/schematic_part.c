/* schematic_part.c - the symbols of a circuit diagram as tables of paths. */
#include "layout/schematic_part.h"

#include "layout/pen.h"
#include "layout/shape.h"

/* Of the square of 100: a line of 1 pt on a square of 26 pt. */
#define LINE 3.8

struct drawing {
    const char *name;
    const char *line;   /* stroked */
    const char *solid;  /* filled; or NULL */
    const char *letter; /* in the middle; or NULL */
    const char *up; /* stroked where the current goes upward; NULL: the same */
    const char *up_solid;
};

static const struct drawing drawings[SCHEMATIC_SYMBOLS] = {
    [SYMBOL_FUSE] = {.name = "fuse", .line = "M50,0 V100 M37,18 H63 V82 H37 Z"},
    [SYMBOL_BREAKER] = {.name = "circuit breaker",
                        .line = "M50,0 V30 M50,100 V72 L28,30 M43,23 L57,37 "
                                "M57,23 L43,37"},
    [SYMBOL_SWITCH] = {.name = "switch",
                       .line = "M50,0 V30 M50,100 V72 L28,30 M39,51 H20 "
                               "M20,43 V59"},
    [SYMBOL_SWITCH_CLOSED] = {.name = "switch, closed",
                              .line = "M50,0 V100 M50,51 H22 M22,41 V61",
                              .solid = "O50,28,8 O50,72,8"},
    [SYMBOL_CONTACT] = {.name = "relay contact",
                        .line = "M50,0 V30 M50,100 V72 L28,30"},
    [SYMBOL_REST_CONTACT] = {.name = "rest contact",
                             .line = "M50,0 V32 H72 M50,100 V72 L68,26"},
    [SYMBOL_CONTACT_CLOSED] = {.name = "relay contact, closed",
                               .line = "M50,0 V100",
                               .solid = "O50,28,8 O50,72,8"},
    [SYMBOL_REST_CONTACT_OPEN] = {.name = "rest contact, open",
                                  .line = "M50,0 V32 H72 M50,100 V72 L28,30"},
    [SYMBOL_COIL] = {.name = "relay coil",
                     .line = "M50,0 V30 M50,70 V100 M18,30 H82 V70 H18 Z"},
    [SYMBOL_DIODE] = {.name = "diode",
                      .line = "M50,0 V100 M28,68 H72",
                      .solid = "M28,32 H72 L50,68 Z",
                      .up = "M50,0 V100 M28,32 H72",
                      .up_solid = "M28,68 H72 L50,32 Z"},
    [SYMBOL_CONNECTOR] = {.name = "connector",
                          .line = "M50,0 V46 M50,62 V100 M34,36 C34,66 66,66 "
                                  "66,36",
                          .solid = "M44,20 H56 V50 H44 Z"},
    [SYMBOL_SPLICE] = {.name = "splice",
                       .line = "M50,0 V100",
                       .solid = "O50,50,10"},
    [SYMBOL_JOINT] = {.name = "ring, screw or stud",
                      .line = "M50,0 V38 M50,62 V100 O50,50,12"},
    [SYMBOL_LAMP] = {.name = "lamp",
                     .line = "M50,0 V20 M50,80 V100 O50,50,30 M29,29 L71,71 "
                             "M71,29 L29,71"},
    [SYMBOL_MOTOR] = {.name = "motor",
                      .line = "M50,0 V18 M50,82 V100 O50,50,32",
                      .letter = "M"},
    [SYMBOL_HEATER] = {.name = "heater",
                       .line = "M50,0 V14 M50,86 V100 M35,14 H65 V86 H35 Z "
                               "M35,32 H65 M35,50 H65 M35,68 H65"},
    [SYMBOL_RESISTOR] = {.name = "resistive load",
                         .line = "M50,0 V14 M50,86 V100 M35,14 H65 V86 H35 Z"},
    [SYMBOL_LOAD] = {.name = "appliance",
                     .line = "M50,0 V20 M50,80 V100 M16,20 H84 V80 H16 Z",
                     .letter = "E"},
    [SYMBOL_BATTERY] = {.name = "battery",
                        .line = "M50,0 V34 M16,34 H84 M16,58 H84 M50,70 V100 "
                                "M74,14 H90 M82,6 V22",
                        .solid = "M34,43 H66 V50 H34 Z M34,67 H66 V74 H34 Z"},
    [SYMBOL_GENERATOR] = {.name = "alternator",
                          .line = "M50,0 V18 M50,82 V100 O50,50,32",
                          .letter = "G"},
    [SYMBOL_CONVERTER] = {.name = "charger or converter",
                          .line = "M50,0 V20 M50,80 V100 M16,20 H84 V80 H16 Z "
                                  "M16,80 L84,20"},
};

const char *schematic_symbol_name(enum schematic_symbol s) {
    return drawings[s].name;
}

void schematic_symbol_draw(const struct composer *c, struct slab *s,
                           enum schematic_symbol symbol, double x, double y,
                           double side, bool up) {
    const struct drawing *d = &drawings[symbol];
    struct pen_square q = {x, y, side};
    bool turned = up && d->up != NULL;
    const char *solid = turned ? d->up_solid : d->solid;
    pen_draw(c, s, q, turned ? d->up : d->line, LINE, style_black());
    if (solid != NULL)
        pen_draw(c, s, q, solid, 0, style_black());
    if (d->letter == NULL)
        return;
    struct text letter = text_of(d->letter);
    double size = side * 0.4;
    double wide = shape_width(c->shaper, FACE_BOLD, size, letter);
    slab_text(c, s, x + (side - wide) / 2, y + side / 2 + size * 0.36,
              FACE_BOLD, size, style_black(), letter);
}
