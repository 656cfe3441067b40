"""Conditions on the file, its catalogue and its metadata."""

import re
import struct
import xml.etree.ElementTree as xml
import zlib

import pikepdf

NAMES = {
    "rdf": "http://www.w3.org/1999/02/22-rdf-syntax-ns#",
    "dc": "http://purl.org/dc/elements/1.1/",
    "xmp": "http://ns.adobe.com/xap/1.0/",
    "pdf": "http://ns.adobe.com/pdf/1.3/",
    "pdfaid": "http://www.aiim.org/pdfa/ns/id/",
    "pdfuaid": "http://www.aiim.org/pdfua/ns/id/",
    "ext": "http://www.aiim.org/pdfa/ns/extension/",
    "schema": "http://www.aiim.org/pdfa/ns/schema#",
    "property": "http://www.aiim.org/pdfa/ns/property#",
}
LANGUAGE = re.compile(r"^[A-Za-z]{2,3}(-[A-Za-z0-9]{2,8})*$")  # the shapes of BCP 47 we use


def header(sheet):
    if not re.match(rb"%PDF-1\.[0-7]\n%[\x80-\xff]{4}", sheet.raw):
        yield "no %PDF-1.n line with a line of four bytes over 127 after it"
    if not sheet.raw.startswith(b"%PDF-1.7"):
        yield "the header does not say 1.7"


def end_of_file(sheet):
    if not re.search(rb"%%EOF\r?\n?$", sheet.raw):
        yield "bytes follow %%EOF"


def trailer_id(sheet):
    pair = sheet.pdf.trailer.get("/ID")
    if pair is None or len(pair) != 2 or any(len(bytes(half)) == 0 for half in pair):
        yield "no ID of two strings in the trailer"
    elif any(set(bytes(half)) == {0} for half in pair):
        yield "the ID is all zeros"


def encryption(sheet):
    if "/Encrypt" in sheet.pdf.trailer or sheet.pdf.is_encrypted:
        yield "the file is encrypted"


def syntax(sheet):
    yield from sheet.pdf.check()


def filters(sheet):
    for item in sheet.pdf.objects:
        if isinstance(item, pikepdf.Stream):
            if "LZWDecode" in repr(item.get("/Filter")):
                yield f"object {item.objgen[0]} is packed with LZW"
            if "/F" in item or "/FFilter" in item:
                yield f"object {item.objgen[0]} keeps its data in another file"


def actions(sheet):
    for key in ("/OpenAction", "/AA"):
        if key in sheet.root:
            yield f"the catalogue has {key}"
    if "/JavaScript" in sheet.root.get("/Names", {}):
        yield "the file has JavaScript"
    for item in sheet.pdf.objects:
        if isinstance(item, pikepdf.Dictionary) and str(item.get("/S", "")) in (
            "/JavaScript", "/Launch", "/Sound", "/Movie", "/ResetForm", "/ImportData"):
            yield f"object {item.objgen[0]} is a forbidden action"


def packet(sheet):
    """The root of the XMP, or None."""
    stream = sheet.root.get("/Metadata")
    if not isinstance(stream, pikepdf.Stream):
        return None
    try:
        return xml.fromstring(stream.read_bytes())
    except xml.ParseError:
        return None


def values(sheet, path):
    root = packet(sheet)
    return [] if root is None else [(e.text or "") for e in root.findall(path, NAMES)]


def metadata_stream(sheet):
    stream = sheet.root.get("/Metadata")
    if not isinstance(stream, pikepdf.Stream):
        yield "the catalogue has no Metadata"
        return
    if str(stream.get("/Type")) != "/Metadata" or str(stream.get("/Subtype")) != "/XML":
        yield "Metadata has another Type or Subtype"
    if "/Filter" in stream:
        yield "Metadata is packed"
    data = stream.read_raw_bytes()
    if not data.startswith(b"<?xpacket begin=") or b"<?xpacket end=" not in data:
        yield "Metadata is no XMP packet"


def metadata_xml(sheet):
    if packet(sheet) is None:
        yield "the XMP is no well-formed XML"


def pdfa_identification(sheet):
    if values(sheet, ".//pdfaid:part") != ["2"]:
        yield "pdfaid:part is not 2"
    if values(sheet, ".//pdfaid:conformance") != ["A"]:
        yield "pdfaid:conformance is not A"


def pdfua_identification(sheet):
    if values(sheet, ".//pdfuaid:part") != ["1"]:
        yield "pdfuaid:part is not 1"


