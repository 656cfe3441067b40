/* The run of a packet: opens the roster, makes its rows, joins the sheets, tells the sum. */
#include "batch/packet.h"

#include "batch/packet_folder.h"

#include "pdftools/pdf_merge.h"
#include "batch/packet_jobs.h"

struct packet {
    struct packet_rows rows;
    struct manifest manifest;
    const struct packet_watch *watch;
    struct diag *diag;
    struct packet_counts *counts;
    const struct packet_options *options;
    struct pdf_merge *merge; /* NULL: not asked for */
    size_t done;
};

static struct stretch stretch_of(const struct packet_options *options, size_t rows)
{
    return (struct stretch){rows * (options->shard - 1) / options->shards + 1,
                            rows * options->shard / options->shards};
}

/* Results come in the order of the roster, each after its file. */
static bool join(struct packet *packet, const struct row_result *result)
{
    if (!packet->merge || (result->status != ROW_MADE && result->status != ROW_KEPT))
        return true;
    struct arena arena;
    arena_init(&arena);
    bool good = pdf_merge_add(
        packet->merge, file_join(&arena, packet->options->folder, result->file), packet->diag);
    arena_finish(&arena);
    return good;
}

static bool take_result(void *data, const struct row_result *result)
{
    struct packet *packet = data;
    if (*result->messages)
        packet->watch->report(packet->watch->data, result->messages);
    packet->counts->made += result->status == ROW_MADE;
    packet->counts->kept += result->status == ROW_KEPT;
    packet->counts->bad += result->status == ROW_BAD;
    if (result->status == ROW_FAILED) {
        diag_report(packet->diag, DIAG_FAULT, "packet-ended", (struct mark){0},
                    "ended at row %zu; --resume goes on from there", result->number);
        return false;
    }
    packet->watch->progress(packet->watch->data, ++packet->done, packet->counts->rows);
    return manifest_add(&packet->manifest, result, packet->diag) && join(packet, result);
}

static bool begin_joined(struct packet *packet)
{
    const struct packet_options *options = packet->options;
    struct arena *arena = &packet->rows.arena;
    if (options->joined)
        packet->merge = pdf_merge_begin(
            file_join(arena, options->folder, packet_joined_name(options, arena)), packet->diag);
    return !options->joined || packet->merge;
}

static bool finish_joined(struct packet *packet)
{
    struct pdf_merge *merge = packet->merge;
    if (!merge)
        return true;
    packet->merge = NULL;
    packet->counts->pdf_merge_pages = pdf_merge_pages(merge);
    return pdf_merge_finish(merge, packet->diag);
}

static bool write_rows(struct packet *packet, const struct packet_options *options)
{
    struct packet_rows *rows = &packet->rows;
    struct manifest *manifest = &packet->manifest;
    struct stretch stretch = stretch_of(options, rows->count);
    packet->counts->rows = stretch.last + 1 - stretch.first;
    if (!sheet_context_digests(&rows->context, packet->diag) ||
        !packet_folder_claim(options, &rows->arena, packet->diag))
        return false;
    bool good =
        manifest_open(manifest, options->folder, options->shard, options->shards, &rows->arena,
                      packet->diag) &&
        manifest_begin(manifest, options->resume, rows->count, &rows->arena, packet->diag) &&
        begin_joined(packet) &&
        packet_jobs_run(rows, manifest, stretch, (struct row_taker){take_result, packet},
                        packet->diag) &&
        finish_joined(packet) && manifest_finish(manifest, packet->diag) &&
        packet_folder_tidy(options, &rows->arena, packet->diag);
    pdf_merge_abandon(packet->merge);
    manifest_close(manifest);
    return good;
}

bool packet_write(const struct resources *resources, const struct packet_options *options,
                  const struct packet_watch *watch, struct diag *diag, struct packet_counts *out)
{
    struct packet packet = {.watch = watch, .diag = diag, .counts = out, .options = options};
    *out = (struct packet_counts){0};
    bool good =
        packet_rows_init(&packet.rows, resources, options, diag) &&
        packet_rows_scan(&packet.rows, false, diag) &&
        signature_may_leave(&packet.rows.signature, options->roster, options->drafts_too, diag) &&
        write_rows(&packet, options);
    packet_rows_finish(&packet.rows);
    return good;
}
