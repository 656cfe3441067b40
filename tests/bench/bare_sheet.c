/* The bare program by itself, for cold starts: bare_sheet OPERATIONS FONTS-FOLDER OUT */
#include <stdlib.h>

#include "bench/bare.h"

int main(int argc, char **argv)
{
    if (argc != 4)
        return 2;
    struct arena arena;
    struct bare bare;
    arena_init(&arena);
    FILE *in = fopen(argv[1], "rb"), *out = fopen(argv[3], "wb");
    unsigned char *room = malloc(BARE_ROOM);
    size_t size = in && out && room && bare_load(in, argv[2], &arena, &bare)
                      ? bare_write(&bare, room, BARE_ROOM)
                      : 0;
    bool good = size > 0 && fwrite(room, 1, size, out) == size && fclose(out) == 0;
    free(room);
    if (in)
        fclose(in);
    arena_finish(&arena);
    return good ? 0 : 1;
}
