/* The folder of a packet: whose it is, and what lies in it that no row made. */
#ifndef BASKLEAF_BATCH_PACKET_FOLDER_H
#define BASKLEAF_BATCH_PACKET_FOLDER_H

#include "batch/packet.h"

/* The joined file's name: "joined.pdf", or "joined-2-of-3.pdf" for a shard. */
const char *packet_joined_name(const struct packet_options *options, struct arena *arena);

/* Makes the folder and writes down whose it is. A folder that holds another roster's sheets, or
 * PDFs without a word whose they are, is a DIAG_ERROR unless it is to be taken over (--replace). */
bool packet_folder_claim(const struct packet_options *options, struct arena *arena,
                         struct diag *diag);

/* After a run: names the PDFs that no manifest of the folder lists, or moves them into the folder
 * `set-aside` in it when that was asked for. With the manifests of some parts only, nothing is
 * said. */
bool packet_folder_tidy(const struct packet_options *options, struct arena *arena,
                        struct diag *diag);

#endif
