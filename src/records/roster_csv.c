/* Takes CSV apart with libcsv: delimiter, titles with units, rows with their line numbers. */
#include "records/roster_csv.h"
#include "base/utf8.h"

#include <csv.h>
#include <errno.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

enum { ROW_LIMIT_BYTES = 64 * 1024, CELLS_MOST = 200 };

struct roster_csv {
    const char *file;
    FILE *stream;
    struct csv_parser parser;
    char *line; /* one line of text */
    size_t length;
    int line_number;
    int row_line;     /* where the row under way begins */
    long row_next_at; /* behind that line; -1 where it does not end within the limit */
    size_t row_bytes; /* of it so far */
    bool in_row;      /* its last line is still to come */
    bool row_done;
    bool row_spoiled; /* it cannot be read, but the next one can */
    const char *cells[CELLS_MOST];
    size_t cell_count;
    struct arena *arena; /* of the row under way */
    int columns[CELLS_MOST];
    const char *units[CELLS_MOST];
    size_t column_count;
    long rows_at; /* behind the titles */
    int rows_line;
};

/* ---- lines --------------------------------------------------------------------------------- */

static bool broken(struct roster_csv *csv, int line, struct diag *diag, const char *code,
                   const char *text)
{
    diag_report(diag, DIAG_ERROR, code, (struct mark){csv->file, line, 1}, "%s", text);
    return false;
}

static bool has_controls(const char *text, size_t length)
{
    for (size_t i = 0; i < length; i++) {
        unsigned char c = (unsigned char)text[i];
        if ((c < ' ' && c != '\t' && c != '\n' && c != '\r') || c == 0x7F)
            return true;
    }
    return false;
}

/* Of one byte a letter, or several; UTF-16 is not. */
static bool is_text(const struct roster_csv *csv)
{
    const unsigned char *c = (const unsigned char *)csv->line;
    bool marked = csv->line_number == 1 && csv->length >= 2 &&
                  ((c[0] == 0xFF && c[1] == 0xFE) || (c[0] == 0xFE && c[1] == 0xFF));
    return !marked && !memchr(csv->line, 0, csv->length);
}

static bool check_line(struct roster_csv *csv, struct diag *diag)
{
    if (!is_text(csv))
        return broken(csv, csv->line_number, diag, "not-utf-8",
                      "is UTF-16 text or no text at all; export it again as 'CSV UTF-8'");
    if (!utf8_is_valid(csv->line, csv->length))
        return broken(
            csv, csv->line_number, diag, "not-utf-8",
            "is not UTF-8, perhaps Latin-1 or Windows-1252; export it again as 'CSV UTF-8'");
    if (has_controls(csv->line, csv->length))
        return broken(csv, csv->line_number, diag, "control-character",
                      "holds a control character; a cell is plain text");
    return true;
}

/* A line ends with LF, CR LF or CR, as spreadsheets of all ages write them. False at the end. */
static bool read_line(struct roster_csv *csv)
{
    int c = 0;
    csv->length = 0;
    while (csv->length < ROW_LIMIT_BYTES && (c = getc_unlocked(csv->stream)) != EOF) {
        csv->line[csv->length++] = (char)c;
        if (c == '\r') {
            int next = getc_unlocked(csv->stream);
            if (next == '\n')
                csv->line[csv->length++] = '\n';
            else if (next != EOF)
                ungetc(next, csv->stream);
        }
        if (c == '\n' || c == '\r')
            break;
    }
    csv->line_number += csv->length > 0;
    return csv->length > 0;
}

/* ---- rows ---------------------------------------------------------------------------------- */

static void take_cell(void *text, size_t length, void *data)
{
    struct roster_csv *csv = data;
    if (csv->cell_count < CELLS_MOST)
        csv->cells[csv->cell_count] = arena_copy_bytes(csv->arena, text, length);
    csv->cell_count++;
}

static void end_row(int c, void *data)
{
    (void)c;
    struct roster_csv *csv = data;
    csv->row_done = true;
}

static void start_parser(struct roster_csv *csv, char separator)
{
    csv_free(&csv->parser);
    csv_init(&csv->parser, CSV_STRICT | CSV_STRICT_FINI | CSV_APPEND_NULL);
    csv_set_delim(&csv->parser, (unsigned char)separator);
}

/* A row that cannot be read costs itself alone: reading goes on behind its first line, since what a
 * quote left open has swallowed are the rows after it. The titles must be read already. */
static bool spoil_row(struct roster_csv *csv)
{
    if (!csv->column_count || csv->row_next_at < 0 ||
        fseek(csv->stream, csv->row_next_at, SEEK_SET) != 0)
        return false;
    csv->line_number = csv->row_line;
    start_parser(csv, (char)csv_get_delim(&csv->parser));
    csv->cell_count = 0;
    csv->row_done = csv->row_spoiled = true;
    return true;
}

/* The row of a stray letter surely ends with its line: no cell was open before it, and none is left
 * open. */
