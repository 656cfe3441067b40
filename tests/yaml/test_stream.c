/* Long lists read an item at a time. */
#include <fcntl.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "common/suite.h"
#include "base/strbuf.h"
#include "yaml/stream.h"

static struct arena lasting, passing;
static struct diag diag;
static char path[] = "/tmp/baskleaf-stream-XXXXXX";
static struct tree_stream *stream;

static void set_up(void)
{
    arena_init(&lasting);
    arena_init(&passing);
    diag_init(&diag);
    strcpy(path + strlen(path) - 6, "XXXXXX");
    int fd = mkstemp(path);
    ck_assert_int_ge(fd, 0);
    close(fd);
    stream = NULL;
}

static void tear_down(void)
{
    tree_stream_close(stream);
    unlink(path);
    arena_finish(&lasting);
    arena_finish(&passing);
    diag_finish(&diag);
}

static void open_text(const char *text)
{
    ck_assert(file_write_quickly(path, text, strlen(text), 0600, &diag));
    stream = tree_stream_open(path, "list", &lasting, &diag);
}

static enum tree_step next(struct tree_entry *entry)
{
    arena_reset(&passing);
    return tree_stream_next(stream, &passing, &diag, entry);
}

START_TEST(gives_entries_and_items_in_their_order)
{
    struct tree_entry entry;
    open_text("head: {a: 1}\nlist:\n  - {name: x}\n  - y\ntail: z\n");
    for (int round = 0; round < 2; round++) {
        ck_assert_int_eq(next(&entry), TREE_ENTRY);
        ck_assert_str_eq(entry.key->text, "head");
        ck_assert_str_eq(tree_find(entry.value, "a")->text, "1");
        ck_assert_int_eq(next(&entry), TREE_ITEM);
        ck_assert_str_eq(tree_find(entry.value, "name")->text, "x");
        ck_assert_int_eq(entry.value->at.line, 3);
        ck_assert_int_eq(entry.value->at.column, 5);
        ck_assert_int_eq(next(&entry), TREE_ITEM);
        ck_assert_str_eq(entry.value->text, "y");
        ck_assert_int_eq(next(&entry), TREE_ENTRY);
        ck_assert_str_eq(entry.key->text, "tail");
        ck_assert_int_eq(next(&entry), TREE_END);
        ck_assert(tree_stream_rewind(stream, &diag));
    }
}
END_TEST

/* The first item's arena is emptied long before the last one asks for its anchors. */
START_TEST(what_has_an_anchor_outlives_its_item)
{
    struct strbuf text;
    struct tree_entry entry;
    strbuf_init(&text, &lasting);
    strbuf_add(&text,
               "list:\n  - {box: &tub {wide: &w 90 cm, deep: {more: 45 cm}}, name: &n Ash}\n");
    for (int i = 0; i < 3000; i++)
        strbuf_addf(&text, "  - {name: animal %d}\n", i);
    strbuf_add(&text, "  - {box: *tub, wide: *w, name: *n}\n");
    open_text(text.text);
    for (int i = 0; i < 3001; i++)
        ck_assert_int_eq(next(&entry), TREE_ITEM);
    ck_assert_int_eq(next(&entry), TREE_ITEM);
    const struct node *box = tree_find(entry.value, "box");
    ck_assert_str_eq(tree_find(box, "wide")->text, "90 cm");
    ck_assert_str_eq(tree_find(tree_find(box, "deep"), "more")->text, "45 cm");
    ck_assert_str_eq(tree_find(entry.value, "wide")->text, "90 cm");
    ck_assert_str_eq(tree_find(entry.value, "name")->text, "Ash");
    ck_assert_int_eq(next(&entry), TREE_END);
}
END_TEST

START_TEST(a_key_that_stands_twice_spoils_its_item_alone)
{
    struct tree_entry entry;
    open_text("list:\n  - {a: 1, a: 2}\n  - b\n");
    ck_assert_int_eq(next(&entry), TREE_ITEM);
    ck_assert_str_eq(diag.last->code, "double-key");
    ck_assert_int_eq(next(&entry), TREE_ITEM);
    ck_assert_int_eq(next(&entry), TREE_END);
}
END_TEST

