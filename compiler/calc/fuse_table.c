/* fuse_table.c - styles of fuses and breakers with ratings, colours, curves.
 *
 * Forms are named by their standard. Colours hold within a form only: red is 10
 * A in a blade and 50 A in a maxi blade. */
#include "calc/fuse_table.h"

#include <math.h>

/* clang-format off */

/* ISO 8820-3 type C (regular blade). Colours of 2 to 40 A: public colour table
 * after DIN 72581; 1 and 35 A from memory of ISO 8820-3. */
static const struct fuse_rating blade[] = {
    {1, "black", false}, {2, "grey", true}, {3, "violet", true},
    {4, "pink", true}, {5, "tan", true}, {7.5, "brown", true},
    {10, "red", true}, {15, "blue", true}, {20, "yellow", true},
    {25, "clear", true}, {30, "green", true}, {35, "blue-green", false},
    {40, "orange", true},
};

/* ISO 8820-3 type F (miniature blade): the same source. */
static const struct fuse_rating mini_blade[] = {
    {2, "grey", true}, {3, "violet", true}, {4, "pink", true},
    {5, "tan", true}, {7.5, "brown", true}, {10, "red", true},
    {15, "blue", true}, {20, "yellow", true}, {25, "clear", true},
    {30, "green", true},
};

/* ISO 8820-3 type E (high current blade). Colours from memory of ISO 8820-3 and
 * SAE J1888, 80 A seen; the ratings 20 to 80 seen in a trade text. 25, 35 and 100
 * A are weak. */
static const struct fuse_rating maxi_blade[] = {
    {20, "yellow", false}, {25, "grey", false}, {30, "green", false},
    {35, "brown", false}, {40, "orange", false}, {50, "red", false},
    {60, "blue", false}, {70, "tan", false}, {80, "clear", true},
    {100, "violet", false},
};

/* Bolt-down and other forms: that the rating exists, from memory of makers'
 * ranges; colours vary by maker. */
#define PLAIN(amp) {amp, NULL, false}
static const struct fuse_rating strip_sf30[] = {
    PLAIN(30), PLAIN(40), PLAIN(50), PLAIN(60), PLAIN(70), PLAIN(80),
    PLAIN(100), PLAIN(125), PLAIN(150), PLAIN(175), PLAIN(200),
};
static const struct fuse_rating strip_sf51[] = {
    PLAIN(40), PLAIN(60), PLAIN(80), PLAIN(100), PLAIN(125), PLAIN(150),
    PLAIN(175), PLAIN(200), PLAIN(225), PLAIN(250), PLAIN(300), PLAIN(350),
    PLAIN(400), PLAIN(450), PLAIN(500),
};
static const struct fuse_rating strip_anl[] = {
    PLAIN(35), PLAIN(40), PLAIN(50), PLAIN(60), PLAIN(80), PLAIN(100),
    PLAIN(130), PLAIN(150), PLAIN(175), PLAIN(200), PLAIN(225), PLAIN(250),
    PLAIN(275), PLAIN(300), PLAIN(325), PLAIN(350), PLAIN(400), PLAIN(500),
    PLAIN(600), PLAIN(675), PLAIN(750),
};
static const struct fuse_rating terminal[] = {
    PLAIN(30), PLAIN(40), PLAIN(50), PLAIN(60), PLAIN(75), PLAIN(80),
    PLAIN(90), PLAIN(100), PLAIN(125), PLAIN(150), PLAIN(175), PLAIN(200),
    PLAIN(225), PLAIN(250), PLAIN(300),
};
static const struct fuse_rating class_t[] = {
    PLAIN(15),  PLAIN(20),  PLAIN(25),  PLAIN(30),  PLAIN(35),  PLAIN(40),
    PLAIN(45),  PLAIN(50),  PLAIN(60),  PLAIN(70),  PLAIN(80),  PLAIN(90),
    PLAIN(100),
    PLAIN(110), PLAIN(125), PLAIN(150), PLAIN(175), PLAIN(200), PLAIN(225),
    PLAIN(250), PLAIN(300), PLAIN(350), PLAIN(400),
};
static const struct fuse_rating cartridge[] = {
    PLAIN(20), PLAIN(25), PLAIN(30), PLAIN(40), PLAIN(50), PLAIN(60),
};
static const struct fuse_rating glass[] = {
    PLAIN(1), PLAIN(2), PLAIN(3), PLAIN(4), PLAIN(5), PLAIN(7.5), PLAIN(10),
    PLAIN(14), PLAIN(15), PLAIN(20), PLAIN(25), PLAIN(30),
};
/* Breakers: common practice, no source. */
static const struct fuse_rating breaker[] = {
    PLAIN(5), PLAIN(7.5), PLAIN(10), PLAIN(15), PLAIN(20), PLAIN(25),
    PLAIN(30), PLAIN(35), PLAIN(40), PLAIN(50), PLAIN(60), PLAIN(70),
    PLAIN(80), PLAIN(90), PLAIN(100), PLAIN(120), PLAIN(135), PLAIN(150),
    PLAIN(175), PLAIN(200),
};

