/* Lays what was bound when the program was built out again. */
#include "yaml/shipped.h"

#include <string.h>

/* Where a place is: the record is the caller's, what its lists hold is the arena's. */
struct layout {
    char *record, *lists;
    size_t record_size;
};

static void *place_of(const struct layout *layout, uint32_t at)
{
    return at < layout->record_size ? layout->record + at
                                    : layout->lists + (at - layout->record_size);
}

void shipped_lay_out(const struct shipped_records *from, const struct shipped_record *one,
                     const char *const *names, size_t size, struct arena *arena, void *record)
{
    const struct layout layout = {record, arena_take(arena, one->size - size), size};
    for (size_t i = 0; i < one->number_count; i++) {
        const struct shipped_number *number = &from->numbers[one->numbers_at + i];
        memcpy(place_of(&layout, number->at), &number->low, 2 * sizeof number->low);
    }
    for (size_t i = 0; i < one->text_count; i++) {
        const struct shipped_link *link = &from->texts[one->texts_at + i];
        *(const char **)place_of(&layout, link->at) = from->text + link->to;
    }
    for (size_t i = 0; i < one->list_count; i++) {
        const struct shipped_link *link = &from->lists[one->lists_at + i];
        *(void **)place_of(&layout, link->at) = place_of(&layout, link->to);
    }
    for (size_t i = 0; i < one->mark_count; i++) {
        const struct shipped_mark *mark = &from->marks[one->marks_at + i];
        *(struct mark *)place_of(&layout, mark->at) =
            (struct mark){names[mark->file], (int)mark->line, mark->column};
    }
}

bool shipped_bind(const struct schema *schema, const char *name, struct bytes bytes,
                  struct arena *arena, void *record)
{
    const struct shipped_records *from = schema->shipped;
    for (size_t i = 0; from && i < from->count; i++) {
        const struct shipped_record *one = &from->records[i];
        if (one->length != bytes.length ||
            memcmp(from->bytes + one->bytes_at, bytes.data, bytes.length) != 0)
            continue;
        shipped_lay_out(from, one, &name, schema->size, arena, record);
        return true;
    }
    return false;
}
