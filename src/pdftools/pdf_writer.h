/* The outside of a PDF written from front to back: objects, their places, the table and the trailer
 * (ISO 32000-1, 7.5). Knows nothing of what the objects hold. */
#ifndef BASKLEAF_PDFTOOLS_PDF_WRITER_H
#define BASKLEAF_PDFTOOLS_PDF_WRITER_H

#include <nettle/sha2.h>
#include <stdint.h>
#include <stdio.h>

#include "base/file_writer.h"

struct pdf_writer {
    struct file_writer writer;
    FILE *file;         /* over the writer's file; NULL: none */
    uint64_t length;    /* bytes so far */
    uint64_t *places;   /* by object number, 0: not yet written */
    size_t count, room; /* numbers given out, counted from 1 */
    struct sha256_ctx sum;
};

/* Begins a hidden file beside `path` (borrowed). False after a DIAG_FAULT; nothing is held then. */
bool pdf_writer_begin(struct pdf_writer *out, const char *path, struct diag *diag);

/* A number for an object that is written later. */
size_t pdf_writer_number(struct pdf_writer *out);

/* From here on what is put belongs to the object `number`, until pdf_writer_end_object. */
void pdf_writer_object(struct pdf_writer *out, size_t number);
void pdf_writer_end_object(struct pdf_writer *out);
void pdf_writer_put(struct pdf_writer *out, const char *bytes, size_t length);
void pdf_writer_format(struct pdf_writer *out, const char *format, ...)
    __attribute__((format(printf, 2, 3)));

/* The table and the trailer, whose identifier is a digest of the content; fsync and rename. Frees.
 * False after a DIAG_FAULT, also for what failed since the beginning; the file is then gone and an
 * earlier one untouched. */
bool pdf_writer_finish(struct pdf_writer *out, size_t root, size_t info, struct diag *diag);

/* Removes the hidden file. Frees. */
void pdf_writer_abandon(struct pdf_writer *out);

#endif
