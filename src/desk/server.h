/* The desk on a socket: HTTP/1.1 through libmicrohttpd, on loopback unless told otherwise. */
#ifndef BASKLEAF_DESK_SERVER_H
#define BASKLEAF_DESK_SERVER_H

#include "desk/desk.h"
#include "desk/tls.h"

struct server_settings {
    const char *address;        /* "127.0.0.1"; any other was asked for in words */
    unsigned port;              /* 0: one that is free */
    const struct tls_pair *tls; /* NULL: without */
};

struct server;

/* Answers until server_stop; one thread of its own. NULL after a DIAG_ERROR or DIAG_FAULT. */
struct server *server_start(struct desk *desk, const struct server_settings *settings,
                            struct diag *diag);

unsigned server_port(const struct server *server);

/* Finishes what is being answered. Accepts NULL. */
void server_stop(struct server *server);

#endif
