/* The reference text of a file format, from the tables that read it. */
#include "yaml/bind.h"

static const char *const kind_words[] = {
    [FIELD_TEXT] = "text",
    [FIELD_DATE] = "date",
    [FIELD_PARTIAL_DATE] = "date, or month or year alone",
    [FIELD_QUANTITY] = "quantity",
    [FIELD_BAND] = "from-to",
    [FIELD_BOX] = "length x width x height",
    [FIELD_CHOICE] = "one of",
    [FIELD_FLAG] = "yes or no",
    [FIELD_TEXTS] = "list of texts",
    [FIELD_CHOICES] = "list of",
    [FIELD_RECORD] = "mapping",
    [FIELD_RECORDS] = "list of mappings",
    [FIELD_SOME_RECORDS] = "mapping, or list of mappings",
    [FIELD_NAMED] = "mapping of names to mappings",
};

static void write_kind(const struct field *field, struct strbuf *out)
{
    strbuf_add(out, kind_words[field->kind]);
    if (field->kind == FIELD_CHOICE || field->kind == FIELD_CHOICES)
        strbuf_addf(out, " %s", bind_choice_list(field->choices, out->arena));
    bool is_number = field->kind == FIELD_QUANTITY || field->kind == FIELD_BAND;
    if (field->is_whole)
        strbuf_add(out, ", whole");
    if (is_number && units_allowed(field->dimension))
        strbuf_addf(out, " with %s", units_allowed(field->dimension));
    if (is_number && field->has_range)
        strbuf_addf(out, ", %.10g to %.10g", field->low, field->high);
    if (field->required)
        strbuf_add(out, ", required");
}

static void write_fields(const struct schema *schema, int depth, struct strbuf *out)
{
    for (size_t i = 0; i < schema->field_count; i++) {
        const struct field *field = &schema->fields[i];
        for (int d = 0; d < depth; d++)
            strbuf_add(out, "  ");
        strbuf_addf(out, "%s: ", field->key);
        write_kind(field, out);
        if (field->help)
            strbuf_addf(out, ". %s", field->help);
        if (field->example)
            strbuf_addf(out, " Example: %s", field->example);
        strbuf_add_char(out, '\n');
        if (field->schema)
            write_fields(field->schema, depth + 1, out);
    }
}

void bind_write_reference(const struct schema *schema, struct strbuf *out)
{
    strbuf_addf(out, "%s. %s\n", schema->name, schema->help);
    write_fields(schema, 1, out);
}
