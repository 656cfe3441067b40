/* Writes what the tables make of the program's own files as C: write_shipped OUTPUT DEPENDENCIES
 * TEMPLATES-FOLDER
 *
 * A file that cannot be read or bound is left to the program to complain about. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "records/findings.h"
#include "records/instructions.h"
#include "records/reference_values.h"
#include "records/rules.h"
#include "records/sheet_template.h"
#include "records/steps.h"
#include "records/topics.h"
#include "records/unlisted.h"
#include "yaml/store/shipping.h"
#include "yaml/store/source.h"

static const struct shipped_file {
    const char *symbol; /* behind shipped_ */
    const struct schema *schema;
    const char *name; /* below the folder; a folder when it ends with a slash */
} files[] = {
    {"finding_catalogue", &finding_catalogue_schema, "findings.yaml"},
    {"sign_catalogue", &sign_catalogue_schema, "warning-signs.yaml"},
    {"rule_book", &rule_book_schema, "rules.yaml"},
    {"step_book", &step_book_schema, "steps.yaml"},
    {"reference_values", &reference_values_schema, "reference-values.yaml"},
    {"foods", &foods_schema, "foods.yaml"},
    {"topic_catalogue", &topic_catalogue_schema, "topics.yaml"},
    {"settlement_book", &settlement_book_schema, "settlements.yaml"},
    {"instruction_catalogue", &instruction_catalogue_schema, "instructions.yaml"},
    {"unlisted_animals", &unlisted_animals_schema, "unlisted.yaml"},
    {"look", &look_schema, "look.yaml"},
    {"sheet_template", &sheet_template_schema, "sheets/"},
};

/* ---- one record ------------------------------------------------------------------------------ */

enum { PARTS_MOST = 5 };

/* The members of a value that hold a number, so that no byte between them is written. */
struct part {
    size_t offset, size;
};

#define PART(struct_, member_)                                                                     \
    {                                                                                              \
        offsetof(struct struct_, member_), sizeof(((struct struct_ *)0)->member_)                  \
    }

static const struct value {
    size_t size, mark;
    struct part parts[PARTS_MOST];
} values[] = {
    [FIELD_TEXT] = {sizeof(struct text_value), offsetof(struct text_value, at), {{0}}},
    [FIELD_DATE] = {sizeof(struct date_value),
                    offsetof(struct date_value, at),
                    {PART(date_value, known), PART(date_value, date)}},
    [FIELD_QUANTITY] = {sizeof(struct quantity),
                        offsetof(struct quantity, at),
                        {PART(quantity, known), PART(quantity, value), PART(quantity, written),
                         PART(quantity, unit)}},
    [FIELD_BAND] = {sizeof(struct band),
                    offsetof(struct band, at),
                    {PART(band, known), PART(band, low), PART(band, high), PART(band, unit)}},
    [FIELD_BOX] = {sizeof(struct box),
                   offsetof(struct box, at),
                   {PART(box, known), PART(box, length_cm), PART(box, width_cm),
                    PART(box, height_cm), PART(box, unit)}},
    [FIELD_CHOICE] = {sizeof(struct choice_value),
                      offsetof(struct choice_value, at),
                      {PART(choice_value, known), PART(choice_value, value)}},
    [FIELD_FLAG] = {sizeof(struct flag_value),
                    offsetof(struct flag_value, at),
                    {PART(flag_value, known), PART(flag_value, value)}},
};

static void add_value(struct shipping *s, enum field_kind kind, const char *value, size_t at)
{
    const struct value *form = &values[kind];
    if (kind == FIELD_TEXT)
        shipping_add_text(s, at + offsetof(struct text_value, text),
                          ((const struct text_value *)(const void *)value)->text);
    for (const struct part *part = form->parts; part < form->parts + PARTS_MOST; part++)
        shipping_add_number(s, at + part->offset, value + part->offset, part->size);
    shipping_add_mark(s, at + form->mark, (const struct mark *)(const void *)(value + form->mark),
                      0);
}

static void add_record(struct shipping *s, const struct schema *schema, const char *record,
                       size_t at);

/* The kind of a list's items: their own where they are no records. */
static enum field_kind kind_of_items(enum field_kind kind)
{
    return kind == FIELD_TEXTS ? FIELD_TEXT : FIELD_CHOICE;
}

static void add_list(struct shipping *s, const struct field *field, const struct list *list,
                     size_t at)
{
    const enum field_kind kind = kind_of_items(field->kind);
    const size_t size = field->schema ? field->schema->size : values[kind].size;
    if (list->count == 0)
        return;
    const size_t items = shipping_make_room(s, list->count * size);
    shipping_add_link(s, at + offsetof(struct list, items), items);
    shipping_add_number(s, at + offsetof(struct list, count), &list->count, sizeof list->count);
    for (size_t i = 0; i < list->count; i++) {
        const char *item = (const char *)list->items + i * size;
        if (field->kind == FIELD_NAMED)
            add_value(s, FIELD_TEXT, item, items + i * size);
        if (field->schema)
            add_record(s, field->schema, item, items + i * size);
        else
            add_value(s, kind, item, items + i * size);
    }
}

