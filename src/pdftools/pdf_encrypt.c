/* Locks a finished PDF with a password through libqpdf. */
#include "pdftools/pdf_encrypt.h"

#include <qpdf/qpdf-c.h>

static bool write_encrypted(qpdf_data pdf, struct bytes plain, const char *password)
{
    if ((qpdf_read_memory(pdf, "sheet", plain.data, plain.length, NULL) & QPDF_ERRORS) ||
        (qpdf_init_write_memory(pdf) & QPDF_ERRORS))
        return false;
    qpdf_set_stream_data_mode(pdf, qpdf_s_preserve);
    /* an empty owner's password would open the file for everybody */
    qpdf_set_r6_encryption_parameters2(pdf, password, password, QPDF_TRUE, QPDF_TRUE, QPDF_TRUE,
                                       QPDF_TRUE, QPDF_TRUE, QPDF_TRUE, qpdf_r3p_full, QPDF_TRUE);
    return !qpdf_has_error(pdf) && !(qpdf_write(pdf) & QPDF_ERRORS);
}

bool pdf_encrypt(struct bytes pdf, const char *password, struct arena *arena, struct diag *diag,
                 struct bytes *out)
{
    qpdf_data writer = qpdf_init();
    qpdf_silence_errors(writer);
    qpdf_set_suppress_warnings(writer, QPDF_TRUE);
    bool good = write_encrypted(writer, pdf, password);
    if (good) {
        size_t length = qpdf_get_buffer_length(writer);
        const char *data = (const char *)qpdf_get_buffer(writer);
        *out = (struct bytes){arena_copy_bytes(arena, data, length), length};
        diag_report(diag, DIAG_REMARK, "not-archival", (struct mark){0},
                    "with a password the PDF is no longer archival (PDF/A), and no two runs give "
                    "the same bytes");
    } else {
        diag_report(diag, DIAG_FAULT, "cannot-lock", (struct mark){0},
                    "the PDF could not be given a password");
    }
    qpdf_cleanup(&writer);
    return good;
}
