/* Writes the words of each language as C, parsed and proven: write_words OUTPUT DEPENDENCIES
 * WORDING-FOLDER LANGUAGE...
 *
 * A language with a fault in it is left to the program to complain about. */
#include <stdlib.h>
#include <string.h>

#include "words/shipped_words.h"
#include "words/wording.h"
#include "yaml/store/shipping.h"
#include "yaml/store/source.h"

struct writing {
    struct arena arena;
    struct strbuf source, files, rows;
    struct shipping table;
    const char *names[SHIPPED_WORDS_FILES_MOST], *paths[SHIPPED_WORDS_FILES_MOST];
    size_t lengths[SHIPPED_WORDS_FILES_MOST];
    size_t file_count, language_count;
};

/* ---- the words of one language ----------------------------------------------------------------
 */

#define ADD(s_, at_, struct_, member_, value_)                                                     \
    shipping_add_number((s_), (at_) + offsetof(struct struct_, member_), &(value_).member_,        \
                        sizeof(value_).member_)

static void add_phrase(struct shipping *s, const struct wording_phrase *phrase, size_t at)
{
    if (!phrase->count)
        return;
    const size_t pieces = shipping_make_room(s, phrase->count * sizeof *phrase->pieces);
    shipping_add_link(s, at + offsetof(struct wording_phrase, pieces), pieces);
    ADD(s, at, wording_phrase, count, *phrase);
    for (size_t i = 0; i < phrase->count; i++) {
        const size_t piece = pieces + i * sizeof *phrase->pieces;
        ADD(s, piece, wording_piece, is_slot, phrase->pieces[i]);
        shipping_add_text(s, piece + offsetof(struct wording_piece, text), phrase->pieces[i].text);
    }
}

static void add_form(struct shipping *s, const struct wording_form *form, size_t at)
{
    const size_t count = form->count_by ? PLURAL_COUNT : 1;
    const size_t forms = shipping_make_room(s, count * sizeof *form->forms);
    shipping_add_text(s, at + offsetof(struct wording_form, count_by), form->count_by);
    shipping_add_link(s, at + offsetof(struct wording_form, forms), forms);
    for (size_t i = 0; i < count; i++)
        add_phrase(s, &form->forms[i], forms + i * sizeof *form->forms);
}

static size_t file_number(const struct writing *w, const char *path)
{
    size_t number = 0;
    while (strcmp(w->paths[number], path) != 0)
        number++;
    return number;
}

static void add_entry(struct writing *w, const struct wording_entry *entry, size_t at)
{
    struct shipping *s = &w->table;
    const size_t forms = shipping_make_room(s, entry->count * sizeof *entry->alternatives);
    shipping_add_text(s, at + offsetof(struct wording_entry, key), entry->key);
    shipping_add_mark(s, at + offsetof(struct wording_entry, at), &entry->at,
                      file_number(w, entry->at.file));
    shipping_add_link(s, at + offsetof(struct wording_entry, alternatives), forms);
    ADD(s, at, wording_entry, count, *entry);
    for (size_t i = 0; i < entry->count; i++)
        add_form(s, &entry->alternatives[i], forms + i * sizeof *entry->alternatives);
}

static void add_family(struct shipping *s, const struct wording *wording,
                       const struct wording_family *family, size_t at, size_t entries)
{
    const size_t links = shipping_make_room(s, family->count * sizeof *family->entries);
    shipping_add_link(s, at + offsetof(struct wording_family, entries), links);
    ADD(s, at, wording_family, count, *family);
    for (size_t i = 0; i < family->count; i++)
        shipping_add_link(s, links + i * sizeof *family->entries,
                          entries + (size_t)(family->entries[i] - wording->entries) *
                                        sizeof *wording->entries);
}

