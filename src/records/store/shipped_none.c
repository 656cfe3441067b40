/* For the program that binds them. */
#include "records/shipped_files.h"

const struct shipped_records shipped_finding_catalogue = {0};
const struct shipped_records shipped_sign_catalogue = {0};
const struct shipped_records shipped_rule_book = {0};
const struct shipped_records shipped_step_book = {0};
const struct shipped_records shipped_reference_values = {0};
const struct shipped_records shipped_foods = {0};
const struct shipped_records shipped_topic_catalogue = {0};
const struct shipped_records shipped_settlement_book = {0};
const struct shipped_records shipped_instruction_catalogue = {0};
const struct shipped_records shipped_unlisted_animals = {0};
const struct shipped_records shipped_look = {0};
const struct shipped_records shipped_sheet_template = {0};
const bool shipped_files_agree = false;
