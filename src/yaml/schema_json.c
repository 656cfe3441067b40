/* JSON Schema (draft 2020-12, json-schema.org) of a file format, from the tables that read it. What
 * a schema cannot say (dates in order, bands in order, what fits a species) is left to the reader.
 */
#include <string.h>

#include "base/json.h"
#include "yaml/bind.h"

static void write_schema(struct json *json, const struct schema *schema);

#define NUMBER "[-+\u2212]?([0-9]+([.][0-9]+)?|[0-9]+,([0-9]{1,2}|[0-9]{4,})|0+,[0-9]{3})"
#define WHOLE_NUMBER "[+]?[0-9]+([.]0+)?"
#define SPACE "[ \u00A0\u2007\u2009\u202F]"
#define DASH SPACE "*[-\u2013]" SPACE "*"
#define TIMES SPACE "*[xX\u00D7]" SPACE "*"

static void write_pattern(struct json *json, const char *pattern)
{
    json_key_text(json, "type", "string");
    json_key_text(json, "pattern", pattern);
}

/* Numbers where the dimension has no unit, else text with one. */
static void write_number(struct json *json, const struct field *field, struct arena *arena,
                         bool is_band)
{
    const char *unit = units_pattern(field->dimension, arena);
    const char *more = is_band ? "(" DASH NUMBER ")?" : "";
    if (unit) {
        bool may_follow = units_may_follow(field->dimension) && !is_band;
        write_pattern(
            json,
            arena_format(arena, "^" SPACE "*" NUMBER "%s" SPACE "*%s%s" SPACE "*$", more, unit,
                         may_follow ? arena_format(arena, "(" SPACE "+" NUMBER SPACE "*%s)?", unit)
                                    : ""));
        return;
    }
    json_key(json, "type");
    json_open_list(json);
    json_text(json, field->is_whole ? "integer" : "number");
    json_text(json, "string");
    json_close_list(json);
    json_key_text(json, "pattern",
                  arena_format(arena, "^" SPACE "*%s%s" SPACE "*$",
                               field->is_whole ? WHOLE_NUMBER : NUMBER, more));
    if (field->has_range && !is_band) {
        json_key_number(json, "minimum", field->low);
        json_key_number(json, "maximum", field->high);
    }
}

static void write_choice(struct json *json, const struct choice *choices)
{
    json_key(json, "enum");
    json_open_list(json);
    for (; choices->word; choices++)
        json_text(json, choices->word);
    json_close_list(json);
}

static void write_scalar_types(struct json *json)
{
    json_key(json, "type");
    json_open_list(json);
    json_text(json, "string");
    json_text(json, "number");
    json_text(json, "boolean");
    json_close_list(json);
}

static void write_flag(struct json *json)
{
    json_key(json, "enum");
    json_open_list(json);
    json_flag(json, true);
    json_flag(json, false);
    json_text(json, "yes");
    json_text(json, "no");
    json_close_list(json);
}

static void write_partial_date(struct json *json)
{
    json_key(json, "type");
    json_open_list(json);
    json_text(json, "string");
    json_text(json, "integer"); /* a year alone */
    json_close_list(json);
    json_key_text(json, "pattern", "^[0-9]{4}(-[0-9]{2}(-[0-9]{2})?)?$");
}

/* One value of a list or a lone one. */
static void write_one(struct json *json, const struct field *field, struct arena *arena)
{
    switch (field->kind) {
    case FIELD_TEXT:
    case FIELD_TEXTS:
        write_scalar_types(json);
        break;
    case FIELD_DATE:
        write_pattern(json, "^[0-9]{4}-[0-9]{2}-[0-9]{2}$");
        break;
    case FIELD_PARTIAL_DATE:
        write_partial_date(json);
        break;
    case FIELD_QUANTITY:
    case FIELD_BAND:
        write_number(json, field, arena, field->kind == FIELD_BAND);
        break;
    case FIELD_BOX:
        write_pattern(json, arena_format(arena,
                                         "^" SPACE "*" NUMBER TIMES NUMBER TIMES NUMBER SPACE
                                         "*%s" SPACE "*$",
                                         units_pattern(DIM_LENGTH, arena)));
        break;
    case FIELD_CHOICE:
    case FIELD_CHOICES:
        write_choice(json, field->choices);
        break;
    case FIELD_FLAG:
        write_flag(json);
        break;
    case FIELD_RECORD:
    case FIELD_RECORDS:
    case FIELD_SOME_RECORDS:
    case FIELD_NAMED:
        write_schema(json, field->schema);
        break;
    }
}

