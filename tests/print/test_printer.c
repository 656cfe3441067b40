/* What a print system says of its printers and jobs, from a stand-in that speaks IPP
 * (tests/common/tray.py): states by RFC 8011, 5.3.7 and 5.4.11, names of paper by PWG 5101.1. */
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/wait.h>
#include <unistd.h>

#include "common/arena_and_diag.h"
#include "common/suite.h"
#include "print/printer.h"

static char folder[] = "/tmp/baskleaf-tray-XXXXXX";
static FILE *to_tray, *from_tray;
static pid_t tray;

static void set_up_tray(void)
{
    int in[2], out[2];
    char port[16], server[32];
    set_up();
    memcpy(folder + strlen(folder) - 6, "XXXXXX", 6);
    ck_assert(mkdtemp(folder) && pipe(in) == 0 && pipe(out) == 0);
    tray = fork();
    if (tray == 0) {
        dup2(in[0], STDIN_FILENO), dup2(out[1], STDOUT_FILENO);
        close(in[1]), close(out[0]);
        execlp("python3", "python3", TESTS_FOLDER "/common/tray.py", folder, (char *)NULL);
        _exit(127);
    }
    close(in[0]), close(out[1]);
    to_tray = fdopen(in[1], "w"), from_tray = fdopen(out[0], "r");
    ck_assert_ptr_nonnull(fgets(port, sizeof port, from_tray));
    snprintf(server, sizeof server, "127.0.0.1:%d", atoi(port));
    setenv("CUPS_SERVER", server, 1);
    setenv("HOME", folder, 1);
    unsetenv("PRINTER"), unsetenv("LPDEST");
}

static void tear_down_tray(void)
{
    fclose(to_tray);
    waitpid(tray, NULL, 0);
    fclose(from_tray);
    const char *words = arena_format(&arena, "rm -r '%s'", folder);
    ck_assert_int_eq(system(words), 0);
    tear_down();
}

static void tell(const char *fault, const char *text)
{
    const char *path = file_join(&arena, folder, fault);
    if (text)
        ck_assert(file_write_atomic(path, text, strlen(text), 0600, &diag));
    else
        unlink(path);
}

/* ---- printers ------------------------------------------------------------------------------- */

START_TEST(the_printers_are_listed)
{
    struct printer_about *all = NULL;
    ck_assert_uint_eq(printer_list(&arena, &diag, &all), 1);
    ck_assert_str_eq(all[0].name, "Tray");
    ck_assert_str_eq(all[0].info, "a tray");
    ck_assert_str_eq(all[0].paper, "a4");
    ck_assert(all[0].is_default);
    ck_assert_ptr_null(all[0].stopped);
    ck_assert_ptr_null(diag.first);
}
END_TEST

START_TEST(a_printer_that_stands_still_says_why)
{
    struct printer_about *all = NULL;
    tell("paused", "");
    ck_assert_uint_eq(printer_list(&arena, &diag, &all), 1);
    ck_assert_ptr_nonnull(all[0].stopped);
    ck_assert_str_eq(all[0].stopped, "paused");
    tell("paused", NULL);
    ck_assert_uint_eq(printer_list(&arena, &diag, &all), 1);
    ck_assert_ptr_null(all[0].stopped);
}
END_TEST

/* ISO 216 and ANSI X3.151, each within a millimetre; any other paper is none of a sheet's. */
START_TEST(the_paper_of_a_printer_is_known_by_its_size)
{
    static const struct {
        const char *media, *paper;
    } rows[] = {{"iso_a4_210x297mm", "a4"},
                {"na_letter_8.5x11in", "letter"},
                {"custom_near_210x298mm", "a4"},
                {"custom_far_210x298.1mm", NULL},
                {"custom_near_209x297mm", "a4"},
                {"custom_far_208.9x297mm", NULL},
                {"custom_near_216x279mm", "letter"},
                {"custom_far_217x279mm", NULL},
                {"iso_a5_148x210mm", NULL},
                {"na_legal_8.5x14in", NULL},
                {"iso-a4", "a4"},
                {"na-letter", "letter"}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct printer_about *all = NULL;
        tell("media", rows[i].media);
        ck_assert_uint_eq(printer_list(&arena, &diag, &all), 1);
        ck_assert_msg(all[0].paper ? rows[i].paper && strcmp(all[0].paper, rows[i].paper) == 0
                                   : !rows[i].paper,
                      "%s: %s", rows[i].media, all[0].paper ? all[0].paper : "none");
    }
}
END_TEST

START_TEST(a_printer_that_is_not_there_is_told)
{
    ck_assert_ptr_null(printer_find("Nowhere", &arena, &diag));
    ck_assert_str_eq(diag.first->code, "unknown-printer");
    ck_assert_ptr_nonnull(strstr(diag.first->text, "there are: Tray"));
    printer_free(NULL);
}
END_TEST

