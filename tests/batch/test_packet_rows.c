/* One row of a roster: which file it makes, what is said of a row that makes none, what its digest
 * depends on, and that a row which changed after the roster was digested makes nothing. The sums
 * are worked out again by sha256sum. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "base/file.h"
#include "batch/packet_rows.h"
#include "common/own_folder.h"

#define COUNT(rows) (int)(sizeof(rows) / sizeof *(rows))
#define HEAD "roster: {kind: adoption, date: 2026-03-18}\nanimals:\n"
#define JUNIPER "name: Juniper, species: leopard-gecko, mass: 52 g}\n"

static struct resources resources;
static struct packet_options options;
static struct packet_rows rows;
static struct manifest manifest;
static bool is_begun;

static const char *in(const char *name)
{
    return file_join(&arena, folder, name);
}

static void set_up_rows(void)
{
    static const struct places places = {.data_folder = PROJECT_FOLDER,
                                         .clinic_file = PROJECT_FOLDER "/templates/clinic.yaml"};
    set_up_folder();
    ck_assert(resources_read(&places, &arena, &diag, &resources));
    options = (struct packet_options){.roster = in("roster.yaml"),
                                      .folder = folder,
                                      .drafts_too = true,
                                      .jobs = 1,
                                      .today = {2026, 3, 18}};
    is_begun = false;
}

static void finish_rows(void)
{
    if (is_begun) {
        packet_rows_finish(&rows);
        manifest_close(&manifest);
    }
    is_begun = false;
}

static void tear_down_rows(void)
{
    finish_rows();
    tear_down_folder();
}

static void write_roster(const char *text)
{
    FILE *out = fopen(options.roster, "w");
    ck_assert(out && fputs(text, out) >= 0 && fclose(out) == 0);
}

static bool begin(const char *text, bool with_digest)
{
    finish_rows();
    diag_finish(&diag);
    diag_init(&diag);
    write_roster(text);
    is_begun = true;
    memset(&manifest, 0, sizeof manifest);
    return packet_rows_init(&rows, &resources, &options, &diag) &&
           packet_rows_scan(&rows, with_digest, &diag);
}

static void open_manifest(void)
{
    ck_assert(manifest_open(&manifest, folder, 1, 1, &arena, &diag));
    ck_assert(manifest_begin(&manifest, options.resume, rows.count, &arena, &diag));
}

static struct row_result make_next(void)
{
    struct roster_row row;
    struct row_result out;
    struct diag own;
    diag_init(&own);
    ck_assert_int_eq(roster_next(&rows.roster, &arena, &own, &row), ROSTER_ROW);
    packet_rows_make(&rows, &manifest, &row, &own, &arena, &out);
    diag_finish(&own);
    return out;
}

/* The code of what is said of the next row's plan; NULL for one that has a plan. */
static const char *plan_next(void)
{
    struct roster_row row;
    struct diag own;
    const char *code = NULL;
    diag_init(&own);
    ck_assert_int_eq(roster_next(&rows.roster, &arena, &own, &row), ROSTER_ROW);
    if (!packet_rows_plan(&rows, &row, &arena, &own)) {
        ck_assert_ptr_nonnull(own.last);
        code = arena_copy_text(&arena, own.last->code);
    }
    diag_finish(&own);
    return code;
}

/* Of two rows whose ids make one name the first has it, whatever stands between. */
START_TEST(a_row_is_named_by_its_id_or_its_number)
{
    static const struct named {
        const char *row, *file, *reason;
    } named[] = {
        {"- {" JUNIPER, "00001-juniper.pdf", NULL},
        {"- {id: A 17, " JUNIPER, "id-a-17-juniper.pdf", NULL},
        {"- {id: 00001, " JUNIPER, "id-00001-juniper.pdf", NULL},
        {"- {id: a-17, " JUNIPER, NULL, "'a-17' stands already in row 2"},
        {"- {id: '--', " JUNIPER, NULL, "needs a letter a-z or a digit"},
        {"- {id: b, name: '!!', species: leopard-gecko, mass: 52 g}\n", "id-b-animal.pdf", NULL},
    };
    struct strbuf text;
    strbuf_init(&text, &arena);
    strbuf_addf(&text, HEAD);
    for (int i = 0; i < COUNT(named); i++)
        strbuf_addf(&text, "%s", named[i].row);
    ck_assert(begin(text.text, false));
    ck_assert_uint_eq(rows.count, COUNT(named));
    open_manifest();
    for (int i = 0; i < COUNT(named); i++) {
        const struct row_result made = make_next();
        ck_assert_uint_eq(made.number, (size_t)i + 1);
        ck_assert_int_eq(made.line, i + 3);
        ck_assert_str_eq(made.file, named[i].file ? named[i].file : "");
        ck_assert_str_eq(made.reason, named[i].reason ? named[i].reason : "");
        ck_assert_int_eq(made.status, named[i].file ? ROW_MADE : ROW_BAD);
        ck_assert_int_eq(*made.digest != '\0', named[i].file != NULL);
        if (named[i].file)
            ck_assert(file_exists(in(named[i].file)));
        else
            ck_assert_ptr_nonnull(
                strstr(made.messages, arena_format(&arena, "roster.yaml:%d:", i + 3)));
    }
}
END_TEST

