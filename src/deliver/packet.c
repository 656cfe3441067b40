#include "deliver/packet.h"

#include "deliver/joined.h"
#include "deliver/packet_jobs.h"

struct packet {
    struct rows rows;
    struct manifest manifest;
    const struct packet_watch *watch;
    struct diag *diag;
    struct packet_counts *counts;
    const struct packet_wishes *wishes;
    struct joined *joined; /* NULL: not asked for */
    size_t done;
};

static struct stretch stretch_of(const struct packet_wishes *wishes, size_t rows)
{
    return (struct stretch){rows * (wishes->shard - 1) / wishes->shards + 1,
                            rows * wishes->shard / wishes->shards};
}

const char *packet_joined_name(const struct packet_wishes *wishes, struct arena *arena)
{
    return wishes->shards > 1
               ? arena_format(arena, "joined-%zu-of-%zu.pdf", wishes->shard, wishes->shards)
               : "joined.pdf";
}

/* Results come in the order of the roster, each after its file. */
static bool join(struct packet *packet, const struct row_result *result)
{
    if (!packet->joined || (result->status != ROW_MADE && result->status != ROW_KEPT))
        return true;
    struct arena arena;
    arena_init(&arena);
    bool good = joined_add(packet->joined, file_join(&arena, packet->wishes->folder, result->file),
                           packet->diag);
    arena_finish(&arena);
    return good;
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
    return manifest_add(&packet->manifest, result, packet->diag) && join(packet, result);
}

static bool begin_joined(struct packet *packet)
{
    const struct packet_wishes *wishes = packet->wishes;
    struct arena *arena = &packet->rows.arena;
    if (wishes->joined)
        packet->joined = joined_begin(
            file_join(arena, wishes->folder, packet_joined_name(wishes, arena)), packet->diag);
    return !wishes->joined || packet->joined;
}

static bool finish_joined(struct packet *packet)
{
    struct joined *joined = packet->joined;
    if (!joined)
        return true;
    packet->joined = NULL;
    packet->counts->joined_pages = joined_pages(joined);
    return joined_finish(joined, packet->diag);
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
                begin_joined(packet) &&
                packet_jobs_run(rows, manifest, stretch, take_result, packet, packet->diag) &&
                finish_joined(packet) && manifest_finish(manifest, packet->diag);
    joined_abandon(packet->joined);
    manifest_close(manifest);
    return good;
}

bool packet_write(const struct resources *resources, const struct packet_wishes *wishes,
                  const struct packet_watch *watch, struct diag *diag, struct packet_counts *out)
{
    struct packet packet = {.watch = watch, .diag = diag, .counts = out, .wishes = wishes};
    *out = (struct packet_counts){0};
    bool good =
        rows_init(&packet.rows, resources, wishes, diag) && rows_scan(&packet.rows, false, diag) &&
        approval_may_leave(&packet.rows.approval, wishes->roster, wishes->drafts_too, diag) &&
        write_rows(&packet, wishes);
    rows_finish(&packet.rows);
    return good;
}
