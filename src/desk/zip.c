/* Writes local headers, the files, and the central directory. */
#include "desk/zip.h"

#include <stdint.h>
#include <string.h>
#include <zlib.h>

enum { ZIP_VERSION = 20, ZIP_DAY = (1 << 5) | 1 }; /* 1980-01-01, the format's first day */

static void add_number(struct strbuf *out, uint32_t value, int bytes)
{
    for (int i = 0; i < bytes; i++)
        strbuf_add_char(out, (char)(unsigned char)(value >> (8 * i) & 0xff));
}

static uint32_t crc_of(struct bytes bytes)
{
    return (uint32_t)crc32_z(0, (const Bytef *)bytes.data, bytes.length);
}

/* What the header before a file and its row in the directory share. */
static void add_about(struct strbuf *out, const struct zip_file *file, uint32_t crc)
{
    add_number(out, ZIP_VERSION, 2);
    add_number(out, 0, 2); /* no flags */
    add_number(out, 0, 2); /* stored */
    add_number(out, 0, 2); /* midnight */
    add_number(out, ZIP_DAY, 2);
    add_number(out, crc, 4);
    add_number(out, (uint32_t)file->content.length, 4);
    add_number(out, (uint32_t)file->content.length, 4);
    add_number(out, (uint32_t)strlen(file->name), 2);
    add_number(out, 0, 2); /* nothing extra */
}

void zip_write(const struct zip_file *files, size_t count, struct strbuf *out)
{
    uint32_t *places = ARENA_ARRAY(out->arena, uint32_t, count + 1);
    uint32_t *sums = ARENA_ARRAY(out->arena, uint32_t, count + 1);
    for (size_t i = 0; i < count; i++) {
        places[i] = (uint32_t)out->length;
        sums[i] = crc_of(files[i].content);
        add_number(out, 0x04034b50, 4);
        add_about(out, &files[i], sums[i]);
        strbuf_add(out, files[i].name);
        strbuf_add_bytes(out, files[i].content.data, files[i].content.length);
    }
    uint32_t directory = (uint32_t)out->length;
    for (size_t i = 0; i < count; i++) {
        add_number(out, 0x02014b50, 4);
        add_number(out, ZIP_VERSION, 2);
        add_about(out, &files[i], sums[i]);
        add_number(out, 0, 2); /* no remark */
        add_number(out, 0, 2); /* first disk */
        add_number(out, 0, 2); /* binary */
        add_number(out, 0, 4);
        add_number(out, places[i], 4);
        strbuf_add(out, files[i].name);
    }
    uint32_t length = (uint32_t)out->length - directory;
    add_number(out, 0x06054b50, 4);
    add_number(out, 0, 4); /* this disk and the directory's: the first */
    add_number(out, (uint32_t)count, 2);
    add_number(out, (uint32_t)count, 2);
    add_number(out, length, 4);
    add_number(out, directory, 4);
    add_number(out, 0, 2);
}
