/* A table's cells, outer bounds and encodings: RFC 4180, RFC 2781, RFC 3629, and the WHATWG index
 * of Windows-1252. */
#include <string.h>

#include "common/suite.h"
#include "records/spreadsheet.h"

#define COUNT(rows) (int)(sizeof(rows) / sizeof *(rows))

static struct arena arena;
static struct spreadsheet table;

static void set_up(void)
{
    arena_init(&arena);
}

static void tear_down(void)
{
    arena_finish(&arena);
}

static enum spreadsheet_kind read_text(const char *text)
{
    return spreadsheet_read((struct bytes){text, strlen(text)}, &arena, &table);
}

/* One cell more than a row may hold is passed over, and the last one that fits is kept. */
START_TEST(a_row_ends_at_its_most)
{
    char text[2 * SPREADSHEET_CELLS_MOST + 8] = "";
    for (int i = 0; i < SPREADSHEET_CELLS_MOST + _i; i++)
        strcat(text, i == SPREADSHEET_CELLS_MOST - 1 ? "z," : "a,");
    text[strlen(text) - 1] = '\n';
    ck_assert_int_eq(read_text(text), SPREADSHEET_TEXT);
    ck_assert_uint_eq(table.count, 1);
    ck_assert_uint_eq(table.rows[0].count, SPREADSHEET_CELLS_MOST);
    ck_assert_str_eq(table.rows[0].cells[SPREADSHEET_CELLS_MOST - 1], "z");
}
END_TEST

/* Byte 0x80 is the euro sign U+20AC in that index, and no UTF-8. */
START_TEST(windows_1252_is_read)
{
    ck_assert_int_eq(read_text("name;price\nFern;5 \x80\n"), SPREADSHEET_TEXT);
    ck_assert_str_eq(table.encoding, "Windows-1252");
    ck_assert_int_eq(table.separator, ';');
    ck_assert_str_eq(table.rows[1].cells[1], "5 \xe2\x82\xac");
}
END_TEST

/* ---- encodings ---- */

static enum spreadsheet_kind read_bytes(const char *bytes, size_t length)
{
    return spreadsheet_read((struct bytes){bytes, length}, &arena, &table);
}

/* Index windows-1252 of the WHATWG Encoding Standard: bytes 0x80 to 0x9F that are letters or signs,
 * and the Latin-1 above them. */
static const struct {
    unsigned char byte;
    const char *text;
} windows_rows[] = {
    {0x80, "\u20AC"}, {0x82, "\u201A"}, {0x83, "\u0192"}, {0x84, "\u201E"}, {0x85, "\u2026"},
    {0x86, "\u2020"}, {0x87, "\u2021"}, {0x88, "\u02C6"}, {0x89, "\u2030"}, {0x8A, "\u0160"},
    {0x8B, "\u2039"}, {0x8C, "\u0152"}, {0x8E, "\u017D"}, {0x91, "\u2018"}, {0x92, "\u2019"},
    {0x93, "\u201C"}, {0x94, "\u201D"}, {0x95, "\u2022"}, {0x96, "\u2013"}, {0x97, "\u2014"},
    {0x98, "\u02DC"}, {0x99, "\u2122"}, {0x9A, "\u0161"}, {0x9B, "\u203A"}, {0x9C, "\u0153"},
    {0x9E, "\u017E"}, {0x9F, "\u0178"}, {0xA0, "\u00A0"}, {0xE9, "\u00E9"}, {0xFF, "\u00FF"},
};

START_TEST(each_byte_of_windows_1252)
{
    const char text[] = {'x', (char)windows_rows[_i].byte, 'y', ' '};
    ck_assert_int_eq(read_bytes(text, sizeof text), SPREADSHEET_TEXT);
    ck_assert_str_eq(table.encoding, "Windows-1252");
    ck_assert_str_eq(table.rows[0].cells[0], arena_format(&arena, "x%sy", windows_rows[_i].text));
}
END_TEST

