/* Connections of libmicrohttpd: gathers a request within its limits and sends the reply. */
#include "desk/beside.h"
#include "desk/server.h"

#include <arpa/inet.h>
#include <errno.h>
#include <microhttpd.h>
#include <pthread.h>
#include <stdlib.h>
#include <string.h>
#include <sys/socket.h>
#include <time.h>
#include <unistd.h>

enum {
    CONNECTIONS_MOST = 600,
    IDLE_SECONDS = 15,    /* between two bytes */
    REQUEST_SECONDS = 20, /* for a whole request, however it drips */
    REPLY_SECONDS = 300,  /* for a whole reply */
    CONNECTION_BYTES = 32 * 1024
};

/* One line from a browser, watched so that nobody holds it for long. */
struct line {
    struct line *next, **before;
    int fd;
    time_t since;    /* its request began, or the reply before was sent */
    bool is_replied; /* the reply is on its way */
};

struct server {
    struct MHD_Daemon *daemon;
    struct desk *desk;
    char address[64];
    unsigned port;
    bool is_tls;
    char cookie[32]; /* its name; cookies know no ports */
    pthread_mutex_t lock;
    pthread_cond_t wake;
    pthread_t watcher;
    bool is_watching, ends;
    struct line *lines;
};

/* One request while it comes in. */
struct incoming {
    struct arena arena;
    char *target; /* as it stood in the request line; NULL when it was too long */
    size_t target_length;
    struct strbuf body;
    long body_limit;
    bool too_large, has_begun;
};

/* Nothing but the desk's own files is loaded, nothing runs that does not stand in them, and nobody
 * else may put the page in a frame. */
static const char *const headers[][2] = {
    {"Content-Security-Policy",
     "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self'; connect-src 'self'; "
     "frame-src 'self' blob:; form-action 'none'; base-uri 'none'; frame-ancestors 'self'"},
    {"X-Content-Type-Options", "nosniff"},
    {"Referrer-Policy", "no-referrer"},
    {"Cross-Origin-Opener-Policy", "same-origin"},
    {"Cross-Origin-Resource-Policy", "same-origin"},
    {"Cache-Control", "no-store"},
};

static void add_cookie(const struct server *server, struct MHD_Response *response,
                       const char *session)
{
    char value[200];
    snprintf(value, sizeof value, "%s=%s; Path=/; HttpOnly; SameSite=Strict%s%s", server->cookie,
             session, server->is_tls ? "; Secure" : "", *session ? "" : "; Max-Age=0");
    MHD_add_response_header(response, "Set-Cookie", value);
}

static enum MHD_Result queue(const struct server *server, struct MHD_Connection *connection,
                             const struct reply *reply)
{
    struct MHD_Response *response = MHD_create_response_from_buffer(
        reply->body.length, (void *)(uintptr_t)reply->body.data, MHD_RESPMEM_MUST_COPY);
    if (!response)
        return MHD_NO;
    for (size_t i = 0; i < sizeof headers / sizeof *headers; i++)
        MHD_add_response_header(response, headers[i][0], headers[i][1]);
    MHD_add_response_header(response, "Content-Type", reply->type);
    if (reply->file_name) {
        char value[256];
        snprintf(value, sizeof value, "inline; filename=\"%s\"", reply->file_name);
        MHD_add_response_header(response, "Content-Disposition", value);
    }
    if (reply->session)
        add_cookie(server, response, reply->session);
    if (server->is_tls)
        MHD_add_response_header(response, "Strict-Transport-Security", "max-age=31536000");
    enum MHD_Result done = MHD_queue_response(connection, (unsigned)reply->status, response);
    MHD_destroy_response(response);
    return done;
}

