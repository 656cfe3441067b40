#include "deliver/packet.h"

#include "deliver/packet_jobs.h"

struct packet {
    struct rows rows;
    struct manifest manifest;
    const struct packet_watch *watch;
    struct diag *diag;
    struct packet_counts *counts;
    size_t done;
};

static struct stretch stretch_of(const struct packet_wishes *wishes, size_t rows)
{
    return (struct stretch){rows * (wishes->shard - 1) / wishes->shards + 1,
                            rows * wishes->shard / wishes->shards};
}

static bool take_result(void *data, const struct row_result *result)
{
    struct packet *packet = data;
    if (*result->messages)
        packet->watch->say(packet->watch->data, result->messages);
    packet->counts->made += result->status == ROW_MADE;
    packet->counts->kept += result->status == ROW_KEPT;
    packet->counts->bad += result->status == ROW_BAD;
    if (result->status == ROW_FAILED) {
        diag_report(packet->diag, DIAG_FAULT, "packet-ended", (struct mark){0},
                    "ended at row %zu; --resume goes on from there", result->number);
        return false;
    }
    packet->watch->progress(packet->watch->data, ++packet->done, packet->counts->rows);
    return manifest_add(&packet->manifest, result, packet->diag);
}

static bool write_rows(struct packet *packet, const struct packet_wishes *wishes)
{
    struct rows *rows = &packet->rows;
    struct manifest *manifest = &packet->manifest;
    struct stretch stretch = stretch_of(wishes, rows->count);
    packet->counts->rows = stretch.last + 1 - stretch.first;
    if (!press_digests(&rows->press, packet->diag) ||
        !file_make_folder(wishes->folder, packet->diag))
        return false;
    bool good = manifest_open(manifest, wishes->folder, wishes->shard, wishes->shards, &rows->arena,
                              packet->diag) &&
                manifest_begin(manifest, wishes->resume, rows->count, &rows->arena, packet->diag) &&
                packet_jobs_run(rows, manifest, stretch, take_result, packet, packet->diag) &&
                manifest_finish(manifest, packet->diag);
    manifest_close(manifest);
    return good;
}

bool packet_write(const struct resources *resources, const struct packet_wishes *wishes,
                  const struct packet_watch *watch, struct diag *diag, struct packet_counts *out)
{
    struct packet packet = {.watch = watch, .diag = diag, .counts = out};
    *out = (struct packet_counts){0};
    bool good =
        rows_init(&packet.rows, resources, wishes, diag) && rows_scan(&packet.rows, false, diag) &&
        approval_may_leave(&packet.rows.approval, wishes->roster, wishes->drafts_too, diag) &&
        write_rows(&packet, wishes);
    rows_finish(&packet.rows);
    return good;
}
