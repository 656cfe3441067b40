/* One libharu document while it is being made: its first error, and small helpers that
 * libharu lacks. Inside the pdf layer only.
 *
 * libharu overwrites its error code with every later call, so the first is kept here and
 * everything stops at it. */
#ifndef BASKLEAF_PDF_HARU_H
#define BASKLEAF_PDF_HARU_H

#include "pdf/haru_inside.h"

#include "base/diag.h"
#include "base/strbuf.h"

struct haru {
    HPDF_Doc doc;        /* owned */
    struct arena *arena; /* borrowed: the sheet's */
    struct diag *diag;   /* borrowed */
    HPDF_STATUS error;   /* the first; HPDF_OK while all is well */
    HPDF_STATUS detail;
    bool said;                    /* the failure stands in diag already */
    struct haru_shipped *shipped; /* streams that are the same in every file */
};

/* A stream that came with the program. */
struct haru_shipped {
    HPDF_Dict dict;
    struct haru_shipped *next;
};

/* How libharu gets its memory; both NULL for malloc and free. Tests let it fail. */
struct haru_memory {
    HPDF_Alloc_Func take;
    HPDF_Free_Func give_back;
};

/* New direct objects; NULL on failure. */
HPDF_Dict haru_dict(struct haru *haru);
HPDF_Array haru_array(struct haru *haru);

/* Makes an empty document. False when libharu has no memory; haru_close is due anyway. */
bool haru_open(struct haru *haru, const struct haru_memory *memory, struct arena *arena,
               struct diag *diag);

/* Releases the document and reports its first error as DIAG_FAULT, unless something was said. */
void haru_close(struct haru *haru);

/* True while no call has failed. Notes the first error. */
bool haru_ok(struct haru *haru);

/* Reports what is wrong with the operations themselves, and returns false. */
bool haru_refuse(struct haru *haru, const char *code, const char *format, ...)
    __attribute__((format(printf, 3, 4)));

/* Appends valid UTF-8 as the hexadecimal digits of UTF-16, high byte first. */
void haru_add_utf16(struct strbuf *out, const char *text);

/* Adds a text string to a dictionary; NULL or empty text adds nothing. */
void haru_add_text(struct haru *haru, HPDF_Dict dict, const char *key, const char *text);

/* A new indirect dictionary, whose entries are `body` in PDF syntax besides those that are
 * added to it. The body is borrowed until the document is written and must hold no strings,
 * because encryption would pass them by. NULL on failure. */
HPDF_Dict haru_raw_dict(struct haru *haru);
void haru_set_body(struct haru *haru, HPDF_Dict dict, const char *body, size_t length);

/* A new indirect stream holding `data`; `deflated` says that it is a zlib stream already, which
 * came with the program and is borrowed until the file is written. */
HPDF_Dict haru_stream(struct haru *haru, const char *data, size_t length, bool deflated);

/* Has a stream hold what is deflated already. It is borrowed until the file is written. */
void haru_fill_deflated(struct haru *haru, HPDF_Dict dict, const char *data, size_t length);

/* Appends to a page's content. */
void haru_write(HPDF_Page page, const char *text, size_t length);

#endif
