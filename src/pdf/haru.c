/* Small helpers over libharu's objects, and its errors as our messages. */
#include "pdf/haru.h"

#include <stdint.h>
#include <string.h>

#include "base/utf8.h"

/* What a dictionary with a ready body carries in its attr. */
struct body {
    const char *text;
    size_t length;
};

/* HPDF_Error_Handler: keeps the first. */
static void note_error(HPDF_STATUS error, HPDF_STATUS detail, void *user_data)
{
    struct haru *haru = user_data;
    if (haru->error == HPDF_OK) {
        haru->error = error;
        haru->detail = detail;
    }
}

bool haru_open(struct haru *haru, const struct haru_memory *memory, struct arena *arena,
               struct diag *diag)
{
    *haru = (struct haru){.arena = arena, .diag = diag};
    haru->doc = HPDF_NewEx(note_error, memory == NULL ? NULL : memory->take,
                           memory == NULL ? NULL : memory->give_back, 0, haru);
    if (haru->doc == NULL && haru->error == HPDF_OK)
        haru->error = HPDF_FAILD_TO_ALLOC_MEM;
    return haru_ok(haru);
}

bool haru_ok(struct haru *haru)
{
    HPDF_STATUS detail;
    HPDF_STATUS error =
        haru->error == HPDF_OK && haru->doc != NULL ? haru_doc_error(haru->doc, &detail) : HPDF_OK;
    if (error != HPDF_OK)
        note_error(error, detail, haru);
    return haru->error == HPDF_OK && !haru->said;
}

void haru_close(struct haru *haru)
{
    haru_ok(haru);
    if (haru->doc != NULL) {
        HPDF_Free(haru->doc);
        haru->doc = NULL;
    }
    if (haru->error != HPDF_OK && !haru->said) {
        const char *reason = haru->error == HPDF_FAILD_TO_ALLOC_MEM ? " (out of memory)" : "";
        diag_report(haru->diag, DIAG_FAULT, "pdf-failed", (struct mark){0},
                    "libharu cannot make the PDF: error 0x%04lX, detail %lu%s",
                    (unsigned long)haru->error, (unsigned long)haru->detail, reason);
        haru->said = true;
    }
}

bool haru_refuse(struct haru *haru, const char *code, const char *format, ...)
{
    if (!haru->said) {
        va_list args;
        va_start(args, format);
        const char *text = arena_format_list(haru->arena, format, args);
        va_end(args);
        diag_report(haru->diag, DIAG_FAULT, code, (struct mark){0}, "%s", text);
        haru->said = true;
    }
    return false;
}

/* Printable ASCII reads the same in PDFDocEncoding. */
static bool is_plain(const char *text)
{
    for (; *text != '\0'; text++)
        if (*text < 0x20 || *text > 0x7E)
            return false;
    return true;
}

/* A text string object (ISO 32000-1, 7.9.2.2): plain ASCII as it is, everything else as
 * UTF-16. NULL on failure. */
static void *haru_text(struct haru *haru, const char *text)
{
    if (is_plain(text))
        return HPDF_String_New(haru_doc_memory(haru->doc), text, NULL);
    size_t length = strlen(text), count = 2;
    uint8_t *units = arena_take(haru->arena, 2 + 2 * length);
    units[0] = 0xFE;
    units[1] = 0xFF;
    for (size_t at = 0; at < length;) {
        int code_point = utf8_next(text, length, &at);
        if (code_point < 0) {
            haru_refuse(haru, "text-not-utf8", "a text of the sheet is no valid UTF-8");
            return NULL;
        }
        if (code_point > 0xFFFF) {
            unsigned high = 0xD800u + ((unsigned)(code_point - 0x10000) >> 10);
            units[count++] = (uint8_t)(high >> 8);
            units[count++] = (uint8_t)high;
            code_point = 0xDC00 + (code_point & 0x3FF);
        }
        units[count++] = (uint8_t)(code_point >> 8);
        units[count++] = (uint8_t)code_point;
    }
    return HPDF_Binary_New(haru_doc_memory(haru->doc), units, (HPDF_UINT)count);
}

static void add_unit(struct strbuf *out, unsigned unit)
{
    static const char digits[] = "0123456789ABCDEF";
    const char hex[] = {digits[unit >> 12 & 0xF], digits[unit >> 8 & 0xF], digits[unit >> 4 & 0xF],
                        digits[unit & 0xF]};
    strbuf_add_bytes(out, hex, sizeof hex);
}

void haru_add_utf16(struct strbuf *out, const char *text)
{
    size_t length = strlen(text);
    for (size_t at = 0; at < length;) {
        unsigned code_point = (unsigned)utf8_next(text, length, &at);
        if (code_point > 0xFFFF) {
            add_unit(out, 0xD800u + ((code_point - 0x10000) >> 10));
            code_point = 0xDC00 + (code_point & 0x3FF);
        }
        add_unit(out, code_point);
    }
}

