/* Numbers objects, remembers where each begins, and ends the file. */
#include "pdftools/pdf_writer.h"

#include <errno.h>
#include <fcntl.h>
#include <inttypes.h>
#include <stdarg.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "base/hex.h"

/* The most that the ten digits of the table hold. */
static const uint64_t places_end = 10000000000;

static bool fault(struct pdf_writer *out, const char *doing, int error, struct diag *diag)
{
    diag_report(diag, DIAG_FAULT, "cannot-write", (struct mark){.file = out->writer.path},
                "%s failed: %s; nothing was written under this name", doing, strerror(error));
    return false;
}

static void release(struct pdf_writer *out)
{
    file_writer_abandon(&out->writer);
    free(out->places);
    out->places = NULL;
    out->file = NULL;
}

bool pdf_writer_begin(struct pdf_writer *out, const char *path, struct diag *diag)
{
    static const char header[] = "%PDF-1.7\n%\xE2\xE3\xCF\xD3\n";
    *out = (struct pdf_writer){0};
    /* it holds keepers' names: others on the machine need not read it */
    if (!file_writer_begin(&out->writer, path, 0640, diag))
        return false;
    int fd = fcntl(out->writer.fd, F_DUPFD_CLOEXEC, 0);
    out->file = fd >= 0 ? fdopen(fd, "wb") : NULL;
    if (!out->file) {
        fault(out, "making the file", errno, diag);
        if (fd >= 0)
            close(fd);
        release(out);
        return false;
    }
    sha256_init(&out->sum);
    pdf_writer_put(out, header, sizeof header - 1);
    return true;
}

size_t pdf_writer_number(struct pdf_writer *out)
{
    if (out->count + 1 >= out->room) {
        size_t room = out->room ? out->room * 2 : 1024;
        uint64_t *moved = realloc(out->places, room * sizeof *moved);
        if (!moved)
            support_out_of_memory();
        memset(moved + out->room, 0, (room - out->room) * sizeof *moved);
        out->places = moved;
        out->room = room;
    }
    return ++out->count;
}

void pdf_writer_put(struct pdf_writer *out, const char *bytes, size_t length)
{
    fwrite(bytes, 1, length, out->file); /* the stream remembers a failure */
    sha256_update(&out->sum, length, (const uint8_t *)bytes);
    out->length += length;
}

void pdf_writer_format(struct pdf_writer *out, const char *format, ...)
{
    char line[256];
    va_list arguments;
    va_start(arguments, format);
    int length = vsnprintf(line, sizeof line, format, arguments);
    va_end(arguments);
    if (length > 0 && (size_t)length < sizeof line)
        pdf_writer_put(out, line, (size_t)length);
}

void pdf_writer_object(struct pdf_writer *out, size_t number)
{
    out->places[number] = out->length;
    pdf_writer_format(out, "%zu 0 obj\n", number);
}

void pdf_writer_end_object(struct pdf_writer *out)
{
    pdf_writer_format(out, "\nendobj\n");
}

static void put_table(struct pdf_writer *out, size_t root, size_t info)
{
    uint8_t sum[SHA256_DIGEST_SIZE];
    char id[33];
    uint64_t table = out->length;
    sha256_digest(&out->sum, sizeof sum, sum);
    sha256_init(&out->sum);
    hex_write(id, sum, 16, HEX_SMALL);
    pdf_writer_format(out, "xref\n0 %zu\n0000000000 65535 f \n", out->count + 1);
    for (size_t i = 1; i <= out->count; i++)
        pdf_writer_format(out, "%010" PRIu64 " 00000 n \n", out->places[i]);
    pdf_writer_format(out, "trailer\n<< /Size %zu /Root %zu 0 R /Info %zu 0 R /ID [<%s> <%s>] >>\n",
                      out->count + 1, root, info, id, id);
    pdf_writer_format(out, "startxref\n%" PRIu64 "\n%%%%EOF\n", table);
}

/* Everything out of the stream's memory into the file. */
static bool close_stream(struct pdf_writer *out, bool failed_before, int error, struct diag *diag)
{
    bool too_long = out->length >= places_end;
    bool is_whole = fflush(out->file) == 0 && !failed_before;
    if (!failed_before)
        error = errno;
    bool is_closed = fclose(out->file) == 0;
    out->file = NULL;
    if (too_long || !is_whole)
        return fault(out, "writing", too_long ? EFBIG : error, diag);
    return is_closed || fault(out, "closing", errno, diag);
}

bool pdf_writer_finish(struct pdf_writer *out, size_t root, size_t info, struct diag *diag)
{
    bool failed_before = ferror(out->file);
    int error = errno;
    put_table(out, root, info);
    bool good = close_stream(out, failed_before, error, diag) &&
                file_writer_finish(&out->writer, true, diag);
    release(out);
    return good;
}

void pdf_writer_abandon(struct pdf_writer *out)
{
    if (!out->file)
        return;
    fclose(out->file);
    release(out);
}
