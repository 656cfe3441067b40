/* One row from the roster to its PDF: record, plan, signature, file, line of the manifest. */
#include "batch/packet_rows.h"

#include <stdlib.h>
#include <string.h>

#include "base/hash.h"
#include "context/visit_plan.h"

/* ---- names --------------------------------------------------------------------------------- */

struct row_name {
    uint64_t hash;
    size_t number;
};

static int compare_names(const void *a, const void *b)
{
    const struct row_name *left = a, *right = b;
    if (left->hash != right->hash)
        return left->hash < right->hash ? -1 : 1;
    return (left->number > right->number) - (left->number < right->number);
}

/* NULL for a row without an id; its number names it, and numbers stand once. */
static const char *id_part(const struct roster_row *row, struct arena *arena)
{
    return row->cells[ROSTER_ID] ? file_name_part(roster_cell(row, ROSTER_ID), arena) : NULL;
}

static void note_name(struct packet_rows *rows, const struct roster_row *row, struct arena *arena)
{
    const char *id = id_part(row, arena);
    if (!id || !*id)
        return;
    if (rows->name_count == rows->name_room) {
        rows->name_room = rows->name_room ? rows->name_room * 2 : 64;
        rows->names = realloc(rows->names, rows->name_room * sizeof *rows->names);
        if (!rows->names)
            support_out_of_memory();
    }
    rows->names[rows->name_count++] = (struct row_name){hash_text(HASH_START, id), row->number};
}

/* The first row whose id makes the same name, or 0. */
static size_t first_of_name(const struct packet_rows *rows, const char *id)
{
    uint64_t hash = hash_text(HASH_START, id);
    size_t low = 0, high = rows->name_count;
    while (low < high) {
        size_t middle = low + (high - low) / 2;
        if (rows->names[middle].hash < hash)
            low = middle + 1;
        else
            high = middle;
    }
    return low < rows->name_count && rows->names[low].hash == hash ? rows->names[low].number : 0;
}

/* "id-a-17-juniper.pdf" or "00042-juniper.pdf": the two kinds never meet. NULL after a DIAG_ERROR.
 */
static const char *file_name(const struct packet_rows *rows, const struct roster_row *row,
                             struct arena *arena, struct diag *diag)
{
    const char *name = file_name_part(roster_cell(row, ROSTER_NAME), arena);
    const char *id = id_part(row, arena);
    if (!*name)
        name = "animal";
    if (!id)
        return arena_format(arena, "%05zu-%s.pdf", row->number, name);
    size_t first = first_of_name(rows, id);
    struct mark at = row->cells[ROSTER_ID]->at;
    if (*id && first == row->number)
        return arena_format(arena, "id-%s-%s.pdf", id, name);
    if (*id)
        diag_report_path(diag, DIAG_ERROR, "id-twice", at, "id", "'%s' stands already in row %zu",
                         roster_cell(row, ROSTER_ID), first);
    else
        diag_report_path(diag, DIAG_ERROR, "bad-id", at, "id", "needs a letter a-z or a digit");
    return NULL;
}

/* ---- the run -----------------------------------------------------------------------------------
 */

bool packet_rows_init(struct packet_rows *rows, const struct resources *resources,
                      const struct packet_options *options, struct diag *diag)
{
    *rows = (struct packet_rows){.resources = resources, .options = options};
    arena_init(&rows->arena);
    species_cache_init(&rows->cache, resources);
    bool good = sheet_context_init(&rows->context, resources, diag);
    return roster_open(&rows->roster, options->roster, diag) && good;
}

void packet_rows_finish(struct packet_rows *rows)
{
    roster_close(&rows->roster);
    species_cache_finish(&rows->cache);
    sheet_context_finish(&rows->context);
    arena_finish(&rows->arena);
    free(rows->names);
    free(rows->seen);
}

/* ---- what was signed is what is made ----------------------------------------------------------
 */

/* The digest of a row and its species sheet in short; 0 for a row with faults. */
static uint64_t row_mark(const struct node *tree, const char *species)
{
    struct signature_digests own, none = {0};
    if (!tree || !species)
        return 0;
    signature_digest_tree(tree, species, &none, &own);
    return hash_text(HASH_START, own.whole);
}

static void note_row(struct packet_rows *rows, size_t number, uint64_t mark)
{
    if (number > rows->seen_room) {
        size_t room = rows->seen_room ? rows->seen_room * 2 : 64;
        rows->seen = realloc(rows->seen, room * sizeof *rows->seen);
        if (!rows->seen)
            support_out_of_memory();
        rows->seen_room = room;
    }
    rows->seen[number - 1] = mark;
}

/* Rows come one by one from 1. The roster may have been changed in place since it was digested. */
static bool is_as_digested(const struct packet_rows *rows, const struct roster_row *row,
                           const struct node *tree, const char *species, struct diag *diag)
{
    if (!rows->seen || row_mark(tree, species) == rows->seen[row->number - 1])
        return true;
    diag_report(diag, DIAG_FAULT, "roster-changed", row->at,
                "changed after its signature was looked at; begin again");
    return false;
}