/* Envelopes of opening time: multiple, shortest s, longest s. */

/* From memory: makers' sheets quoting ISO 8820-3 and SAE J1284, 4 A and up. ISO
 * allows 1800 s at 1.35 in later editions, which is taken here. */
static const struct fuse_time blade_time[] = {
    {1.10, 360000, INFINITY}, {1.35, 0.75, 1800}, {1.60, 0.25, 50},
    {2.00, 0.15, 5}, {3.50, 0.04, 0.5}, {6.00, 0.02, 0.1},
};
/* From memory: makers' sheets quoting SAE J1888. */
static const struct fuse_time maxi_time[] = {
    {1.10, 360000, INFINITY}, {1.35, 60, 1800}, {2.00, 2, 60},
    {3.50, 0.2, 7}, {6.00, 0.04, 1},
};
/* From memory: makers' sheets for ISO 8820-5; rated for 4 h at 1.00. */
static const struct fuse_time strip_time[] = {
    {0.75, 360000, INFINITY}, {1.00, 14400, INFINITY}, {1.35, 120, 1800},
    {2.00, 1, 15}, {3.50, 0.3, 5}, {6.00, 0.1, 1},
};
/* UL 248-14, cartridges to 30 A: seen in a maker's guide. The shortest times are
 * not stated there. */
static const struct fuse_time glass_time[] = {
    {1.00, INFINITY, INFINITY}, {1.35, 0, 3600}, {2.00, 0, 120},
};

#define MAKERS "from memory: makers' ranges"
#define BLADE_TIME "from memory: makers' sheets quoting ISO 8820-3 and SAE J1284"
#define STRIP_TIME "from memory: makers' sheets for ISO 8820-5"
#define RERATING "from memory: makers' re-rating curves, 0.10 to 0.15 % per kelvin"
#define ZERO_C 273.15
#define AMBIENT(low, high, from) \
    .coldest = ZERO_C + (low), .hottest = ZERO_C + (high), .ambient_source = from
#define MAKERS_AMBIENT AMBIENT(-40, 125, "from memory: makers' sheets, -40 to 125 °C")
#define SAFE_AMBIENT \
    AMBIENT(-40, 85, "not known: 85 °C, until the maker's sheet says more")
#define ISO_8820_3 "ISO 8820-3:2015, scope: breaking capacity 1000 A at 32 V or 58 V"
#define UNKNOWN "not known: the maker's sheet must say"
#define VOLT(u, from) .volt = u, .volt_source = from
#define ISO_8820_VOLT "ISO 8820-3:2015, scope: 32 V or 58 V; 32 V where its maker marks no more"
#define MAKERS_VOLT "from memory: makers' sheets; some of the same form are for more"
#define COUNT(a) (sizeof a / sizeof a[0])
#define RATINGS(a) .rating = a, .rating_count = COUNT(a)
#define TIMES(a) .time = a, .time_count = COUNT(a)

