/* Hands a finished message to libcurl and says what became of it. */
#include "mail/smtp.h"

#include <curl/curl.h>
#include <string.h>

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

enum smtp_outcome smtp_send(const struct mail_settings *settings, const char *from, const char *to,
                            struct bytes message, struct arena *arena, struct diag *diag)
{
    struct upload upload = {.message = message};
    CURL *curl = curl_easy_init();
    struct curl_slist *recipients = curl_slist_append(NULL, arena_format(arena, "<%s>", to));
    if (!curl || !recipients)
        support_out_of_memory();
    set_server(curl, settings, arena);
    curl_easy_setopt(curl, CURLOPT_MAIL_FROM, arena_format(arena, "<%s>", from));
    curl_easy_setopt(curl, CURLOPT_MAIL_RCPT, recipients);
    curl_easy_setopt(curl, CURLOPT_READFUNCTION, read_message);
    curl_easy_setopt(curl, CURLOPT_READDATA, &upload);
    curl_easy_setopt(curl, CURLOPT_UPLOAD, 1L);
    enum smtp_outcome outcome = perform(curl, settings, &upload, diag);
    curl_slist_free_all(recipients);
    curl_easy_cleanup(curl);
    return outcome;
}
