/* The format of a YAML roster, out of the visit's own table: each column is the field it becomes.
 */
#include <string.h>

#include "records/roster.h"

static const struct field *find_field(const struct schema *schema, const char *key)
{
    for (size_t i = 0; schema && i < schema->field_count; i++)
        if (strcmp(schema->fields[i].key, key) == 0)
            return &schema->fields[i];
    return NULL;
}

/* A column that becomes a field reads like it; those that are worked out are texts. Whether a
 * row's cell is needed is the roster's affair, not the visit's. */
static struct field column_field(const struct roster_column_about *about)
{
    const struct schema *schema = &visit_schema;
    const struct field *source = about->section ? find_field(schema, about->section) : NULL;
    if (about->part && source)
        source = find_field(source->schema, about->part);
    if (about->key)
        source = find_field(source ? source->schema : schema, about->key);
    else
        source = find_field(schema, about->name);
    struct field field = {.kind = FIELD_TEXT};
    if (source)
        field = *source;
    field.key = about->name;
    field.help = about->help;
    field.required = false;
    return field;
}

const struct schema *roster_format(struct arena *arena)
{
    struct field *columns = ARENA_ARRAY(arena, struct field, ROSTER_COLUMN_COUNT);
    for (int i = 0; i < ROSTER_COLUMN_COUNT; i++)
        columns[i] = column_field(&roster_columns[i]);
    struct schema *row = ARENA_NEW(arena, struct schema);
    *row = (struct schema){.name = "animal",
                           .help = "One animal that leaves.",
                           .fields = columns,
                           .field_count = ROSTER_COLUMN_COUNT};
    struct field *top = ARENA_ARRAY(arena, struct field, 2);
    top[0] = (struct field){.key = "roster",
                            .kind = FIELD_RECORD,
                            .schema = &roster_head_schema,
                            .help = "what holds for all rows"};
    top[1] = (struct field){.key = "animals",
                            .kind = FIELD_RECORDS,
                            .schema = row,
                            .required = true,
                            .most = 100000,
                            .help = "one animal a row"};
    struct schema *format = ARENA_NEW(arena, struct schema);
    *format = (struct schema){.name = "roster",
                              .help = "Animals that leave together; as CSV the keys of `animals` "
                                      "are the titles of the columns.",
                              .fields = top,
                              .field_count = 2};
    return format;
}
