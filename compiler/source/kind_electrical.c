/* kind_electrical.c - kinds of block for sources, loads, wires and fuses. */
#include "source/kind_tables.h"

enum {
    ANYWHERE = KIND_IN_GUIDE | KIND_IN_FACTS | KIND_IN_SHARED,
};

static const struct setting supply_settings[] = {
    {"chemistry", SETTING_CHOICE, NULL, "flooded|AGM|gel|lithium|none",
     "of the battery; none: a converter or generator", false, false},
    {"grounded post", SETTING_CHOICE, NULL, "negative|positive|none",
     "post that is tied to the chassis", false, false},
    {"resting", SETTING_QUANTITY, "V", NULL, "voltage with nothing running",
     false, false},
    {"charging", SETTING_QUANTITY, "V", NULL, "voltage while it is charged",
     false, false},
    {"resistance", SETTING_QUANTITY, "ohm", NULL,
     "inner resistance, which limits the current into a short", false, false},
    {"rated output", SETTING_QUANTITY, "A", NULL,
     "the most that an alternator or charger gives, which limits itself", false,
     false},
    {"limits", SETTING_LIMIT, "V", NULL, "voltages that it may be held at",
     false, false},
    {0},
};

const struct kind kind_supply = {
    KIND_SUPPLY,
    "supply",
    "a battery or another source",
    NAME_REQUIRED,
    KIND_HOLDS_SETTINGS | ANYWHERE,
    supply_settings,
    NULL,
    NULL,
};

static const struct setting load_settings[] = {
    {"kind", SETTING_CHOICE, NULL,
     "resistive|lamp|motor|heater|constant current|constant power",
     "how the current moves with the voltage", .required = true},
    {"current", SETTING_AT, "A", NULL,
     "in use, with the voltage at which it was measured", .required = true},
    {"highest", SETTING_AT, "A", NULL, "the most that it draws for long", false,
     false},
    {"starting", SETTING_STARTING, "A", NULL, "peak, and how long it lasts",
     false, false},
    {"duty", SETTING_CHOICE, NULL, "continuous|intermittent|cranking",
     "continuous: three hours or more", false, false},
    {"serves", SETTING_CHOICE, NULL,
     "brake lamp|marker lamp|navigation light|horn|wiper|brake controller|"
     "fuel pump|bilge blower|gas alarm",
     "a load that safety hangs on", false, false},
    {"capacitance", SETTING_QUANTITY, "F", NULL,
     "of a capacitor in it, or across it", false, false},
    {"charged to", SETTING_QUANTITY, "V", NULL,
     "the most that the capacitor is charged to", false, false},
    {0},
};

const struct kind kind_load = {
    KIND_LOAD,
    "load",
    "what a circuit feeds",
    NAME_REQUIRED,
    KIND_HOLDS_SETTINGS | ANYWHERE,
    load_settings,
    NULL,
    NULL,
};

static const struct setting wire_settings[] = {
    {"load", SETTING_BLOCK_OR_QUANTITY, "A", "load", "what it carries", false,
     false},
    {"duty", SETTING_CHOICE, NULL, "continuous|intermittent|cranking",
     "continuous: three hours or more", false, false},
    {"conductor", SETTING_CHOICE, NULL,
     "AWG stranded|AWG solid|SAE|ISO 6722|class 2|class 5|JIS|AU",
     "system of sizes and stranding", false, false},
    {"material", SETTING_CHOICE, NULL, "copper|tinned copper|aluminum",
     "of the conductor; absent: copper", false, false},
    {"length", SETTING_QUANTITY, "m", NULL, "one way", false, false},
    {"return", SETTING_CHOICE, NULL, "own wire|chassis|none",
     "how the current comes back", false, false},
    {"loop", SETTING_QUANTITY, "m", NULL,
     "there and back, in place of length and return", false, false},
    {"supply", SETTING_BLOCK_OR_QUANTITY, "V", "supply",
     "what feeds it, or its voltage; a run that nothing feeds is refused",
     false, false},
    {"drop limit", SETTING_DROP, "V", NULL,
     "the most that may be lost: 0.4 V, 3 %, 3 % of 13.8 V", false, false},
    {"insulation", SETTING_QUANTITY, "degC", NULL,
     "temperature that the insulation stands", false, false},
    {"ambient", SETTING_QUANTITY, "degC", NULL, "around the wire, at the worst",
     false, false},
    {"bundle", SETTING_COUNT, NULL, NULL,
     "current-carrying conductors side by side", false, false},
    {"engine space", SETTING_YES_NO, NULL, NULL,
     "runs through the engine space", false, false},
    {"ampacity", SETTING_CHOICE, NULL,
     "33 CFR 183.425|NEC 310.16|AC 43.13|ISO 10133",
     "table of allowed currents", false, false},
    {"terminals", SETTING_QUANTITY, "A", NULL,
     "what the weaker of its two terminals carries", false, false},
    {"tab", SETTING_CHOICE, NULL, "2.8 mm|4.8 mm|6.3 mm",
     "quick-connect tab in the run", false, false},
    {"stud", SETTING_CHOICE, NULL, "M4|M5|M6|M8|M10|M12|M16",
     "stud that presses its ring terminals", false, false},
    {"contact", SETTING_QUANTITY, "A", NULL,
     "resistive rating at 12 V of the relay or switch in the run", false,
     false},
    {"use", SETTING_SIZE, NULL, NULL,
     "size to fit; absent: the smallest that passes", false, false},
    {0},
};

