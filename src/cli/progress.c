/* Draws the line of progress and takes it away again; nothing where standard error is no
 * terminal. */
#include "cli/progress.h"

#include <stdio.h>
#include <string.h>
#include <time.h>
#include <unistd.h>

enum { BAR_WIDTH = 30 };

static double now_s(void)
{
    struct timespec time;
    clock_gettime(CLOCK_MONOTONIC, &time);
    return (double)time.tv_sec + (double)time.tv_nsec / 1e9;
}

void progress_init(struct progress *progress)
{
    *progress = (struct progress){.is_shown = isatty(STDERR_FILENO) == 1, .began_s = now_s()};
}

void progress_write_time(double seconds, char out[32])
{
    long whole = seconds < 0 ? 0 : seconds > 359999 ? 359999 : (long)(seconds + 0.5);
    if (whole >= 3600)
        snprintf(out, 32, "%ld:%02ld:%02ld", whole / 3600, whole / 60 % 60, whole % 60);
    else
        snprintf(out, 32, "%ld:%02ld", whole / 60, whole % 60);
}

void progress_show(struct progress *progress, size_t done, size_t all)
{
    double now = now_s();
    if (!progress->is_shown || !all || (done < all && now - progress->last_s < 0.1))
        return;
    char bar[BAR_WIDTH + 1], left[32];
    size_t filled = done * BAR_WIDTH / all;
    memset(bar, '.', BAR_WIDTH);
    memset(bar, '#', filled);
    bar[BAR_WIDTH] = '\0';
    progress_write_time(
        (now - progress->began_s) / (double)(done ? done : 1) * (double)(all - done), left);
    fprintf(stderr, "\r[%s] %zu of %zu, %s left\x1b[K", bar, done, all, left);
    fflush(stderr);
    progress->last_s = now;
    progress->is_there = true;
}

void progress_wipe(struct progress *progress)
{
    if (progress->is_there)
        fputs("\r\x1b[K", stderr);
    progress->is_there = false;
}