static bool is_row_of_one_line(const struct roster_csv *csv)
{
    size_t quotes = 0;
    for (size_t i = 0; i < csv->length; i++)
        quotes += csv->line[i] == '"';
    return csv->row_line == csv->line_number && quotes % 2 == 0;
}

static bool feed(struct roster_csv *csv, struct diag *diag)
{
    if (!csv->in_row) {
        csv->row_line = csv->line_number;
        csv->row_next_at = csv->length < ROW_LIMIT_BYTES ? ftell(csv->stream) : -1;
        csv->row_bytes = 0;
    }
    csv->in_row = true;
    csv->row_bytes += csv->length;
    if (csv->row_bytes >= ROW_LIMIT_BYTES) {
        broken(csv, csv->row_line, diag, "row-too-long",
               "this row does not end within 65536 bytes; is a quote left open?");
        return spoil_row(csv);
    }
    if (!check_line(csv, diag))
        return is_text(csv) && is_row_of_one_line(csv) && spoil_row(csv);
    if (csv_parse(&csv->parser, csv->line, csv->length, take_cell, end_row, csv) == csv->length)
        return true;
    broken(csv, csv->row_line, diag, "bad-quote",
           "a quote stands inside a cell; a cell with quotes is quoted whole, and each quote in it "
           "is written twice");
    return spoil_row(csv);
}

static bool end_of_file(struct roster_csv *csv, struct diag *diag)
{
    if (ferror(csv->stream)) {
        diag_report(diag, DIAG_FAULT, "cannot-read", (struct mark){.file = csv->file},
                    "cannot be read: %s", strerror(errno));
        return false;
    }
    if (csv_fini(&csv->parser, take_cell, end_row, csv) == 0)
        return true;
    broken(csv, csv->row_line, diag, "open-quote",
           "a quote that opens in this row is never closed");
    return spoil_row(csv);
}

/* One row of cells, empty lines left out. */
static enum roster_step read_cells(struct roster_csv *csv, struct arena *arena, struct diag *diag)
{
    csv->arena = arena;
    csv->cell_count = 0;
    csv->row_done = csv->in_row = csv->row_spoiled = false;
    while (!csv->row_done) {
        if (!read_line(csv)) {
            if (!end_of_file(csv, diag))
                return ROSTER_BROKEN;
            return csv->row_done ? ROSTER_ROW : ROSTER_END;
        }
        if (!feed(csv, diag))
            return ROSTER_BROKEN;
        bool blank = !csv->row_spoiled && csv->cell_count == 0 &&
                     strspn(csv->line, " \t\r\n") >= csv->length;
        csv->in_row = !blank;
    }
    return ROSTER_ROW;
}

static bool is_empty_row(const struct roster_csv *csv)
{
    for (size_t i = 0; i < csv->cell_count && i < CELLS_MOST; i++)
        if (*csv->cells[i])
            return false;
    return !csv->row_spoiled && csv->cell_count <= CELLS_MOST;
}

static const struct node *cell_node(const struct roster_csv *csv, size_t index, struct arena *arena)
{
    const char *text = csv->cells[index], *unit = csv->units[index];
    bool bare = unit && strspn(text, "0123456789., ") == strlen(text);
    struct node *node = ARENA_NEW(arena, struct node);
    *node = (struct node){
        .kind = NODE_SCALAR,
        .at = {csv->file, csv->row_line, (int)index + 1},
        .text = bare ? arena_format(arena, "%s %s", text, unit) : text,
        .weight = 1,
    };
    return node;
}

enum roster_step roster_csv_next(struct roster_csv *csv, struct arena *arena, struct diag *diag,
                                 struct roster_row *out)
{
    enum roster_step step;
    do
        step = read_cells(csv, arena, diag);
    while (step == ROSTER_ROW && is_empty_row(csv));
    if (step != ROSTER_ROW)
        return step;
    out->at = (struct mark){csv->file, csv->row_line, 1};
    out->is_good = out->is_good && !csv->row_spoiled;
    for (size_t i = 0; i < csv->cell_count; i++) {
        int column = i < csv->column_count ? csv->columns[i] : -1;
        if (i < CELLS_MOST && (!*csv->cells[i] || column == -2))
            continue;
        if (column < 0) {
            diag_report(diag, DIAG_ERROR, "too-many-cells",
                        (struct mark){csv->file, csv->row_line, (int)i + 1},
                        "cell %zu stands under no title; the titles end at %zu", i + 1,
                        csv->column_count);
            out->is_good = false;
            break;
        }
        out->cells[column] = cell_node(csv, i, arena);
    }
    return ROSTER_ROW;
}

/* ---- opening ------------------------------------------------------------------------------- */

