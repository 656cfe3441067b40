/* Reads spreadsheets' text files: which encoding, which separator, which cells. */
#include "records/spreadsheet.h"

#include <string.h>

#include "base/strbuf.h"
#include "base/utf8.h"

/* ---- encodings ------------------------------------------------------------------------------- */

static void add_code_point(struct strbuf *out, unsigned c)
{
    char bytes[4];
    size_t length;
    if (c < 0x80) {
        bytes[0] = (char)c;
        length = 1;
    } else if (c < 0x800) {
        bytes[0] = (char)(0xc0 | c >> 6);
        length = 2;
    } else if (c < 0x10000) {
        bytes[0] = (char)(0xe0 | c >> 12);
        length = 3;
    } else {
        bytes[0] = (char)(0xf0 | c >> 18);
        length = 4;
    }
    for (size_t i = 1; i < length; i++)
        bytes[i] = (char)(0x80 | (c >> 6 * (length - 1 - i) & 0x3f));
    strbuf_add_bytes(out, bytes, length);
}

static bool is_utf8(struct bytes text)
{
    for (size_t at = 0; at < text.length;)
        if (utf8_next(text.data, text.length, &at) == UTF8_INVALID)
            return false;
    return true;
}

/* 0x80 to 0x9f of index windows-1252 (encoding.spec.whatwg.org/index-windows-1252.txt). */
static const unsigned short windows_1252[32] = {
    0x20AC, 0x0081, 0x201A, 0x0192, 0x201E, 0x2026, 0x2020, 0x2021, 0x02C6, 0x2030, 0x0160,
    0x2039, 0x0152, 0x008D, 0x017D, 0x008F, 0x0090, 0x2018, 0x2019, 0x201C, 0x201D, 0x2022,
    0x2013, 0x2014, 0x02DC, 0x2122, 0x0161, 0x203A, 0x0153, 0x009D, 0x017E, 0x0178,
};

static struct bytes from_windows_1252(struct bytes text, struct arena *arena)
{
    struct strbuf out;
    strbuf_init(&out, arena);
    for (size_t i = 0; i < text.length; i++) {
        unsigned char c = (unsigned char)text.data[i];
        add_code_point(&out, c >= 0x80 && c < 0xa0 ? windows_1252[c - 0x80] : c);
    }
    return (struct bytes){out.text, out.length};
}

/* RFC 2781; a half of a pair alone becomes U+FFFD. */
static struct bytes from_utf_16(struct bytes text, bool big, struct arena *arena)
{
    struct strbuf out;
    unsigned high = 0;
    strbuf_init(&out, arena);
    for (size_t i = 2; i + 1 < text.length; i += 2) {
        unsigned char first = (unsigned char)text.data[i], second = (unsigned char)text.data[i + 1];
        unsigned c = big ? first << 8u | second : second << 8u | first;
        bool is_low = c >= 0xdc00 && c < 0xe000;
        if (high || is_low)
            add_code_point(&out, high && is_low ? 0x10000 + ((high - 0xd800) << 10) + (c - 0xdc00)
                                                : 0xfffd);
        high = c >= 0xd800 && c < 0xdc00 ? c : 0;
        if (!high && !is_low)
            add_code_point(&out, c);
    }
    if (high)
        add_code_point(&out, 0xfffd);
    return (struct bytes){out.text, out.length};
}

static struct bytes to_utf8(struct bytes bytes, struct arena *arena, const char **encoding)
{
    const char *data = bytes.data;
    *encoding = "UTF-8";
    if (bytes.length >= 3 && memcmp(data, "\xEF\xBB\xBF", 3) == 0)
        bytes = (struct bytes){data + 3, bytes.length - 3};
    else if (bytes.length >= 2 &&
             (memcmp(data, "\xFF\xFE", 2) == 0 || memcmp(data, "\xFE\xFF", 2) == 0)) {
        *encoding = "UTF-16";
        return from_utf_16(bytes, data[0] == '\xFE', arena);
    }
    if (is_utf8(bytes))
        return bytes;
    *encoding = "Windows-1252";
    return from_windows_1252(bytes, arena);
}

/* ---- cells ----------------------------------------------------------------------------------- */

struct reading {
    const char *at, *end;
    int line;
    char separator;
    struct arena *arena;
    struct strbuf cell;
};

static bool is_break(char c)
{
    return c == '\r' || c == '\n';
}

static void skip_break(struct reading *in)
{
    in->at += in->end - in->at > 1 && in->at[0] == '\r' && in->at[1] == '\n' ? 2 : 1;
    in->line++;
}