void haru_add_text(struct haru *haru, HPDF_Dict dict, const char *key, const char *text)
{
    void *string = text != NULL && *text != '\0' && dict != NULL ? haru_text(haru, text) : NULL;
    if (string != NULL)
        HPDF_Dict_Add(dict, key, string);
}

/* HPDF_Dict_OnWriteFunc: libharu calls it before the closing ">>". */
static HPDF_STATUS write_body(HPDF_Dict dict, HPDF_Stream stream)
{
    const struct body *body = haru_dict_attr(dict);
    if (body == NULL)
        return HPDF_OK;
    return HPDF_Stream_Write(stream, (const HPDF_BYTE *)body->text, (HPDF_UINT)body->length);
}

HPDF_Dict haru_dict(struct haru *haru)
{
    return HPDF_Dict_New(haru_doc_memory(haru->doc));
}

HPDF_Array haru_array(struct haru *haru)
{
    return HPDF_Array_New(haru_doc_memory(haru->doc));
}

HPDF_Dict haru_raw_dict(struct haru *haru)
{
    HPDF_Dict dict = haru_dict(haru);
    if (dict == NULL || HPDF_Xref_Add(haru_doc_xref(haru->doc), dict) != HPDF_OK)
        return NULL;
    haru_dict_set_writer(dict, write_body);
    return dict;
}

void haru_set_body(struct haru *haru, HPDF_Dict dict, const char *body, size_t length)
{
    struct body *kept = ARENA_NEW(haru->arena, struct body);
    kept->text = body;
    kept->length = length;
    haru_dict_set_attr(dict, kept);
}

/* ---- bytes that a stream lends ---- */

/* They are read where they lie: libharu would copy them twice, a byte at a time. */
struct lent {
    const char *data;
    size_t length, at;
};

/* HPDF_Stream_Read_Func. */
static HPDF_STATUS read_lent(HPDF_Stream stream, HPDF_BYTE *out, HPDF_UINT *size)
{
    struct lent *lent = haru_stream_attr(stream);
    const size_t left = lent->length - lent->at;
    const bool ends = left <= *size;
    *size = ends ? (HPDF_UINT)left : *size;
    memcpy(out, lent->data + lent->at, *size);
    lent->at += *size;
    return ends ? HPDF_STREAM_EOF : HPDF_OK;
}

/* HPDF_Stream_Seek_Func: libharu goes to the start alone. */
static HPDF_STATUS seek_lent(HPDF_Stream stream, HPDF_INT at, HPDF_WhenceMode mode)
{
    struct lent *lent = haru_stream_attr(stream);
    if (mode != HPDF_SEEK_SET || at < 0 || (size_t)at > lent->length)
        return HPDF_INVALID_PARAMETER;
    lent->at = (size_t)at;
    return HPDF_OK;
}

static HPDF_INT32 tell_lent(HPDF_Stream stream)
{
    return (HPDF_INT32)((struct lent *)haru_stream_attr(stream))->at;
}

static HPDF_UINT32 size_lent(HPDF_Stream stream)
{
    return (HPDF_UINT32)((struct lent *)haru_stream_attr(stream))->length;
}

static void lend(struct haru *haru, HPDF_Dict dict, const char *data, size_t length)
{
    struct lent *lent = ARENA_NEW(haru->arena, struct lent);
    *lent = (struct lent){data, length, 0};
    HPDF_Stream stream = HPDF_CallbackReader_New(haru_doc_memory(haru->doc), read_lent, seek_lent,
                                                 tell_lent, size_lent, lent);
    if (stream != NULL)
        haru_dict_set_stream(dict, stream);
}

void haru_fill_deflated(struct haru *haru, HPDF_Dict dict, const char *data, size_t length)
{
    /* libharu takes a Filter entry out of a stream that it does not deflate itself, so this one
     * is written behind its back */
    static const char filter[] = "/Filter /FlateDecode\n";
    lend(haru, dict, data, length);
    haru_dict_set_deflates(dict, false);
    haru_dict_set_writer(dict, write_body);
    haru_set_body(haru, dict, filter, sizeof filter - 1);
}

HPDF_Dict haru_stream(struct haru *haru, const char *data, size_t length, bool deflated)
{
    HPDF_Dict dict = HPDF_DictStream_New(haru_doc_memory(haru->doc), haru_doc_xref(haru->doc));
    if (dict == NULL)
        return NULL;
    if (deflated) {
        struct haru_shipped *shipped = ARENA_NEW(haru->arena, struct haru_shipped);
        *shipped = (struct haru_shipped){dict, haru->shipped};
        haru->shipped = shipped;
        haru_fill_deflated(haru, dict, data, length);
    } else {
        HPDF_Stream_Write(haru_dict_stream(dict), (const HPDF_BYTE *)data, (HPDF_UINT)length);
    }
    return haru_ok(haru) ? dict : NULL;
}

void haru_write(HPDF_Page page, const char *text, size_t length)
{
    HPDF_Stream_Write(haru_page_content(page), (const HPDF_BYTE *)text, (HPDF_UINT)length);
}
