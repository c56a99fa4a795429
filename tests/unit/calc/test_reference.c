/* test_reference.c - every row of tests/reference that the library computes.
 *
 * Each row has its source beside it in the file; tests/reference/README.md says
 * what a file holds and how near is near enough. Rows that their own file marks
 * as misprints are tested as such. The closing lines give the count. */
#include "reference_bench.h"
#include "reference_bolt.h"
#include "reference_fault.h"
#include "reference_sanity.h"
#include "reference_unit.h"
#include "reference_wire.h"

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(reference_awg_geometry),
        cmocka_unit_test(reference_awg_resistance),
        cmocka_unit_test(reference_nec_table8),
        cmocka_unit_test(reference_iec60228),
        cmocka_unit_test(reference_vehicle_cable),
        cmocka_unit_test(reference_sae_area),
        cmocka_unit_test(reference_australian),
        cmocka_unit_test(reference_materials),
        cmocka_unit_test(reference_ampacity_33cfr),
        cmocka_unit_test(reference_ampacity_other),
        cmocka_unit_test(reference_ampacity_factors),
        cmocka_unit_test(reference_wire_examples),
        cmocka_unit_test(reference_fuses),
        cmocka_unit_test(reference_short_time),
        cmocka_unit_test(reference_terminals),
        cmocka_unit_test(reference_threads),
        cmocka_unit_test(reference_grades),
        cmocka_unit_test(reference_loads),
        cmocka_unit_test(reference_vdi),
        cmocka_unit_test(reference_stainless),
        cmocka_unit_test(reference_sae_torque),
        cmocka_unit_test(reference_bolt_examples),
        cmocka_unit_test(reference_conditions),
        cmocka_unit_test(reference_wrench),
        cmocka_unit_test(reference_strip),
        cmocka_unit_test(reference_holes),
        cmocka_unit_test(reference_screws),
        cmocka_unit_test(reference_metals),
        cmocka_unit_test(reference_drop_limits),
        cmocka_unit_test(reference_connectors),
        cmocka_unit_test(reference_relays),
        cmocka_unit_test(reference_breaking),
        cmocka_unit_test(reference_more_holes),
        cmocka_unit_test(reference_ratios),
        cmocka_unit_test(reference_tools),
        cmocka_unit_test(reference_unit_factors),
        cmocka_unit_test(reference_conversions),
        cmocka_unit_test(reference_rounding),
    };
    return cmocka_run_group_tests(tests, NULL, csv_summary);
}
