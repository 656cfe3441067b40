/* Hands a finished message to libcurl and says what became of it. */
#include "mail/smtp.h"

#include <curl/curl.h>
#include <string.h>
#include <strings.h>

#include "mail/address_domain.h"
#include "records/mail_address.h"

struct upload {
    struct bytes message;
    size_t at;
};

static size_t read_message(char *buffer, size_t size, size_t count, void *context)
{
    struct upload *upload = context;
    size_t left = upload->message.length - upload->at, room = size * count;
    size_t part = left < room ? left : room;
    memcpy(buffer, upload->message.data + upload->at, part);
    upload->at += part;
    return part;
}

/* libcurl and the server speak in their own words; only the code goes on. */
static enum smtp_outcome report_outcome(const struct mail_settings *settings, CURLcode result,
                                        long code, bool all_handed_over, struct diag *diag)
{
    struct mark at = {.file = settings->file};
    if (all_handed_over && code < 400) {
        diag_report(diag, DIAG_FAULT, "mail-unsure", at,
                    "the whole message was handed over, but the server did not confirm it (%s); it "
                    "may have arrived. "
                    "It is not sent again by itself: ask the keeper, or say --resend",
                    curl_easy_strerror(result));
        return SMTP_UNSURE;
    }
    if (code >= 400 && code < 500) {
        diag_report(diag, DIAG_FAULT, "mail-later", at,
                    "the server asks to try later (%ld); nothing was sent", code);
        return SMTP_LATER;
    }
    if (code >= 500) {
        diag_report(diag, DIAG_FAULT, "mail-refused", at,
                    "the server refused the message (%ld); nothing was sent", code);
        return SMTP_NOT;
    }
    diag_report(diag, DIAG_FAULT, "mail-failed", at,
                "the server cannot be reached: %s; nothing was sent", curl_easy_strerror(result));
    return SMTP_NOT;
}

static void set_server(CURL *curl, const struct mail_settings *settings, struct arena *arena)
{
    const char *scheme = settings->tls.value == MAIL_TLS_FROM_THE_START ? "smtps" : "smtp";
    long seconds = settings->timeout_s.known ? (long)settings->timeout_s.value : 60;
    curl_easy_setopt(curl, CURLOPT_URL,
                     arena_format(arena, "%s://%s:%ld", scheme, settings->host.text,
                                  (long)settings->port.value));
    curl_easy_setopt(curl, CURLOPT_PROTOCOLS_STR, "smtp,smtps");
    curl_easy_setopt(
        curl, CURLOPT_USE_SSL,
        (long)(settings->tls.value == MAIL_TLS_NONE ? CURLUSESSL_NONE : CURLUSESSL_ALL));
    if (settings->authority.text)
        curl_easy_setopt(curl, CURLOPT_CAINFO, settings->authority.text);
    if (settings->user.text) {
        curl_easy_setopt(curl, CURLOPT_USERNAME, settings->user.text);
        curl_easy_setopt(curl, CURLOPT_PASSWORD,
                         settings->password.text ? settings->password.text : "");
    }
    curl_easy_setopt(curl, CURLOPT_CONNECTTIMEOUT, seconds);
    curl_easy_setopt(curl, CURLOPT_TIMEOUT, seconds);
    curl_easy_setopt(curl, CURLOPT_NOSIGNAL, 1L);
}

/* ---- addresses beyond ASCII ---------------------------------------------------------------- */

/* What a server says of itself: the lines of its last answer to EHLO are the ones that count, for
 * what it said before TLS began is forgotten (RFC 3207, 4.2). */
static size_t read_reply(char *line, size_t size, size_t count, void *context)
{
    bool *takes_utf8 = context;
    static const char begins_tls[] = "220", keyword[] = "SMTPUTF8";
    if (size * count >= 4 + strlen(keyword) && strncmp(line, "250", 3) == 0 &&
        strncasecmp(line + 4, keyword, strlen(keyword)) == 0)
        *takes_utf8 = true;
    else if (size * count >= 3 && strncmp(line, begins_tls, 3) == 0)
        *takes_utf8 = false;
    return size * count;
}

