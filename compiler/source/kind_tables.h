/* kind_tables.h - the rows of the kind table, one file a trade; kind.c joins
 * them. Nobody else includes this. */
#ifndef KIND_TABLES_H
#define KIND_TABLES_H

#include "source/kind.h"

/* kind_guide.c: what a guide is, and the library behind it */
extern const struct kind kind_guide, kind_vehicle, kind_facts, kind_values,
    kind_needs, kind_shop, kind_preliminary, kind_parts, kind_include;
/* kind_catalogue.c */
extern const struct kind kind_hazard, kind_order, kind_style;
/* kind_electrical.c */
extern const struct kind kind_supply, kind_load, kind_wire, kind_fuse,
    kind_pinout;
/* kind_circuit.c */
extern const struct kind kind_circuit, kind_sheet;
/* kind_torque.c */
extern const struct kind kind_torque;
/* kind_page.c: requirements, tables and panels */
extern const struct kind kind_check, kind_limits, kind_override, kind_table,
    kind_compare, kind_faults, kind_figure, kind_danger, kind_warning,
    kind_caution, kind_notice;
/* kind_template.c */
extern const struct kind kind_page, kind_insert;
/* kind_job.c */
extern const struct kind kind_job;

#endif
