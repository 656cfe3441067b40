/* A roster: many animals that leave together, one a row, as YAML or as a spreadsheet's CSV.
 *
 * YAML: `roster:` (what holds for all rows, all of it optional) and `animals:`, a list of mappings
 * with the keys of roster_columns. CSV: the same keys as the titles of its columns, UTF-8, parted
 * by comma, semicolon or tab; what holds for all rows, and the signature, stands in a file of the
 * same name with ".yaml" behind it. A row becomes a visit record like any other. Rows are read one
 * at a time, and no more than one is in memory.
 *
 * A place in a CSV is the line on which its row begins and the number of the cell.
 */
#ifndef BASKLEAF_RECORDS_ROSTER_H
#define BASKLEAF_RECORDS_ROSTER_H

#include <stdio.h>

#include "records/visit.h"
#include "yaml/stream.h"

enum roster_column {
    ROSTER_ID,
    ROSTER_NAME,
    ROSTER_SPECIES,
    ROSTER_SEX,
    ROSTER_HATCHED,
    ROSTER_AGE,
    ROSTER_MASS,
    ROSTER_LENGTH,
    ROSTER_ADOPTER,
    ROSTER_EMAIL,
    ROSTER_LANGUAGE,
    ROSTER_UNITS,
    ROSTER_DATE,
    ROSTER_KIND,
    ROSTER_VETERINARIAN,
    ROSTER_FINDINGS,
    ROSTER_RECHECK,
    ROSTER_NOTES,
    ROSTER_ENCLOSURE,
    ROSTER_DIET,
#define ROSTER_MEASURE(name_, ...) ROSTER_READ_##name_,
    READ_MEASURES(ROSTER_MEASURE)
#undef ROSTER_MEASURE
        ROSTER_COLUMN_COUNT
};

struct roster_column_about {
    const char *name;    /* of the column, of the key */
    const char *section; /* of the visit record; NULL: a key of the record itself, or worked out */
    const char *key;     /* NULL: worked out */
    const char *help;
    const char *part; /* of the section, that holds the key: readings; NULL: the section itself */
};

extern const struct roster_column_about roster_columns[ROSTER_COLUMN_COUNT];

struct roster_head {
    struct date_value date; /* of rows without one: this, else the day of signing, else today */
    struct text_value kind; /* adoption when left out */
    struct text_value veterinarian;
    struct text_value language;
    struct choice_value units;
    struct visit_signature signature;
    struct mark at;
};

struct roster_row {
    size_t number; /* from 1 */
    struct mark at;
    const struct node *cells[ROSTER_COLUMN_COUNT]; /* NULL where nothing is written */
    bool is_good;                                  /* false: its faults have been reported */
};

struct roster_csv;

struct roster {
    const char *file;
    const char *signature_file; /* the file that holds `roster:`; may not exist for a CSV */
    struct roster_head head;
    struct arena arena;         /* lives as long as the roster is open */
    struct tree_stream *stream; /* of a YAML roster */
    struct roster_csv *csv;     /* of a CSV */
    size_t next;                /* number of the row before the one to come */
};

enum roster_step { ROSTER_ROW, ROSTER_END, ROSTER_BROKEN };

extern const struct schema roster_head_schema;

/* By its name's end: .csv, .tsv or .txt. */
bool roster_is_csv(const char *path);

/* By its top-level keys `roster` or `animals`. */
bool roster_is_tree(const struct node *tree);

/* Opens it and reads what holds for all rows. False after errors; roster_close all the same. */
bool roster_open(struct roster *roster, const char *path, struct diag *diag);
void roster_close(struct roster *roster);

/* Back before the first row; also gives a forked process its own place in the file. */
bool roster_rewind(struct roster *roster, struct diag *diag);

/* The next row, in `arena`. ROSTER_BROKEN: the file cannot be read further; the fault is
 * reported. */
enum roster_step roster_next(struct roster *roster, struct arena *arena, struct diag *diag,
                             struct roster_row *out);

/* The row as the tree of a visit record. NULL after errors. */
const struct node *roster_row_tree(const struct roster *roster, const struct roster_row *row,
                                   struct date today, struct arena *arena, struct diag *diag);

/* The format of a YAML roster as a table, for its reference text and JSON Schema; it reads nothing.
 */
const struct schema *roster_format(struct arena *arena);

/* The text of a cell that holds a text, else "". */
const char *roster_cell(const struct roster_row *row, enum roster_column column);

/* The column of a title, -1 when there is none (reported with the nearest), -2 when the title
 * begins with # and is to be passed over. "Mass (g)" is mass with *unit "g". */
int roster_find_column(const char *title, struct mark at, struct arena *arena, struct diag *diag,
                       const char **unit);

#endif