static enum MHD_Result refuse(const struct server *server, struct MHD_Connection *connection,
                              int status, const char *code)
{
    char text[120];
    int length = snprintf(text, sizeof text, "{\"error\": \"%s\"}\n", code);
    const struct reply reply = {
        .status = status,
        .type = "application/json; charset=utf-8",
        .body = {text, (size_t)length},
    };
    return queue(server, connection, &reply);
}

/* ---- lines ------------------------------------------------------------------------------------
 */

static struct line *line_of(struct MHD_Connection *connection)
{
    const union MHD_ConnectionInfo *info =
        MHD_get_connection_info(connection, MHD_CONNECTION_INFO_SOCKET_CONTEXT);
    return info ? info->socket_context : NULL;
}

static void mark_line(struct server *server, struct MHD_Connection *connection, bool is_replied)
{
    struct line *line = line_of(connection);
    pthread_mutex_lock(&server->lock);
    if (line) {
        line->since = time(NULL);
        line->is_replied = is_replied;
    }
    pthread_mutex_unlock(&server->lock);
}

static void add_line(struct server *server, struct MHD_Connection *connection, void **context)
{
    const union MHD_ConnectionInfo *info =
        MHD_get_connection_info(connection, MHD_CONNECTION_INFO_CONNECTION_FD);
    struct line *line = info ? calloc(1, sizeof *line) : NULL;
    *context = line;
    if (!line)
        return;
    pthread_mutex_lock(&server->lock);
    *line = (struct line){.next = server->lines,
                          .before = &server->lines,
                          .fd = info->connect_fd,
                          .since = time(NULL)};
    if (line->next)
        line->next->before = &line->next;
    server->lines = line;
    pthread_mutex_unlock(&server->lock);
}

static void drop_line(struct server *server, void **context)
{
    struct line *line = *context;
    *context = NULL;
    if (!line)
        return;
    pthread_mutex_lock(&server->lock);
    *line->before = line->next;
    if (line->next)
        line->next->before = line->before;
    pthread_mutex_unlock(&server->lock);
    free(line);
}

static void watch_line(void *self, struct MHD_Connection *connection, void **context,
                       enum MHD_ConnectionNotificationCode code)
{
    if (code == MHD_CONNECTION_NOTIFY_STARTED)
        add_line(self, connection, context);
    else
        drop_line(self, context);
}

/* Cuts lines whose request or reply takes too long; the daemon then closes them. */
static void *watch_lines(void *self)
{
    struct server *server = self;
    pthread_mutex_lock(&server->lock);
    while (!server->ends) {
        time_t now = time(NULL);
        for (const struct line *line = server->lines; line; line = line->next)
            if (now - line->since > (line->is_replied ? REPLY_SECONDS : REQUEST_SECONDS))
                shutdown(line->fd, SHUT_RDWR);
        struct timespec until = {.tv_sec = now + 1};
        pthread_cond_timedwait(&server->wake, &server->lock, &until);
    }
    pthread_mutex_unlock(&server->lock);
    return NULL;
}

/* ---- requests -------------------------------------------------------------------------------- */

static const char *header(struct MHD_Connection *connection, const char *name)
{
    return MHD_lookup_connection_value(connection, MHD_HEADER_KIND, name);
}

static enum request_method method_of(const char *method)
{
    if (strcmp(method, "GET") == 0)
        return REQUEST_GET;
    return strcmp(method, "POST") == 0 ? REQUEST_POST : REQUEST_OTHER;
}

static enum MHD_Result answer_whole(struct server *server, struct MHD_Connection *connection,
                                    const char *method, struct incoming *incoming)
{
    struct request request = {
        .method = method_of(method),
        .body = {incoming->body.text, incoming->body.length},
        .host = header(connection, "Host"),
        .origin = header(connection, "Origin"),
        .token = header(connection, "X-Desk-Token"),
        .fetch_site = header(connection, "Sec-Fetch-Site"),
        .session = MHD_lookup_connection_value(connection, MHD_COOKIE_KIND, server->cookie),
        .is_tls = server->is_tls,
    };
    struct reply reply;
    if (!request_host_is_ours(request.host, server->address, server->port, server->is_tls))
        return refuse(server, connection, 421, "not-this-host");
    if (!incoming->target ||
        !request_read_target(incoming->target, incoming->target_length, &incoming->arena, &request))
        return refuse(server, connection, 400, "not-understood");
    mark_line(server, connection, true);
    desk_answer(server->desk, &request, &incoming->arena, &reply);
    return queue(server, connection, &reply);
}

