/* What the print system says of its printers and of a job. */
#include <stdlib.h>
#include <string.h>

#include "print/printer_cups.h"

/* ---- printers -------------------------------------------------------------------------------- */

static const char *option(const cups_dest_t *dest, const char *name)
{
    return cupsGetOption(name, dest->num_options, dest->options);
}

/* printer-state 5 is "stopped" (RFC 8011, 5.4.11). */
static const char *why_stopped(const cups_dest_t *dest)
{
    const char *state = option(dest, "printer-state"), *why = option(dest, "printer-state-reasons");
    return state && strcmp(state, "5") == 0 ? why ? why : "" : NULL;
}

static const char *paper_of(http_t *server, cups_dest_t *dest)
{
    struct printer printer = {server, dest, cupsCopyDestInfo(server, dest)};
    const char *paper = printer.about ? printer_paper(&printer) : NULL;
    cupsFreeDestInfo(printer.about);
    return paper;
}

static const char *copy(const char *text, struct arena *arena)
{
    return text ? arena_copy_text(arena, text) : NULL;
}

size_t printer_list(struct arena *arena, struct diag *diag, struct printer_about **out)
{
    http_t *server = printer_connect(arena, diag);
    *out = NULL;
    if (!server)
        return 0;
    cups_dest_t *dests = NULL;
    int found = cupsGetDests2(server, &dests);
    size_t count = 0;
    *out = ARENA_ARRAY(arena, struct printer_about, found + 1);
    for (int i = 0; i < found; i++) {
        if (dests[i].instance)
            continue;
        const char *info = option(&dests[i], "printer-info");
        (*out)[count++] = (struct printer_about){
            .name = copy(dests[i].name, arena),
            .info = copy(info ? info : "", arena),
            .paper = paper_of(server, &dests[i]),
            .is_default = dests[i].is_default,
            .stopped = copy(why_stopped(&dests[i]), arena),
        };
    }
    cupsFreeDests(found, dests);
    httpClose(server);
    return count;
}

/* ---- a job ----------------------------------------------------------------------------------- */

static enum printer_job_state state_of(int state)
{
    switch (state) {
    case IPP_JSTATE_PENDING:
    case IPP_JSTATE_HELD:
        return PRINTER_JOB_WAITING;
    case IPP_JSTATE_PROCESSING:
        return PRINTER_JOB_PRINTING;
    case IPP_JSTATE_STOPPED:
        return PRINTER_JOB_STOPPED;
    case IPP_JSTATE_COMPLETED:
        return PRINTER_JOB_DONE;
    case IPP_JSTATE_CANCELED:
    case IPP_JSTATE_ABORTED:
        return PRINTER_JOB_FAILED;
    default:
        return PRINTER_JOB_UNKNOWN;
    }
}

static const char *text_of(ipp_t *answer, const char *name, struct arena *arena)
{
    ipp_attribute_t *found = ippFindAttribute(answer, name, IPP_TAG_ZERO);
    const char *text = found ? ippGetString(found, 0, NULL) : NULL;
    return text && *text && strcmp(text, "none") != 0 ? arena_copy_text(arena, text) : NULL;
}

/* In a job that waits, whether its printer stands still. */
static const char *why_printer_waits(http_t *server, const char *printer, struct arena *arena)
{
    cups_dest_t *dest = cupsGetNamedDest(server, printer, NULL);
    const char *why = dest ? copy(why_stopped(dest), arena) : NULL;
    cupsFreeDests(dest ? 1 : 0, dest);
    return why;
}

static ipp_t *ask(http_t *server, const char *printer, int number, struct arena *arena)
{
    ipp_t *request = ippNewRequest(IPP_OP_GET_JOB_ATTRIBUTES);
    ippAddString(request, IPP_TAG_OPERATION, IPP_TAG_URI, "printer-uri", NULL,
                 arena_format(arena, "ipp://localhost/printers/%s", printer));
    ippAddInteger(request, IPP_TAG_OPERATION, IPP_TAG_INTEGER, "job-id", number);
    ippAddString(request, IPP_TAG_OPERATION, IPP_TAG_NAME, "requesting-user-name", NULL,
                 cupsUser());
    return cupsDoRequest(server, request, "/");
}

enum printer_job_state printer_job_state(const char *printer, int number, struct arena *arena,
                                         const char **why)
{
    struct diag quiet;
    *why = NULL;
    diag_init(&quiet);
    http_t *server = printer_connect(arena, &quiet);
    diag_finish(&quiet);
    if (!server)
        return PRINTER_JOB_UNKNOWN;
    ipp_t *answer = ask(server, printer, number, arena);
    ipp_attribute_t *state = ippFindAttribute(answer, "job-state", IPP_TAG_ENUM);
    enum printer_job_state found = state ? state_of(ippGetInteger(state, 0)) : PRINTER_JOB_UNKNOWN;
    *why = text_of(answer, "job-printer-state-message", arena);
    if (!*why)
        *why = text_of(answer, "job-state-reasons", arena);
    ippDelete(answer);
    const char *printer_waits = found == PRINTER_JOB_WAITING || found == PRINTER_JOB_PRINTING
                                    ? why_printer_waits(server, printer, arena)
                                    : NULL;
    httpClose(server);
    if (!printer_waits)
        return found;
    *why = printer_waits;
    return PRINTER_JOB_STOPPED;
}