static const struct field wire_fields[] = {
    {"size", NULL, "size to fit"},
    {"area", "mm2", "cross-section of the conductor"},
    {"current", "A", "what it carries"},
    {"most", "A",
     "the most that it carries, at the worst voltage of its supply"},
    {"loop", "m", "length there and back"},
    {"resistance", "mohm", "of the loop, at the conductor's temperature"},
    {"drop", "V", "lost in the loop"},
    {"percent", "%", "lost, as a share of the supply"},
    {"ampacity", "A", "allowed current after all factors"},
    {"cranking", "A", "allowed for one cranking, of a cable that is for it"},
    {"temperature", "degC",
     "of the conductor under its load, or after one cranking"},
    {"heat", "W", "given off by the loop"},
    {"pull", "lbf", "least pull that its crimp must hold"},
    {"terminal", NULL, "colour of the insulated crimp terminal for its size"},
    {0},
};

const struct kind kind_wire = {
    KIND_WIRE,
    "wire",
    "a wire run; without a name: defaults for its file",
    NAME_OPTIONAL,
    KIND_HOLDS_SETTINGS | ANYWHERE,
    wire_settings,
    wire_fields,
    NULL,
};

static const struct setting fuse_settings[] = {
    {"protects", SETTING_BLOCKS, NULL, "wire", "the wires behind it", false,
     false},
    {"load", SETTING_BLOCK_OR_QUANTITY, "A", "load",
     "what it carries; absent: as much as the wire that carries most", false,
     false},
    {"place", SETTING_PLACE, "m", NULL,
     "wire length from the source, then the source: 5 in from battery +", false,
     false},
    {"sheathed", SETTING_YES_NO, NULL, NULL,
     "the wire between source and fuse is sheathed all the way", false, false},
    {"style", SETTING_CHOICE, NULL,
     "mini blade|blade|maxi blade|strip SF30|strip SF51|class T|glass|breaker",
     "decides the ratings made and the interrupting rating", false, false},
    {"interrupt", SETTING_QUANTITY, "A", NULL,
     "the most that it can break, by its maker", false, false},
    {"share", SETTING_QUANTITY, "%", NULL,
     "of its rating that a continuous load may take; absent: 80 %", false,
     false},
    {"ambient", SETTING_QUANTITY, "degC", NULL, "around the fuse", false,
     false},
    {"rule", SETTING_CHOICE, NULL, "100 %|150 %",
     "rating allowed, of the wire's ampacity; absent: 100 %", false, false},
    {"use", SETTING_QUANTITY, "A", NULL,
     "rating to fit; absent: the smallest that passes", false, false},
    {0},
};

static const struct field fuse_fields[] = {
    {"rating", "A", "rating to fit"},
    {"colour", NULL, "of a fuse of this rating and style"},
    {"loading", "%", "of its rating that the load takes"},
    {"steady", "A", "the largest load that may stay on"},
    {"breaks", "A", "the most that it can break, by its maker or its style"},
    {"fault.high", "A", "current into a short at its load side, at the most"},
    {"fault.low", "A", "current into a short at the far end, at the least"},
    {0},
};

const struct kind kind_fuse = {
    KIND_FUSE,
    "fuse",
    "a fuse or breaker; without a name: defaults for its file",
    NAME_OPTIONAL,
    KIND_HOLDS_SETTINGS | ANYWHERE,
    fuse_settings,
    fuse_fields,
    NULL,
};

static const struct setting pinout_settings[] = {
    {"face", SETTING_TEXT, NULL, NULL,
     "names of the cavities, rows from the top parted by '/': 1 2 3 / 4 5 -; "
     "of a round one rings from the outside in, each clockwise from the top",
     .required = true},
    {"shape", SETTING_CHOICE, NULL, "block|round",
     "of the connector; 'block' when absent", false, false},
    {"key", SETTING_CHOICE, NULL, "top|right|bottom|left",
     "the side on which it has its notch or rib", false, false},
    {"viewed from", SETTING_CHOICE, NULL, "wire side|mating side",
     "where the reader looks at it from", .required = true},
    {"connector", SETTING_TEXT, NULL, NULL, "its maker and number", false,
     false},
    {"title", SETTING_PROSE, NULL, NULL, "printed above the table", false,
     false},
    {0},
};

static const struct column pinout_columns[] = {
    {"cavity", SETTING_TEXT, NULL, "its name on the face", .required = true},
    {"colour", SETTING_TEXT, NULL, "of the wire, with its tracer: red/white",
     .required = true},
    {"wire", SETTING_TEXT, NULL, "its name", false, false},
    {"purpose", SETTING_PROSE, NULL, "what it does", .required = true},
    {"expect", SETTING_PROSE, NULL, "what a meter shows there", false, false},
    {0},
};

const struct kind kind_pinout = {
    KIND_PINOUT,
    "pinout",
    "what is in the cavities of a connector; its face is drawn",
    NAME_REQUIRED,
    KIND_HOLDS_SETTINGS | KIND_HOLDS_ROWS | KIND_PRINTS_TABLE | KIND_IN_GUIDE |
        KIND_IN_SHARED,
    pinout_settings,
    NULL,
    pinout_columns,
};