static void *begin(void *self, const char *uri, struct MHD_Connection *connection)
{
    (void)self;
    (void)connection;
    struct incoming *incoming = calloc(1, sizeof *incoming);
    if (!incoming)
        return NULL;
    arena_init(&incoming->arena);
    strbuf_init(&incoming->body, &incoming->arena);
    incoming->target_length = strlen(uri);
    if (incoming->target_length <= REQUEST_TARGET_LIMIT)
        incoming->target = arena_copy_text(&incoming->arena, uri);
    return incoming;
}

static void finish(void *self, struct MHD_Connection *connection, void **state,
                   enum MHD_RequestTerminationCode code)
{
    struct incoming *incoming = *state;
    (void)code;
    mark_line(self, connection, false);
    if (incoming)
        arena_finish(&incoming->arena);
    free(incoming);
    *state = NULL;
}

/* More than a record only for a file, and only from the page of this desk. */
static long body_limit(const struct server *server, struct MHD_Connection *connection,
                       const struct incoming *incoming)
{
    static const char path[] = BESIDE_PATH "?";
    const char *token = header(connection, "X-Desk-Token");
    bool is_file = incoming->target && strncmp(incoming->target, path, sizeof path - 1) == 0;
    return is_file && token && strcmp(token, server->desk->token) == 0 ? REQUEST_FILE_LIMIT
                                                                       : REQUEST_BODY_LIMIT;
}

static bool announces_too_much(struct MHD_Connection *connection, long limit)
{
    const char *length = header(connection, "Content-Length");
    return length && (strlen(length) > 9 || strtol(length, NULL, 10) > limit);
}

static enum MHD_Result receive(void *self, struct MHD_Connection *connection, const char *uri,
                               const char *method, const char *version, const char *data,
                               size_t *size, void **state)
{
    struct incoming *incoming = *state;
    (void)uri;
    (void)version;
    if (!incoming)
        return MHD_NO;
    if (!incoming->has_begun) {
        incoming->has_begun = true;
        incoming->body_limit = body_limit(self, connection, incoming);
        return announces_too_much(connection, incoming->body_limit)
                   ? refuse(self, connection, 413, "too-large")
                   : MHD_YES;
    }
    if (*size) {
        incoming->too_large = incoming->body.length + *size > (size_t)incoming->body_limit;
        if (incoming->too_large)
            return MHD_NO; /* a body without a length that never ends: the connection closes */
        strbuf_add_bytes(&incoming->body, data, *size);
        *size = 0;
        return MHD_YES;
    }
    return answer_whole(self, connection, method, incoming);
}

static bool read_address(const struct server_settings *settings, struct sockaddr_storage *out)
{
    struct sockaddr_in *four = (struct sockaddr_in *)out;
    struct sockaddr_in6 *six = (struct sockaddr_in6 *)out;
    memset(out, 0, sizeof *out);
    if (inet_pton(AF_INET, settings->address, &four->sin_addr) == 1) {
        four->sin_family = AF_INET;
        four->sin_port = htons((uint16_t)settings->port);
        return true;
    }
    if (inet_pton(AF_INET6, settings->address, &six->sin6_addr) != 1)
        return false;
    six->sin6_family = AF_INET6;
    six->sin6_port = htons((uint16_t)settings->port);
    return true;
}

