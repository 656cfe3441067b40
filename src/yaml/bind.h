/* Tables that turn a YAML tree into typed records.
 *
 * A record's schema is a table of fields. The same table drives reading,
 * checking ("unknown key 'humidty'; did you mean 'humidity'?"), the reference text of
 * the file format, the JSON Schema, and the desk's form. A record is a plain struct; a
 * field's place in it is given by offsetof. All storage is the arena's.
 *
 * Every value type starts its life zeroed ("nothing was written") and keeps the
 * mark of where it stood.
 */
#ifndef BASKLEAF_YAML_BIND_H
#define BASKLEAF_YAML_BIND_H

#include <stdbool.h>
#include <stddef.h>

#include "base/date.h"
#include "base/strbuf.h"
#include "base/units.h"
#include "yaml/tree.h"

/* ---- the value types a field can have ------------------------------------- */

struct text_value {
    const char *text; /* NULL: nothing was written */
    struct mark at;
};

struct date_value {
    bool known;
    struct date date;
    struct mark at;
};

struct choice_value {
    bool known;
    int value; /* the row's value in the field's table of choices */
    struct mark at;
};

struct flag_value {
    bool known;
    bool value;
    struct mark at;
};

/* Items stand one after another; LIST_AT gives a typed pointer. Where it was written, its first
 * item says. */
struct list {
    void *items;
    size_t count;
};

#define LIST_AT(list, type, i) ((type *)(list).items + (i))

/* ---- tables ---------------------------------------------------------------- */

struct choice {
    const char *word;
    int value;
    const char *help; /* one line for the reference text */
};

enum field_kind {
    FIELD_TEXT,         /* struct text_value */
    FIELD_DATE,         /* struct date_value, YYYY-MM-DD */
    FIELD_PARTIAL_DATE, /* struct date_value, also YYYY-MM or YYYY */
    FIELD_QUANTITY,     /* struct quantity */
    FIELD_BAND,         /* struct band */
    FIELD_BOX,          /* struct box */
    FIELD_CHOICE,       /* struct choice_value */
    FIELD_FLAG,         /* struct flag_value: yes or no */
    FIELD_TEXTS,        /* struct list of struct text_value; one text alone is a list of one */
    FIELD_CHOICES,      /* struct list of struct choice_value; likewise */
    FIELD_RECORD,       /* the sub-schema's struct, in place */
    FIELD_RECORDS,      /* struct list of the sub-schema's struct */
    FIELD_SOME_RECORDS, /* likewise; one mapping alone is a list of one */
    FIELD_NAMED,        /* mapping of free names to records: struct list of the sub-schema's
                           struct, whose first member is a struct text_value for the name */
};

struct schema;

struct field {
    const char *key;
    enum field_kind kind;
    size_t offset;
    enum dimension dimension; /* quantities and bands */
    bool has_range;
    double low, high; /* inclusive, in the dimension's own unit */
    bool is_whole;    /* counts what cannot be parted: no 2.5 */
    bool has_likely;  /* a value outside of these two that would lie between them in */
    double likely_low, likely_high; /* another unit was written with the wrong unit */
    const struct choice *choices;   /* ends with a NULL word */
    const struct schema *schema;    /* records */
    bool required;
    bool is_long;        /* a text of sentences: a form gives it some lines */
    bool is_made;        /* written by the program: no form asks for it */
    size_t most;         /* items of a list at most; 0 means LIST_LIMIT */
    const char *help;    /* one line, for people who write the file */
    const char *example; /* as it would be written */
};

struct shipped_records;
struct schema {
    const char *name; /* "visit record", for messages and the reference text */
    const char *help;
    size_t size; /* of the struct */
    const struct field *fields;
    size_t field_count;
    /* A record of one field may be written without the mapping: `night: 21 C`
     * for {range: ...}. NULL where that is not allowed. */
    const char *short_key;
    bool never_empty; /* what is written says something: a condition of nothing would always hold */
    bool has_mark;    /* the struct holds a struct mark that receives the record's place */
    size_t mark_offset;
    const struct shipped_records *shipped; /* what it made of the program's own files, or NULL */
    size_t
        is_shipped; /* where a bool stands that says whether the file was one of those; 0: none */
};

enum { BIND_LIST_LIMIT = 500, BIND_TEXT_LIMIT = 4000 };

/* Reads `node` into the zeroed struct at `record`. Every fault is reported with its
 * place and its path of keys; reading goes on, so that all faults of a file come in one run.
 * True when none was found. `path` is the path above this node, "" at the root. */
bool bind_record(const struct node *node, const struct schema *schema, const char *path,
                 struct arena *arena, struct diag *diag, void *record);

/* The same for a file. Its tree is gone afterwards. A file that came with the program was bound
 * when that was built (yaml/shipped.h). */
bool bind_file(const char *path, const struct schema *schema, struct arena *arena,
               struct diag *diag, void *record);

/* The word of a choice, for messages and output; "?" when the value is not in the table. */
const char *bind_choice_word(const struct choice *choices, int value);

/* "a, b or c" */
const char *bind_choice_list(const struct choice *choices, struct arena *arena);

/* The reference text of a format: one line a key with kind, units, range, choices and
 * help, nested by indentation. */
void bind_write_reference(const struct schema *schema, struct strbuf *out);

/* JSON Schema 2020-12 of a format, for editors and other programs. */
void bind_write_json_schema(const struct schema *schema, struct strbuf *out);

#endif
