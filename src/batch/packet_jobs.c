/* Shares rows out among child processes over pipes and takes their results in order. */
#include "batch/packet_jobs.h"

#include <errno.h>
#include <fcntl.h>
#include <signal.h>
#include <stdlib.h>
#include <string.h>
#include <sys/wait.h>
#include <unistd.h>

/* ---- a result on its way through a pipe --------------------------------------------------------
 */

enum { TEXT_COUNT = 7, FRAME_LIMIT = 1024 * 1024 };

struct frame {
    uint64_t number;
    int32_t line, status;
    uint32_t lengths[TEXT_COUNT];
};

static void list_texts(struct row_result *result, const char **out[TEXT_COUNT])
{
    const char **all[TEXT_COUNT] = {&result->name,    &result->species, &result->file,
                                    &result->digest,  &result->sum,     &result->reason,
                                    &result->messages};
    memcpy(out, all, sizeof all);
}

static bool send_result(FILE *out, struct row_result *result)
{
    const char **texts[TEXT_COUNT];
    struct frame frame = {result->number, result->line, (int32_t)result->status, {0}};
    list_texts(result, texts);
    for (int i = 0; i < TEXT_COUNT; i++) {
        size_t length = strlen(*texts[i]);
        frame.lengths[i] = (uint32_t)(length < FRAME_LIMIT ? length : FRAME_LIMIT);
    }
    bool good = fwrite(&frame, sizeof frame, 1, out) == 1;
    for (int i = 0; i < TEXT_COUNT; i++)
        good = good && fwrite(*texts[i], 1, frame.lengths[i], out) == frame.lengths[i];
    return good && fflush(out) == 0;
}

static bool receive_result(FILE *in, struct arena *arena, struct row_result *result)
{
    const char **texts[TEXT_COUNT];
    struct frame frame;
    if (fread(&frame, sizeof frame, 1, in) != 1)
        return false;
    *result = (struct row_result){
        .number = frame.number, .line = frame.line, .status = (enum row_status)frame.status};
    list_texts(result, texts);
    for (int i = 0; i < TEXT_COUNT; i++) {
        if (frame.lengths[i] > FRAME_LIMIT)
            return false;
        char *text = arena_take(arena, frame.lengths[i] + 1);
        if (fread(text, 1, frame.lengths[i], in) != frame.lengths[i])
            return false;
        *texts[i] = text;
    }
    return true;
}

/* ---- making ------------------------------------------------------------------------------------
 */

/* Every `step`-th row from `stretch.first` on. False when the taker ended it or the roster broke.
 */
static bool make_rows(struct packet_rows *rows, const struct manifest *manifest,
                      struct stretch stretch, size_t step, struct row_taker taker,
                      struct diag *diag)
{
    struct arena arena;
    arena_init(&arena);
    size_t due = stretch.first;
    bool good = true;
    while (good && due <= stretch.last) {
        struct roster_row row;
        struct row_result result;
        struct diag faults;
        diag_init(&faults);
        arena_reset(&arena);
        good = roster_next(&rows->roster, &arena, &faults, &row) == ROSTER_ROW;
        if (!good)
            diag_report(diag, DIAG_FAULT, "roster-changed",
                        (struct mark){.file = rows->roster.file},
                        "changed while it was being read; begin again");
        else if (row.number == due) {
            packet_rows_make(rows, manifest, &row, &faults, &arena, &result);
            good = taker.take(taker.data, &result);
            due += step;
        }
        diag_finish(&faults);
    }
    arena_finish(&arena);
    return good;
}

/* ---- processes ---------------------------------------------------------------------------------
 */

struct worker {
    pid_t pid;
    FILE *in;
};

static bool send_on(void *data, const struct row_result *result)
{
    struct row_result copy = *result;
    return send_result(data, &copy) && result->status != ROW_FAILED;
}

static _Noreturn void work(struct packet_rows *rows, const struct manifest *manifest,
                           struct stretch stretch, size_t step, int fd)
{
    struct diag diag;
    diag_init(&diag);
    signal(SIGPIPE, SIG_DFL);
    FILE *out = fdopen(fd, "w");
    if (out && roster_rewind(&rows->roster, &diag))
        make_rows(rows, manifest, stretch, step, (struct row_taker){send_on, out}, &diag);
    _exit(EXIT_SUCCESS); /* how it went is read in the rows alone */
}

static bool start_worker(struct packet_rows *rows, const struct manifest *manifest,
                         struct stretch stretch, size_t index, struct worker *workers,
                         struct diag *diag)
{
    int ends[2];
    if (pipe2(ends, O_CLOEXEC) != 0) {
        diag_report(diag, DIAG_FAULT, "no-process", (struct mark){0}, "no pipe: %s",
                    strerror(errno));
        return false;
    }
    pid_t pid = fork();
    if (pid == 0) {
        close(ends[0]);
        for (size_t i = 0; i < index; i++)
            close(fileno(workers[i].in));
        stretch.first += index;
        work(rows, manifest, stretch, rows->options->jobs, ends[1]);
    }
    int error = errno;
    close(ends[1]);
    FILE *in = pid > 0 ? fdopen(ends[0], "r") : NULL;
    workers[index] = (struct worker){.pid = pid, .in = in};
    if (in)
        return true;
    close(ends[0]);
    diag_report(diag, DIAG_FAULT, "no-process", (struct mark){0}, "no process: %s",
                strerror(error));
    return false;
}

/* Rows come round in turn, so that reading from the workers in turn gives the roster's order. */
static bool collect(struct worker *workers, size_t jobs, struct stretch stretch,
                    struct row_taker taker, struct diag *diag)
{
    struct arena arena;
    arena_init(&arena);
    bool good = true;
    for (size_t i = stretch.first; i <= stretch.last && good; i++) {
        struct row_result result;
        arena_reset(&arena);
        good = receive_result(workers[(i - stretch.first) % jobs].in, &arena, &result) &&
               result.number == i;
        if (!good)
            diag_report(diag, DIAG_FAULT, "process-ended", (struct mark){0},
                        "a process ended before row %zu was made; --resume goes on from there", i);
        good = good && taker.take(taker.data, &result);
    }
    arena_finish(&arena);
    return good;
}

static bool run_workers(struct packet_rows *rows, const struct manifest *manifest,
                        struct stretch stretch, struct row_taker taker, struct diag *diag)
{
    struct worker workers[PACKET_JOBS_MOST] = {{0}};
    size_t jobs = rows->options->jobs, started = 0;
    bool good = true;
    while (good && started < jobs)
        good = start_worker(rows, manifest, stretch, started++, workers, diag);
    good = good && collect(workers, jobs, stretch, taker, diag);
    for (size_t i = 0; i < started; i++) {
        if (workers[i].in)
            fclose(workers[i].in);
        while (workers[i].pid > 0 && waitpid(workers[i].pid, NULL, 0) < 0 && errno == EINTR)
            continue;
    }
    return good;
}

bool packet_jobs_run(struct packet_rows *rows, const struct manifest *manifest,
                     struct stretch stretch, struct row_taker taker, struct diag *diag)
{
    if (rows->options->jobs <= 1)
        return make_rows(rows, manifest, stretch, 1, taker, diag);
    return run_workers(rows, manifest, stretch, taker, diag);
}
