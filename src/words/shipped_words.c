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

/* False after a fault: what cannot be read is no reason to read it in another way. */
static bool compare(const char *path, struct bytes shipped, struct diag *diag, bool *same)
{
    struct arena passing;
    struct bytes bytes;
    arena_init(&passing);
    const bool good = file_read(path, FILE_LIMIT_BYTES, &passing, diag, &bytes);
    *same = good && bytes.length == shipped.length &&
            memcmp(bytes.data, shipped.data, shipped.length) == 0;
    arena_finish(&passing);
    return good;
}

bool shipped_words_find(const struct wording_source *source, const struct shipped_names *names,
                        struct arena *arena, struct diag *diag, struct wording **out)
{
    const struct shipped_words *one = find(source->lang, names->names, names->count);
    const char *paths[SHIPPED_WORDS_FILES_MOST];
    *out = NULL;
    if (!one)
        return true;
    const char *shipped = one->records->bytes;
    for (size_t i = 0; i < names->count; i++) {
        bool same;
        paths[i] = file_join(arena, source->folder, names->names[i]);
        if (!compare(paths[i], (struct bytes){shipped, one->files[i].length}, diag, &same))
            return false;
        if (!same)
            return true;
        shipped += one->files[i].length;
    }
    struct wording *wording = *out = ARENA_NEW(arena, struct wording);
    shipped_lay_out(one->records, one->records->records, paths, sizeof *wording, arena, wording);
    wording->lang = arena_copy_text(arena, source->lang);
    wording->folder = source->folder;
    wording->language = source->language;
    wording->is_proven = true;
    return true;
}
