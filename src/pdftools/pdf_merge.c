/* Copies the pages of finished sheets behind one another, without structure and links. */
#include "pdftools/pdf_merge.h"

#include <errno.h>
#include <qpdf/qpdf-c.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "pdftools/pdf_writer.h"

struct pdf_merge {
    struct pdf_writer out;
    size_t root, tree, info; /* numbers of objects */
    size_t *groups;          /* the pages of each sheet */
    size_t group_count, group_room, pages;
    struct arena arena; /* of one sheet */
};

/* One sheet on its way over. */
struct sheet_copy {
    struct pdf_merge *merge;
    qpdf_data from;
    size_t *numbers; /* by the sheet's own number: ours, or 0 */
    qpdf_oh *queue;  /* what has a number and is not yet written */
    size_t known, queued, written;
    size_t group; /* the parent of its pages */
};

/* What ties a page to the structure, to the screen or to its old file. */
static bool is_left_out(const char *key, bool is_page)
{
    static const char *const anywhere[] = {"/StructParents", "/StructParent"};
    static const char *const of_pages[] = {"/Parent", "/Annots", "/Tabs", "/Metadata"};
    for (size_t i = 0; i < sizeof anywhere / sizeof *anywhere; i++)
        if (strcmp(key, anywhere[i]) == 0)
            return true;
    for (size_t i = 0; i < sizeof of_pages / sizeof *of_pages && is_page; i++)
        if (strcmp(key, of_pages[i]) == 0)
            return true;
    return false;
}

/* ---- values ------------------------------------------------------------------------------------
 */

static void put_text(struct sheet_copy *copy, const char *text)
{
    pdf_writer_put(&copy->merge->out, text, strlen(text));
}

/* Our number of an object of the sheet; one that is met for the first time is queued. */
static size_t number_of(struct sheet_copy *copy, qpdf_oh object)
{
    struct arena *arena = &copy->merge->arena;
    size_t own = (size_t)qpdf_oh_get_object_id(copy->from, object);
    if (!copy->numbers || own >= copy->known) {
        size_t known = own + 1 > 2 * copy->known ? own + 1 : 2 * copy->known;
        size_t *numbers = ARENA_ARRAY(arena, size_t, known);
        qpdf_oh *queue = ARENA_ARRAY(arena, qpdf_oh, known);
        if (copy->numbers) {
            memcpy(numbers, copy->numbers, copy->known * sizeof *numbers);
            memcpy(queue, copy->queue, copy->queued * sizeof *queue);
        }
        copy->numbers = numbers;
        copy->queue = queue;
        copy->known = known;
    }
    if (!copy->numbers[own]) {
        copy->numbers[own] = pdf_writer_number(&copy->merge->out);
        copy->queue[copy->queued++] = object;
    }
    return copy->numbers[own];
}

static void put_value(struct sheet_copy *copy, qpdf_oh value);

/* libqpdf walks through one dictionary at a time, so the keys come first. */
static size_t list_keys(struct sheet_copy *copy, qpdf_oh dict, const char *const **out)
{
    struct arena *arena = &copy->merge->arena;
    size_t count = 0, room = 16;
    const char **keys = ARENA_ARRAY(arena, const char *, room);
    qpdf_oh_begin_dict_key_iter(copy->from, dict);
    while (qpdf_oh_dict_more_keys(copy->from)) {
        if (count == room) {
            const char **moved = ARENA_ARRAY(arena, const char *, 2 * room);
            memcpy(moved, keys, count * sizeof *keys);
            keys = moved;
            room *= 2;
        }
        keys[count++] = arena_copy_text(arena, qpdf_oh_dict_next_key(copy->from));
    }
    *out = keys;
    return count;
}

static void put_entries(struct sheet_copy *copy, qpdf_oh dict, bool is_page)
{
    const char *const *keys;
    size_t count = list_keys(copy, dict, &keys);
    for (size_t i = 0; i < count; i++) {
        if (is_left_out(keys[i], is_page))
            continue;
        put_text(copy, qpdf_oh_unparse(copy->from, qpdf_oh_new_name(copy->from, keys[i])));
        put_text(copy, " ");
        put_value(copy, qpdf_oh_get_key(copy->from, dict, keys[i]));
        put_text(copy, "\n");
    }
}

