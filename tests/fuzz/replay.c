/* Runs a target over every file of the folders named, each also cut short at 32 places, and
 * prints the result as TAP. */
#include <stdio.h>

#include "fuzz/fuzz.h"

enum { CUTS = 32 };

static bool replay_folder(const char *folder, size_t *count)
{
    struct arena arena;
    struct diag diag;
    arena_init(&arena);
    diag_init(&diag);
    const char **names = NULL;
    size_t files = file_list(folder, "", &arena, &diag, &names);
    for (size_t i = 0; i < files; i++) {
        struct bytes bytes;
        if (!file_read(file_join(&arena, folder, names[i]), FILE_LIMIT_BYTES, &arena, &diag,
                       &bytes))
            continue;
        for (size_t cut = 1; cut <= CUTS; cut++)
            fuzz_run(bytes.data, bytes.length * cut / CUTS);
        printf("ok %zu - %s\n", ++*count, names[i]);
    }
    bool good = !diag_failed(&diag) && files > 0;
    diag_print(&diag, stderr);
    diag_finish(&diag);
    arena_finish(&arena);
    return good;
}

int main(int argc, char **argv)
{
    size_t count = 0;
    bool good = argc > 1;
    for (int i = 1; i < argc; i++)
        good = replay_folder(argv[i], &count) && good;
    printf("1..%zu\n", count);
    return good ? 0 : 1;
}
