/* Collects messages, sorts them by place and prints each as file:line:column. */
#include "base/diag.h"

#include <stdarg.h>
#include <string.h>

#include "base/messages.h"
#include "base/strbuf.h"

enum { MESSAGES_KEPT = 200 };

void diag_init(struct diag *diag)
{
    *diag = (struct diag){.limit = MESSAGES_KEPT};
    arena_init(&diag->arena);
}

void diag_finish(struct diag *diag)
{
    if (!diag)
        return;
    arena_finish(&diag->arena);
    *diag = (struct diag){0};
}

static void diag_add(struct diag *diag, struct diag_message said)
{
    struct diag_message *message = ARENA_NEW(&diag->arena, struct diag_message);
    *message = said;
    if (said.path)
        message->path = arena_copy_text(&diag->arena, said.path);
    if (said.at.file)
        message->at.file = arena_copy_text(&diag->arena, said.at.file);
    if (diag->last)
        diag->last->next = message;
    else
        diag->first = message;
    diag->last = message;
}

static void diag_take(struct diag *diag, struct diag_message said, const char *format, va_list args)
{
    size_t total = 0;
    for (size_t i = 0; i < 4; i++)
        total += diag->counts[i];
    diag->counts[said.severity]++;
    if (total >= diag->limit)
        return;
    said.text = arena_format_list(&diag->arena, format, args);
    diag_add(diag, said);
}

void diag_report(struct diag *diag, enum diag_severity severity, const char *code, struct mark at,
                 const char *format, ...)
{
    va_list args;
    va_start(args, format);
    diag_take(diag, (struct diag_message){.severity = severity, .code = code, .at = at}, format,
              args);
    va_end(args);
}

void diag_report_path(struct diag *diag, enum diag_severity severity, const char *code,
                      struct mark at, const char *path, const char *format, ...)
{
    va_list args;
    va_start(args, format);
    diag_take(diag,
              (struct diag_message){.severity = severity, .code = code, .at = at, .path = path},
              format, args);
    va_end(args);
}

bool diag_failed(const struct diag *diag)
{
    return diag_exit_status(diag) != 0;
}

int diag_exit_status(const struct diag *diag)
{
    if (diag->counts[DIAG_FAULT])
        return 3;
    if (diag->counts[DIAG_USAGE])
        return 2;
    return diag->counts[DIAG_ERROR] ? 1 : 0;
}

/* Control characters in data must not reach a terminal. */
static void add_printable(struct strbuf *line, const char *text)
{
    for (const char *c = text; *c; c++) {
        unsigned char byte = (unsigned char)*c;
        if (byte < 0x20 || byte == 0x7f)
            strbuf_addf(line, "\\x%02x", byte);
        else
            strbuf_add_char(line, *c);
    }
}

const char *diag_message_line(const struct diag_message *message, struct arena *arena)
{
    struct strbuf line;
    strbuf_init(&line, arena);
    add_printable(&line, message->at.file ? message->at.file : "baskleaf");
    if (message->at.line > 0)
        strbuf_addf(&line, ":%d:%d", message->at.line, message->at.column);
    strbuf_add(&line, message->severity == DIAG_REMARK ? ": remark: " : ": ");
    if (message->path) {
        add_printable(&line, message->path);
        strbuf_add(&line, ": ");
    }
    add_printable(&line, message->text);
    const struct message *registered = messages_find(message->code);
    if (registered)
        strbuf_addf(&line, " [B%d]", registered->number);
    return line.text;
}

void diag_print(const struct diag *diag, FILE *out)
{
    struct arena scratch;
    arena_init(&scratch);
    size_t printed = 0;
    for (const struct diag_message *m = diag->first; m; m = m->next, printed++)
        fprintf(out, "%s\n", diag_message_line(m, &scratch));
    size_t total = diag->counts[0] + diag->counts[1] + diag->counts[2] + diag->counts[3];
    if (total > printed)
        fprintf(out, "baskleaf: %zu more messages of the same run are not shown\n",
                total - printed);
    arena_finish(&scratch);
}
