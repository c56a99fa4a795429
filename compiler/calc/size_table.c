/* size_table.c - the wire sizes of each system, by rising area.
 *
 * Columns: name, label, area m2, usual, largest resistance in ohm/m at 20 degC
 * of copper, tinned copper, aluminium (NAN: the standard states none). */
#include "calc/size_table.h"

#include <math.h>

/* clang-format off */

/* AWG: d = 0.127 mm * 92^((36 - n)/39), area = pi/4 d2. Exact by definition: 36
 * AWG is 0.005 in and 4/0 AWG is 0.46 in. Source: ASTM B258. Usual: the rows of
 * NFPA 70 Chapter 9 Table 8, and the even gauges 20 to 30. No resistance is
 * stated: it follows from area and conductivity. */
#define SOLID(gauge, area, usual) \
    {WIRE_AWG_SOLID, gauge " AWG", gauge " AWG", area, usual, {NAN, NAN, NAN}, "ASTM B258"}
/* Tinned, stranded: resistance at 75 degC, coated copper, ohm/kft, of NFPA 70
 * Chapter 9 Table 8, brought to 20 degC by 254.5/309.5. From memory of that
 * table: its uncoated column was seen, the coated one was not. */
#define COATED(ohm_kft_75) ((ohm_kft_75) / 304.8 * 254.5 / 309.5)
#define STRANDED(gauge, area, usual, tinned) \
    {WIRE_AWG_STRANDED, gauge " AWG", gauge " AWG", area, usual, {NAN, tinned, NAN}, \
     "ASTM B258; NFPA 70 Chapter 9 Table 8"}

static const struct wire_size awg_solid[] = {
    SOLID("30", 5.0926019463551775e-08, true),
    SOLID("29", 6.4216524884402511e-08, false),
    SOLID("28", 8.0975542790665237e-08, true),
    SOLID("27", 1.0210827418715534e-07, false),
    SOLID("26", 1.2875615646606321e-07, true),
    SOLID("25", 1.6235851560400574e-07, false),
    SOLID("24", 2.0473030814712209e-07, true),
    SOLID("23", 2.5816015204429119e-07, false),
    SOLID("22", 3.2553394124546669e-07, true),
    SOLID("21", 4.1049072083218307e-07, false),
    SOLID("20", 5.1761924192803836e-07, true),
    SOLID("19", 6.5270581286462828e-07, false),
    SOLID("18", 8.2304683373131432e-07, true),
    SOLID("17", 1.037842895166059e-06, false),
    SOLID("16", 1.3086957277552624e-06, true),
    SOLID("15", 1.6502348436569877e-06, false),
    SOLID("14", 2.0809077170983772e-06, true),
    SOLID("13", 2.6239761835859269e-06, false),
    SOLID("12", 3.3087728761114766e-06, true),
    SOLID("11", 4.1722855619556339e-06, false),
    SOLID("10", 5.2611549545103725e-06, true),
    SOLID("9", 6.6341939074743028e-06, false),
    SOLID("8", 8.3655640600810209e-06, true),
    SOLID("7", 1.0548781512773456e-05, false),
    SOLID("6", 1.3301767890969134e-05, true),
    SOLID("5", 1.6773219618869267e-05, false),
    SOLID("4", 2.115063942544283e-05, true),
    SOLID("3", 2.6670463886482745e-05, true),
    SOLID("2", 3.363083401934961e-05, true),
    SOLID("1", 4.2407698705618654e-05, true),
    SOLID("1/0", 5.3475120732117661e-05, true),
    SOLID("2/0", 6.7430882235910774e-05, true),
    SOLID("3/0", 8.5028772574277623e-05, true),
    SOLID("4/0", 0.00010721930257703052, true),
};

