/* Shorthand for the rows of a schema table. */
#ifndef BASKLEAF_RECORDS_TABLE_H
#define BASKLEAF_RECORDS_TABLE_H

#include "yaml/bind.h"

/* ROW(TEXT, visit_patient, name, "name", .required = true, .help = "...") */
#define ROW(kind_, struct_, member_, key_, ...)                                                    \
    {                                                                                              \
        .key = (key_), .kind = FIELD_##kind_, .offset = offsetof(struct struct_, member_),         \
        __VA_ARGS__                                                                                \
    }

#define IN(dimension_, low_, high_)                                                                \
    .dimension = DIM_##dimension_, .has_range = true, .low = (low_), .high = (high_)

/* A count of what cannot be parted. */
#define WHOLE(low_, high_) IN(COUNT, low_, high_), .is_whole = true

/* Of the temperatures: one outside of these, whose number lies between them in the other unit, is a
 * fault: 28 F where 28 C was meant. From memory: wider than any place in which a reptile or an
 * amphibian is kept. */
#define LIKELY(dimension_, low_c_, high_c_)                                                        \
    .has_likely = DIM_##dimension_ == DIM_TEMPERATURE, .likely_low = (low_c_),                     \
    .likely_high = (high_c_)

/* A schema for `struct struct_` whose rows are in the array `rows_`; the help text comes first
 * among the rest, designated fields may follow. */
#define SCHEMA(struct_, rows_, name_, ...)                                                         \
    {                                                                                              \
        .name = (name_), .size = sizeof(struct struct_), .fields = (rows_),                        \
        .field_count = sizeof(rows_) / sizeof *(rows_), .help = __VA_ARGS__                        \
    }

/* For the last argument of SCHEMA. */
#define MARKED(struct_, member_) .has_mark = true, .mark_offset = offsetof(struct struct_, member_)

/* Likewise: what it made of the program's own files, and where the struct says that it is one. */
#define SHIPPED(records_, struct_)                                                                 \
    .shipped = &(records_), .is_shipped = offsetof(struct struct_, is_shipped)

#endif
