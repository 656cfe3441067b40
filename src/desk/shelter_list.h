/* A shelter's list as it lies in `.shelter/ID/`, ID the digest of the file that was dropped:
 *     original      the file as it came
 *     list.json     its name and day, what each column means, rows left out, cells mended
 *     roster.csv    what is signed and made into sheets: the rows that are not left out
 * Titles that somebody explained are remembered in `.shelter/titles.json`.
 */
#ifndef BASKLEAF_DESK_SHELTER_LIST_H
#define BASKLEAF_DESK_SHELTER_LIST_H

#include "desk/handlers.h"
#include "records/roster.h"
#include "records/spreadsheet.h"

enum { SHELTER_ID_LETTERS = 16 };

struct shelter_list {
    const char *id, *file;
    long long seconds; /* when it was dropped */
    struct spreadsheet table;
    int columns[SPREADSHEET_CELLS_MOST]; /* of each title; -1: passed over */
    bool *left_out;                      /* of each row of the table */
};

/* The path of something of a list. */
const char *shelter_path(struct answer *answer, const char *id, const char *name);

bool shelter_is_id(const char *id);

/* Keeps a dropped file and reads it; its titles as remembered or known. False after a refusal. */
bool shelter_list_drop(struct answer *answer, struct bytes bytes, const char *file,
                       struct shelter_list *out);

/* A list that was dropped before. False after a refusal. */
bool shelter_list_open(struct answer *answer, const char *id, struct shelter_list *out);

/* Only its file's name and day. False where there is none. */
bool shelter_list_peek(struct answer *answer, const char *id, struct shelter_list *out);

/* Writes list.json and roster.csv. False after a refusal. */
bool shelter_list_save(struct answer *answer, struct shelter_list *list);

/* What a column means from now on, here and in lists to come; "" passes it over. */
bool shelter_list_name_column(struct answer *answer, struct shelter_list *list, size_t column,
                              const char *name);

/* The row that begins on a line of the file; NULL: none. */
struct spreadsheet_row *shelter_list_row(struct shelter_list *list, int line);

#endif
