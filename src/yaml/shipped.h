/* What the tables made of the files that come with the program, when it was built.
 *
 * Most of a cold start is binding, and most files of a clinic are as they came. A file whose bytes
 * are the very ones that were bound then, by the same table, gives the same struct without being
 * read again; any other is read, bound and checked as ever. What was found faulty is not among
 * them. */
#ifndef BASKLEAF_YAML_SHIPPED_H
#define BASKLEAF_YAML_SHIPPED_H

#include <stdint.h>

#include "yaml/bind.h"

/* Places are counted in bytes: first the record's own, then those of all that its lists hold. */
struct shipped_number {
    uint32_t at;
    uint32_t low, high; /* eight bytes, as the machine has them */
};

struct shipped_link {
    uint32_t at, to; /* `to`: in the texts, or a place */
};

struct shipped_mark {
    uint32_t at, line;
    uint16_t column, file; /* by its number among those that the record was made of */
};

struct shipped_record {
    uint32_t bytes_at, length; /* of the files one after another, in `bytes` */
    uint32_t size;             /* of the record and all that its lists hold */
    uint32_t numbers_at, number_count;
    uint32_t texts_at, text_count;
    uint32_t lists_at, list_count;
    uint32_t marks_at, mark_count;
};

/* All files that one table is for. */
struct shipped_records {
    const char *bytes, *text;
    const struct shipped_number *numbers;
    const struct shipped_link *texts, *lists;
    const struct shipped_mark *marks;
    const struct shipped_record *records;
    size_t count;
};

/* Fills the zeroed record of `size` bytes; the files of its marks have these names. */
void shipped_lay_out(const struct shipped_records *from, const struct shipped_record *one,
                     const char *const *names, size_t size, struct arena *arena, void *record);

/* Fills the zeroed record with what the schema made of exactly these bytes, its marks in the file
 * `name`; false when they are not among what came with the program. Texts lie there. */
bool shipped_bind(const struct schema *schema, const char *name, struct bytes bytes,
                  struct arena *arena, void *record);

#endif
