/* What the tables of the program's own files made of them when it was built (yaml/shipped.h): of
 * each of those files as it came. Made by store/write_shipped.c. */
#ifndef BASKLEAF_RECORDS_SHIPPED_FILES_H
#define BASKLEAF_RECORDS_SHIPPED_FILES_H

#include <stdbool.h>

#include "yaml/shipped.h"

extern const struct shipped_records shipped_finding_catalogue, shipped_sign_catalogue,
    shipped_rule_book, shipped_step_book, shipped_reference_values, shipped_foods,
    shipped_topic_catalogue, shipped_settlement_book, shipped_instruction_catalogue,
    shipped_unlisted_animals, shipped_look, shipped_sheet_template;

/* Were all of them good when the program was built, and what they say of each other too? Then it
 * need not be asked again of two files as they came. */
extern const bool shipped_files_agree;

#endif