static const struct {
    const char *text, *code;
    int line;
} broken_rows[] = {
    {"", "empty-file", 1},
    {"# nothing\n", "empty-file", 1},
    {"plain\n", "not-a-mapping", 1},
    {"- a\n", "not-a-mapping", 1},
    {"list:\n  - a\nlist:\n  - b\n", "double-key", 3},
    {"? [a]\n: b\n", "key-not-text", 1},
    {"list:\n  - a\n  - {b\n", "yaml-syntax", 4},
    {"list:\n  - a\n  - *gone\n", "unknown-anchor", 3},
    {"list:\n  - a\n---\nlist: []\n", "second-document", 3},
    {"list:\n  - \"\\a\"\n", "control-character", 2},
    {"list:\n  - \xff\n", "not-text", 2},
};

START_TEST(says_where_it_broke)
{
    struct tree_entry entry;
    enum tree_step step;
    open_text(broken_rows[_i].text);
    do
        step = next(&entry);
    while (step == TREE_ITEM || step == TREE_ENTRY);
    ck_assert_int_eq(step, TREE_BROKEN);
    ck_assert_str_eq(diag.last->code, broken_rows[_i].code);
    ck_assert_int_eq(diag.last->at.line, broken_rows[_i].line);
    ck_assert_int_eq(next(&entry), TREE_BROKEN);
}
END_TEST

/* Each item is small; all of them together are too many. */
START_TEST(counts_values_over_the_whole_file)
{
    struct strbuf text;
    struct tree_entry entry;
    enum tree_step step;
    int items = 0;
    strbuf_init(&text, &lasting);
    strbuf_add(&text, "list:\n  - &ten [1, 2, 3, 4, 5, 6, 7, 8, 9]\n");
    for (int i = 0; i < 30000; i++)
        strbuf_add(&text, "  - *ten\n");
    open_text(text.text);
    while ((step = next(&entry)) == TREE_ITEM)
        items++;
    ck_assert_int_eq(step, TREE_BROKEN);
    ck_assert_str_eq(diag.last->code, "too-many-nodes");
    ck_assert_int_eq(items, TREE_NODE_LIMIT / 10 - 1); /* the key counts too, so one fewer */
}
END_TEST

/* RFC 8259, section 7, as for whole files; from the beginning again too. */
START_TEST(joins_the_two_escapes_of_one_character)
{
    struct tree_entry entry;
    open_text("list: [\"\\ud83e\\udd8e\", \"two\"]\nlast: [\"x\\ud83d\\udc0d\", {a: *no}]\n");
    for (int round = 0; round < 2; round++) {
        ck_assert_int_eq(next(&entry), TREE_ITEM);
        ck_assert_str_eq(entry.value->text, "\U0001F98E");
        ck_assert_int_eq(next(&entry), TREE_ITEM);
        ck_assert_int_eq(entry.value->at.column, 24);
        ck_assert(tree_stream_rewind(stream, &diag));
    }
    next(&entry);
    next(&entry);
    ck_assert_int_eq(next(&entry), TREE_BROKEN);
    ck_assert_int_eq(diag.last->at.line, 2);
    ck_assert_int_eq(diag.last->at.column, 29);
}
END_TEST

START_TEST(refuses_what_it_cannot_open)
{
    ck_assert_ptr_null(tree_stream_open("/nowhere/at/all.yaml", "list", &lasting, &diag));
    ck_assert_str_eq(diag.last->code, "cannot-read");
    ck_assert_ptr_null(tree_stream_open("/tmp", "list", &lasting, &diag));
    ck_assert_str_eq(diag.last->code, "is-a-folder");
    ck_assert_int_eq(truncate(path, FILE_LIMIT_BYTES + 1), 0);
    ck_assert_ptr_null(tree_stream_open(path, "list", &lasting, &diag));
    ck_assert_str_eq(diag.last->code, "file-too-large");
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("stream");
    TCase *tcase = tcase_create("stream");
    tcase_add_checked_fixture(tcase, set_up, tear_down);
    tcase_add_test(tcase, gives_entries_and_items_in_their_order);
    tcase_add_test(tcase, what_has_an_anchor_outlives_its_item);
    tcase_add_test(tcase, a_key_that_stands_twice_spoils_its_item_alone);
    tcase_add_loop_test(tcase, says_where_it_broke, 0, sizeof broken_rows / sizeof *broken_rows);
    tcase_add_test(tcase, counts_values_over_the_whole_file);
    tcase_add_test(tcase, joins_the_two_escapes_of_one_character);
    tcase_add_test(tcase, refuses_what_it_cannot_open);
    suite_add_tcase(suite, tcase);
    return suite_run(suite);
}