const struct fuse_style fuse_style_table[] = {
    {.name = "mini blade", .form = "ISO 8820-3 type F", RATINGS(mini_blade),
     VOLT(32, ISO_8820_VOLT),
     .interrupt = 1000, .interrupt_volt = 32,
     .interrupt_source = ISO_8820_3,
     TIMES(blade_time), .time_source = BLADE_TIME,
     .per_kelvin = 0.0015, .per_kelvin_source = RERATING,
     MAKERS_AMBIENT,
     .source = "ISO 8820-3 type F; colours after DIN 72581"},
    {.name = "blade", .form = "ISO 8820-3 type C", RATINGS(blade),
     VOLT(32, ISO_8820_VOLT),
     .interrupt = 1000, .interrupt_volt = 32,
     .interrupt_source = ISO_8820_3,
     TIMES(blade_time), .time_source = BLADE_TIME,
     .per_kelvin = 0.0015, .per_kelvin_source = RERATING,
     MAKERS_AMBIENT,
     .source = "ISO 8820-3 type C; colours after DIN 72581"},
    {.name = "maxi blade", .form = "ISO 8820-3 type E", RATINGS(maxi_blade),
     VOLT(32, ISO_8820_VOLT),
     .interrupt = 1000, .interrupt_volt = 32,
     .interrupt_source = ISO_8820_3,
     TIMES(maxi_time), .time_source = "from memory: makers' sheets quoting SAE J1888",
     .per_kelvin = 0.0015, .per_kelvin_source = RERATING,
     MAKERS_AMBIENT,
     .source = "from memory: ISO 8820-3 type E, SAE J1888"},
    {.name = "cartridge", .form = "ISO 8820-4 female cartridge", RATINGS(cartridge),
     VOLT(32, MAKERS_VOLT),
     .interrupt = NAN, .interrupt_volt = NAN, .interrupt_source = UNKNOWN,
     .time_source = UNKNOWN, .per_kelvin = 0.0015, .per_kelvin_source = RERATING,
     MAKERS_AMBIENT,
     .source = MAKERS},
    {.name = "strip SF30", .form = "ISO 8820-5 type SF30", RATINGS(strip_sf30),
     .bolted = true,
     VOLT(32, MAKERS_VOLT),
     .interrupt = NAN, .interrupt_volt = NAN, .interrupt_source = UNKNOWN,
     TIMES(strip_time), .time_source = STRIP_TIME,
     .per_kelvin = 0.0015, .per_kelvin_source = RERATING, MAKERS_AMBIENT,
     .source = MAKERS},
    {.name = "strip SF51", .form = "ISO 8820-5 type SF51", RATINGS(strip_sf51),
     .bolted = true,
     VOLT(32, MAKERS_VOLT),
     .interrupt = 2000, .interrupt_volt = 32,
     .interrupt_source = "from memory: makers' sheets, 2 kA at 32 V",
     TIMES(strip_time), .time_source = STRIP_TIME,
     .per_kelvin = 0.0015, .per_kelvin_source = RERATING, MAKERS_AMBIENT,
     .source = MAKERS},
    {.name = "strip ANL", .form = "ANL strip", RATINGS(strip_anl),
     .bolted = true,
     VOLT(32, MAKERS_VOLT),
     .interrupt = 6000, .interrupt_volt = 32,
     .interrupt_source = "from memory: makers' sheets, 6 kA at 32 V",
     .time_source = UNKNOWN, .per_kelvin = 0.0015, .per_kelvin_source = RERATING,
     SAFE_AMBIENT,
     .source = MAKERS},
    {.name = "terminal", .form = "marine-rated battery-terminal fuse", RATINGS(terminal),
     .bolted = true,
     VOLT(58, MAKERS_VOLT),
     .interrupt = 5000, .interrupt_volt = 32,
     .interrupt_source = "from memory: makers' sheets, 10 kA at 14 V, 5 kA at 32 V, 2 kA at 58 V",
     .time_source = UNKNOWN, .per_kelvin = 0.0015, .per_kelvin_source = RERATING,
     SAFE_AMBIENT,
     .source = MAKERS},
    {.name = "class T", .form = "UL class T", RATINGS(class_t),
     .bolted = true,
     VOLT(125, "125 V d.c.: an installers' mailing list of 2013"),
     .interrupt = 20000, .interrupt_volt = 125,
     .interrupt_source = "20 kA at 125 V d.c.: an installers' mailing list of 2013",
     .time_source = UNKNOWN, .per_kelvin = 0.0015, .per_kelvin_source = RERATING,
     SAFE_AMBIENT,
     .source = MAKERS},
    {.name = "glass", .form = "6.3 x 32 mm glass, 32 V", RATINGS(glass),
     VOLT(32, MAKERS_VOLT),
     .interrupt = NAN, .interrupt_volt = NAN, .interrupt_source = UNKNOWN,
     TIMES(glass_time), .time_source = "UL 248-14, 0 to 30 A, as a maker's guide quotes it",
     .time_verified = true, .per_kelvin = 0.005,
     .per_kelvin_source = "0.5 % per kelvin above 25 °C: conservative military practice, as a public page quotes it",
     MAKERS_AMBIENT,
     .source = MAKERS},
    {.name = "breaker", .form = "thermal breaker", RATINGS(breaker),
     VOLT(NAN, UNKNOWN),
     .interrupt = NAN, .interrupt_volt = NAN, .interrupt_source = UNKNOWN,
     .time_source = UNKNOWN, .per_kelvin = 0.005,
     .per_kelvin_source = "0.5 % per kelvin above 25 °C: conservative military practice, as a public page quotes it",
     AMBIENT(-32, 82, "from memory: makers' sheets of marine breakers, -32 to 82 °C"),
     .source = "common practice, no source"},
    {0},
};

const struct fuse_rule fuse_rule_table[] = {
    {"100 %", 1.0, INFINITY,
     "46 CFR 111.50-3, IEC 60364-4-43: not above the ampacity"},
    {"150 %", 1.5, 50, "33 CFR 183.455(c)(1): below 50 V, at most 150 % of Table 5"},
    {0},
};

#define INCH 0.0254
const struct fuse_place fuse_place_table[] = {
    {false, false, 7 * INCH, "7 in along the conductor", "33 CFR 183.455(b)(1)"},
    {false, true, 40 * INCH, "40 in along the conductor, sheathed the whole way",
     "33 CFR 183.455(b)(2)"},
    {true, false, 7 * INCH, "7 in along the conductor", "33 CFR 183.455(b)(1)"},
    {true, true, 72 * INCH, "72 in from the battery terminal, sheathed the whole way",
     "from memory: boat practice, ABYC E-11; the federal rule has 40 in"},
    {0},
};
