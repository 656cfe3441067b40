#include "page/packed.h"

#include <zlib.h>

bool packed_make(const void *data, size_t length, struct arena *arena, struct bytes *out)
{
    uLongf room = compressBound((uLong)length);
    char *packed = arena_take(arena, room);
    if (compress2((Bytef *)packed, &room, data, (uLong)length, Z_BEST_SPEED) != Z_OK) {
        return false;
    }
    *out = (struct bytes){.data = packed, .length = room};
    return true;
}