static void add_wording(struct writing *w, const struct wording *wording)
{
    struct shipping *s = &w->table;
    shipping_begin_record(s, sizeof *wording);
    const size_t entries = shipping_make_room(s, wording->count * sizeof *wording->entries);
    shipping_add_link(s, offsetof(struct wording, entries), entries);
    ADD(s, 0, wording, count, *wording);
    for (size_t i = 0; i < wording->count; i++)
        add_entry(w, &wording->entries[i], entries + i * sizeof *wording->entries);
    const size_t size = wording->room * sizeof *wording->table;
    const size_t table = shipping_make_room(s, size);
    shipping_add_link(s, offsetof(struct wording, table), table);
    shipping_add_number(s, table, wording->table, size);
    ADD(s, 0, wording, room, *wording);
    add_family(s, wording, &wording->terms, offsetof(struct wording, terms), entries);
    add_family(s, wording, &wording->short_forms, offsetof(struct wording, short_forms), entries);
    shipping_end_record(s);
}

/* ---- files ------------------------------------------------------------------------------------
 */

/* Those that a sheet speaks from, in order; false when there are too many. */
static bool list_files(struct writing *w, const char *folder, struct diag *diag)
{
    const char **names;
    const size_t count = file_list(folder, ".yaml", &w->arena, diag, &names);
    strbuf_addf(&w->files, " %s", folder);
    w->file_count = 0;
    for (size_t i = 0; i < count; i++) {
        if (strncmp(names[i], WORDING_OF_DESK, strlen(WORDING_OF_DESK)) == 0)
            continue;
        if (w->file_count == SHIPPED_WORDS_FILES_MOST)
            return false;
        w->names[w->file_count] = names[i];
        w->paths[w->file_count] = file_join(&w->arena, folder, names[i]);
        strbuf_addf(&w->files, " %s", w->paths[w->file_count++]);
    }
    return w->file_count > 0;
}

static bool add_files(struct writing *w, struct diag *diag)
{
    for (size_t i = 0; i < w->file_count; i++) {
        struct bytes bytes;
        if (!file_read(w->paths[i], FILE_LIMIT_BYTES, &w->arena, diag, &bytes))
            return false;
        shipping_add_bytes(&w->table, bytes);
        w->lengths[i] = bytes.length;
    }
    return true;
}

static void write_language(struct writing *w, const char *lang)
{
    shipping_write_table(&w->table, arena_format(&w->arena, "words_%zu", w->language_count),
                         &w->source);
    strbuf_addf(&w->source, "static const struct shipped_words_file words_%zu_files[] = {\n",
                w->language_count);
    for (size_t i = 0; i < w->file_count; i++)
        strbuf_addf(&w->source, "{\"%s\", %zu},\n", w->names[i], w->lengths[i]);
    strbuf_add(&w->source, "};\n\n");
    strbuf_addf(&w->rows, "{\"%s\", words_%zu_files, %zu, &shipped_words_%zu},\n", lang,
                w->language_count, w->file_count, w->language_count);
    w->language_count++;
}

static void add_language(struct writing *w, const char *folder, const char *lang)
{
    struct diag diag;
    diag_init(&diag);
    shipping_begin_table(&w->table, &w->arena);
    const bool is_here = list_files(w, file_join(&w->arena, folder, lang), &diag);
    const struct wording *wording =
        is_here ? wording_read(folder, lang, WORDING_OF_DESK, &w->arena, &diag) : NULL;
    if (wording && diag.first == NULL) {
        add_wording(w, wording);
        if (add_files(w, &diag))
            write_language(w, lang);
    }
    diag_finish(&diag);
}

int main(int argc, char **argv)
{
    if (argc < 5)
        return EXIT_FAILURE;
    struct writing w = {0};
    arena_init(&w.arena);
    strbuf_init(&w.source, &w.arena);
    strbuf_init(&w.files, &w.arena);
    strbuf_init(&w.rows, &w.arena);
    strbuf_add(&w.source, "#include \"words/shipped_words.h\"\n\n" SOURCE_LONG_LITERALS);
    for (int i = 4; i < argc; i++)
        add_language(&w, argv[3], argv[i]);
    strbuf_addf(&w.source,
                "const struct shipped_words shipped_words[] = {\n%s{0}};\n"
                "const size_t shipped_words_count = %zu;\n",
                w.rows.text, w.language_count);
    const bool good = source_write(argv[1], w.source.text) &&
                      source_write_dependencies(argv[2], argv[1], w.files.text);
    arena_finish(&w.arena);
    return good ? EXIT_SUCCESS : EXIT_FAILURE;
}