static void add_to_roll(struct packet_rows *rows, struct signature_roll *roll,
                        const struct roster_row *row, struct arena *arena, struct diag *quiet)
{
    static const struct node bad = {.kind = NODE_SCALAR, .text = "a row with faults"};
    const struct node *tree =
        roster_row_tree(&rows->roster, row, rows->options->today, arena, quiet);
    struct species_cache_find find = {0};
    if (tree)
        species_cache_find(&rows->cache, roster_cell(row, ROSTER_SPECIES), row->at, quiet, &find);
    signature_roll_add(roll, tree ? tree : &bad, find.digest);
    note_row(rows, row->number, row_mark(tree, find.digest));
}

static bool take_signature(struct packet_rows *rows, struct signature_roll *roll, struct diag *diag)
{
    const struct signature_digests *shared = sheet_context_digests(&rows->context, diag);
    if (!shared)
        return false;
    signature_roll_end(roll, shared, &rows->digests);
    signature_compare(&rows->roster.head.signature, &rows->digests, &rows->signature);
    if (rows->signature.is_stale)
        signature_tell_stale(&rows->signature, &rows->arena, diag);
    return true;
}

bool packet_rows_scan(struct packet_rows *rows, bool with_digest, struct diag *diag)
{
    struct arena arena;
    arena_init(&arena);
    with_digest = with_digest || signature_has_digest(&rows->roster.head.signature);
    struct signature_roll *roll =
        with_digest ? signature_roll_new(rows->context.fonts, &rows->arena) : NULL;
    enum roster_step step;
    do {
        struct roster_row row;
        struct diag quiet;
        diag_init(&quiet);
        arena_reset(&arena);
        step = roster_next(&rows->roster, &arena, &quiet, &row);
        if (step == ROSTER_ROW) {
            rows->count = row.number;
            note_name(rows, &row, &arena);
            if (roll)
                add_to_roll(rows, roll, &row, &arena, &quiet);
        } else if (step == ROSTER_BROKEN && quiet.last) {
            diag_report(diag, quiet.last->severity, quiet.last->code, quiet.last->at, "%s",
                        quiet.last->text);
        }
        diag_finish(&quiet);
    } while (step == ROSTER_ROW);
    arena_finish(&arena);
    if (rows->name_count)
        qsort(rows->names, rows->name_count, sizeof *rows->names, compare_names);
    if (step == ROSTER_END && rows->count == 0)
        diag_report(diag, DIAG_ERROR, "no-animals", (struct mark){.file = rows->roster.file},
                    "names no animal");
    return step == ROSTER_END && rows->count > 0 && roster_rewind(&rows->roster, diag) &&
           (!roll || take_signature(rows, roll, diag));
}

/* ---- one row -----------------------------------------------------------------------------------
 */

static struct visit *read_visit(struct packet_rows *rows, const struct roster_row *row,
                                struct species_cache_find *find, struct arena *arena,
                                struct diag *diag)
{
    struct date today = rows->options->today;
    const struct node *tree = roster_row_tree(&rows->roster, row, today, arena, diag);
    struct visit *visit =
        tree ? visit_read_tree(tree, rows->roster.file, today, arena, diag) : NULL;
    if (!visit || !species_cache_find(&rows->cache, visit->patient.species.text,
                                      visit->patient.species.at, diag, find))
        return NULL;
    visit->patient.species.text = find->species->code.text;
    visit->signature = rows->roster.head.signature;
    return visit;
}

const struct care_plan *packet_rows_plan(struct packet_rows *rows, const struct roster_row *row,
                                         struct arena *arena, struct diag *diag)
{
    struct species_cache_find find;
    const struct visit *visit = read_visit(rows, row, &find, arena, diag);
    return visit && file_name(rows, row, arena, diag) &&
                   sheet_context_can_draw(&rows->context, visit->tree, diag)
               ? visit_plan_for(rows->resources, visit, find.species, arena, diag)
               : NULL;
}

static const char *or_none(const char *text)
{
    return text ? text : "";
}

/* What a row's sheet is made of. */
struct row_inputs {
    const struct visit *visit;
    struct species_cache_find find;
    const char *language;
    struct signature signature; /* the roster's, held against the words of this row's language */
};

