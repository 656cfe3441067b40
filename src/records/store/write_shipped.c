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
#include "yaml/shipped.h"
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

enum { STEP_BYTES = 16, PARTS_MOST = 5 };

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

struct writing {
    struct arena arena;
    struct strbuf bytes, text, numbers, texts, lists, marks, records; /* of one table */
    struct strbuf source, files;
    size_t byte_count, text_length, number_count, text_count, list_count, mark_count, record_count;
    unsigned char *image; /* the numbers of the record under way, at their places */
    size_t size, room;
};

/* Room for what a list holds; its place. */
static size_t make_room(struct writing *w, size_t size)
{
    const size_t at = w->size;
    w->size += (size + STEP_BYTES - 1) / STEP_BYTES * STEP_BYTES;
    while (w->size > w->room) {
        unsigned char *larger = arena_take(&w->arena, 2 * w->room + w->size);
        memcpy(larger, w->image, w->room);
        w->room = 2 * w->room + w->size;
        w->image = larger;
    }
    return at;
}

static void add_mark(struct writing *w, size_t at, const struct mark *mark)
{
    if (!mark->file)
        return;
    strbuf_addf(&w->marks, "{%zu, %d, %d},\n", at, mark->line, mark->column);
    w->mark_count++;
}

static void add_text(struct writing *w, size_t at, const struct text_value *text)
{
    if (!text->text)
        return;
    strbuf_addf(&w->texts, "{%zu, %zu},\n", at + offsetof(struct text_value, text), w->text_length);
    source_add_literal(&w->text, text->text, strlen(text->text) + 1);
    w->text_length += strlen(text->text) + 1;
    w->text_count++;
}

static void add_value(struct writing *w, enum field_kind kind, const char *value, size_t at)
{
    const struct value *form = &values[kind];
    if (kind == FIELD_TEXT)
        add_text(w, at, (const struct text_value *)(const void *)value);
    for (const struct part *part = form->parts; part < form->parts + PARTS_MOST; part++)
        memcpy(w->image + at + part->offset, value + part->offset, part->size);
    add_mark(w, at + form->mark, (const struct mark *)(const void *)(value + form->mark));
}

static void add_record(struct writing *w, const struct schema *schema, const char *record,
                       size_t at);

/* The kind of a list's items: their own where they are no records. */
static enum field_kind kind_of_items(enum field_kind kind)
{
    return kind == FIELD_TEXTS ? FIELD_TEXT : FIELD_CHOICE;
}

static void add_list(struct writing *w, const struct field *field, const struct list *list,
                     size_t at)
{
    const enum field_kind kind = kind_of_items(field->kind);
    const size_t size = field->schema ? field->schema->size : values[kind].size;
    add_mark(w, at + offsetof(struct list, at), &list->at);
    if (list->count == 0)
        return;
    const size_t items = make_room(w, list->count * size);
    strbuf_addf(&w->lists, "{%zu, %zu},\n", at + offsetof(struct list, items), items);
    w->list_count++;
    memcpy(w->image + at + offsetof(struct list, count), &list->count, sizeof list->count);
    for (size_t i = 0; i < list->count; i++) {
        const char *item = (const char *)list->items + i * size;
        if (field->kind == FIELD_NAMED)
            add_value(w, FIELD_TEXT, item, items + i * size);
        if (field->schema)
            add_record(w, field->schema, item, items + i * size);
        else
            add_value(w, kind, item, items + i * size);
    }
}

static void add_record(struct writing *w, const struct schema *schema, const char *record,
                       size_t at)
{
    if (schema->has_mark)
        add_mark(w, at + schema->mark_offset,
                 (const struct mark *)(const void *)(record + schema->mark_offset));
    for (size_t i = 0; i < schema->field_count; i++) {
        const struct field *field = &schema->fields[i];
        const char *value = record + field->offset;
        switch (field->kind) {
        case FIELD_TEXTS:
        case FIELD_CHOICES:
        case FIELD_RECORDS:
        case FIELD_SOME_RECORDS:
        case FIELD_NAMED:
            add_list(w, field, (const struct list *)(const void *)value, at + field->offset);
            break;
        case FIELD_RECORD:
            add_record(w, field->schema, value, at + field->offset);
            break;
        case FIELD_PARTIAL_DATE:
            add_value(w, FIELD_DATE, value, at + field->offset);
            break;
        default:
            add_value(w, field->kind, value, at + field->offset);
            break;
        }
    }
}