def extension_schema(sheet):
    root = packet(sheet)
    found = [] if root is None else root.findall(".//ext:schemas/rdf:Bag/rdf:li", NAMES)
    for schema in found:
        uri = schema.findtext("schema:namespaceURI", "", NAMES)
        prefix = schema.findtext("schema:prefix", "", NAMES)
        names = [e.text for e in schema.findall(".//property:name", NAMES)]
        keys = ("property:valueType", "property:category", "property:description")
        whole = all(schema.findtext(".//" + key, "", NAMES) for key in keys)
        if uri == NAMES["pdfuaid"] and prefix == "pdfuaid" and names == ["part"] and whole:
            return
    yield "no extension schema declares pdfuaid:part"


def title(sheet):
    found = values(sheet, ".//dc:title/rdf:Alt/rdf:li")
    if len(found) != 1 or not found[0].strip():
        yield "no dc:title"
    elif str(sheet.pdf.docinfo.get("/Title", "")) != found[0]:
        yield "dc:title and the information dictionary's Title differ"


def metadata_agrees(sheet):
    info = sheet.pdf.docinfo
    pairs = (("/Author", ".//dc:creator/rdf:Seq/rdf:li"), ("/Keywords", ".//pdf:Keywords"),
             ("/Subject", ".//dc:description/rdf:Alt/rdf:li"), ("/Producer", ".//pdf:Producer"),
             ("/Creator", ".//xmp:CreatorTool"))
    for key, path in pairs:
        if ([str(info[key])] if key in info else []) != values(sheet, path):
            yield f"{key} and {path} differ"
    for key, path in (("/CreationDate", ".//xmp:CreateDate"), ("/ModDate", ".//xmp:ModifyDate")):
        digits = [re.sub(r"\D", "", value) for value in values(sheet, path)]
        if [re.sub(r"\D", "", str(info.get(key, "")))] != digits:
            yield f"{key} and {path} differ"


def language(sheet):
    lang = str(sheet.root.get("/Lang", ""))
    if not LANGUAGE.match(lang):
        yield "the catalogue names no language"
    elif values(sheet, ".//dc:language/rdf:Bag/rdf:li") != [lang]:
        yield "dc:language differs from the catalogue's Lang"


def display_title(sheet):
    if sheet.root.get("/ViewerPreferences", {}).get("/DisplayDocTitle") is not True:
        yield "the window would not show the title"


def marked(sheet):
    info = sheet.root.get("/MarkInfo", {})
    if info.get("/Marked") is not True:
        yield "the file does not say that it is tagged"
    if info.get("/Suspects") is True:
        yield "the tags are called suspect"


def output_intent(sheet):
    intents = list(sheet.root.get("/OutputIntents", []))
    if len(intents) != 1 or str(intents[0].get("/S")) != "/GTS_PDFA1":
        yield "no output intent for PDF/A"
        return
    profile = intents[0].get("/DestOutputProfile")
    if not isinstance(profile, pikepdf.Stream):
        yield "the output intent has no profile"
        return
    try:
        data = profile.read_bytes()
    except (pikepdf.PdfError, zlib.error):
        data = b""
    if len(data) < 128 or data[36:40] != b"acsp" or struct.unpack(">I", data[:4])[0] != len(data):
        yield "the profile is no ICC profile"  # ICC.1:2010, 7.2
    elif data[12:16] not in (b"mntr", b"prtr") or data[16:20] != b"RGB " or data[8] > 4:
        yield "the profile is not one for RGB devices"
    if int(profile.get("/N", 0)) != 3:
        yield "the profile's N is not 3"
    if not str(intents[0].get("/OutputConditionIdentifier", "")):
        yield "the output intent has no identifier"


def page_labels(sheet):
    if "/PageLabels" not in sheet.root or "/Nums" not in sheet.root["/PageLabels"]:
        yield "the pages have no labels"


def outline(sheet):
    with sheet.pdf.open_outline() as found:
        items = list(found.root)
        pages = {page.obj.objgen for page in sheet.pdf.pages}
        while items:
            item = items.pop()
            if not item.title.strip():
                yield "a bookmark has no title"
            target = item.destination
            if not isinstance(target, pikepdf.Array) or target[0].objgen not in pages:
                yield f"the bookmark {item.title!r} leads nowhere"
            items.extend(item.children)
        if not found.root:
            yield "no bookmarks"
