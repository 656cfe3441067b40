/* Finds a printer, asks what it can do, sends the sheet with copies, paper and sides. */
#include "print/printer_cups.h"

#include <ctype.h>
#include <cups/pwg.h>
#include <stdlib.h>
#include <string.h>

#include "records/clinic.h"
#include "base/strbuf.h"

/* PWG 5101.1, media size names; in hundredths of a millimetre as libcups has them. */
static const struct {
    int paper;
    const char *name;
    int width, length;
} papers[] = {
    {CLINIC_PAPER_A4, "iso_a4_210x297mm", 21000, 29700},
    {CLINIC_PAPER_LETTER, "na_letter_8.5x11in", 21590, 27940},
};
enum { PAPER_COUNT = sizeof papers / sizeof *papers, PAPER_SLACK = 100 };

/* The print system's words on one line. */
static const char *last_words(struct arena *arena)
{
    const char *said = cupsLastErrorString();
    char *text = arena_copy_text(arena, said && *said ? said : "no reason was given");
    for (char *c = text; *c; c++)
        if (iscntrl((unsigned char)*c))
            *c = ' ';
    return text;
}

static bool is_good(ipp_status_t status)
{
    return status >= IPP_STATUS_OK && status < IPP_STATUS_REDIRECTION_OTHER_SITE;
}

static bool fault(struct diag *diag, const char *doing, struct arena *arena)
{
    diag_report(diag, DIAG_FAULT, "cannot-print", (struct mark){0}, "%s: %s", doing,
                last_words(arena));
    return false;
}

/* ---- finding -----------------------------------------------------------------------------------
 */

/* Without this, libcups would ask on the terminal. */
static const char *no_password(const char *prompt, http_t *http, const char *method,
                               const char *resource, void *data)
{
    (void)prompt, (void)http, (void)method, (void)resource, (void)data;
    return NULL;
}

/* One short question first: libcups asks on for most of a minute where nobody answers. */
static bool answers(http_t *server)
{
    ipp_t *answer = cupsDoRequest(server, ippNewRequest(IPP_OP_CUPS_GET_DEFAULT), "/");
    ippDelete(answer);
    return answer != NULL;
}

http_t *printer_connect(struct arena *arena, struct diag *diag)
{
    cupsSetPasswordCB2(no_password, NULL);
    http_t *server = httpConnect2(cupsServer(), ippPort(), NULL, AF_UNSPEC, cupsEncryption(), 1,
                                  PRINTER_SECONDS * 1000, NULL);
    if (server) {
        httpSetTimeout(server, PRINTER_SECONDS, NULL, NULL);
        if (answers(server))
            return server;
        httpClose(server);
    }
    const char *place = cupsServer();
    if (*place != '/')
        place = arena_format(arena, "%s:%d", place, ippPort());
    diag_report(diag, DIAG_FAULT, "no-print-system", (struct mark){0},
                "no print system answers at %s; is CUPS running?", place);
    return NULL;
}

static void tell_missing(http_t *server, const char *name, struct arena *arena, struct diag *diag)
{
    cups_dest_t *dests = NULL;
    struct strbuf names;
    strbuf_init(&names, arena);
    int count = cupsGetDests2(server, &dests);
    for (int i = 0; i < count; i++)
        if (!dests[i].instance)
            strbuf_addf(&names, "%s%s", names.length ? ", " : "", dests[i].name);
    cupsFreeDests(count, dests);
    if (!names.length && !is_good(cupsLastError()) && cupsLastError() != IPP_STATUS_ERROR_NOT_FOUND)
        fault(diag, "the printers cannot be asked for", arena);
    else if (!names.length)
        diag_report(diag, DIAG_FAULT, "no-printer", (struct mark){0},
                    "the print system has no printer yet");
    else if (name)
        diag_report(diag, DIAG_ERROR, "unknown-printer", (struct mark){0},
                    "there is no printer '%s'; there are: %s", name, names.text);
    else
        diag_report(diag, DIAG_ERROR, "no-default-printer", (struct mark){0},
                    "no printer is the default; name one of: %s", names.text);
}

struct printer *printer_find(const char *name, struct arena *arena, struct diag *diag)
{
    http_t *server = printer_connect(arena, diag);
    if (!server)
        return NULL;
    cups_dest_t *dest = cupsGetNamedDest(server, name, NULL);
    if (!dest)
        tell_missing(server, name, arena, diag);
    cups_dinfo_t *about = dest ? cupsCopyDestInfo(server, dest) : NULL;
    if (dest && !about)
        fault(diag, arena_format(arena, "the printer '%s' does not answer", dest->name), arena);
    if (!about) {
        cupsFreeDests(dest ? 1 : 0, dest);
        httpClose(server);
        return NULL;
    }
    struct printer *printer = malloc(sizeof *printer);
    if (!printer)
        support_out_of_memory();
    *printer = (struct printer){server, dest, about};
    return printer;
}