/* Eight bytes each, where not all are zero. */
static void add_numbers(struct writing *w)
{
    for (size_t at = 0; at < w->size; at += sizeof(uint64_t)) {
        uint32_t halves[2];
        memcpy(halves, w->image + at, sizeof halves);
        if (!halves[0] && !halves[1])
            continue;
        strbuf_addf(&w->numbers, "{%zu, %u, %u},\n", at, halves[0], halves[1]);
        w->number_count++;
    }
}

/* ---- files ----------------------------------------------------------------------------------- */

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
    const size_t numbers = w->number_count, texts = w->text_count, lists = w->list_count,
                 marks = w->mark_count;
    w->size = w->room = 0;
    make_room(w, schema->size);
    w->size = schema->size; /* what lists hold is a piece of its own */
    add_record(w, schema, record, 0);
    add_numbers(w);
    strbuf_addf(&w->records, "{%zu, %zu, %zu, %zu, %zu, %zu, %zu, %zu, %zu, %zu, %zu},\n",
                w->byte_count, bytes.length, w->size, numbers, w->number_count - numbers, texts,
                w->text_count - texts, lists, w->list_count - lists, marks, w->mark_count - marks);
    source_add_literal(&w->bytes, bytes.data, bytes.length);
    w->byte_count += bytes.length;
    w->record_count++;
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

/* An array has at least one row, for a table without good files. */
static void add_array(struct writing *w, const char *type, const char *name,
                      const struct strbuf *rows)
{
    strbuf_addf(&w->source, "static const struct shipped_%s %s[] = {\n%s};\n\n", type, name,
                rows->length ? rows->text : "{0},\n");
}

static void add_table(struct writing *w, const struct shipped_file *file, const char *templates)
{
    static const char *const types[] = {"number", "link", "link", "mark", "record"};
    static const char *const names[] = {"numbers", "texts", "lists", "marks", "records"};
    struct strbuf *const rows[] = {&w->numbers, &w->texts, &w->lists, &w->marks, &w->records};
    const char *path = file_join(&w->arena, templates, file->name);
    strbuf_init(&w->bytes, &w->arena);
    strbuf_init(&w->text, &w->arena);
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
        strbuf_init(rows[i], &w->arena);
    w->byte_count = w->text_length = w->number_count = w->text_count = 0;
    w->list_count = w->mark_count = w->record_count = 0;
    if (file_is_folder(path))
        add_folder(w, file->schema, path);
    else
        add_file(w, file->schema, path);
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
        add_array(w, types[i], arena_format(&w->arena, "%s_%s", file->symbol, names[i]), rows[i]);
    const char *symbol = file->symbol;
    strbuf_addf(&w->source, "static const char %s_bytes[] = %s \"\";\n\n", symbol, w->bytes.text);
    strbuf_addf(&w->source, "static const char %s_text[] = %s \"\";\n\n", symbol, w->text.text);
    strbuf_addf(&w->source,
                "const struct shipped_records shipped_%s = {%s_bytes, %s_text, %s_numbers, "
                "%s_texts, %s_lists, %s_marks, %s_records, %zu};\n\n",
                symbol, symbol, symbol, symbol, symbol, symbol, symbol, symbol, w->record_count);
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
    FILE *out = fopen(argv[1], "w");
    bool good = out && fputs(w.source.text, out) >= 0;
    good = out && fclose(out) == 0 && good;
    good = good && source_write_dependencies(argv[2], argv[1], w.files.text);
    arena_finish(&w.arena);
    return good ? EXIT_SUCCESS : EXIT_FAILURE;
}