static const struct wire_size awg_stranded[] = {
    STRANDED("30", 5.0926019463551775e-08, true, NAN),
    STRANDED("29", 6.4216524884402511e-08, false, NAN),
    STRANDED("28", 8.0975542790665237e-08, true, NAN),
    STRANDED("27", 1.0210827418715534e-07, false, NAN),
    STRANDED("26", 1.2875615646606321e-07, true, NAN),
    STRANDED("25", 1.6235851560400574e-07, false, NAN),
    STRANDED("24", 2.0473030814712209e-07, true, NAN),
    STRANDED("23", 2.5816015204429119e-07, false, NAN),
    STRANDED("22", 3.2553394124546669e-07, true, NAN),
    STRANDED("21", 4.1049072083218307e-07, false, NAN),
    STRANDED("20", 5.1761924192803836e-07, true, NAN),
    STRANDED("19", 6.5270581286462828e-07, false, NAN),
    STRANDED("18", 8.2304683373131432e-07, true, COATED(8.45)),
    STRANDED("17", 1.037842895166059e-06, false, NAN),
    STRANDED("16", 1.3086957277552624e-06, true, COATED(5.29)),
    STRANDED("15", 1.6502348436569877e-06, false, NAN),
    STRANDED("14", 2.0809077170983772e-06, true, COATED(3.26)),
    STRANDED("13", 2.6239761835859269e-06, false, NAN),
    STRANDED("12", 3.3087728761114766e-06, true, COATED(2.05)),
    STRANDED("11", 4.1722855619556339e-06, false, NAN),
    STRANDED("10", 5.2611549545103725e-06, true, COATED(1.29)),
    STRANDED("9", 6.6341939074743028e-06, false, NAN),
    STRANDED("8", 8.3655640600810209e-06, true, COATED(0.809)),
    STRANDED("7", 1.0548781512773456e-05, false, NAN),
    STRANDED("6", 1.3301767890969134e-05, true, COATED(0.51)),
    STRANDED("5", 1.6773219618869267e-05, false, NAN),
    STRANDED("4", 2.115063942544283e-05, true, COATED(0.321)),
    STRANDED("3", 2.6670463886482745e-05, true, COATED(0.254)),
    STRANDED("2", 3.363083401934961e-05, true, COATED(0.201)),
    STRANDED("1", 4.2407698705618654e-05, true, COATED(0.16)),
    STRANDED("1/0", 5.3475120732117661e-05, true, COATED(0.127)),
    STRANDED("2/0", 6.7430882235910774e-05, true, COATED(0.101)),
    STRANDED("3/0", 8.5028772574277623e-05, true, COATED(0.0797)),
    STRANDED("4/0", 0.00010721930257703052, true, COATED(0.0626)),
};

/* SAE: least area in circular mils (1 cmil = pi/4 (0.001 in)2). Source: SAE
 * J1127 and J1128 as quoted by a marine catalogue (12) and a battery-cable page
 * (8, 6, 4, 2, 1/0, 2/0, 4/0); the others from memory of ABYC E-11's table of
 * circular mils, SAE column. 6, 8 and 20 are weak: other figures circulate. */
#define CMIL 5.0670747909749778e-10
#define SAE(gauge, cmil, origin) \
    {WIRE_SAE, "SAE " gauge, "SAE " gauge, (cmil) * CMIL, true, {NAN, NAN, NAN}, origin}
#define J1128 "SAE J1128, least area"
#define J1127 "SAE J1127, least area"
#define MEMORY "from memory: ABYC E-11 table of circular mils, SAE column"
static const struct wire_size sae[] = {
    SAE("20", 1072, "from memory: SAE J1128, least area"),
    SAE("18", 1537, MEMORY),
    SAE("16", 2336, MEMORY),
    SAE("14", 3702, MEMORY),
    SAE("12", 5833, J1128),
    SAE("10", 9343, MEMORY),
    SAE("8", 14810, J1128),
    SAE("6", 24538, J1127),
    SAE("4", 37360, J1127),
    SAE("2", 62450, J1127),
    SAE("1", 77790, MEMORY),
    SAE("1/0", 98980, J1127),
    SAE("2/0", 125100, J1127),
    SAE("3/0", 158600, MEMORY),
    SAE("4/0", 205500, J1127),
};

/* ISO 6722-1: nominal area, largest resistance at 20 degC, mohm/m, bare copper.
 * Source: from memory, ISO 6722-1:2011 conductor table, carried into ISO 19642;
 * not confirmed by any copy. */