/* RFC 2781 and RFC 3629: the ends of each length in UTF-8; a half of a pair alone is U+FFFD. */
static const struct {
    unsigned short units[3];
    const char *text;
} utf_16_rows[] = {
    {{0x41}, "A"},
    {{0x7E}, "~"},
    {{0x80}, "\xC2\x80"},
    {{0x7FF}, "\xDF\xBF"},
    {{0x800}, "\xE0\xA0\x80"},
    {{0xD7FF}, "\xED\x9F\xBF"},
    {{0xE000}, "\xEE\x80\x80"},
    {{0xFFFD}, "\xEF\xBF\xBD"},
    {{0xD800, 0xDC00}, "\xF0\x90\x80\x80"},
    {{0xD83E, 0xDD8E}, "\xF0\x9F\xA6\x8E"}, /* U+1F98E, a lizard */
    {{0xDBFF, 0xDFFF}, "\xF4\x8F\xBF\xBF"},
    {{0xD83E}, "\xEF\xBF\xBD"},
    {{0xDD8E}, "\xEF\xBF\xBD"},
    {{0xDC00, 0x42}, "\xEF\xBF\xBD\x42"},
    {{0xDBFF, 0x42}, "\xEF\xBF\xBD\x42"},
    {{0xD83E, 0xD83E, 0xDD8E}, "\xEF\xBF\xBD\xF0\x9F\xA6\x8E"},
    {{0xE000, 0x42}, "\xEE\x80\x80\x42"},
};

/* What a file begins with says nothing of its order: the mark does. U+2640 and "a" have their high
 * byte on either side. */
START_TEST(utf_16_by_its_mark_alone)
{
    static const struct {
        const char *bytes;
        size_t length;
        const char *text;
    } rows[] = {{"\xFE\xFF\x26\x40", 4, "\u2640"},
                {"\xFF\xFE\x40\x26", 4, "\u2640"},
                {"\xFE\xFF\0a", 4, "a"},
                {"\xFF\xFEg\0", 4, "g"}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        ck_assert_int_eq(read_bytes(rows[i].bytes, rows[i].length), SPREADSHEET_TEXT);
        ck_assert_str_eq(table.encoding, "UTF-16");
        ck_assert_str_eq(table.rows[0].cells[0], rows[i].text);
    }
}
END_TEST

START_TEST(utf_16_in_either_order)
{
    for (int is_last = 0; is_last < 2; is_last++)
        for (int big = 0; big < 2; big++) {
            char text[16] = {0};
            size_t length = 0;
            const unsigned short units[] = {0xFEFF,
                                            'a',
                                            ',',
                                            utf_16_rows[_i].units[0],
                                            utf_16_rows[_i].units[1],
                                            utf_16_rows[_i].units[2]};
            for (size_t i = 0; i < 6 && units[i]; i++) {
                text[length++] = (char)(big ? units[i] >> 8 : units[i] & 0xFF);
                text[length++] = (char)(big ? units[i] & 0xFF : units[i] >> 8);
            }
            if (!is_last) {
                text[length++] = (char)(big ? 0 : '\n');
                text[length++] = (char)(big ? '\n' : 0);
            }
            ck_assert_int_eq(read_bytes(text, length), SPREADSHEET_TEXT);
            ck_assert_str_eq(table.encoding, "UTF-16");
            ck_assert_uint_eq(table.rows[0].count, 2);
            ck_assert_str_eq(table.rows[0].cells[0], "a");
            ck_assert_str_eq(table.rows[0].cells[1], utf_16_rows[_i].text);
        }
}
END_TEST

START_TEST(a_byte_order_mark_is_no_cell)
{
    ck_assert_int_eq(read_text("\xEF\xBB\xBFname,\u00E9\n"), SPREADSHEET_TEXT);
    ck_assert_str_eq(table.encoding, "UTF-8");
    ck_assert_str_eq(table.rows[0].cells[0], "name");
    ck_assert_int_eq(read_text("\xEF\xBB\xBF"
                               "a"),
                     SPREADSHEET_TEXT);
    ck_assert_str_eq(table.rows[0].cells[0], "a");
    ck_assert_int_eq(read_text("\xEF\xBB\xBF"), SPREADSHEET_NONE);
    ck_assert_int_eq(read_text("\u00E9\n"), SPREADSHEET_TEXT);
    ck_assert_str_eq(table.encoding, "UTF-8");
}
END_TEST