/* More ids than are made room for at once; the hundredth stands twice and the last but one too. */
START_TEST(one_of_many_ids_that_stands_twice_is_found)
{
    enum { ANIMALS = 200 };
    struct strbuf text;
    strbuf_init(&text, &arena);
    strbuf_addf(&text, HEAD);
    for (int i = 1; i <= ANIMALS; i++)
        strbuf_addf(&text, "- {id: k%d, " JUNIPER, i == ANIMALS ? 100 : i);
    ck_assert(begin(text.text, true));
    ck_assert_uint_eq(rows.count, ANIMALS);
    for (int i = 1; i < ANIMALS; i++)
        ck_assert_msg(plan_next() == NULL, "row %d", i);
    ck_assert_str_eq(plan_next(), "id-twice");
}
END_TEST

START_TEST(a_roster_of_no_animal_is_refused)
{
    ck_assert(!begin("roster: {kind: adoption}\nanimals: []\n", false));
    ck_assert_str_eq(diag.last->code, "no-animals");
    ck_assert(!begin(HEAD "- {" JUNIPER "- {name: [}\n", false));
    ck_assert(diag_failed(&diag));
    ck_assert_str_ne(diag.last->code, "no-animals");
}
END_TEST

static const char *sum_of(const char *path)
{
    char *sum = arena_take(&arena, 65);
    FILE *in = popen(arena_format(&arena, "sha256sum '%s'", path), "r");
    ck_assert(in && fscanf(in, "%64s", sum) == 1);
    ck_assert_int_eq(pclose(in), 0);
    return sum;
}

static void make_one(const char *text, enum row_status status, struct row_result *out)
{
    ck_assert(begin(text, false));
    open_manifest();
    *out = make_next();
    ck_assert_int_eq(out->status, status);
    ck_assert(manifest_add(&manifest, out, &diag));
    ck_assert(manifest_finish(&manifest, &diag));
}

/* What is as it was made is kept, and is made again where either it or what it is made of changed.
 */
START_TEST(what_is_as_it_was_is_kept)
{
    struct row_result first, again;
    const char *file = in("00001-juniper.pdf");
    make_one(HEAD "- {" JUNIPER, ROW_MADE, &first);
    ck_assert_str_eq(first.sum, sum_of(file));
    options.resume = true;
    make_one(HEAD "- {" JUNIPER, ROW_KEPT, &again);
    ck_assert_str_eq(again.digest, first.digest);
    ck_assert_str_eq(again.sum, first.sum);
    ck_assert_int_eq(system(arena_format(&arena, "echo >> '%s'", file)), 0);
    make_one(HEAD "- {" JUNIPER, ROW_MADE, &again);
    ck_assert_str_eq(again.sum, first.sum);
    ck_assert_str_eq(sum_of(file), first.sum);
    make_one(HEAD "- {name: Juniper, species: leopard-gecko, mass: 53 g}\n", ROW_MADE, &again);
    ck_assert_str_ne(again.digest, first.digest);
    ck_assert_str_ne(again.sum, first.sum);
    ck_assert_str_eq(sum_of(file), again.sum);
}
END_TEST

/* What cannot be read is not what an earlier run made, though its name and its digest are. */
START_TEST(what_cannot_be_read_is_not_kept)
{
    struct row_result made;
    const char *file = in("00001-juniper.pdf");
    make_one(HEAD "- {" JUNIPER, ROW_MADE, &made);
    ck_assert_int_eq(system(arena_format(&arena, "rm '%s' && mkdir '%s'", file, file)), 0);
    options.resume = true;
    ck_assert(begin(HEAD "- {" JUNIPER, false));
    open_manifest();
    ck_assert_int_eq(make_next().status, ROW_FAILED);
}
END_TEST

