/* The command line: finds the command, reads its options, prints what was
 * found wrong, and turns the gravest fault into the exit status. */
#include <errno.h>
#include <fcntl.h>
#include <malloc.h>
#include <signal.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/mman.h>
#include <time.h>
#include <unistd.h>

#include "signing/signature.h"
#include "care/plan.h"
#include "cli/more.h"
#include "base/nearest.h"

const struct command commands[] = {
#define COMMAND_ROW(code_, name_, words_, least_, most_, more_, summary_)                          \
    {#name_, words_, least_, most_, summary_, FOR_##code_, more_, command_##name_},
    COMMANDS(COMMAND_ROW)
#undef COMMAND_ROW
};
const int command_count = sizeof commands / sizeof *commands;

void command_print(struct run *run, const char *text, size_t length)
{
    file_write_fd(STDOUT_FILENO, text, length, "<standard output>", &run->diag);
}

bool command_resources(struct run *run, struct resources *out)
{
    struct places places = {
        .data_folder = run->options.data ? run->options.data : resources_find_data(&run->arena),
        .clinic_file = run->options.clinic,
        .species_dir = resources_find_own_sheets(run->options.species_dir, &run->arena),
        .signing_key = run->word_count ? signature_key_beside(run->words[0], &run->arena) : NULL,
    };
    if (!places.data_folder) {
        diag_report(
            &run->diag, DIAG_FAULT, "no-data", (struct mark){0},
            "the folder with templates and species-sheets was not found; name it with --data");
        return false;
    }
    return resources_read(&places, &run->arena, &run->diag, out);
}

static const struct command *find_command(const char *name, struct run *run)
{
    struct nearest nearest;
    nearest_init(&nearest, name);
    for (int i = 0; i < command_count; i++) {
        if (strcmp(commands[i].name, name) == 0)
            return &commands[i];
        nearest_offer(&nearest, commands[i].name);
    }
    diag_report(&run->diag, DIAG_USAGE, "unknown-command", (struct mark){0},
                nearest.best ? "unknown command '%s'; did you mean '%s'?"
                             : "unknown command '%s'; 'baskleaf --help' lists them%s",
                name, nearest.best ? nearest.best : "");
    return NULL;
}

struct date command_clock_today(void)
{
    time_t now = time(NULL);
    struct tm local;
    if (!localtime_r(&now, &local))
        return date_from_days((long)(now / 86400));
    return (struct date){local.tm_year + 1900, local.tm_mon + 1, local.tm_mday};
}

static void act(int argc, char **argv, struct run *run)
{
    if (argc < 2) {
        help_write_all(stderr);
        diag_report(&run->diag, DIAG_USAGE, "no-command", (struct mark){0}, "a command is needed");
        return;
    }
    if (strcmp(argv[1], "--help") == 0 || strcmp(argv[1], "-h") == 0) {
        help_write_all(stdout);
        return;
    }
    if (strcmp(argv[1], "--version") == 0) {
        printf("baskleaf %s, formulas %d\n", BASKLEAF_VERSION, CARE_FORMULA_EPOCH);
        return;
    }
    const struct command *command = find_command(argv[1], run);
    if (!command || !options_read(command, argc - 2, argv + 2, run))
        return;
    if (run->options.help)
        help_write_command(command, stdout);
    else if (!more_takes_over(command, argv, run))
        command->act(run);
}

/* A sheet takes a few megabytes once. Taken in one piece and kept until the end, they cost an
 * eighth less of a cold start than asked for and given back bit by bit; in huge pages, where the
 * system has them for the asking, as much again. */
static void take_memory_in_large_pieces(void)
{
#ifdef __GLIBC__
    enum {
        HUGE_PAGE_BYTES = 2 * 1024 * 1024,
        SMALL_PAGE_BYTES = 4096,
        PIECE_BYTES = 4 * 1024 * 1024,
        KEPT_BYTES = 64 * 1024 * 1024
    };
    mallopt(M_TOP_PAD, PIECE_BYTES);
    mallopt(M_MMAP_THRESHOLD, KEPT_BYTES / 4);
    mallopt(M_TRIM_THRESHOLD, KEPT_BYTES);
    /* what malloc writes in front and behind stands in other pages: one that was touched before it
     * was advised stays small */
    char *const end = sbrk(0);
    const size_t before = HUGE_PAGE_BYTES - (uintptr_t)end % HUGE_PAGE_BYTES;
    if (end != (char *)-1 && before > SMALL_PAGE_BYTES)
        sbrk((intptr_t)(before - SMALL_PAGE_BYTES));
    char *piece = malloc(PIECE_BYTES + (size_t)2 * SMALL_PAGE_BYTES);
    if (piece)
        madvise(piece + HUGE_PAGE_BYTES - (uintptr_t)piece % HUGE_PAGE_BYTES, PIECE_BYTES,
                MADV_HUGEPAGE);
    free(piece);
#endif
}

/* What a run reads once, its files and tables, takes some three megabytes. */
enum { SHARED_BYTES = 4 * 1024 * 1024 };

/* A descriptor that was closed is taken, by something that fails when it is used: else the first
 * file that is opened would stand in its place, and what is said would be written into it. */
static void fill_standard_descriptors(void)
{
    for (int fd = STDIN_FILENO; fd <= STDERR_FILENO; fd++)
        if (fcntl(fd, F_GETFD) < 0 && errno == EBADF &&
            open("/dev/null", fd == STDIN_FILENO ? O_WRONLY : O_RDONLY) < 0)
            _exit(3);
}

int main(int argc, char **argv)
{
    fill_standard_descriptors();
    take_memory_in_large_pieces();
    struct run run = {.today = command_clock_today()};
    arena_init_fresh(&run.arena, SHARED_BYTES);
    diag_init(&run.diag);
    signal(SIGPIPE, SIG_IGN); /* a reader that hangs up is a fault to tell, not a silent end */
    signal(SIGXFSZ, SIG_IGN); /* and so is a file that grows past what is allowed */
    act(argc, argv, &run);
    if (fflush(stdout) != 0)
        diag_report(&run.diag, DIAG_FAULT, "cannot-write",
                    (struct mark){.file = "<standard output>"}, "writing failed: %s",
                    strerror(errno));
    diag_print(&run.diag, stderr);
    int status = diag_exit_status(&run.diag);
    diag_finish(&run.diag);
    arena_finish(&run.arena);
    return status;
}
