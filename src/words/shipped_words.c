/* Finds the words of a language among those that came with the program. */
#include "words/shipped_words.h"

#include <string.h>

#include "base/file.h"

/* The language of these files, by name; NULL for none. */
static const struct shipped_words *find(const char *lang, const char *const *names, size_t count)
{
    for (size_t i = 0; i < shipped_words_count; i++) {
        const struct shipped_words *one = &shipped_words[i];
        if (strcmp(one->lang, lang) != 0 || one->file_count != count)
            continue;
        size_t same = 0;
        while (same < count && strcmp(one->files[same].name, names[same]) == 0)
            same++;
        return same == count ? one : NULL;
    }
    return NULL;
}

/* One that cannot be read is left to who reads it next to complain about. */
static bool is_as_it_came(const char *path, const char *shipped, size_t length)
{
    struct arena passing;
    struct diag quiet;
    struct bytes bytes;
    arena_init(&passing);
    diag_init(&quiet);
    const bool same = file_read(path, FILE_LIMIT_BYTES, &passing, &quiet, &bytes) &&
                      bytes.length == length && memcmp(bytes.data, shipped, length) == 0;
    diag_finish(&quiet);
    arena_finish(&passing);
    return same;
}

struct wording *shipped_words_find(const struct wording_source *source, const char *const *names,
                                   size_t count, struct arena *arena)
{
    const struct shipped_words *one = find(source->lang, names, count);
    const char *paths[SHIPPED_WORDS_FILES_MOST];
    const char *shipped = one ? one->records->bytes : NULL;
    for (size_t i = 0; one && i < count; i++) {
        paths[i] = file_join(arena, source->folder, names[i]);
        if (!is_as_it_came(paths[i], shipped, one->files[i].length))
            return NULL;
        shipped += one->files[i].length;
    }
    if (!one)
        return NULL;
    struct wording *wording = ARENA_NEW(arena, struct wording);
    shipped_lay_out(one->records, one->records->records, paths, sizeof *wording, arena, wording);
    wording->lang = arena_copy_text(arena, source->lang);
    wording->folder = source->folder;
    wording->language = source->language;
    wording->is_proven = true;
    return wording;
}
