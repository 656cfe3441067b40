/* Who may use the desk: names with a role and a passphrase, and who is at it now.
 *
 * `.people.yaml` in the folder of records, readable by nobody else; a passphrase stands there as
 * scrypt's hash (RFC 7914) by libxcrypt. Where there is no such file the desk is open to whoever
 * uses the machine. Tries are limited by name; a session ends on its own. Everything in memory is
 * the desk's one thread's.
 */
#ifndef BASKLEAF_DESK_PEOPLE_H
#define BASKLEAF_DESK_PEOPLE_H

#include "desk/store.h"

enum role { ROLE_RECEPTION = 1, ROLE_VETERINARIAN = 2, ROLE_SHELTER = 4, ROLE_ANY = 7 };

enum {
    PEOPLE_MOST = 200,
    PEOPLE_SESSIONS_MOST = 500,
    PEOPLE_KEY_BYTES = 65,
    PEOPLE_IDLE_SECONDS = 15 * 60,
    PEOPLE_DAY_SECONDS = 12 * 3600,
    PEOPLE_TRIES_MOST = 5,       /* then a name waits */
    PEOPLE_WAIT_SECONDS = 60,    /* that long; common practice, no source */
    PEOPLE_PASSPHRASE_LEAST = 10 /* letters */
};

struct person {
    char name[STORE_LABEL_BYTES];
    enum role role;
    char hash[400];
    int failures;
    long long wait_until;
};

struct session {
    char key[PEOPLE_KEY_BYTES]; /* "": free */
    char name[STORE_LABEL_BYTES];
    long long begun, seen;
};

struct people {
    struct person *persons; /* owned */
    size_t count;
    struct session *sessions; /* owned, PEOPLE_SESSIONS_MOST */
    long long changed_ns;     /* of the file that was read */
};

/* "veterinarian" and so on; 0 for no role. */
enum role people_role(const char *word);
const char *people_role_word(enum role role);

/* Reads the file where it changed; no file is nobody. False after errors: the file is broken or
 * others may read it. */
bool people_refresh(struct people *people, const struct store *store, struct arena *arena,
                    struct diag *diag);
void people_finish(struct people *people);

/* Writes a person into the file, in the place of one of that name. False after errors. */
bool people_set(const struct store *store, const char *name, enum role role, const char *passphrase,
                struct diag *diag);
/* Takes a person out. False after errors. */
bool people_remove(const struct store *store, const char *name, struct diag *diag);

enum people_entry { PEOPLE_IN, PEOPLE_WRONG, PEOPLE_WAIT };

/* Tries a name's passphrase; *session is the new one. */
enum people_entry people_log_in(struct people *people, const char *name, const char *passphrase,
                                long long now, const struct session **session);

/* The person of a session's key; NULL when it has ended. `counts`: the request is somebody's doing
 * and not the page's own looking. */
const struct person *people_at(struct people *people, const char *key, long long now, bool counts);

void people_log_out(struct people *people, const char *key);

#endif
