/* Compresses a stream with libdeflate, else with zlib, into a buffer of the document. */
#include "pdf/deflate.h"

#include <string.h>

#ifdef BASKLEAF_WITH_LIBDEFLATE

#include <libdeflate.h>

/* It takes one piece alone. */
static struct bytes join(const struct bytes *pieces, size_t count, struct arena *arena)
{
    size_t length = 0, at = 0;
    for (size_t i = 0; i < count; i++)
        length += pieces[i].length;
    char *joined = arena_take_unset(arena, length);
    for (size_t i = 0; i < count; at += pieces[i++].length)
        memcpy(joined + at, pieces[i].data, pieces[i].length);
    return (struct bytes){.data = joined, .length = length};
}

bool deflate_stream(const struct bytes *pieces, size_t count, struct arena *arena,
                    struct bytes *out)
{
    enum { FASTEST = 1 };
    const struct bytes all = count == 1 ? pieces[0] : join(pieces, count, arena);
    struct libdeflate_compressor *compressor = libdeflate_alloc_compressor(FASTEST);
    if (!compressor)
        return false;
    const size_t room = libdeflate_zlib_compress_bound(compressor, all.length);
    char *deflated = arena_take_unset(arena, room);
    const size_t length =
        libdeflate_zlib_compress(compressor, all.data, all.length, deflated, room);
    libdeflate_free_compressor(compressor);
    *out = (struct bytes){.data = deflated, .length = length};
    return length > 0;
}

#else

#define ZLIB_CONST
#include <zlib.h>

bool deflate_stream(const struct bytes *pieces, size_t count, struct arena *arena,
                    struct bytes *out)
{
    z_stream stream = {0};
    size_t length = 0;
    for (size_t i = 0; i < count; i++)
        length += pieces[i].length;
    if (deflateInit(&stream, Z_BEST_SPEED) != Z_OK)
        return false;
    uLong room = deflateBound(&stream, (uLong)length);
    char *deflated = arena_take_unset(arena, room);
    stream.next_out = (Bytef *)deflated;
    stream.avail_out = (uInt)room;
    int status = Z_OK;
    for (size_t i = 0; i < count && (status == Z_OK || status == Z_BUF_ERROR); i++) {
        stream.next_in = (const Bytef *)pieces[i].data;
        stream.avail_in = (uInt)pieces[i].length;
        status = deflate(&stream, i + 1 < count ? Z_NO_FLUSH : Z_FINISH);
    }
    *out = (struct bytes){.data = deflated, .length = stream.total_out};
    deflateEnd(&stream);
    return status == Z_STREAM_END;
}

#endif
