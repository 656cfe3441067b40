/* A table's outer bounds and its encodings: RFC 4180, and the WHATWG index of Windows-1252. */
#include <string.h>

#include "common/suite.h"
#include "records/spreadsheet.h"

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

static Suite *make_suite(void)
{
    Suite *suite = suite_create("spreadsheet");
    TCase *all = tcase_create("spreadsheet");
    tcase_add_checked_fixture(all, set_up, tear_down);
    tcase_add_loop_test(all, a_row_ends_at_its_most, 0, 3);
    tcase_add_test(all, windows_1252_is_read);
    suite_add_tcase(suite, all);
    return suite;
}

int main(void)
{
    return suite_run(make_suite());
}