/* The separator that stands most often outside quotes in the line of titles. */
static char find_separator(const char *line, size_t length)
{
    static const char separators[] = {',', ';', '\t'};
    size_t counts[3] = {0}, best = 0;
    bool quoted = false;
    for (size_t i = 0; i < length; i++) {
        quoted ^= line[i] == '"';
        for (size_t k = 0; k < 3 && !quoted; k++)
            counts[k] += line[i] == separators[k];
    }
    for (size_t k = 1; k < 3; k++)
        if (counts[k] > counts[best])
            best = k;
    return separators[best];
}

static bool open_stream(struct roster_csv *csv, struct diag *diag)
{
    struct stat st;
    if (csv->stream)
        fclose(csv->stream);
    csv->stream = fopen(csv->file, "rbe");
    if (csv->stream && fstat(fileno(csv->stream), &st) == 0 && S_ISREG(st.st_mode))
        return true;
    diag_report(diag, DIAG_ERROR, "cannot-read", (struct mark){.file = csv->file},
                csv->stream ? "is no plain file; a roster is read more than once"
                            : "cannot be read: %s",
                strerror(errno));
    return false;
}

/* Behind a byte-order mark and a spreadsheet's own line "sep=;". */
static bool find_titles(struct roster_csv *csv, struct diag *diag)
{
    char separator = 0;
    long at = 0;
    if (read_line(csv) && csv->length >= 3 && memcmp(csv->line, "\xEF\xBB\xBF", 3) == 0)
        at = 3;
    if (csv->length >= (size_t)at + 5 && memcmp(csv->line + at, "sep=", 4) == 0) {
        separator = csv->line[at + 4];
        at = (long)csv->length;
    } else {
        csv->line_number = 0;
    }
    fseek(csv->stream, at, SEEK_SET);
    int line_number = csv->line_number;
    if (read_line(csv) && !check_line(csv, diag))
        return false;
    start_parser(csv, separator ? separator : find_separator(csv->line, csv->length));
    csv->line_number = line_number;
    return fseek(csv->stream, at, SEEK_SET) == 0;
}

static bool check_titles(struct roster_csv *csv, struct diag *diag)
{
    bool seen[ROSTER_COLUMN_COUNT] = {false}, good = true;
    for (size_t i = 0; i < csv->column_count; i++) {
        int column = csv->columns[i];
        if (column < 0)
            continue;
        if (seen[column])
            diag_report(diag, DIAG_ERROR, "column-twice",
                        (struct mark){csv->file, csv->row_line, (int)i + 1},
                        "the column '%s' stands twice", roster_columns[column].name);
        good = good && !seen[column];
        seen[column] = true;
    }
    if (seen[ROSTER_NAME] && seen[ROSTER_SPECIES])
        return good;
    diag_report(diag, DIAG_ERROR, "missing-column", (struct mark){csv->file, csv->row_line, 1},
                "the first row names the columns; 'name' and 'species' are needed");
    return false;
}

static bool read_titles(struct roster_csv *csv, struct arena *arena, struct diag *diag)
{
    if (!find_titles(csv, diag))
        return false;
    enum roster_step step = read_cells(csv, arena, diag);
    if (step == ROSTER_END)
        return broken(csv, 1, diag, "empty-roster", "is empty; the first row names the columns");
    if (step != ROSTER_ROW)
        return false;
    if (csv->cell_count > CELLS_MOST)
        return broken(csv, csv->row_line, diag, "too-many-columns", "more than 200 columns");
    bool good = true;
    csv->column_count = csv->cell_count;
    for (size_t i = 0; i < csv->cell_count; i++) {
        struct mark at = {csv->file, csv->row_line, (int)i + 1};
        csv->columns[i] = -1;
        if (!*csv->cells[i])
            continue;
        csv->columns[i] = roster_find_column(csv->cells[i], at, arena, diag, &csv->units[i]);
        good = good && csv->columns[i] != -1;
    }
    csv->rows_at = ftell(csv->stream);
    csv->rows_line = csv->line_number;
    return check_titles(csv, diag) && good;
}

struct roster_csv *roster_csv_new(const char *path, struct arena *arena, struct diag *diag)
{
    struct roster_csv *csv = calloc(1, sizeof *csv);
    if (!csv || !(csv->line = malloc(ROW_LIMIT_BYTES + 1)))
        support_out_of_memory();
    csv->file = arena_copy_text(arena, path);
    if (open_stream(csv, diag) && read_titles(csv, arena, diag))
        return csv;
    roster_csv_free(csv);
    return NULL;
}

void roster_csv_free(struct roster_csv *csv)
{
    if (!csv)
        return;
    if (csv->stream)
        fclose(csv->stream);
    csv_free(&csv->parser);
    free(csv->line);
    free(csv);
}

bool roster_csv_rewind(struct roster_csv *csv, struct diag *diag)
{
    char separator = (char)csv_get_delim(&csv->parser);
    if (!open_stream(csv, diag) || fseek(csv->stream, csv->rows_at, SEEK_SET) != 0)
        return false;
    csv->line_number = csv->rows_line;
    start_parser(csv, separator);
    return true;
}
