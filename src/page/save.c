#include "page/save.h"

#include <stdio.h>
#include <string.h>

enum { OUTPUT_ROOM_BYTES = 128 * 1024 };

/* PDF 1.7 with a second line of four bytes over 127 (ISO 19005-2, 6.1.2). */
static const char header[] = "%PDF-1.7\n%\xE2\xE3\xCF\xD3\n";

/* Sets the trailer's ID, both halves alike. */
static void set_identifier(struct haru *haru, HPDF_BYTE identifier[HPDF_ID_LEN])
{
    HPDF_MMgr memory = haru->doc->mmgr;
    HPDF_Array pair = HPDF_Array_New(memory);
    if (pair != NULL) {
        HPDF_Array_Add(pair, HPDF_Binary_New(memory, identifier, HPDF_ID_LEN));
        HPDF_Array_Add(pair, HPDF_Binary_New(memory, identifier, HPDF_ID_LEN));
        HPDF_Dict_Add(haru->doc->trailer, "ID", pair);
    }
}

/* A file that grows in the arena. */
struct output {
    struct arena *arena;
    char *data; /* NUL after the last byte */
    size_t length, room;
};

/* HPDF_Stream_Write_Func: appends. */
static HPDF_STATUS append(HPDF_Stream stream, const HPDF_BYTE *bytes, HPDF_UINT size)
{
    struct output *file = stream->attr;
    if (size >= file->room - file->length) {
        size_t room =
            2 * file->room > file->length + size ? 2 * file->room : file->length + size + 1;
        char *moved = arena_take(file->arena, room);
        memcpy(moved, file->data, file->length);
        file->data = moved;
        file->room = room;
    }
    memcpy(file->data + file->length, bytes, size);
    file->length += size;
    file->data[file->length] = '\0';
    return HPDF_OK;
}

/* Writes everything once. False on failure. */
static bool write_all(struct haru *haru, struct output *out)
{
    *out = (struct output){.arena = haru->arena,
                           .data = arena_take(haru->arena, OUTPUT_ROOM_BYTES),
                           .room = OUTPUT_ROOM_BYTES};
    HPDF_Stream stream = HPDF_CallbackWriter_New(haru->doc->mmgr, append, out);
    if (stream == NULL) {
        return false;
    }
    HPDF_Stream_WriteStr(stream, header);
    HPDF_STATUS status = HPDF_Xref_WriteToStream(haru->doc->xref, stream, NULL);
    if (status != HPDF_OK && haru_ok(haru)) {
        haru->error = status;
    }
    HPDF_Stream_Free(stream);
    return haru_ok(haru);
}

/* MD5: it tells files apart and keeps no secret. */
static void digest(const char *data, size_t length, HPDF_BYTE identifier[HPDF_ID_LEN])
{
    HPDF_MD5_CTX context;
    HPDF_MD5Init(&context);
    HPDF_MD5Update(&context, (const HPDF_BYTE *)data, (HPDF_UINT32)length);
    HPDF_MD5Final(identifier, &context);
}

/* As capital hexadecimal digits, ended by NUL. */
static void to_hex(const HPDF_BYTE identifier[HPDF_ID_LEN], char hex[2 * HPDF_ID_LEN + 1])
{
    for (int i = 0; i < HPDF_ID_LEN; i++) {
        snprintf(hex + 2 * i, 3, "%02X", identifier[i]);
    }
}

/* Puts the identifier over the zeros that stood for it in the trailer. */
static void patch_identifier(struct output *file, const HPDF_BYTE identifier[HPDF_ID_LEN])
{
    static const char zeros[] = "00000000000000000000000000000000", start[] = "\ntrailer\n";
    char hex[2 * HPDF_ID_LEN + 1];
    to_hex(identifier, hex);
    size_t at = file->length - (sizeof start - 1);
    while (at > 0 && memcmp(file->data + at, start, sizeof start - 1) != 0) {
        at--;
    }
    for (char *id = strstr(file->data + at, zeros); id != NULL; id = strstr(id, zeros)) {
        memcpy(id, hex, 2 * HPDF_ID_LEN);
    }
}

bool save_document(struct haru *haru, struct bytes *out)
{
    HPDF_Doc doc = haru->doc;
    HPDF_BYTE identifier[HPDF_ID_LEN] = {0};
    struct output file;
    HPDF_Dict_Add(doc->trailer, "Root", doc->catalog);
    HPDF_Dict_Add(doc->trailer, "Info", doc->info);
    set_identifier(haru, identifier);
    if (!haru_ok(haru) || !write_all(haru, &file)) {
        return false;
    }
    digest(file.data, file.length, identifier);
    patch_identifier(&file, identifier);
    *out = (struct bytes){.data = file.data, .length = file.length};
    return true;
}