#define ISO(mm2, mohm) \
    {WIRE_ISO6722, #mm2 " mm2", #mm2 " mm\xc2\xb2", mm2 * 1e-6, true, \
     {mohm * 1e-3, NAN, NAN}, "from memory: ISO 6722-1:2011 conductor table"}
static const struct wire_size iso6722[] = {
    ISO(0.13, 136),
    ISO(0.22, 84.8),
    ISO(0.35, 54.4),
    ISO(0.5, 37.1),
    ISO(0.75, 24.7),
    ISO(1, 18.5),
    ISO(1.25, 14.9),
    ISO(1.5, 12.7),
    ISO(2, 9.42),
    ISO(2.5, 7.6),
    ISO(3, 6.15),
    ISO(4, 4.71),
    ISO(5, 3.94),
    ISO(6, 3.14),
    ISO(8, 2.38),
    ISO(10, 1.82),
    ISO(12, 1.52),
    ISO(16, 1.16),
    ISO(20, 0.955),
    ISO(25, 0.743),
    ISO(30, 0.647),
    ISO(35, 0.527),
    ISO(40, 0.473),
    ISO(50, 0.368),
    ISO(60, 0.315),
    ISO(70, 0.259),
    ISO(95, 0.196),
    ISO(120, 0.153),
};

/* IEC 60228: nominal area; largest resistance at 20 degC, ohm/km: plain copper,
 * metal-coated copper, aluminium. Source: IEC 60228 ed. 3 (2004) Tables 2 and 3,
 * three agreeing transcriptions; 300 mm2 and above from memory of the same
 * tables. */
#define KM(r) ((r) * 1e-3)
#define CLASS2(mm2, plain, coated, al, origin) \
    {WIRE_CLASS2, #mm2 " mm2", #mm2 " mm\xc2\xb2", mm2 * 1e-6, true, \
     {KM(plain), KM(coated), KM(al)}, origin}
#define CLASS5(mm2, plain, coated, origin) \
    {WIRE_CLASS5, #mm2 " mm2", #mm2 " mm\xc2\xb2", mm2 * 1e-6, true, \
     {KM(plain), KM(coated), NAN}, origin}
#define TABLE2 "IEC 60228:2004 Table 2"
#define TABLE3 "IEC 60228:2004 Table 3"
static const struct wire_size class2[] = {
    CLASS2(0.5, 36.0, 36.7, NAN, TABLE2),
    CLASS2(0.75, 24.5, 24.8, NAN, TABLE2),
    CLASS2(1, 18.1, 18.2, NAN, TABLE2),
    CLASS2(1.5, 12.1, 12.2, NAN, TABLE2),
    CLASS2(2.5, 7.41, 7.56, NAN, TABLE2),
    CLASS2(4, 4.61, 4.7, NAN, TABLE2),
    CLASS2(6, 3.08, 3.11, NAN, TABLE2),
    CLASS2(10, 1.83, 1.84, 3.08, TABLE2),
    CLASS2(16, 1.15, 1.16, 1.91, TABLE2),
    CLASS2(25, 0.727, 0.734, 1.2, TABLE2),
    CLASS2(35, 0.524, 0.529, 0.868, TABLE2),
    CLASS2(50, 0.387, 0.391, 0.641, TABLE2),
    CLASS2(70, 0.268, 0.27, 0.443, TABLE2),
    CLASS2(95, 0.193, 0.195, 0.32, TABLE2),
    CLASS2(120, 0.153, 0.154, 0.253, TABLE2),
    CLASS2(150, 0.124, 0.126, 0.206, TABLE2),
    CLASS2(185, 0.0991, 0.1, 0.164, TABLE2),
    CLASS2(240, 0.0754, 0.0762, 0.125, TABLE2),
    CLASS2(300, 0.0601, 0.0607, 0.1, "from memory: " TABLE2),
    CLASS2(400, 0.047, 0.0475, 0.0778, "from memory: " TABLE2),
    CLASS2(500, 0.0366, 0.0369, 0.0605, "from memory: " TABLE2),
    CLASS2(630, 0.0283, 0.0286, 0.0469, "from memory: " TABLE2),
};