/* Whatever changes a sheet's bytes changes its digest. */
START_TEST(a_digest_depends_on_how_the_sheet_is_set)
{
    static const struct sheet_options set[] = {
        {0}, {.language = "es"}, {.units = "us"}, {.paper = "letter"}, {.language = "fr"},
    };
    const char *digests[COUNT(set)], *sums[COUNT(set)];
    for (int i = 0; i < COUNT(set); i++) {
        struct row_result made;
        options.sheet = set[i];
        make_one(HEAD "- {" JUNIPER, ROW_MADE, &made);
        digests[i] = made.digest;
        sums[i] = made.sum;
        for (int j = 0; j < i; j++)
            ck_assert_msg(strcmp(digests[i], digests[j]) != 0 && strcmp(sums[i], sums[j]) != 0,
                          "%d and %d", i, j);
    }
}
END_TEST

/* A keeper's own language is the row's, and what is asked for goes before it. */
START_TEST(a_row_is_in_its_keepers_language)
{
    struct row_result own, asked;
    make_one(HEAD "- {language: es, " JUNIPER, ROW_MADE, &own);
    options.sheet.language = "fr";
    make_one(HEAD "- {language: es, " JUNIPER, ROW_MADE, &asked);
    ck_assert_str_ne(own.sum, asked.sum);
    options.sheet.language = "es";
    make_one(HEAD "- {language: fr, " JUNIPER, ROW_MADE, &asked);
    ck_assert_str_eq(own.sum, asked.sum);
}
END_TEST

START_TEST(a_folder_that_takes_no_file_is_no_fault_of_the_row)
{
    ck_assert(begin(HEAD "- {" JUNIPER, false));
    open_manifest();
    options.folder = in("none");
    const struct row_result made = make_next();
    ck_assert_int_eq(made.status, ROW_FAILED);
    ck_assert_str_eq(made.sum, "");
    ck_assert_str_ne(made.reason, "");
    ck_assert_str_ne(made.messages, "");
}
END_TEST

/* A draft goes nowhere unless it is asked for. */
START_TEST(what_is_not_signed_is_made_on_request_alone)
{
    options.drafts_too = false;
    ck_assert(begin(HEAD "- {" JUNIPER, false));
    open_manifest();
    const struct row_result made = make_next();
    ck_assert_int_eq(made.status, ROW_BAD);
    ck_assert_str_eq(made.file, "");
    ck_assert(!file_exists(in("00001-juniper.pdf")));
}
END_TEST

/* The second row changes in place after all were digested; the first stays as it was. */
START_TEST(a_row_that_changed_since_is_not_made)
{
    static const char text[] = HEAD "- {" JUNIPER "- {" JUNIPER;
    ck_assert(begin(text, true));
    open_manifest();
    FILE *out = fopen(options.roster, "r+");
    ck_assert_ptr_nonnull(out);
    ck_assert_int_eq(fseek(out, (long)(sizeof text - strlen("2 g}\n") - 1), SEEK_SET), 0);
    ck_assert(fputc('4', out) == '4' && fclose(out) == 0);
    ck_assert(roster_rewind(&rows.roster, &diag));
    ck_assert_int_eq(make_next().status, ROW_MADE);
    const struct row_result second = make_next();
    ck_assert_int_eq(second.status, ROW_FAILED);
    ck_assert_ptr_nonnull(strstr(second.reason, "changed after its signature was looked at"));
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("packet_rows");
    TCase *tcase = tcase_create("packet_rows");
    tcase_add_checked_fixture(tcase, set_up_rows, tear_down_rows);
    tcase_set_timeout(tcase, 120);
    tcase_add_test(tcase, a_row_is_named_by_its_id_or_its_number);
    tcase_add_test(tcase, one_of_many_ids_that_stands_twice_is_found);
    tcase_add_test(tcase, a_roster_of_no_animal_is_refused);
    tcase_add_test(tcase, what_is_as_it_was_is_kept);
    tcase_add_test(tcase, what_cannot_be_read_is_not_kept);
    tcase_add_test(tcase, a_digest_depends_on_how_the_sheet_is_set);
    tcase_add_test(tcase, a_row_is_in_its_keepers_language);
    tcase_add_test(tcase, a_folder_that_takes_no_file_is_no_fault_of_the_row);
    tcase_add_test(tcase, what_is_not_signed_is_made_on_request_alone);
    tcase_add_test(tcase, a_row_that_changed_since_is_not_made);
    suite_add_tcase(suite, tcase);
    return suite_run(suite);
}
