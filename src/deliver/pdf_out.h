/* The outside of a PDF written from front to back: objects, their places, the table and the trailer
 * (ISO 32000-1, 7.5). Knows nothing of what the objects hold. */
#ifndef BASKLEAF_DELIVER_PDF_OUT_H
#define BASKLEAF_DELIVER_PDF_OUT_H

#include <nettle/sha2.h>
#include <stdint.h>
#include <stdio.h>

#include "support/diag.h"

struct pdf_out {
    const char *path;
    char *temporary; /* owned */
    FILE *file;
    uint64_t length;    /* bytes so far */
    uint64_t *places;   /* by object number, 0: not yet written */
    size_t count, room; /* numbers given out, counted from 1 */
    struct sha256_ctx sum;
};

/* Begins a hidden file beside `path` (borrowed). False after a DIAG_FAULT; nothing is held then. */
bool pdf_out_begin(struct pdf_out *out, const char *path, struct diag *diag);

/* A number for an object that is written later. */
size_t pdf_out_number(struct pdf_out *out);

/* From here on what is put belongs to the object `number`, until pdf_out_end_object. */
void pdf_out_object(struct pdf_out *out, size_t number);
void pdf_out_end_object(struct pdf_out *out);
void pdf_out_put(struct pdf_out *out, const char *bytes, size_t length);
void pdf_out_format(struct pdf_out *out, const char *format, ...)
    __attribute__((format(printf, 2, 3)));

/* The table and the trailer, whose identifier is a digest of the content; fsync and rename. Frees.
 * False after a DIAG_FAULT, also for what failed since the beginning; the file is then gone and an
 * earlier one untouched. */
bool pdf_out_finish(struct pdf_out *out, size_t root, size_t info, struct diag *diag);

/* Removes the hidden file. Frees. */
void pdf_out_abandon(struct pdf_out *out);

#endif
