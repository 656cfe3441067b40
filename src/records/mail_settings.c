/* The table of the mail server's keys; refuses a file that others may read. */
#include "records/mail_settings.h"

#include <string.h>
#include <sys/stat.h>

#include "records/table.h"

static const struct choice tls_choices[] = {
    {"starttls", MAIL_TLS_ON_REQUEST, "asked for once connected (RFC 3207)"},
    {"implicit", MAIL_TLS_FROM_THE_START, "from the first byte (RFC 8314)"},
    {"none", MAIL_TLS_NONE, "only to this machine itself"},
    {0}};

static const struct field fields[] = {
    ROW(TEXT, mail_settings, host, "host", .required = true, .help = "the mail server",
        .example = "mail.example.org"),
    ROW(QUANTITY, mail_settings, port, "port", WHOLE(1, 65535), .required = true,
        .help = "its port", .example = "587"),
    ROW(CHOICE, mail_settings, tls, "tls", .choices = tls_choices, .required = true,
        .help = "how the line is kept secret", .example = "starttls"),
    ROW(TEXT, mail_settings, user, "user", .help = "name to sign in with"),
    ROW(TEXT, mail_settings, password, "password", .help = "its password"),
    ROW(TEXT, mail_settings, authority, "authority",
        .help = "a file of certificates to trust instead of the system's"),
    ROW(QUANTITY, mail_settings, timeout_s, "timeout", IN(COUNT, 1, 600),
        .help = "seconds until an attempt is given up; 60 when left out"),
};

const struct schema mail_settings_schema =
    SCHEMA(mail_settings, fields, "mail settings",
           "How mail leaves the clinic; readable by its owner alone.");

static bool is_this_machine(const char *host)
{
    return strcmp(host, "localhost") == 0 || strncmp(host, "127.", 4) == 0;
}

static bool is_private(const char *path, struct diag *diag)
{
    struct stat st;
    if (stat(path, &st) != 0 || (st.st_mode & 077) == 0)
        return true; /* a missing file is told by the reader */
    diag_report(diag, DIAG_ERROR, "not-private", (struct mark){.file = path},
                "others on this machine may read it, and it holds a password; chmod 600 closes it");
    return false;
}

struct mail_settings *mail_settings_read(const char *path, struct arena *arena, struct diag *diag)
{
    struct mail_settings *settings = ARENA_NEW(arena, struct mail_settings);
    const struct node *tree = is_private(path, diag) ? tree_read_file(path, arena, diag) : NULL;
    settings->file = arena_copy_text(arena, path);
    if (!tree || !bind_record(tree, &mail_settings_schema, "", arena, diag, settings))
        return NULL;
    if (strspn(settings->host.text,
               "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789.-") !=
        strlen(settings->host.text)) {
        diag_report(diag, DIAG_ERROR, "bad-host", settings->host.at,
                    "'host' is the name of a server alone");
        return NULL;
    }
    if (settings->tls.value == MAIL_TLS_NONE && !is_this_machine(settings->host.text)) {
        diag_report(diag, DIAG_ERROR, "not-secret", settings->tls.at,
                    "'none' is for a server on this machine alone; write starttls or implicit");
        return NULL;
    }
    return settings;
}
