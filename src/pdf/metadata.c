/* Fills in title, author, language, dates and the output intent. */
#include "pdf/metadata.h"

#include <string.h>

#include "pdf/xmp.h"

/* The keys of the information dictionary (ISO 32000-1, table 317); libharu has set Producer. */
static void write_information(struct haru *haru, const struct document *document)
{
    HPDF_Dict info = haru_doc_info(haru->doc);
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

/* The XMP packet, unpacked so that any program can find it (ISO 19005-2, 6.6.2.1). */
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
        HPDF_Dict_Add(haru_doc_catalog(haru->doc), "Metadata", stream);
    }
}

/* A dictionary in the catalogue, or in an array of it. NULL on failure. */
static HPDF_Dict add_dict(struct haru *haru, const char *key)
{
    HPDF_Dict dict = haru_dict(haru);
    bool ok = dict != NULL && HPDF_Dict_Add(haru_doc_catalog(haru->doc), key, dict) == HPDF_OK;
    return ok ? dict : NULL;
}

/* A dictionary in a new array of the catalogue. NULL on failure. */
static HPDF_Dict add_dict_in_array(struct haru *haru, const char *key)
{
    HPDF_Array array = haru_array(haru);
    if (array == NULL || HPDF_Dict_Add(haru_doc_catalog(haru->doc), key, array) != HPDF_OK)
        return NULL;
    HPDF_Dict dict = haru_dict(haru);
    return dict != NULL && HPDF_Array_Add(array, dict) == HPDF_OK ? dict : NULL;
}

/* sRGB for every colour of the file (ISO 19005-2, 6.2.3). */
static void write_output_intent(struct haru *haru, const struct fonts *fonts)
{
    HPDF_Dict intent = add_dict_in_array(haru, "OutputIntents");
    HPDF_Dict profile = haru_stream(haru, fonts->profile.data, fonts->profile.length, true);
    if (intent == NULL || profile == NULL)
        return;
    HPDF_Dict_AddNumber(profile, "N", 3);
    HPDF_Dict_AddName(intent, "Type", "OutputIntent");
    HPDF_Dict_AddName(intent, "S", "GTS_PDFA1");
    haru_add_text(haru, intent, "OutputConditionIdentifier", "sRGB IEC61966-2.1");
    haru_add_text(haru, intent, "Info", "sRGB IEC61966-2.1");
    HPDF_Dict_Add(intent, "DestOutputProfile", profile);
}

/* How a reader presents the file: its language, its title in the window, its pages' names. */
static void write_presentation(struct haru *haru, const struct document *document)
{
    haru_add_text(haru, haru_doc_catalog(haru->doc), "Lang", document->lang);
    HPDF_Dict preferences = add_dict(haru, "ViewerPreferences");
    if (preferences != NULL) {
        HPDF_Dict_AddBoolean(preferences, "DisplayDocTitle", HPDF_TRUE);
        HPDF_AddPageLabel(haru->doc, 0, HPDF_PAGE_NUM_STYLE_DECIMAL, 1, NULL);
    }
}

void metadata_write(struct haru *haru, const struct document *document, const struct fonts *fonts)
{
    write_information(haru, document);
    if (haru_ok(haru))
        write_xmp(haru, document);
    if (haru_ok(haru))
        write_output_intent(haru, fonts);
    if (haru_ok(haru))
        write_presentation(haru, document);
}
