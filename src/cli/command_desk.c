/* `baskleaf desk`: opens the folder of records and serves the page until it is told to stop. */
#include <signal.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#include "cli/command.h"

#ifdef BASKLEAF_HAS_DESK

#include "desk/server.h"

static long long seconds_now(void)
{
    return (long long)time(NULL);
}

static bool read_port(struct run *run, unsigned *out)
{
    const char *text = run->options.port ? run->options.port : "0";
    char *end;
    long port = strtol(text, &end, 10);
    if (*end || end == text || port < 0 || port > 65535) {
        diag_report(&run->diag, DIAG_USAGE, "usage", (struct mark){0},
                    "'--port' needs a number from 0 to 65535, not '%s'", text);
        return false;
    }
    *out = (unsigned)port;
    return true;
}

/* Everyone who reaches the address could read and change the records: that wants to be said in
 * words. An address that stands for all is refused, because a request's Host could then not be
 * checked. */
static bool may_listen(struct run *run, const char *address)
{
    bool stands_for_all = strcmp(address, "0.0.0.0") == 0 || strcmp(address, "::") == 0;
    bool is_loopback = strncmp(address, "127.", 4) == 0 || strcmp(address, "::1") == 0;
    if (is_loopback || (run->options.allow_remote && !stands_for_all))
        return true;
    diag_report(
        &run->diag, DIAG_USAGE, "usage", (struct mark){0},
        stands_for_all
            ? "'--address %s' stands for every address; name the one that is meant"
            : "'--address %s' is reached by other machines, without encryption and without a "
              "password; say --allow-remote if that is meant",
        address);
    return false;
}

/* Signals are waited for, not caught: whatever is being answered is finished first. */
static void serve(struct run *run, struct desk *desk, const struct server_settings *settings)
{
    sigset_t stop;
    int got;
    sigemptyset(&stop);
    sigaddset(&stop, SIGINT);
    sigaddset(&stop, SIGTERM);
    sigaddset(&stop, SIGHUP);
    pthread_sigmask(SIG_BLOCK, &stop, NULL); /* before the server's thread begins */
    struct server *server = server_start(desk, settings, &run->diag);
    if (!server)
        return;
    bool is_six = strchr(settings->address, ':') != NULL;
    const char *line = arena_format(&run->arena, "http://%s%s%s:%u/\n", is_six ? "[" : "",
                                    settings->address, is_six ? "]" : "", server_port(server));
    command_print(run, line, strlen(line));
    sigwait(&stop, &got);
    server_stop(server);
}

void command_desk(struct run *run)
{
    struct server_settings listen = {.address =
                                         run->options.address ? run->options.address : "127.0.0.1"};
    const char *data = run->options.data ? run->options.data : resources_find_data(&run->arena);
    if (!data) {
        diag_report(
            &run->diag, DIAG_FAULT, "no-data", (struct mark){0},
            "the folder with templates and species-sheets was not found; name it with --data");
        return;
    }
    if (!read_port(run, &listen.port) || !may_listen(run, listen.address))
        return;
    const struct desk_settings settings = {
        .places = {data, run->options.clinic, run->options.species_dir},
        .folder = run->word_count ? run->words[0] : ".",
        .mail_settings = run->options.settings,
        .today = run->options.today ? run->today : (struct date){0},
        .clock = seconds_now,
        .day = command_clock_today,
    };
    struct desk desk;
    if (desk_init(&desk, &settings, &run->diag))
        serve(run, &desk, &listen);
    desk_finish(&desk);
}

#else

void command_desk(struct run *run)
{
    diag_report(&run->diag, DIAG_FAULT, "built-without", (struct mark){0},
                "this baskleaf was built without libmicrohttpd and has no desk; install it and "
                "build again");
}

#endif