/* Up to the closing quote, which may be followed by more. */
static void read_quoted(struct reading *in)
{
    in->at++;
    while (in->at < in->end) {
        if (*in->at == '"' && !(in->end - in->at > 1 && in->at[1] == '"'))
            break;
        if (is_break(*in->at)) {
            strbuf_add_char(&in->cell, '\n');
            skip_break(in);
            continue;
        }
        in->at += *in->at == '"'; /* the first of two */
        strbuf_add_char(&in->cell, *in->at++);
    }
    in->at += in->at < in->end;
}

static const char *trimmed(const char *text, struct arena *arena)
{
    size_t length = strlen(text), begin = strspn(text, " \t");
    while (length > begin &&
           (text[length - 1] == ' ' || text[length - 1] == '\t' || text[length - 1] == '\n'))
        length--;
    return arena_copy_bytes(arena, text + begin, length - begin);
}

static const char *read_cell(struct reading *in)
{
    strbuf_clear(&in->cell);
    const char *begin = in->at;
    while (begin < in->end && *begin == ' ')
        begin++;
    if (begin < in->end && *begin == '"') {
        in->at = begin;
        read_quoted(in);
    }
    while (in->at < in->end && *in->at != in->separator && !is_break(*in->at))
        strbuf_add_char(&in->cell, *in->at++);
    return trimmed(in->cell.text, in->arena);
}

/* False for a row without any text. */
static bool read_row(struct reading *in, struct spreadsheet_row *out)
{
    const char *cells[SPREADSHEET_CELLS_MOST];
    bool has_text = false;
    *out = (struct spreadsheet_row){.line = in->line};
    for (bool more = true; more;) {
        const char *cell = read_cell(in);
        has_text = has_text || *cell;
        if (out->count < SPREADSHEET_CELLS_MOST)
            cells[out->count++] = cell;
        more = in->at < in->end && *in->at == in->separator;
        in->at += more;
    }
    if (in->at < in->end)
        skip_break(in);
    out->cells = ARENA_ARRAY(in->arena, const char *, out->count);
    memcpy(out->cells, cells, out->count * sizeof *cells);
    return has_text;
}

/* The one that stands most often outside quotes in the first line. */
static char find_separator(const char *at, const char *end)
{
    static const char separators[] = {',', ';', '\t'};
    size_t counts[3] = {0}, best = 0;
    bool quoted = false;
    for (; at < end && (quoted || !is_break(*at)); at++) {
        quoted ^= *at == '"';
        for (size_t k = 0; k < 3 && !quoted; k++)
            counts[k] += *at == separators[k];
    }
    for (size_t k = 1; k < 3; k++)
        if (counts[k] > counts[best])
            best = k;
    return separators[best];
}

static bool is_workbook(struct bytes bytes)
{
    /* a ZIP's first bytes (APPNOTE 4.3.7); a compound file's ([MS-CFB] 2.2) */
    return (bytes.length >= 4 && memcmp(bytes.data, "PK\x03\x04", 4) == 0) ||
           (bytes.length >= 8 && memcmp(bytes.data, "\xD0\xCF\x11\xE0\xA1\xB1\x1A\xE1", 8) == 0);
}

static bool has_controls(struct bytes text)
{
    for (size_t i = 0; i < text.length; i++) {
        unsigned char c = (unsigned char)text.data[i];
        if ((c < ' ' && c != '\t' && c != '\n' && c != '\r') || c == 0x7f)
            return true;
    }
    return false;
}

static void read_rows(struct reading *in, struct spreadsheet *out)
{
    size_t room = 64;
    out->rows = ARENA_ARRAY(in->arena, struct spreadsheet_row, room);
    while (in->at < in->end && out->count < SPREADSHEET_ROWS_MOST) {
        if (out->count == room) {
            struct spreadsheet_row *moved =
                ARENA_ARRAY(in->arena, struct spreadsheet_row, room * 2);
            memcpy(moved, out->rows, room * sizeof *moved);
            out->rows = moved;
            room *= 2;
        }
        out->count += read_row(in, &out->rows[out->count]);
    }
}

enum spreadsheet_kind spreadsheet_read(struct bytes bytes, struct arena *arena,
                                       struct spreadsheet *out)
{
    *out = (struct spreadsheet){0};
    if (is_workbook(bytes))
        return SPREADSHEET_WORKBOOK;
    struct bytes text = to_utf8(bytes, arena, &out->encoding);
    if (has_controls(text))
        return SPREADSHEET_NONE;
    struct reading in = {
        .at = text.data, .end = text.data + text.length, .line = 1, .arena = arena};
    strbuf_init(&in.cell, arena);
    if (text.length >= 5 && strncmp(in.at, "sep=", 4) == 0) {
        in.separator = in.at[4];
        while (in.at < in.end && !is_break(*in.at))
            in.at++;
        if (in.at < in.end)
            skip_break(&in);
    } else
        in.separator = find_separator(in.at, in.end);
    out->separator = in.separator;
    read_rows(&in, out);
    return out->count ? SPREADSHEET_TEXT : SPREADSHEET_NONE;
}