/* What no text holds: controls, and the first bytes of a workbook (APPNOTE 4.3.7, [MS-CFB] 2.2). */
static const struct {
    const char *bytes;
    size_t length;
    enum spreadsheet_kind kind;
} kind_rows[] = {
    {"a\x01"
     "b",
     3, SPREADSHEET_NONE},
    {"a\x1F"
     "b",
     3, SPREADSHEET_NONE},
    {"a\x7F"
     "b",
     3, SPREADSHEET_NONE},
    {"\x01"
     "b",
     2, SPREADSHEET_NONE},
    {"a b~\t\r\n", 7, SPREADSHEET_TEXT},
    {"PK\x03\x04", 4, SPREADSHEET_WORKBOOK},
    {"PK\x03\x04 more", 9, SPREADSHEET_WORKBOOK},
    {"PK\x03", 3, SPREADSHEET_NONE},
    {"PK,x", 4, SPREADSHEET_TEXT},
    {"\xD0\xCF\x11\xE0\xA1\xB1\x1A\xE1", 8, SPREADSHEET_WORKBOOK},
    {"\xD0\xCF\x11\xE0\xA1\xB1\x1A", 7, SPREADSHEET_NONE},
    {"", 0, SPREADSHEET_NONE},
    {" , ,\n\n", 6, SPREADSHEET_NONE},
    {"x", 1, SPREADSHEET_TEXT},
    {"\xFF\xFE", 2, SPREADSHEET_NONE}, /* a mark and no text */
    {"\xFE\xFF", 2, SPREADSHEET_NONE},
    {"\xFF", 1, SPREADSHEET_TEXT}, /* half of a mark is a letter of Windows-1252 */
};

START_TEST(what_it_is_is_told_by_its_bytes)
{
    ck_assert_int_eq(read_bytes(kind_rows[_i].bytes, kind_rows[_i].length), kind_rows[_i].kind);
}
END_TEST

/* ---- cells, RFC 4180, section 2 ---- */

static const struct {
    const char *text;
    char separator;
    size_t rows;
    const char *cells[2][3]; /* NULL: no further one */
    int lines[2];
} cell_rows[] = {
    {"a,b\nc,d\n", ',', 2, {{"a", "b"}, {"c", "d"}}, {1, 2}},
    {"a,b\r\nc,d", ',', 2, {{"a", "b"}, {"c", "d"}}, {1, 2}},
    {"a,b\rc,d\r", ',', 2, {{"a", "b"}, {"c", "d"}}, {1, 2}},
    {"a,b\n\n \nc,d", ',', 2, {{"a", "b"}, {"c", "d"}}, {1, 4}},
    {"\"a,b\",c\nd", ',', 2, {{"a,b", "c"}, {"d"}}, {1, 2}},
    {"\"a\"\"b\",c\nd", ',', 2, {{"a\"b", "c"}, {"d"}}, {1, 2}},
    {"\"\"\"\",c\nd", ',', 2, {{"\"", "c"}, {"d"}}, {1, 2}},
    {"\"a\r\nb\",c\nd,e", ',', 2, {{"a\nb", "c"}, {"d", "e"}}, {1, 3}},
    {"\"a\nb\rc\",d\ne", ',', 2, {{"a\nb\nc", "d"}, {"e"}}, {1, 4}},
    {"  \"a\" b ,c\nd", ',', 2, {{"a b", "c"}, {"d"}}, {1, 2}},
    {" a\t, b c \nd\"e,f", ',', 2, {{"a", "b c"}, {"d\"e", "f"}}, {1, 2}},
    {"\"a,b\nc", ',', 1, {{"a,b\nc"}}, {1}}, /* never closed */
    {"\"a\"\"", ',', 1, {{"a\""}}, {1}},
    {"\"\",a\n\"\"", ',', 1, {{"", "a"}}, {1}},
    {"a,,c\n,b,", ',', 2, {{"a", "", "c"}, {"", "b", ""}}, {1, 2}},
    {"a;b;c\nd,e", ';', 2, {{"a", "b", "c"}, {"d,e"}}, {1, 2}},
    {"a\tb\tc\nd,e", '\t', 2, {{"a", "b", "c"}, {"d,e"}}, {1, 2}},
    {"\"a,b,c\";d\ne,f,g", ';', 2, {{"a,b,c", "d"}, {"e,f,g"}}, {1, 2}},
    {"a;b,c\nd", ',', 2, {{"a;b", "c"}, {"d"}}, {1, 2}},
    {"a\tb;c\nd", ';', 2, {{"a\tb", "c"}, {"d"}}, {1, 2}},
    {"a\nb;c;d", ',', 2, {{"a"}, {"b;c;d"}}, {1, 2}}, /* by the first line alone */
    {"\"a\nb\";c\nd;e", ';', 2, {{"a\nb", "c"}, {"d", "e"}}, {1, 3}},
    {"sep=|\na|b\nc,d", '|', 2, {{"a", "b"}, {"c,d"}}, {2, 3}},
    {"sep=;\r\na;b\r\nc", ';', 2, {{"a", "b"}, {"c"}}, {2, 3}},
    {"sep=", ',', 1, {{"sep="}}, {1}},
};

