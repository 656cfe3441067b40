/* A table of text cells as spreadsheets write it: RFC 4180 and its dialects. UTF-8 with or without
 * a byte-order mark, UTF-16 with one, else Windows-1252 (the WHATWG Encoding Standard's index);
 * comma, semicolon or tab; CRLF, LF or CR; a first line "sep=;". */
#ifndef BASKLEAF_RECORDS_SPREADSHEET_H
#define BASKLEAF_RECORDS_SPREADSHEET_H

#include "base/file.h"

enum { SPREADSHEET_CELLS_MOST = 200, SPREADSHEET_ROWS_MOST = 20000 };

struct spreadsheet_row {
    int line; /* on which it begins, from 1, as the spreadsheet counts it where no cell has lines */
    const char **cells;
    size_t count;
};

struct spreadsheet {
    const char *encoding; /* "UTF-8", "UTF-16" or "Windows-1252" */
    char separator;
    struct spreadsheet_row *rows; /* the first are the titles; empty ones are left out */
    size_t count;
};

enum spreadsheet_kind {
    SPREADSHEET_TEXT,
    SPREADSHEET_WORKBOOK, /* a program's own file (.xlsx, .xls, .ods), no text */
    SPREADSHEET_NONE,     /* no table: control bytes, or nothing at all */
};

/* Everything in *out is the arena's. */
enum spreadsheet_kind spreadsheet_read(struct bytes bytes, struct arena *arena,
                                       struct spreadsheet *out);

#endif