static void put_direct(struct sheet_copy *copy, qpdf_oh value)
{
    if (qpdf_oh_is_array(copy->from, value)) {
        int count = qpdf_oh_get_array_n_items(copy->from, value);
        put_text(copy, "[");
        for (int i = 0; i < count; i++) {
            put_text(copy, " ");
            put_value(copy, qpdf_oh_get_array_item(copy->from, value, i));
        }
        put_text(copy, " ]");
    } else if (qpdf_oh_is_dictionary(copy->from, value)) {
        put_text(copy, "<<\n");
        put_entries(copy, value, false);
        put_text(copy, ">>");
    } else {
        put_text(copy, qpdf_oh_unparse_resolved(copy->from, value));
    }
}

static void put_value(struct sheet_copy *copy, qpdf_oh value)
{
    if (qpdf_oh_is_indirect(copy->from, value))
        pdf_writer_format(&copy->merge->out, "%zu 0 R", number_of(copy, value));
    else
        put_direct(copy, value);
}

/* ---- objects -----------------------------------------------------------------------------------
 */

/* As it is stored: nothing is unpacked. Its length is the only entry that can differ, in its form.
 */
static bool put_stream(struct sheet_copy *copy, qpdf_oh stream)
{
    unsigned char *data = NULL;
    size_t length = 0;
    QPDF_BOOL filtered;
    if (qpdf_oh_get_stream_data(copy->from, stream, qpdf_dl_none, &filtered, &data, &length) &
        QPDF_ERRORS)
        return false;
    qpdf_oh dict = qpdf_oh_get_dict(copy->from, stream);
    qpdf_oh_replace_key(copy->from, dict, "/Length",
                        qpdf_oh_new_integer(copy->from, (long long)length));
    put_text(copy, "<<\n");
    put_entries(copy, dict, false);
    put_text(copy, ">>\nstream\n");
    pdf_writer_put(&copy->merge->out, (const char *)data, length);
    put_text(copy, "\nendstream");
    free(data);
    return true;
}

static bool put_queued(struct sheet_copy *copy)
{
    struct pdf_writer *out = &copy->merge->out;
    bool good = true;
    while (good && copy->written < copy->queued) {
        qpdf_oh object = copy->queue[copy->written++];
        pdf_writer_object(out, number_of(copy, object));
        if (qpdf_oh_is_dictionary(copy->from, object) &&
            qpdf_oh_is_name_and_equals(copy->from, qpdf_oh_get_key(copy->from, object, "/Type"),
                                       "/Page")) {
            put_text(copy, "<<\n");
            put_entries(copy, object, true);
            pdf_writer_format(out, "/Parent %zu 0 R\n>>", copy->group);
        } else if (qpdf_oh_is_stream(copy->from, object)) {
            good = put_stream(copy, object);
        } else {
            put_direct(copy, object);
        }
        pdf_writer_end_object(out);
    }
    return good && !qpdf_has_error(copy->from);
}

/* A page of the size of the last, with nothing on it. */
static size_t put_blank(struct sheet_copy *copy, qpdf_oh last)
{
    struct pdf_writer *out = &copy->merge->out;
    size_t number = pdf_writer_number(out);
    pdf_writer_object(out, number);
    pdf_writer_format(out, "<< /Type /Page /Parent %zu 0 R /Resources << >> /MediaBox ",
                      copy->group);
    put_direct(copy, qpdf_oh_get_key(copy->from, last, "/MediaBox"));
    put_text(copy, " >>");
    pdf_writer_end_object(out);
    return number;
}

static void note_group(struct pdf_merge *merge, size_t group)
{
    if (merge->group_count == merge->group_room) {
        merge->group_room = merge->group_room ? merge->group_room * 2 : 256;
        merge->groups = realloc(merge->groups, merge->group_room * sizeof *merge->groups);
        if (!merge->groups)
            support_out_of_memory();
    }
    merge->groups[merge->group_count++] = group;
}

static bool copy_pages(struct sheet_copy *copy, int count)
{
    struct pdf_merge *merge = copy->merge;
    struct pdf_writer *out = &merge->out;
    size_t *pages = ARENA_ARRAY(&merge->arena, size_t, (size_t)count + 1), all = 0;
    copy->group = pdf_writer_number(out);
    for (int i = 0; i < count; i++)
        pages[all++] = number_of(copy, qpdf_get_page_n(copy->from, (size_t)i));
    if (!put_queued(copy))
        return false;
    if (count % 2)
        pages[all++] = put_blank(copy, qpdf_get_page_n(copy->from, (size_t)count - 1));
    pdf_writer_object(out, copy->group);
    pdf_writer_format(out, "<< /Type /Pages /Parent %zu 0 R /Count %zu /Kids [", merge->tree, all);
    for (size_t i = 0; i < all; i++)
        pdf_writer_format(out, " %zu 0 R", pages[i]);
    pdf_writer_format(out, " ] >>");
    pdf_writer_end_object(out);
    note_group(merge, copy->group);
    merge->pages += all;
    return true;
}

