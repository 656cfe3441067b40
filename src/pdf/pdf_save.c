/* Writes the objects, small ones packed into streams, the table of places and the identifier. */
#include "pdf/pdf_save.h"

#include <nettle/md5.h>
#include <string.h>

#include "pdf/deflate.h"
#include "base/strbuf.h"
#include "base/hex.h"

/* What a file takes at first, and what an object does that is packed. */
enum { FILE_ROOM_BYTES = 64 * 1024, OBJECT_ROOM_BYTES = 80 };

/* PDF 1.7 with a second line of four bytes over 127 (ISO 19005-2, 6.1.2). */
static const char header[] = "%PDF-1.7\n%\xE2\xE3\xCF\xD3\n";

static const char no_identifier[] = "00000000000000000000000000000000";

/* A file that grows in the arena. */
struct output {
    struct arena *arena;
    char *data; /* NUL after the last byte */
    size_t length, room;
};

/* HPDF_Stream_Write_Func: appends. */
static HPDF_STATUS append(HPDF_Stream stream, const HPDF_BYTE *bytes, HPDF_UINT size)
{
    struct output *file = haru_stream_attr(stream);
    if (size >= file->room - file->length) {
        size_t room =
            2 * file->room > file->length + size ? 2 * file->room : file->length + size + 1;
        char *moved = arena_take_unset(file->arena, room);
        memcpy(moved, file->data, file->length);
        file->data = moved;
        file->room = room;
    }
    memcpy(file->data + file->length, bytes, size);
    file->length += size;
    file->data[file->length] = '\0';
    return HPDF_OK;
}

/* An output, and the stream that libharu writes to it. False when there is no memory. */
static bool open_output(struct haru *haru, struct output *out, HPDF_Stream *stream, size_t room)
{
    *out = (struct output){
        .arena = haru->arena, .data = arena_take_unset(haru->arena, room), .room = room};
    out->data[0] = '\0';
    *stream = HPDF_CallbackWriter_New(haru_doc_memory(haru->doc), append, out);
    return *stream != NULL;
}

static void note(struct haru *haru, HPDF_STATUS status)
{
    if (status != HPDF_OK && haru_ok(haru))
        haru->error = status;
}

/* ---- packed objects -------------------------------------------------------------------- */

/* Where an object stands: at an offset of the file, or in the pack. */
struct place {
    bool is_packed;
    size_t at; /* offset, or index in the pack */
};

struct saving {
    struct haru *haru;
    struct output file;
    HPDF_Stream stream; /* to the file */
    struct place *places;
    size_t count; /* of objects, the free one at the head of the list included */
    size_t packed;
    struct strbuf index; /* of the pack: number and offset of each */
    struct output pack;
    struct md5_ctx digest; /* of the file, without what came with the program */
    size_t digested;       /* up to here */
};

static void *object_at(const struct saving *s, size_t number)
{
    return haru_object(s->haru->doc, number);
}

/* Dictionaries without a stream, but not the page tree: who repairs a broken file looks for it. */
static bool may_be_packed(const struct saving *s, const void *object)
{
    HPDF_Doc doc = s->haru->doc;
    return haru_is_dict(object) && haru_dict_stream(object) == NULL && !haru_is_page(object) &&
           object != haru_doc_catalog(doc) && object != haru_doc_info(doc);
}

/* Tags are most of a file's objects and alike, so they are written into one stream that is
 * deflated as a whole (ISO 32000-1, 7.5.7). */
static bool pack_objects(struct saving *s)
{
    HPDF_Stream stream;
    if (!open_output(s->haru, &s->pack, &stream, s->count * OBJECT_ROOM_BYTES))
        return false;
    strbuf_init(&s->index, s->haru->arena);
    for (size_t number = 1; number < s->count; number++) {
        void *object = object_at(s, number);
        if (!may_be_packed(s, object))
            continue;
        s->places[number] = (struct place){.is_packed = true, .at = s->packed++};
        strbuf_add_number(&s->index, number);
        strbuf_add_char(&s->index, ' ');
        strbuf_add_number(&s->index, s->pack.length);
        strbuf_add_char(&s->index, '\n');
        note(s->haru, HPDF_Obj_WriteValue(object, stream, NULL));
        HPDF_Stream_WriteStr(stream, "\n");
    }
    HPDF_Stream_Free(stream);
    return haru_ok(s->haru);
}