void printer_free(struct printer *printer)
{
    if (!printer)
        return;
    cupsFreeDestInfo(printer->about);
    cupsFreeDests(1, printer->dest);
    httpClose(printer->server);
    free(printer);
}

const char *printer_name(const struct printer *printer)
{
    return printer->dest->name;
}

static bool is_near(int value, int wanted)
{
    return abs(value - wanted) <= PAPER_SLACK;
}

/* What the user or the clinic has set for this printer, else what it says itself. Not through
 * cupsGetDestMediaDefault, which takes Letter for every printer that says nothing here. */
static const char *media_name(const struct printer *printer)
{
    const char *set = cupsGetOption(CUPS_MEDIA, printer->dest->num_options, printer->dest->options);
    return set ? set
               : ippGetString(cupsFindDestDefault(printer->server, printer->dest, printer->about,
                                                  CUPS_MEDIA),
                              0, NULL);
}

const char *printer_paper(const struct printer *printer)
{
    const char *name = media_name(printer);
    pwg_media_t *media = name ? pwgMediaForPWG(name) : NULL;
    if (!media && name)
        media = pwgMediaForLegacy(name);
    for (int i = 0; i < PAPER_COUNT && media; i++)
        if (is_near(media->width, papers[i].width) && is_near(media->length, papers[i].length))
            return bind_choice_word(paper_choices, papers[i].paper);
    return NULL;
}

/* ---- printing ----------------------------------------------------------------------------------
 */

static bool can(const struct printer *printer, const char *option, const char *value)
{
    return cupsCheckDestSupported(printer->server, printer->dest, printer->about, option, value);
}

static int list_options(const struct printer *printer, const struct printer_job *job,
                        cups_option_t **options)
{
    int count = cupsAddIntegerOption(CUPS_COPIES, job->copies, 0, options);
    for (int i = 0; i < PAPER_COUNT; i++)
        if (strcmp(bind_choice_word(paper_choices, papers[i].paper), job->paper) == 0)
            count = cupsAddOption(CUPS_MEDIA, papers[i].name, count, options);
    bool both = can(printer, CUPS_SIDES, CUPS_SIDES_TWO_SIDED_PORTRAIT);
    return cupsAddOption(CUPS_SIDES, both ? CUPS_SIDES_TWO_SIDED_PORTRAIT : CUPS_SIDES_ONE_SIDED,
                         count, options);
}

/* Asked for by hand: cupsFinishDestDocument takes a line that was cut for success. */
static bool has_taken(struct printer *printer)
{
    ipp_t *answer = cupsGetResponse(printer->server, "/");
    bool good = answer && is_good(ippGetStatusCode(answer));
    ippDelete(answer);
    return good;
}

static bool send_document(struct printer *printer, int number, const struct printer_job *job)
{
    return cupsStartDestDocument(printer->server, printer->dest, printer->about, number, job->title,
                                 CUPS_FORMAT_PDF, 0, NULL, 1) == HTTP_STATUS_CONTINUE &&
           cupsWriteRequestData(printer->server, job->pdf.data, job->pdf.length) ==
               HTTP_STATUS_CONTINUE &&
           has_taken(printer);
}

/* printer-state 5 is "stopped" (RFC 8011, 5.4.11). */
static void tell_stopped(const struct printer *printer, int number, struct diag *diag)
{
    const char *state =
        cupsGetOption("printer-state", printer->dest->num_options, printer->dest->options);
    if (state && strcmp(state, "5") == 0)
        diag_report(diag, DIAG_REMARK, "printer-stopped", (struct mark){0},
                    "the printer '%s' stands still; job %d waits until it goes on",
                    printer->dest->name, number);
}

bool printer_print(struct printer *printer, const struct printer_job *job, struct arena *arena,
                   struct diag *diag, int *number)
{
    const char *doing =
        arena_format(arena, "the printer '%s' did not take the sheet", printer->dest->name);
    cups_option_t *options = NULL;
    int made = 0, count = list_options(printer, job, &options);
    ipp_status_t status = cupsCreateDestJob(printer->server, printer->dest, printer->about, &made,
                                            job->title, count, options);
    cupsFreeOptions(count, options);
    if (!is_good(status))
        return fault(diag, doing, arena);
    if (!send_document(printer, made, job)) {
        if (is_good(cupsLastError()))
            diag_report(diag, DIAG_FAULT, "cannot-print", (struct mark){0},
                        "%s: the line was cut; look whether it prints before you try again", doing);
        else
            fault(diag, doing, arena); /* before its words are lost */
        cupsCancelDestJob(printer->server, printer->dest, made);
        return false;
    }
    tell_stopped(printer, made, diag);
    *number = made;
    return true;
}
