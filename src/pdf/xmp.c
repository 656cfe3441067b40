/* Writes the XMP packet. */
#include "pdf/xmp.h"

#include <stdbool.h>

/* PDF/A has to be told about every schema that it does not know itself (ISO 19005-2, 6.6.2.3). */
static const char pdfua_schema[] =
    "<rdf:Description rdf:about=\"\"\n"
    " xmlns:pdfaExtension=\"http://www.aiim.org/pdfa/ns/extension/\"\n"
    " xmlns:pdfaSchema=\"http://www.aiim.org/pdfa/ns/schema#\"\n"
    " xmlns:pdfaProperty=\"http://www.aiim.org/pdfa/ns/property#\">\n"
    "<pdfaExtension:schemas><rdf:Bag><rdf:li rdf:parseType=\"Resource\">\n"
    "<pdfaSchema:schema>PDF/UA Universal Accessibility Schema</pdfaSchema:schema>\n"
    "<pdfaSchema:namespaceURI>http://www.aiim.org/pdfua/ns/id/</pdfaSchema:namespaceURI>\n"
    "<pdfaSchema:prefix>pdfuaid</pdfaSchema:prefix>\n"
    "<pdfaSchema:property><rdf:Seq><rdf:li rdf:parseType=\"Resource\">\n"
    "<pdfaProperty:name>part</pdfaProperty:name>\n"
    "<pdfaProperty:valueType>Integer</pdfaProperty:valueType>\n"
    "<pdfaProperty:category>internal</pdfaProperty:category>\n"
    "<pdfaProperty:description>Part of ISO 14289 that the file conforms to"
    "</pdfaProperty:description>\n"
    "</rdf:li></rdf:Seq></pdfaSchema:property>\n"
    "</rdf:li></rdf:Bag></pdfaExtension:schemas>\n"
    "</rdf:Description>\n";

/* Text between tags: the signs of XML as entities; control characters, most of which XML 1.0
 * cannot hold at all, as spaces. */
static void add_escaped(struct strbuf *out, const char *text)
{
    for (; *text != '\0'; text++) {
        unsigned char c = (unsigned char)*text;
        switch (c) {
        case '&':
            strbuf_add(out, "&amp;");
            break;
        case '<':
            strbuf_add(out, "&lt;");
            break;
        case '>':
            strbuf_add(out, "&gt;");
            break;
        case '"':
            strbuf_add(out, "&quot;");
            break;
        default:
            strbuf_add_char(out, c < 0x20 || c == 0x7F ? ' ' : (char)c);
            break;
        }
    }
}

/* No text at all. */
static bool is_empty(const char *text)
{
    return text == NULL || *text == '\0';
}

/* <tag>before TEXT after</tag>, unless the text is empty. */
static void add_property(struct strbuf *out, const char *tag, const char *before, const char *text,
                         const char *after)
{
    if (is_empty(text))
        return;
    strbuf_addf(out, "<%s>%s", tag, before);
    add_escaped(out, text);
    strbuf_addf(out, "%s</%s>\n", after, tag);
}

void xmp_write(const struct document *document, const char *producer, struct strbuf *out)
{
    static const char alt[] = "<rdf:Alt><rdf:li xml:lang=\"x-default\">";
    bool archival = !document->is_locked;
    strbuf_add(out, "<?xpacket begin=\"\xEF\xBB\xBF\" id=\"W5M0MpCehiHzreSzNTczkc9d\"?>\n"
                    "<x:xmpmeta xmlns:x=\"adobe:ns:meta/\">\n"
                    "<rdf:RDF xmlns:rdf=\"http://www.w3.org/1999/02/22-rdf-syntax-ns#\">\n"
                    "<rdf:Description rdf:about=\"\"\n"
                    " xmlns:dc=\"http://purl.org/dc/elements/1.1/\"\n"
                    " xmlns:xmp=\"http://ns.adobe.com/xap/1.0/\"\n"
                    " xmlns:pdf=\"http://ns.adobe.com/pdf/1.3/\"\n"
                    " xmlns:pdfaid=\"http://www.aiim.org/pdfa/ns/id/\"\n"
                    " xmlns:pdfuaid=\"http://www.aiim.org/pdfua/ns/id/\">\n"
                    "<dc:format>application/pdf</dc:format>\n");
    add_property(out, "dc:title", alt, document->title, "</rdf:li></rdf:Alt>");
    add_property(out, "dc:description", alt, document->subject, "</rdf:li></rdf:Alt>");
    add_property(out, "dc:creator", "<rdf:Seq><rdf:li>", document->author, "</rdf:li></rdf:Seq>");
    add_property(out, "dc:language", "<rdf:Bag><rdf:li>", document->lang, "</rdf:li></rdf:Bag>");
    add_property(out, "pdf:Keywords", "", document->keywords, "");
    add_property(out, "pdf:Producer", "", producer, "");
    add_property(out, "xmp:CreatorTool", "", "baskleaf", "");
    add_property(out, "xmp:CreateDate", "", document->created, "T00:00:00Z");
    add_property(out, "xmp:ModifyDate", "", document->created, "T00:00:00Z");
    strbuf_add(out, "<pdfuaid:part>1</pdfuaid:part>\n");
    if (archival) {
        strbuf_add(out, "<pdfaid:part>2</pdfaid:part>\n"
                        "<pdfaid:conformance>A</pdfaid:conformance>\n");
    }
    strbuf_add(out, "</rdf:Description>\n");
    if (archival)
        strbuf_add(out, pdfua_schema);
    strbuf_add(out, "</rdf:RDF>\n</x:xmpmeta>\n<?xpacket end=\"w\"?>");
}