/* ---- the file -------------------------------------------------------------------------- */

/* An object that libharu does not know: a dictionary's entries, and what its stream holds. */
static bool write_packed(struct saving *s, size_t number, const char *entries,
                         const struct bytes *pieces, size_t count)
{
    struct bytes packed;
    if (!deflate_stream(pieces, count, s->haru->arena, &packed)) {
        note(s->haru, HPDF_FAILD_TO_ALLOC_MEM);
        return false;
    }
    HPDF_Stream_WriteStr(
        s->stream,
        arena_format(s->haru->arena,
                     "%zu 0 obj\n<<\n%s\n/Filter /FlateDecode\n/Length %zu\n>>\nstream\n", number,
                     entries, packed.length));
    HPDF_Stream_Write(s->stream, (const HPDF_BYTE *)packed.data, (HPDF_UINT)packed.length);
    HPDF_Stream_WriteStr(s->stream, "\nendstream\nendobj\n");
    return haru_ok(s->haru);
}

/* Deflates a stream that libharu would deflate. */
static void pack_stream(struct saving *s, HPDF_Dict dict)
{
    HPDF_UINT count = HPDF_MemStream_GetBufCount(haru_dict_stream(dict));
    struct bytes *pieces = ARENA_ARRAY(s->haru->arena, struct bytes, count + 1);
    struct bytes packed;
    for (HPDF_UINT i = 0; i < count; i++) {
        HPDF_UINT length = 0;
        pieces[i].data = (const char *)HPDF_MemStream_GetBufPtr(haru_dict_stream(dict), i, &length);
        pieces[i].length = length;
    }
    if (!deflate_stream(pieces, count, s->haru->arena, &packed)) {
        note(s->haru, HPDF_FAILD_TO_ALLOC_MEM);
        return;
    }
    haru_fill_deflated(s->haru, dict, packed.data, packed.length);
}

static void pack_streams(struct saving *s)
{
    for (size_t number = 1; number < s->count && haru_ok(s->haru); number++) {
        HPDF_Dict dict = object_at(s, number);
        if (haru_is_dict(dict) && haru_dict_stream(dict) != NULL && haru_dict_deflates(dict))
            pack_stream(s, dict);
    }
}

/* What was written since the last time. */
static void digest_written(struct saving *s)
{
    md5_update(&s->digest, s->file.length - s->digested,
               (const uint8_t *)s->file.data + s->digested);
    s->digested = s->file.length;
}

static bool is_shipped(const struct haru *haru, const void *object)
{
    const struct haru_shipped *one = haru->shipped;
    while (one != NULL && one->dict != object)
        one = one->next;
    return one != NULL;
}

/* Fonts and the profile of colours are half of the file. Whoever draws a file names its fonts by
 * what is in them, so that these need not be looked through. */
static void write_objects(struct saving *s)
{
    for (size_t number = 1; number < s->count && haru_ok(s->haru); number++) {
        if (s->places[number].is_packed)
            continue;
        s->places[number].at = s->file.length;
        HPDF_Stream_WriteStr(s->stream, arena_format(s->haru->arena, "%zu 0 obj\n", number));
        digest_written(s);
        note(s->haru, HPDF_Obj_WriteValue(object_at(s, number), s->stream, NULL));
        if (is_shipped(s->haru, object_at(s, number)))
            s->digested = s->file.length;
        HPDF_Stream_WriteStr(s->stream, "\nendobj\n");
    }
}

static bool write_pack(struct saving *s)
{
    const struct bytes pieces[] = {{.data = s->index.text, .length = s->index.length},
                                   {.data = s->pack.data, .length = s->pack.length}};
    return write_packed(s, s->count,
                        arena_format(s->haru->arena, "/Type /ObjStm\n/N %zu\n/First %zu", s->packed,
                                     s->index.length),
                        pieces, 2);
}

enum { OFFSET_BYTES = 4, INDEX_BYTES = 2 };

static void add_row(struct strbuf *rows, unsigned type, size_t second, size_t third)
{
    char row[1 + OFFSET_BYTES + INDEX_BYTES], *at = row;
    *at++ = (char)type;
    for (int i = OFFSET_BYTES - 1; i >= 0; i--)
        *at++ = (char)(second >> (8 * i) & 0xFF);
    for (int i = INDEX_BYTES - 1; i >= 0; i--)
        *at++ = (char)(third >> (8 * i) & 0xFF);
    strbuf_add_bytes(rows, row, sizeof row);
}

