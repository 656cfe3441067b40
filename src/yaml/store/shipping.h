/* Writes rows of yaml/shipped.h: a struct, and all that its pointers lead to, as numbers, texts and
 * places. */
#ifndef BASKLEAF_YAML_STORE_SHIPPING_H
#define BASKLEAF_YAML_STORE_SHIPPING_H

#include "base/diag.h"
#include "base/file.h"
#include "base/strbuf.h"

/* One table of records under way. */
struct shipping {
    struct arena *arena;
    struct strbuf bytes, text, numbers, texts, lists, marks, records;
    size_t byte_count, text_length, number_count, text_count, list_count, mark_count, record_count;
    unsigned char *image; /* the numbers of the record under way, at their places */
    size_t size, room;
    size_t first_byte, first_number, first_text, first_list, first_mark; /* of that record */
};

void shipping_begin_table(struct shipping *s, struct arena *arena);

/* A record of `size` bytes at place 0. */
void shipping_begin_record(struct shipping *s, size_t size);
void shipping_end_record(struct shipping *s);

/* Adds a file's bytes to those that the record was made of. */
void shipping_add_bytes(struct shipping *s, struct bytes bytes);

/* Room for what a pointer leads to; its place. */
size_t shipping_make_room(struct shipping *s, size_t size);

/* A pointer at `at` to the place `to`; one to a text; a mark in the file of that number, where it
 * has one; and the bytes of a number. */
void shipping_add_link(struct shipping *s, size_t at, size_t to);
void shipping_add_text(struct shipping *s, size_t at, const char *text);
void shipping_add_mark(struct shipping *s, size_t at, const struct mark *mark, size_t file);
void shipping_add_number(struct shipping *s, size_t at, const void *number, size_t size);

/* The table as C: shipped_SYMBOL. */
void shipping_write_table(const struct shipping *s, const char *symbol, struct strbuf *source);

#endif