START_TEST(nobody_answers)
{
    struct printer_about *all = NULL;
    const char *why = "before";
    setenv("CUPS_SERVER", "127.0.0.1:1", 1);
    ck_assert_uint_eq(printer_list(&arena, &diag, &all), 0);
    ck_assert_ptr_null(all);
    ck_assert_str_eq(diag.first->code, "no-print-system");
    ck_assert_ptr_nonnull(strstr(diag.first->text, "127.0.0.1:1;"));
    ck_assert_int_eq(printer_job_state("Tray", 1, &arena, &why), PRINTER_JOB_UNKNOWN);
    ck_assert_ptr_null(why);
}
END_TEST

/* ---- a job ---------------------------------------------------------------------------------- */

static bool print(int *number)
{
    static const char pdf[] = "%PDF-1.7 a sheet";
    const struct printer_job job = {{pdf, sizeof pdf - 1}, "sheet.pdf", "a4", 2};
    struct printer *printer = printer_find(NULL, &arena, &diag);
    struct bytes printed;
    ck_assert_ptr_nonnull(printer);
    ck_assert_str_eq(printer_name(printer), "Tray");
    bool good = printer_print(printer, &job, &arena, &diag, number);
    printer_free(printer);
    if (good) {
        ck_assert(file_read(file_join(&arena, folder, "sheet.pdf"), 100, &arena, &diag, &printed));
        ck_assert_str_eq(printed.data, pdf);
    }
    return good;
}

START_TEST(a_sheet_arrives_as_it_is)
{
    int number = 0;
    ck_assert(print(&number));
    ck_assert_int_eq(number, 1);
    ck_assert_ptr_null(diag.first);
    ck_assert(print(&number));
    ck_assert_int_eq(number, 2);
    tell("paused", "");
    ck_assert(print(&number));
    ck_assert_str_eq(diag.first->code, "printer-stopped");
    ck_assert_int_eq(diag.first->severity, DIAG_REMARK);
}
END_TEST

START_TEST(a_job_that_is_not_taken_has_no_number)
{
    int number = -7;
    tell("jam", "");
    ck_assert(!print(&number));
    ck_assert_str_eq(diag.first->code, "cannot-print");
    ck_assert_ptr_nonnull(strstr(diag.first->text, "out of paper"));
    tell("jam", NULL);
    tell("cut", "");
    ck_assert(!print(&number));
    ck_assert_ptr_nonnull(strstr(diag.last->text, "the line was cut"));
    ck_assert_int_eq(number, -7);
}
END_TEST

START_TEST(a_job_stands_where_the_print_system_says)
{
    static const struct {
        const char *says;
        enum printer_job_state state;
        const char *why;
    } rows[] = {{"3", PRINTER_JOB_WAITING, NULL},
                {"4 job-hold-until-specified", PRINTER_JOB_WAITING, "job-hold-until-specified"},
                {"5", PRINTER_JOB_PRINTING, NULL},
                {"6 printer-stopped", PRINTER_JOB_STOPPED, "printer-stopped"},
                {"7 job-canceled-by-user", PRINTER_JOB_FAILED, "job-canceled-by-user"},
                {"8 aborted-by-system", PRINTER_JOB_FAILED, "aborted-by-system"},
                {"9", PRINTER_JOB_DONE, NULL},
                {"11", PRINTER_JOB_UNKNOWN, NULL}};
    for (int still = 0; still < 2; still++)
        for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
            const char *why = "before";
            bool goes_on =
                rows[i].state == PRINTER_JOB_WAITING || rows[i].state == PRINTER_JOB_PRINTING;
            tell("state", rows[i].says);
            tell("paused", still ? "" : NULL);
            enum printer_job_state state = printer_job_state("Tray", 1, &arena, &why);
            ck_assert_int_eq(state, goes_on && still ? PRINTER_JOB_STOPPED : rows[i].state);
            const char *wanted = goes_on && still ? "paused" : rows[i].why;
            ck_assert_msg(why ? wanted && strcmp(why, wanted) == 0 : !wanted, "%s: %s",
                          rows[i].says, why ? why : "nothing");
        }
    const char *why = "before";
    tell("none", "");
    ck_assert_int_eq(printer_job_state("Tray", 1, &arena, &why), PRINTER_JOB_UNKNOWN);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("printer");
    TCase *own = tcase_create("printer");
    tcase_add_checked_fixture(own, set_up_tray, tear_down_tray);
    tcase_set_timeout(own, 30);
    tcase_add_test(own, the_printers_are_listed);
    tcase_add_test(own, a_printer_that_stands_still_says_why);
    tcase_add_test(own, the_paper_of_a_printer_is_known_by_its_size);
    tcase_add_test(own, a_printer_that_is_not_there_is_told);
    tcase_add_test(own, nobody_answers);
    tcase_add_test(own, a_sheet_arrives_as_it_is);
    tcase_add_test(own, a_job_that_is_not_taken_has_no_number);
    tcase_add_test(own, a_job_stands_where_the_print_system_says);
    suite_add_tcase(suite, own);
    return suite_run(suite);
}
