/* Compresses a stream with zlib into a buffer of the document. */
#include "pdf/deflate.h"

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
