/* Built without libxcrypt: nobody has a passphrase. */
#include "desk/people.h"

#include <string.h>

static bool refuse(struct diag *diag)
{
    diag_report(
        diag, DIAG_FAULT, "built-without", (struct mark){0},
        "this baskleaf was built without libcrypt and knows no people; install it and build "
        "again");
    return false;
}

enum role people_role(const char *word)
{
    (void)word;
    return (enum role)0;
}

const char *people_role_word(enum role role)
{
    (void)role;
    return "";
}

/* A folder that has people must not be open to everybody only because of how this was built. */
bool people_refresh(struct people *people, const struct store *store, struct arena *arena,
                    struct diag *diag)
{
    (void)people;
    return !file_exists(file_join(arena, store->folder, ".people.yaml")) || refuse(diag);
}

void people_finish(struct people *people)
{
    (void)people;
}

bool people_set(const struct store *store, const char *name, enum role role, const char *passphrase,
                struct diag *diag)
{
    (void)store, (void)name, (void)role, (void)passphrase;
    return refuse(diag);
}

bool people_remove(const struct store *store, const char *name, struct diag *diag)
{
    (void)store, (void)name;
    return refuse(diag);
}

enum people_entry people_log_in(struct people *people, const char *name, const char *passphrase,
                                long long now, const struct session **session)
{
    (void)people, (void)name, (void)passphrase, (void)now;
    *session = NULL;
    return PEOPLE_WRONG;
}

const struct person *people_at(struct people *people, const char *key, long long now, bool counts)
{
    (void)people, (void)key, (void)now, (void)counts;
    return NULL;
}

void people_log_out(struct people *people, const char *key)
{
    (void)people, (void)key;
}