/* Asks before anything of the message is said, on the line that the message then takes. */
static CURLcode ask_for_utf8(CURL *curl, bool *takes_utf8)
{
    *takes_utf8 = false;
    curl_easy_setopt(curl, CURLOPT_HEADERFUNCTION, read_reply);
    curl_easy_setopt(curl, CURLOPT_HEADERDATA, takes_utf8);
    curl_easy_setopt(curl, CURLOPT_NOBODY, 1L);
    curl_easy_setopt(curl, CURLOPT_CUSTOMREQUEST, "NOOP");
    CURLcode result = curl_easy_perform(curl);
    curl_easy_setopt(curl, CURLOPT_HEADERFUNCTION, NULL);
    curl_easy_setopt(curl, CURLOPT_HEADERDATA, NULL);
    curl_easy_setopt(curl, CURLOPT_CUSTOMREQUEST, NULL);
    curl_easy_setopt(curl, CURLOPT_NOBODY, 0L);
    return result;
}

/* May these addresses be said to this server? */
static bool server_takes(CURL *curl, const struct mail_settings *settings,
                         const struct smtp_envelope *envelope, struct diag *diag,
                         enum smtp_outcome *out)
{
    bool takes_utf8, of_clinic = !mail_address_is_ascii(envelope->from);
    if (!of_clinic && mail_address_is_ascii(envelope->to))
        return true;
    CURLcode result = ask_for_utf8(curl, &takes_utf8);
    if (result != CURLE_OK) {
        long code = 0;
        curl_easy_getinfo(curl, CURLINFO_RESPONSE_CODE, &code);
        *out = report_outcome(settings, result, code, false, diag);
        return false;
    }
    if (takes_utf8)
        return true;
    diag_report(diag, DIAG_ERROR, "mail-ascii-only",
                of_clinic ? envelope->from_at : envelope->to_at,
                "the server '%s' takes no address with letters beyond ASCII (it does not announce "
                "SMTPUTF8), and '%s' has some; nothing was sent",
                settings->host.text, of_clinic ? envelope->from : envelope->to);
    *out = SMTP_NOT;
    return false;
}

/* ---- one attempt --------------------------------------------------------------------------- */

static enum smtp_outcome perform(CURL *curl, const struct mail_settings *settings,
                                 const struct upload *upload, struct diag *diag)
{
    long code = 0;
    CURLcode result = curl_easy_perform(curl);
    curl_easy_getinfo(curl, CURLINFO_RESPONSE_CODE, &code);
    if (result == CURLE_OK)
        return SMTP_SENT;
    return report_outcome(settings, result, code, upload->at == upload->message.length, diag);
}

static enum smtp_outcome send_to(CURL *curl, const struct mail_settings *settings,
                                 const struct smtp_envelope *envelope, struct bytes message,
                                 struct arena *arena, struct diag *diag)
{
    enum smtp_outcome outcome;
    struct upload upload = {.message = message};
    set_server(curl, settings, arena);
    if (!server_takes(curl, settings, envelope, diag, &outcome))
        return outcome;
    struct curl_slist *recipients =
        curl_slist_append(NULL, arena_format(arena, "<%s>", envelope->to));
    if (!recipients)
        support_out_of_memory();
    curl_easy_setopt(curl, CURLOPT_MAIL_FROM, arena_format(arena, "<%s>", envelope->from));
    curl_easy_setopt(curl, CURLOPT_MAIL_RCPT, recipients);
    curl_easy_setopt(curl, CURLOPT_READFUNCTION, read_message);
    curl_easy_setopt(curl, CURLOPT_READDATA, &upload);
    curl_easy_setopt(curl, CURLOPT_UPLOAD, 1L);
    outcome = perform(curl, settings, &upload, diag);
    curl_slist_free_all(recipients);
    return outcome;
}

enum smtp_outcome smtp_send(const struct mail_settings *settings,
                            const struct smtp_envelope *envelope, struct bytes message,
                            struct arena *arena, struct diag *diag)
{
    struct smtp_envelope sent = *envelope;
    /* what cannot be sent has no message: see message.c */
    if (!mail_address_to_send(sent.from, arena, &sent.from) ||
        !mail_address_to_send(sent.to, arena, &sent.to))
        return SMTP_NOT;
    CURL *curl = curl_easy_init();
    if (!curl)
        support_out_of_memory();
    enum smtp_outcome outcome = send_to(curl, settings, &sent, message, arena, diag);
    curl_easy_cleanup(curl);
    return outcome;
}