static void write_list(struct json *json, const struct field *field, struct arena *arena)
{
    json_key_text(json, "type", "array");
    json_key_number(json, "maxItems", field->most ? (double)field->most : BIND_LIST_LIMIT);
    json_key(json, "items");
    json_open_object(json);
    write_one(json, field, arena);
    json_close_object(json);
}

/* "One alone is a list of one." */
static void write_one_or_list(struct json *json, const struct field *field, struct arena *arena)
{
    json_key(json, "anyOf");
    json_open_list(json);
    json_open_object(json);
    write_one(json, field, arena);
    json_close_object(json);
    json_open_object(json);
    write_list(json, field, arena);
    json_close_object(json);
    json_close_list(json);
}

/* What a field may hold, inside its object. */
static void write_value(struct json *json, const struct field *field, struct arena *arena)
{
    if (field->kind == FIELD_TEXTS || field->kind == FIELD_CHOICES ||
        field->kind == FIELD_SOME_RECORDS) {
        write_one_or_list(json, field, arena);
    } else if (field->kind == FIELD_RECORDS) {
        write_list(json, field, arena);
    } else if (field->kind == FIELD_NAMED) {
        json_key_text(json, "type", "object");
        json_key(json, "additionalProperties");
        json_open_object(json);
        write_one(json, field, arena);
        json_close_object(json);
    } else {
        write_one(json, field, arena);
    }
}

static void write_field(struct json *json, const struct field *field, struct arena *arena)
{
    json_key(json, field->key);
    json_open_object(json);
    if (field->help)
        json_key_text(json, "description", field->help);
    write_value(json, field, arena);
    json_close_object(json);
}

static void write_required(struct json *json, const struct schema *schema)
{
    bool any = false;
    for (size_t i = 0; i < schema->field_count; i++)
        any = any || schema->fields[i].required;
    if (!any)
        return;
    json_key(json, "required");
    json_open_list(json);
    for (size_t i = 0; i < schema->field_count; i++)
        if (schema->fields[i].required)
            json_text(json, schema->fields[i].key);
    json_close_list(json);
}

static void write_object(struct json *json, const struct schema *schema)
{
    struct arena *arena = json->out->arena;
    json_key(json, "type");
    json_open_list(json);
    json_text(json, "object");
    json_text(json, "null"); /* a key with nothing under it says nothing */
    json_close_list(json);
    json_key(json, "properties");
    json_open_object(json);
    for (size_t i = 0; i < schema->field_count; i++)
        write_field(json, &schema->fields[i], arena);
    json_close_object(json);
    write_required(json, schema);
    json_key_flag(json, "additionalProperties", false);
}

static const struct field *short_field(const struct schema *schema)
{
    for (size_t i = 0; schema->short_key && i < schema->field_count; i++)
        if (strcmp(schema->fields[i].key, schema->short_key) == 0)
            return &schema->fields[i];
    return NULL;
}

/* The members of a schema object; a record with a short form is that or the mapping. */
static void write_schema(struct json *json, const struct schema *schema)
{
    const struct field *brief = short_field(schema);
    if (!brief) {
        write_object(json, schema);
        return;
    }
    json_key(json, "anyOf");
    json_open_list(json);
    json_open_object(json);
    write_value(json, brief, json->out->arena);
    json_close_object(json);
    json_open_object(json);
    write_object(json, schema);
    json_close_object(json);
    json_close_list(json);
}

void bind_write_json_schema(const struct schema *schema, struct strbuf *out)
{
    struct json json;
    json_init(&json, out);
    json_open_object(&json);
    json_key_text(&json, "$schema", "https://json-schema.org/draft/2020-12/schema");
    json_key_text(&json, "title", schema->name);
    json_key_text(&json, "description", schema->help);
    write_object(&json, schema);
    json_close_object(&json);
    strbuf_add_char(out, '\n');
}