/* ---- the whole ---------------------------------------------------------------------------------
 */

struct pdf_merge *pdf_merge_begin(const char *path, struct diag *diag)
{
    struct pdf_merge *merge = calloc(1, sizeof *merge);
    if (!merge)
        support_out_of_memory();
    if (!pdf_writer_begin(&merge->out, path, diag)) {
        free(merge);
        return NULL;
    }
    arena_init(&merge->arena);
    merge->root = pdf_writer_number(&merge->out);
    merge->tree = pdf_writer_number(&merge->out);
    merge->info = pdf_writer_number(&merge->out);
    return merge;
}

bool pdf_merge_add(struct pdf_merge *merge, const char *sheet, struct diag *diag)
{
    struct bytes bytes;
    arena_reset(&merge->arena);
    if (!file_read(sheet, FILE_LIMIT_BYTES, &merge->arena, diag, &bytes))
        return false;
    struct sheet_copy copy = {.merge = merge, .from = qpdf_init()};
    qpdf_silence_errors(copy.from);
    qpdf_set_suppress_warnings(copy.from, QPDF_TRUE);
    bool good =
        !(qpdf_read_memory(copy.from, sheet, bytes.data, bytes.length, NULL) & QPDF_ERRORS) &&
        !(qpdf_push_inherited_attributes_to_page(copy.from) & QPDF_ERRORS);
    int count = good ? qpdf_get_num_pages(copy.from) : 0;
    good = count > 0 && copy_pages(&copy, count);
    if (!good)
        diag_report(diag, DIAG_FAULT, "cannot-join", (struct mark){.file = sheet},
                    "cannot be read as a PDF to be joined with the others");
    qpdf_cleanup(&copy.from);
    return good;
}

size_t pdf_merge_pages(const struct pdf_merge *merge)
{
    return merge->pages;
}

static void release(struct pdf_merge *merge)
{
    arena_finish(&merge->arena);
    free(merge->groups);
    free(merge);
}

/* A printer that reads viewer preferences turns the page over its long edge (ISO 32000-1, table
 * 150). */
static void put_frame(struct pdf_merge *merge)
{
    struct pdf_writer *out = &merge->out;
    pdf_writer_object(out, merge->tree);
    pdf_writer_format(out, "<< /Type /Pages /Count %zu /Kids [", merge->pages);
    for (size_t i = 0; i < merge->group_count; i++)
        pdf_writer_format(out, "%s%zu 0 R", i % 8 ? " " : "\n", merge->groups[i]);
    pdf_writer_format(out, " ] >>");
    pdf_writer_end_object(out);
    pdf_writer_object(out, merge->root);
    pdf_writer_format(out,
                      "<< /Type /Catalog /Pages %zu 0 R\n"
                      "/ViewerPreferences << /Duplex /DuplexFlipLongEdge >> >>",
                      merge->tree);
    pdf_writer_end_object(out);
    pdf_writer_object(out, merge->info);
    pdf_writer_format(out, "<< /Creator (baskleaf) /Producer (baskleaf " BASKLEAF_VERSION ") >>");
    pdf_writer_end_object(out);
}

bool pdf_merge_finish(struct pdf_merge *merge, struct diag *diag)
{
    bool good;
    if (merge->group_count) {
        put_frame(merge);
        good = pdf_writer_finish(&merge->out, merge->root, merge->info, diag);
    } else {
        const char *path = merge->out.writer.path;
        good = unlink(path) == 0 || errno == ENOENT;
        if (!good)
            diag_report(diag, DIAG_FAULT, "cannot-write", (struct mark){.file = path},
                        "removing failed: %s", strerror(errno));
        pdf_writer_abandon(&merge->out);
    }
    release(merge);
    return good;
}

void pdf_merge_abandon(struct pdf_merge *merge)
{
    if (!merge)
        return;
    pdf_writer_abandon(&merge->out);
    release(merge);
}