/* The cross-reference stream (ISO 32000-1, 7.5.8), with zeros for the identifier. */
static bool write_references(struct saving *s, size_t pack_at)
{
    enum { FREE, PLAIN, PACKED };
    size_t own_at = s->file.length, pack = s->count, own = s->count + 1;
    struct strbuf rows;
    strbuf_init(&rows, s->haru->arena);
    add_row(&rows, FREE, 0, 65535);
    for (size_t number = 1; number < s->count; number++) {
        const struct place *place = &s->places[number];
        add_row(&rows, place->is_packed ? PACKED : PLAIN, place->is_packed ? pack : place->at,
                place->is_packed ? place->at : 0);
    }
    add_row(&rows, PLAIN, pack_at, 0);
    add_row(&rows, PLAIN, own_at, 0);
    const char *entries = arena_format(
        s->haru->arena,
        "/Type /XRef\n/Size %zu\n/W [1 %d %d]\n/Root %u 0 R\n/Info %u 0 R\n"
        "/ID [ <%s> <%s> ]",
        own + 1, OFFSET_BYTES, INDEX_BYTES, haru_number(haru_doc_catalog(s->haru->doc)),
        haru_number(haru_doc_info(s->haru->doc)), no_identifier, no_identifier);
    const struct bytes table = {.data = rows.text, .length = rows.length};
    if (!write_packed(s, own, entries, &table, 1))
        return false;
    HPDF_Stream_WriteStr(s->stream,
                         arena_format(s->haru->arena, "startxref\n%zu\n%%%%EOF\n", own_at));
    return true;
}

/* Writes everything once. *digest: MD5, which tells files apart and keeps no secret. False on
 * failure. */
static bool write_all(struct haru *haru, struct output *out, HPDF_BYTE digest[HPDF_ID_LEN])
{
    struct saving s = {.haru = haru, .count = haru_object_count(haru->doc)};
    md5_init(&s.digest);
    s.places = ARENA_ARRAY(haru->arena, struct place, s.count);
    pack_streams(&s);
    if (!pack_objects(&s) || !open_output(haru, &s.file, &s.stream, FILE_ROOM_BYTES))
        return false;
    HPDF_Stream_WriteStr(s.stream, header);
    write_objects(&s);
    size_t pack_at = s.file.length;
    bool good = haru_ok(haru) && write_pack(&s) && write_references(&s, pack_at);
    HPDF_Stream_Free(s.stream);
    digest_written(&s);
    md5_digest(&s.digest, HPDF_ID_LEN, digest);
    *out = s.file;
    /* none that came up while others were written would be in the file */
    if (good && haru_object_count(haru->doc) != s.count)
        return haru_refuse(haru, "object-came-late", "libharu made an object while it was saving");
    return good;
}

/* ---- the identifier -------------------------------------------------------------------- */

/* Puts the identifier over the zeros that stood for it, in the last object. */
static void patch_identifier(struct output *file, const char *lasting, const char *content)
{
    static const char start[] = "/ID [ <";
    size_t at = file->length - (sizeof start - 1);
    while (at > 0 && memcmp(file->data + at, start, sizeof start - 1) != 0)
        at--;
    for (int half = 0; half < 2; half++) {
        char *zeros = strstr(file->data + at, no_identifier);
        if (zeros != NULL)
            memcpy(zeros, half == 0 ? lasting : content, 2 * HPDF_ID_LEN);
    }
}

bool save_document(struct haru *haru, const char *lasting, struct bytes *out)
{
    HPDF_BYTE identifier[HPDF_ID_LEN];
    char hex[2 * HPDF_ID_LEN + 1];
    struct output file;
    if (!haru_ok(haru) || !write_all(haru, &file, identifier))
        return false;
    hex_write(hex, identifier, HPDF_ID_LEN, HEX_CAPITAL);
    patch_identifier(&file, lasting != NULL && strlen(lasting) == 2 * HPDF_ID_LEN ? lasting : hex,
                     hex);
    *out = (struct bytes){.data = file.data, .length = file.length};
    return true;
}