static const struct wire_size class5[] = {
    CLASS5(0.5, 39.0, 40.1, TABLE3),
    CLASS5(0.75, 26.0, 26.7, TABLE3),
    CLASS5(1, 19.5, 20.0, TABLE3),
    CLASS5(1.5, 13.3, 13.7, TABLE3),
    CLASS5(2.5, 7.98, 8.21, TABLE3),
    CLASS5(4, 4.95, 5.09, TABLE3),
    CLASS5(6, 3.3, 3.39, TABLE3),
    CLASS5(10, 1.91, 1.95, TABLE3),
    CLASS5(16, 1.21, 1.24, TABLE3),
    CLASS5(25, 0.78, 0.795, TABLE3),
    CLASS5(35, 0.554, 0.565, TABLE3),
    CLASS5(50, 0.386, 0.393, TABLE3),
    CLASS5(70, 0.272, 0.277, TABLE3),
    CLASS5(95, 0.206, 0.21, TABLE3),
    CLASS5(120, 0.161, 0.164, TABLE3),
    CLASS5(150, 0.129, 0.132, TABLE3),
    CLASS5(185, 0.106, 0.108, TABLE3),
    CLASS5(240, 0.0801, 0.0817, TABLE3),
    CLASS5(300, 0.0641, 0.0654, "from memory: " TABLE3),
    CLASS5(400, 0.0486, 0.0495, "from memory: " TABLE3),
    CLASS5(500, 0.0384, 0.0391, "from memory: " TABLE3),
    CLASS5(630, 0.0287, 0.0292, "from memory: " TABLE3),
};

/* JIS C 3406 (JASO D611) type AV: nominal size, true area mm2, largest
 * resistance at 20 degC, mohm/m; f: flexible. Source: a cable maker's sheet for
 * type AV that states JIS C 3406. */
#define AV(size, mm2, mohm) \
    {WIRE_JIS, "AV " size, "AV " size, mm2 * 1e-6, true, {mohm * 1e-3, NAN, NAN}, \
     "JIS C 3406, type AV, maker's sheet"}
static const struct wire_size jis[] = {
    AV("0.5f", 0.5087, 36.7),
    AV("0.5", 0.5629, 32.7),
    AV("0.75f", 0.763, 24.4),
    AV("0.85", 0.8846, 20.8),
    AV("1.25f", 1.273, 14.7),
    AV("1.25", 1.287, 14.3),
    AV("2f", 1.964, 9.5),
    AV("2", 2.091, 8.81),
    AV("3f", 3.239, 5.76),
    AV("3", 3.297, 5.59),
    AV("5", 5.228, 3.52),
    AV("8", 7.952, 2.32),
    AV("10", 10.02, 1.84),
    AV("15", 13.36, 1.38),
    AV("20", 20.61, 0.887),
    AV("30", 35.19, 0.52),
    AV("40", 42.73, 0.428),
    AV("50", 54.29, 0.337),
    AV("60", 63.84, 0.287),
    AV("85", 84.96, 0.215),
    AV("100", 109.1, 0.168),
};

/* Australian "mm": strands of 0.32 mm and their area, mm2. Source: an Australian
 * maker's catalogue of automotive and battery cable; the area is printed there. */
#define AU(size, mm2) \
    {WIRE_AU, size " mm", size " mm (AU)", mm2 * 1e-6, true, {NAN, NAN, NAN}, \
     "Australian cable catalogue: strands x 0.32 mm"}
static const struct wire_size au[] = {
    AU("3", 1.13),
    AU("4", 1.84),
    AU("5", 2.9),
    AU("6", 4.59),
};

#define ROWS(t) {t, sizeof t / sizeof t[0]}
const struct size_rows size_table[WIRE_SYSTEMS] = {
    [WIRE_AWG_SOLID] = ROWS(awg_solid),
    [WIRE_AWG_STRANDED] = ROWS(awg_stranded),
    [WIRE_SAE] = ROWS(sae),
    [WIRE_ISO6722] = ROWS(iso6722),
    [WIRE_CLASS2] = ROWS(class2),
    [WIRE_CLASS5] = ROWS(class5),
    [WIRE_JIS] = ROWS(jis),
    [WIRE_AU] = ROWS(au),
};
