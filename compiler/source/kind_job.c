/* kind_job.c - the kind of block of a job file: one vehicle on which a guide
 * was carried out. */
#include "source/kind_tables.h"

static const struct setting job_settings[] = {
    {"number", SETTING_TEXT, NULL, NULL, "of the job, in the shop's own count",
     .required = true},
    {"guide", SETTING_TEXT, NULL, NULL,
     "the guide that was carried out, by its file's name", .required = true},
    {"revision", SETTING_TEXT, NULL, NULL,
     "of the guide; one that was issued is computed from what was issued",
     false, false},
    {"variant", SETTING_TEXT, NULL, NULL,
     "of the vehicle: a variant, a model year or an identification number",
     false, false},
    {"vehicle", SETTING_TEXT, NULL, NULL, "make, year, plate: as it is called",
     false, false},
    {"owner", SETTING_TEXT, NULL, NULL, "stands on the sheet and nowhere else",
     false, false},
    {"date", SETTING_DATE, NULL, NULL, "of the work", .required = true},
    {"complaint", SETTING_PROSE, NULL, NULL, "what was wrong", false, false},
    {"work", SETTING_PROSE, NULL, NULL,
     "what was done, where the guide's title does not say it", false, false},
    {"set", SETTING_TEXT, NULL, NULL,
     "pump.run = 5.3 m: a figure of the facts or the guide as it was measured "
     "on this vehicle",
     false, .repeats = true},
    {"parts used", SETTING_LIST, NULL, NULL, "what was fitted", false, false},
    {"remarks", SETTING_PROSE, NULL, NULL, "for the owner", false, false},
    {"done by", SETTING_TEXT, NULL, NULL, "who did the work", false, false},
    {"inspected by", SETTING_TEXT, NULL, NULL, "who looked at it", false,
     false},
    {"next check", SETTING_PROSE, NULL, NULL, "when, and of what", false,
     false},
    {0},
};

static const struct column job_columns[] = {
    {"reading", SETTING_TEXT, NULL, "id of a row of the guide's limits",
     .required = true},
    {"found", SETTING_QUANTITY, NULL, "before the work", false, false},
    {"left", SETTING_QUANTITY, NULL, "after it", false, false},
    {0},
};

const struct kind kind_job = {
    KIND_JOB,
    "job",
    "a guide carried out on one vehicle: what was found, measured and left",
    NAME_NONE,
    KIND_HOLDS_SETTINGS | KIND_HOLDS_ROWS | KIND_IN_JOB,
    job_settings,
    NULL,
    job_columns,
};
