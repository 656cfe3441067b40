#include "page/metadata.h"

#include <string.h>

#include "page/xmp.h"

/* The keys of the information dictionary (ISO 32000-1, table 317); libharu has set Producer. */
static void write_information(struct haru *haru, const struct document *document)
{
    HPDF_Dict info = haru->doc->info;
    haru_add_text(haru, info, "Title", document->title);
    haru_add_text(haru, info, "Subject", document->subject);
    haru_add_text(haru, info, "Author", document->author);
    haru_add_text(haru, info, "Keywords", document->keywords);
    haru_add_text(haru, info, "Creator", "baskleaf");
    const char *created = document->created;
    if (created != NULL && strlen(created) == 10) {
        const char *date =
            arena_format(haru->arena, "D:%.4s%.2s%.2s000000Z", created, created + 5, created + 8);
        haru_add_text(haru, info, "CreationDate", date);
        haru_add_text(haru, info, "ModDate", date);
    }
}

static void write_xmp(struct haru *haru, const struct document *document)
{
    struct strbuf packet;
    strbuf_init(&packet, haru->arena);
    const char *producer = arena_format(haru->arena, "Haru Free PDF Library %s", HPDF_GetVersion());
    xmp_write(document, producer, &packet);
    HPDF_Dict stream = haru_stream(haru, packet.text, packet.length, false);
    if (stream != NULL) {
        HPDF_Dict_AddName(stream, "Type", "Metadata");
        HPDF_Dict_AddName(stream, "Subtype", "XML");
        HPDF_Dict_Add(haru->doc->catalog, "Metadata", stream);
    }
}

/* sRGB for every colour of the file (ISO 19005-2, 6.2.3). */
static void write_output_intent(struct haru *haru, const struct fonts *fonts)
{
    HPDF_Dict profile = haru_stream(haru, fonts->profile.data, fonts->profile.length, true);
    HPDF_Array intents = HPDF_Array_New(haru->doc->mmgr);
    HPDF_Dict intent = HPDF_Dict_New(haru->doc->mmgr);
    if (profile == NULL || intents == NULL || intent == NULL) {
        return;
    }
    HPDF_Dict_AddNumber(profile, "N", 3);
    HPDF_Dict_Add(haru->doc->catalog, "OutputIntents", intents);
    HPDF_Array_Add(intents, intent);
    HPDF_Dict_AddName(intent, "Type", "OutputIntent");
    HPDF_Dict_AddName(intent, "S", "GTS_PDFA1");
    haru_add_text(haru, intent, "OutputConditionIdentifier", "sRGB IEC61966-2.1");
    haru_add_text(haru, intent, "Info", "sRGB IEC61966-2.1");
    HPDF_Dict_Add(intent, "DestOutputProfile", profile);
}

void metadata_write(struct haru *haru, const struct document *document, const struct fonts *fonts)
{
    HPDF_Dict catalog = haru->doc->catalog;
    write_information(haru, document);
    write_xmp(haru, document);
    write_output_intent(haru, fonts);
    haru_add_text(haru, catalog, "Lang", document->lang);
    HPDF_Dict preferences = HPDF_Dict_New(haru->doc->mmgr);
    if (preferences != NULL) {
        HPDF_Dict_Add(catalog, "ViewerPreferences", preferences);
        HPDF_Dict_AddBoolean(preferences, "DisplayDocTitle", HPDF_TRUE);
    }
    HPDF_AddPageLabel(haru->doc, 0, HPDF_PAGE_NUM_STYLE_DECIMAL, 1, NULL);
}