static void start_daemon(struct server *server, const struct server_settings *settings,
                         struct sockaddr_storage *address)
{
    unsigned flags = MHD_USE_INTERNAL_POLLING_THREAD | MHD_USE_AUTO |
                     (address->ss_family == AF_INET6 ? MHD_USE_IPv6 : 0u) |
                     (settings->tls ? MHD_USE_TLS : 0u);
    struct MHD_OptionItem tls[] = {
        {MHD_OPTION_HTTPS_MEM_KEY, 0,
         (void *)(uintptr_t)(settings->tls ? settings->tls->key : NULL)},
        {MHD_OPTION_HTTPS_MEM_CERT, 0,
         (void *)(uintptr_t)(settings->tls ? settings->tls->certificate : NULL)},
        {MHD_OPTION_HTTPS_PRIORITIES, 0,
         (void *)(uintptr_t) "NORMAL:-VERS-ALL:+VERS-TLS1.3:+VERS-TLS1.2"},
        {MHD_OPTION_END, 0, NULL},
    };
    struct MHD_OptionItem none[] = {{MHD_OPTION_END, 0, NULL}};
    server->daemon = MHD_start_daemon(
        flags, 0, NULL, NULL, receive, server, MHD_OPTION_SOCK_ADDR, (struct sockaddr *)address,
        MHD_OPTION_URI_LOG_CALLBACK, begin, server, MHD_OPTION_NOTIFY_COMPLETED, finish, server,
        MHD_OPTION_NOTIFY_CONNECTION, watch_line, server, MHD_OPTION_CONNECTION_LIMIT,
        (unsigned)CONNECTIONS_MOST, MHD_OPTION_CONNECTION_TIMEOUT, (unsigned)IDLE_SECONDS,
        MHD_OPTION_CONNECTION_MEMORY_LIMIT, (size_t)CONNECTION_BYTES, MHD_OPTION_ARRAY,
        settings->tls ? tls : none, MHD_OPTION_END);
}

struct server *server_start(struct desk *desk, const struct server_settings *settings,
                            struct diag *diag)
{
    struct sockaddr_storage address;
    if (strlen(settings->address) >= sizeof((struct server *)0)->address ||
        !read_address(settings, &address)) {
        diag_report(diag, DIAG_USAGE, "usage", (struct mark){0},
                    "'%s' is not an address such as 127.0.0.1", settings->address);
        return NULL;
    }
    struct server *server = calloc(1, sizeof *server);
    if (!server)
        support_out_of_memory();
    server->desk = desk;
    server->is_tls = settings->tls != NULL;
    pthread_mutex_init(&server->lock, NULL);
    pthread_cond_init(&server->wake, NULL);
    server->is_watching = pthread_create(&server->watcher, NULL, watch_lines, server) == 0;
    strcpy(server->address, settings->address);
    start_daemon(server, settings, &address);
    const union MHD_DaemonInfo *info =
        server->daemon ? MHD_get_daemon_info(server->daemon, MHD_DAEMON_INFO_BIND_PORT) : NULL;
    if (!info) {
        diag_report(diag, DIAG_FAULT, "cannot-listen", (struct mark){0},
                    "cannot listen on %s port %u: %s", settings->address, settings->port,
                    strerror(errno));
        server_stop(server);
        return NULL;
    }
    server->port = info->port;
    snprintf(server->cookie, sizeof server->cookie, "desk-%u", server->port);
    return server;
}

unsigned server_port(const struct server *server)
{
    return server->port;
}

void server_stop(struct server *server)
{
    if (!server)
        return;
    if (server->daemon)
        MHD_stop_daemon(server->daemon);
    pthread_mutex_lock(&server->lock);
    server->ends = true;
    pthread_cond_broadcast(&server->wake);
    pthread_mutex_unlock(&server->lock);
    if (server->is_watching)
        pthread_join(server->watcher, NULL);
    pthread_mutex_destroy(&server->lock);
    pthread_cond_destroy(&server->wake);
    free(server);
}
