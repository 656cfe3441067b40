/* The form as data: from the tables that the YAML reader binds with, so that page, file and `check`
 * cannot disagree. */
#ifndef BASKLEAF_DESK_FORM_H
#define BASKLEAF_DESK_FORM_H

#include "base/json.h"
#include "yaml/bind.h"

/* A list of {key, kind, required, units: [...], choices: [...], example, fields: [...]} of a
 * schema. */
void form_write_schema(struct json *json, const struct schema *schema, struct arena *arena);

#endif
