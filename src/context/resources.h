/* What every sheet of a run shares: the clinic, the rules, the vocabulary, the
 * reference values. Read once a run. */
#ifndef BASKLEAF_CONTEXT_RESOURCES_H
#define BASKLEAF_CONTEXT_RESOURCES_H

#include "care/plan.h"
#include "records/sheet_template.h"
#include "records/unlisted.h"
#include "records/value_uses.h"

/* Where things are; all borrowed. */
struct places {
    const char *data_folder; /* holds templates/ and species-sheets/ */
    const char *clinic_file; /* NULL: where resources_find_clinic finds it */
    const char *species_dir; /* a clinic's own folder of species sheets, or NULL */
    const char *signing_key; /* what the clinic's signatures are keyed with, or NULL */
    const char *records;     /* folder that a visit before must lie in, named without a path; NULL:
                                beside the record that names it */
};

struct resources {
    struct places places;
    const char *templates;      /* folder */
    const char *species_sheets; /* folder */
    const char *fonts;          /* folder */
    struct clinic *clinic;
    struct finding_catalogue *catalogue;
    struct sign_catalogue *signs;
    struct rule_book *rules;
    struct topic_catalogue *topics;
    struct settlement_book *settlements;
    struct instruction_catalogue *instructions;
    struct step_book *steps;
    struct reference_values *reference;
    struct sheet_kinds kinds; /* of sheet */
    struct unlisted_animals *unlisted;
    struct value_uses *uses; /* what the values of a species sheet drive */
};

/* Reads all of it into the arena. False when any part is wrong; every fault of
 * every file is then in `diag`. */
bool resources_read(const struct places *places, struct arena *arena, struct diag *diag,
                    struct resources *out);

/* A DIAG_ERROR for a folder of own sheets that is not there. */
bool resources_has_species_dir(const struct places *places, struct diag *diag);

/* The clinic's details: its user's own ($XDG_CONFIG_HOME/baskleaf/clinic.yaml, or that of
 * ~/.config), this machine's (/etc/baskleaf/clinic.yaml), else the invented clinic of the data
 * folder. */
const char *resources_find_clinic(const char *data_folder, struct arena *arena);

/* The user's own file of the above, whether it is there or not; NULL when the user has no home. */
const char *resources_own_clinic(struct arena *arena);

/* Where the clinic's own species sheets are written: beside the user's own file of the above. NULL
 * when the user has no home. */
const char *resources_own_sheets(struct arena *arena);

/* The clinic's own species sheets: `named` where it is, else the folder above, else this machine's
 * (/etc/baskleaf/species-sheets), whichever is there first; NULL when none is. */
const char *resources_find_own_sheets(const char *named, struct arena *arena);

/* Where the fonts lie: `fonts` in the data folder, else where the build puts them, looked for from
 * the program's own place upward. */
const char *resources_find_fonts(const char *data_folder, struct arena *arena);

/* The data folder beside the program: the first of the executable's own folder and the folders
 * above it, or their share/baskleaf, that holds templates/rules.yaml. NULL when there is none. */
const char *resources_find_data(struct arena *arena);

#endif
