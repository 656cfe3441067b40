/* Writes what a table made as rows of yaml/shipped.h. */
#include "yaml/store/shipping.h"

#include <stdint.h>
#include <string.h>

#include "yaml/store/source.h"

enum { STEP_BYTES = 16 };

void shipping_begin_table(struct shipping *s, struct arena *arena)
{
    *s = (struct shipping){.arena = arena};
    struct strbuf *const rows[] = {&s->bytes, &s->text,  &s->numbers, &s->texts,
                                   &s->lists, &s->marks, &s->records};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
        strbuf_init(rows[i], arena);
}

void shipping_begin_record(struct shipping *s, size_t size)
{
    s->size = s->room = 0;
    shipping_make_room(s, size);
    s->size = size; /* what pointers lead to is a piece of its own */
    s->first_byte = s->byte_count;
    s->first_number = s->number_count;
    s->first_text = s->text_count;
    s->first_list = s->list_count;
    s->first_mark = s->mark_count;
}

/* Eight bytes each, where not all are zero. */
static void add_numbers(struct shipping *s)
{
    for (size_t at = 0; at < s->size; at += sizeof(uint64_t)) {
        uint32_t halves[2];
        memcpy(halves, s->image + at, sizeof halves);
        if (!halves[0] && !halves[1])
            continue;
        strbuf_addf(&s->numbers, "{%zu, %u, %u},\n", at, halves[0], halves[1]);
        s->number_count++;
    }
}

void shipping_end_record(struct shipping *s)
{
    add_numbers(s);
    strbuf_addf(&s->records, "{%zu, %zu, %zu, %zu, %zu, %zu, %zu, %zu, %zu, %zu, %zu},\n",
                s->first_byte, s->byte_count - s->first_byte, s->size, s->first_number,
                s->number_count - s->first_number, s->first_text, s->text_count - s->first_text,
                s->first_list, s->list_count - s->first_list, s->first_mark,
                s->mark_count - s->first_mark);
    s->record_count++;
}

void shipping_add_bytes(struct shipping *s, struct bytes bytes)
{
    source_add_literal(&s->bytes, bytes.data, bytes.length);
    s->byte_count += bytes.length;
}

size_t shipping_make_room(struct shipping *s, size_t size)
{
    const size_t at = s->size;
    s->size += (size + STEP_BYTES - 1) / STEP_BYTES * STEP_BYTES;
    if (s->size > s->room) {
        unsigned char *larger = arena_take(s->arena, 2 * s->size);
        if (s->room)
            memcpy(larger, s->image, s->room);
        s->room = 2 * s->size;
        s->image = larger;
    }
    return at;
}

void shipping_add_link(struct shipping *s, size_t at, size_t to)
{
    strbuf_addf(&s->lists, "{%zu, %zu},\n", at, to);
    s->list_count++;
}

void shipping_add_text(struct shipping *s, size_t at, const char *text)
{
    if (!text)
        return;
    strbuf_addf(&s->texts, "{%zu, %zu},\n", at, s->text_length);
    source_add_literal(&s->text, text, strlen(text) + 1);
    s->text_length += strlen(text) + 1;
    s->text_count++;
}

void shipping_add_mark(struct shipping *s, size_t at, const struct mark *mark, size_t file)
{
    if (!mark->file)
        return;
    strbuf_addf(&s->marks, "{%zu, %d, %d, %zu},\n", at, mark->line, mark->column, file);
    s->mark_count++;
}

void shipping_add_number(struct shipping *s, size_t at, const void *number, size_t size)
{
    memcpy(s->image + at, number, size);
}

/* An array has at least one row, for a table without good files. */
static void add_array(struct strbuf *source, const char *type, const char *symbol, const char *name,
                      const struct strbuf *rows)
{
    strbuf_addf(source, "static const struct shipped_%s %s_%s[] = {\n%s};\n\n", type, symbol, name,
                rows->length ? rows->text : "{0},\n");
}

void shipping_write_table(const struct shipping *s, const char *symbol, struct strbuf *source)
{
    strbuf_addf(source, "static const char %s_bytes[] = %s \"\";\n\n", symbol, s->bytes.text);
    strbuf_addf(source, "static const char %s_text[] = %s \"\";\n\n", symbol, s->text.text);
    add_array(source, "number", symbol, "numbers", &s->numbers);
    add_array(source, "link", symbol, "texts", &s->texts);
    add_array(source, "link", symbol, "lists", &s->lists);
    add_array(source, "mark", symbol, "marks", &s->marks);
    add_array(source, "record", symbol, "records", &s->records);
    strbuf_addf(source,
                "const struct shipped_records shipped_%s = {%s_bytes, %s_text, %s_numbers, "
                "%s_texts, %s_lists, %s_marks, %s_records, %zu};\n\n",
                symbol, symbol, symbol, symbol, symbol, symbol, symbol, symbol, s->record_count);
}