START_TEST(cells_as_the_standard_has_them)
{
    ck_assert_int_eq(read_text(cell_rows[_i].text), SPREADSHEET_TEXT);
    ck_assert_int_eq(table.separator, cell_rows[_i].separator);
    ck_assert_uint_eq(table.count, cell_rows[_i].rows);
    for (size_t i = 0; i < cell_rows[_i].rows; i++) {
        const struct spreadsheet_row *row = &table.rows[i];
        ck_assert_int_eq(row->line, cell_rows[_i].lines[i]);
        size_t count = 0;
        while (count < 3 && cell_rows[_i].cells[i][count])
            count++;
        ck_assert_uint_eq(row->count, count);
        for (size_t k = 0; k < count; k++)
            ck_assert_str_eq(row->cells[k], cell_rows[_i].cells[i][k]);
    }
}
END_TEST

/* Their room grows, and no row is lost or moved on the way. */
START_TEST(many_rows_are_kept_in_order)
{
    char text[400 * 8] = "";
    for (int i = 0; i < 300; i++)
        strcat(text, arena_format(&arena, "%d\n", i));
    ck_assert_int_eq(read_text(text), SPREADSHEET_TEXT);
    ck_assert_uint_eq(table.count, 300);
    for (int i = 0; i < 300; i++) {
        ck_assert_str_eq(table.rows[i].cells[0], arena_format(&arena, "%d", i));
        ck_assert_int_eq(table.rows[i].line, i + 1);
    }
}
END_TEST

START_TEST(rows_end_at_their_most)
{
    size_t length = 2 * (SPREADSHEET_ROWS_MOST + 5);
    char *text = arena_take_array(&arena, length, 1);
    for (size_t i = 0; i < length; i += 2)
        memcpy(text + i, "a\n", 2);
    ck_assert_int_eq(read_bytes(text, length), SPREADSHEET_TEXT);
    ck_assert_uint_eq(table.count, SPREADSHEET_ROWS_MOST);
}
END_TEST

static Suite *make_suite(void)
{
    Suite *suite = suite_create("spreadsheet");
    TCase *all = tcase_create("spreadsheet");
    tcase_add_checked_fixture(all, set_up, tear_down);
    tcase_add_loop_test(all, a_row_ends_at_its_most, 0, 3);
    tcase_add_test(all, windows_1252_is_read);
    tcase_add_loop_test(all, each_byte_of_windows_1252, 0, COUNT(windows_rows));
    tcase_add_test(all, utf_16_by_its_mark_alone);
    tcase_add_loop_test(all, utf_16_in_either_order, 0, COUNT(utf_16_rows));
    tcase_add_test(all, a_byte_order_mark_is_no_cell);
    tcase_add_loop_test(all, what_it_is_is_told_by_its_bytes, 0, COUNT(kind_rows));
    tcase_add_loop_test(all, cells_as_the_standard_has_them, 0, COUNT(cell_rows));
    tcase_add_test(all, many_rows_are_kept_in_order);
    tcase_add_test(all, rows_end_at_their_most);
    suite_add_tcase(suite, all);
    return suite;
}

int main(void)
{
    return suite_run(make_suite());
}