static void add_record(struct shipping *s, const struct schema *schema, const char *record,
                       size_t at)
{
    if (schema->has_mark)
        shipping_add_mark(s, at + schema->mark_offset,
                          (const struct mark *)(const void *)(record + schema->mark_offset), 0);
    for (size_t i = 0; i < schema->field_count; i++) {
        const struct field *field = &schema->fields[i];
        const char *value = record + field->offset;
        switch (field->kind) {
        case FIELD_TEXTS:
        case FIELD_CHOICES:
        case FIELD_RECORDS:
        case FIELD_SOME_RECORDS:
        case FIELD_NAMED:
            add_list(s, field, (const struct list *)(const void *)value, at + field->offset);
            break;
        case FIELD_RECORD:
            add_record(s, field->schema, value, at + field->offset);
            break;
        case FIELD_PARTIAL_DATE:
            add_value(s, FIELD_DATE, value, at + field->offset);
            break;
        default:
            add_value(s, field->kind, value, at + field->offset);
            break;
        }
    }
}

/* ---- files ----------------------------------------------------------------------------------- */

struct writing {
    struct arena arena;
    struct strbuf source, files;
    struct shipping table;
};

/* True when the file is all good: not so much as a remark. */
static bool bind_well(struct writing *w, const struct schema *schema, const char *path,
                      struct bytes *bytes, void *record)
{
    struct diag diag;
    diag_init(&diag);
    const struct node *tree = file_read(path, FILE_LIMIT_BYTES, &w->arena, &diag, bytes)
                                  ? tree_read_bytes(path, *bytes, &w->arena, &diag)
                                  : NULL;
    const bool good =
        tree && bind_record(tree, schema, "", &w->arena, &diag, record) && diag.first == NULL;
    diag_finish(&diag);
    return good;
}

static void add_file(struct writing *w, const struct schema *schema, const char *path)
{
    struct bytes bytes;
    char *record = arena_take(&w->arena, schema->size);
    strbuf_addf(&w->files, " %s", path);
    if (!bind_well(w, schema, path, &bytes, record))
        return;
    if (schema == &instruction_catalogue_schema)
        instruction_catalogue_sort((struct instruction_catalogue *)(void *)record);
    shipping_begin_record(&w->table, schema->size);
    shipping_add_bytes(&w->table, bytes);
    add_record(&w->table, schema, record, 0);
    shipping_end_record(&w->table);
}

static void add_folder(struct writing *w, const struct schema *schema, const char *folder)
{
    const char **names;
    struct diag diag;
    diag_init(&diag);
    strbuf_addf(&w->files, " %s", folder);
    const size_t count = file_list(folder, ".yaml", &w->arena, &diag, &names);
    for (size_t i = 0; i < count; i++)
        add_file(w, schema, file_join(&w->arena, folder, names[i]));
    diag_finish(&diag);
}

static void add_table(struct writing *w, const struct shipped_file *file, const char *templates)
{
    const char *path = file_join(&w->arena, templates, file->name);
    shipping_begin_table(&w->table, &w->arena);
    if (file_is_folder(path))
        add_folder(w, file->schema, path);
    else
        add_file(w, file->schema, path);
    shipping_write_table(&w->table, file->symbol, &w->source);
}

/* Do they say of each other only what is so? As the program asks of a file that was changed. */
static bool agree(const char *templates, struct arena *arena)
{
    struct diag diag;
    diag_init(&diag);
    const struct finding_catalogue *findings =
        finding_catalogue_read(file_join(arena, templates, "findings.yaml"), arena, &diag);
    const struct rule_book *rules =
        rule_book_read(file_join(arena, templates, "rules.yaml"), arena, &diag);
    const struct topic_catalogue *topics =
        topic_catalogue_read(file_join(arena, templates, "topics.yaml"), arena, &diag);
    const bool good = findings && rules && topics &&
                      settlement_book_read(file_join(arena, templates, "settlements.yaml"), topics,
                                           arena, &diag) &&
                      instruction_catalogue_read(file_join(arena, templates, "instructions.yaml"),
                                                 topics, arena, &diag) &&
                      topic_rules_check(rules, topics, &diag) &&
                      finding_calls_check(findings, topics, &diag) && diag.first == NULL;
    diag_finish(&diag);
    return good;
}

int main(int argc, char **argv)
{
    if (argc != 4)
        return EXIT_FAILURE;
    struct writing w = {0};
    arena_init(&w.arena);
    strbuf_init(&w.source, &w.arena);
    strbuf_init(&w.files, &w.arena);
    strbuf_add(&w.source, "#include \"records/shipped_files.h\"\n\n" SOURCE_LONG_LITERALS);
    for (size_t i = 0; i < sizeof files / sizeof *files; i++)
        add_table(&w, &files[i], argv[3]);
    strbuf_addf(&w.source, "const bool shipped_files_agree = %s;\n",
                agree(argv[3], &w.arena) ? "true" : "false");
    const bool good = source_write(argv[1], w.source.text) &&
                      source_write_dependencies(argv[2], argv[1], w.files.text);
    arena_finish(&w.arena);
    return good ? EXIT_SUCCESS : EXIT_FAILURE;
}