/* False after errors: a sheet that is no longer signed in its language may not leave either. */
static bool read_inputs(struct packet_rows *rows, const struct roster_row *row, struct arena *arena,
                        struct diag *diag, struct row_inputs *out)
{
    const struct packet_options *options = rows->options;
    const struct signature_digests *shared = sheet_context_digests(&rows->context, diag);
    out->visit = shared ? read_visit(rows, row, &out->find, arena, diag) : NULL;
    if (!out->visit || !is_as_digested(rows, row, out->visit->tree, out->find.digest, diag))
        return false;
    const char *own = out->visit->keeper.language.text;
    out->language = options->sheet.language ? options->sheet.language
                    : own                   ? own
                                            : rows->resources->clinic->language.text;
    out->signature = rows->signature;
    signature_compare_words(&rows->roster.head.signature, shared, out->language, &out->signature);
    return signature_may_leave(&out->signature, options->roster, options->drafts_too, diag);
}

/* Everything the bytes of the sheet depend on. */
static bool digest_row(struct packet_rows *rows, const struct row_inputs *in, const char *file,
                       struct diag *diag, char *out)
{
    struct signature_digests own;
    char changed[SIGNATURE_PART_COUNT + 1] = "", on[16];
    const struct sheet_options *options = &rows->options->sheet;
    const struct signature_digests *shared = sheet_context_digests(&rows->context, diag);
    if (!shared)
        return false;
    const struct signature *signature = &in->signature;
    signature_digest_tree(in->visit->tree, in->find.digest, shared, &own);
    for (int i = 0; i < SIGNATURE_PART_COUNT; i++)
        changed[i] = signature->changed[i] ? '1' : '0';
    date_write_iso(signature->on, on);
    const char *const texts[] = {
        own.whole,         file,
        options->language, options->units,
        options->paper,    BASKLEAF_VERSION,
        signature->by,     on,
        changed,           signature->is_signed ? "signed" : "draft",
        in->language,      signature_words_digest(shared, in->language),
    };
    signature_digest_texts(texts, sizeof texts / sizeof *texts, out);
    return true;
}

static bool set_sheet(struct packet_rows *rows, const struct row_inputs *row, const char *path,
                      struct arena *arena, struct diag *diag, char *sum)
{
    struct bytes pdf;
    const struct care_plan *plan =
        visit_plan_for(rows->resources, row->visit, row->find.species, arena, diag);
    const struct sheet_inputs in = {&rows->context, plan, &rows->options->sheet, &row->signature};
    if (!plan || !sheet_context_can_draw(&rows->context, row->visit->tree, diag) ||
        !sheet_write(&in, arena, diag, &pdf))
        return false;
    signature_digest_bytes(pdf, sum);
    return file_write_quickly(path, pdf.data, pdf.length, 0640, diag);
}

static void make(struct packet_rows *rows, const struct manifest *manifest,
                 const struct roster_row *row, struct arena *arena, struct diag *diag,
                 struct row_result *out)
{
    struct row_inputs in;
    char *digest = arena_take(arena, SIGNATURE_HEX_BYTES),
         *sum = arena_take(arena, SIGNATURE_HEX_BYTES);
    const char *file =
        read_inputs(rows, row, arena, diag, &in) ? file_name(rows, row, arena, diag) : NULL;
    if (!file || !digest_row(rows, &in, file, diag, digest))
        return;
    out->digest = digest;
    out->sum = sum;
    out->file = file;
    const char *path = file_join(arena, rows->options->folder, file);
    if (manifest_has(manifest, out, path, arena, sum)) {
        out->status = ROW_KEPT;
        return;
    }
    *sum = '\0';
    if (set_sheet(rows, &in, path, arena, diag, sum))
        out->status = ROW_MADE;
    else
        *sum = '\0';
}

/* What has no place of its own, such as a letter that the fonts lack, has the row's. */
static const char *message_lines(struct diag *diag, struct mark row, struct arena *arena)
{
    struct strbuf lines;
    strbuf_init(&lines, arena);
    for (struct diag_message *m = diag->first; m; m = m->next) {
        if (!m->at.file)
            m->at = row;
        strbuf_addf(&lines, "%s\n", diag_message_line(m, arena));
    }
    return lines.text;
}

static const char *first_reason(const struct diag *diag)
{
    for (const struct diag_message *m = diag->first; m; m = m->next)
        if (m->severity != DIAG_REMARK)
            return m->text;
    return "";
}

void packet_rows_make(struct packet_rows *rows, const struct manifest *manifest,
                      const struct roster_row *row, struct diag *diag, struct arena *arena,
                      struct row_result *out)
{
    *out = (struct row_result){
        .number = row->number,
        .line = row->at.line,
        .status = ROW_BAD,
        .name = roster_cell(row, ROSTER_NAME),
        .species = roster_cell(row, ROSTER_SPECIES),
        .file = "",
        .digest = "",
        .sum = "",
    };
    make(rows, manifest, row, arena, diag, out);
    if (out->status == ROW_BAD && diag->counts[DIAG_FAULT])
        out->status = ROW_FAILED;
    out->reason =
        or_none(arena_copy_text(arena, out->status == ROW_MADE ? "" : first_reason(diag)));
    out->messages = message_lines(diag, row->at, arena);
}
