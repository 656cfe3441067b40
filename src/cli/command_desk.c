/* `baskleaf desk`: opens the folder of records and serves the page until it is told to stop. */
#include <signal.h>
#include <stdlib.h>
#include <string.h>
#include <termios.h>
#include <time.h>
#include <unistd.h>

#include "cli/command.h"

#ifdef BASKLEAF_HAS_DESK

#include "desk/server.h"
#include "signing/signature.h"

static long long seconds_now(void)
{
    return (long long)time(NULL);
}

/* A whole number of an option; 0 when it is not given. */
static bool read_number(struct run *run, const char *option, const char *text, long most,
                        unsigned *out)
{
    char *end = NULL;
    long number = text ? strtol(text, &end, 10) : 0;
    if ((text && (*end || end == text)) || number < 0 || number > most) {
        diag_report(&run->diag, DIAG_USAGE, "usage", (struct mark){0},
                    "'--%s' needs a number from 0 to %ld, not '%s'", option, most, text);
        return false;
    }
    *out = (unsigned)number;
    return true;
}

/* An address that stands for all is refused, because a request's Host could then not be checked. */
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
            : "'--address %s' is reached by other machines; say --allow-remote if that is meant",
        address);
    return false;
}

/* Other machines: TLS, and people with passphrases. */
static bool prepare_remote(struct run *run, struct desk *desk, struct server_settings *listen,
                           struct tls_pair *tls)
{
    if (!run->options.allow_remote)
        return true;
    if (!people_refresh(&desk->people, &desk->store, &run->arena, &run->diag) ||
        !tls_read(&desk->store, run->options.certificate, listen->address, &run->arena, &run->diag,
                  tls))
        return false;
    listen->tls = tls;
    if (desk->people.count)
        return true;
    diag_report(&run->diag, DIAG_USAGE, "usage", (struct mark){0},
                "--allow-remote lets in only people with a passphrase, and there are none yet; "
                "'baskleaf desk FOLDER --person NAME --role ROLE' adds one");
    return false;
}

enum { PASSPHRASE_MOST = 512 };

/* The first line of standard input, not shown on a terminal. */
static bool read_passphrase(char out[PASSPHRASE_MOST])
{
    struct termios before, silent;
    bool is_terminal = isatty(STDIN_FILENO) && tcgetattr(STDIN_FILENO, &before) == 0;
    if (is_terminal) {
        silent = before;
        silent.c_lflag &= ~(tcflag_t)ECHO;
        fputs("Passphrase: ", stderr);
        tcsetattr(STDIN_FILENO, TCSAFLUSH, &silent);
    }
    bool good = fgets(out, PASSPHRASE_MOST, stdin) != NULL;
    if (is_terminal) {
        tcsetattr(STDIN_FILENO, TCSAFLUSH, &before);
        fputc('\n', stderr);
    }
    if (good)
        out[strcspn(out, "\r\n")] = '\0';
    return good;
}

/* At the console: adds a person, changes one, takes one out. */
static void change_person(struct run *run, const char *folder)
{
    const struct store store = {.folder = folder};
    const char *role = run->options.role ? run->options.role : "";
    char passphrase[PASSPHRASE_MOST] = "";
    if (!file_is_folder(folder))
        diag_report(&run->diag, DIAG_ERROR, "no-folder", (struct mark){.file = folder},
                    "is no folder of visit records");
    else if (strcmp(role, "none") == 0)
        people_remove(&store, run->options.person, &run->diag);
    else if (!people_role(role))
        diag_report(&run->diag, DIAG_USAGE, "usage", (struct mark){0},
                    "'--role' is reception, veterinarian, shelter or none, not '%s'", role);
    else if (read_passphrase(passphrase))
        people_set(&store, run->options.person, people_role(role), passphrase, &run->diag);
    explicit_bzero(passphrase, sizeof passphrase);
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
    const char *line =
        arena_format(&run->arena, "%s://%s%s%s:%u/\n", settings->tls ? "https" : "http",
                     is_six ? "[" : "", settings->address, is_six ? "]" : "", server_port(server));
    command_print(run, line, strlen(line));
    sigwait(&stop, &got);
    server_stop(server);
}

void command_desk(struct run *run)
{
    struct server_settings listen = {.address =
                                         run->options.address ? run->options.address : "127.0.0.1"};
    const char *folder = run->word_count ? run->words[0] : ".";
    struct tls_pair tls;
    unsigned forget_days = 0;
    if (run->options.person) {
        change_person(run, folder);
        return;
    }
    const char *data = run->options.data ? run->options.data : resources_find_data(&run->arena);
    if (!data) {
        diag_report(
            &run->diag, DIAG_FAULT, "no-data", (struct mark){0},
            "the folder with templates and species-sheets was not found; name it with --data");
        return;
    }
    if (!read_number(run, "port", run->options.port, 65535, &listen.port) ||
        !read_number(run, "forget-after", run->options.forget_after, 36500, &forget_days) ||
        !may_listen(run, listen.address))
        return;
    const struct desk_settings settings = {
        .places = {data, run->options.clinic,
                   resources_find_own_sheets(run->options.species_dir, &run->arena),
                   signature_key_beside(file_join(&run->arena, folder, "."), &run->arena), folder},
        .folder = folder,
        .own_sheets =
            run->options.species_dir ? run->options.species_dir : resources_own_sheets(&run->arena),
        .page_folder = run->options.page,
        .forget_days = (int)forget_days,
        .needs_people = run->options.allow_remote,
        .mail_settings = run->options.settings,
        .today = run->options.today ? run->today : (struct date){0},
        .clock = seconds_now,
        .day = command_clock_today,
    };
    struct desk desk;
    if (desk_init(&desk, &settings, &run->diag) && prepare_remote(run, &desk, &listen, &tls))
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
