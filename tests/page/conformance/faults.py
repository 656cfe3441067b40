"""Single faults, each made in a copy of a good file, with the condition that has to see it."""

import io

import pikepdf
from fontTools.ttLib import TTFont
from pikepdf import Array, Dictionary, Name, Stream, String

from sheet import kids_of, walk


def top(pdf):
    return kids_of(pdf.Root.StructTreeRoot)[0]


def all_of(pdf, kind):
    return [element for element in walk(top(pdf)) if element.S == kind]


def first(pdf, kind):
    return all_of(pdf, kind)[0]


def annotation(pdf):
    return pdf.pages[0].obj.Annots[0]


def font_of(pdf, subtype, encoding=None):
    """The first font of a kind that the pages use."""
    for page in pdf.pages:
        for name in sorted(page.obj.Resources.Font.keys()):
            font = page.obj.Resources.Font[name]
            named = isinstance(font.get("/Encoding"), pikepdf.Name) and font.Encoding == encoding
            if font.Subtype == subtype and (encoding is None or named):
                return font
    raise LookupError(subtype)


def win_ansi(pdf):
    return font_of(pdf, "/TrueType", "/WinAnsiEncoding")


def edit(stream, old, new, count=1):
    data = stream.read_bytes()
    if old not in data:
        raise LookupError(old)
    stream.write(data.replace(old, new, count))


def in_page(old, new, count=1):
    return lambda pdf: edit(pdf.pages[0].obj.Contents, old, new, count)


def around_page(before, after):
    def change(pdf):
        contents = pdf.pages[0].obj.Contents
        contents.write(before + contents.read_bytes() + after)
    return change


def in_metadata(old, new):
    return lambda pdf: edit(pdf.Root.Metadata, old, new)


def in_unicode(old, new):
    return lambda pdf: edit(win_ansi(pdf).ToUnicode, old, new)


def without(find, key):
    def change(pdf):
        del find(pdf)[key]
    return change


def setting(find, key, value):
    def change(pdf):
        find(pdf)[key] = value
    return change


def rename(kind, other):
    return lambda pdf: first(pdf, kind).__setitem__("/S", Name(other))


def catalog(pdf):
    return pdf.Root


def page(pdf):
    return pdf.pages[0].obj


def add_lzw(pdf):
    stream = Stream(pdf, b"")
    stream.write(b"\x80\x0b\x60\x50\x22\x0c\x0c\x85\x01", filter=Name.LZWDecode)
    pdf.Root.Unused = pdf.make_indirect(stream)


def open_script(pdf):
    pdf.Root.OpenAction = Dictionary(S=Name.JavaScript, JS=String("1"))


def transparent(pdf):
    page(pdf).Resources.ExtGState = Dictionary(G0=Dictionary(ca=0.5))


def swap_parents(pdf):
    row = pdf.Root.StructTreeRoot.ParentTree.Nums[1]
    row[0], row[-1] = row[-1], row[0]


def swap_links(pdf):
    one, other = (pdf.pages[i].obj.Annots[0] for i in range(2))
    one.StructParent, other.StructParent = int(other.StructParent), int(one.StructParent)


def raise_content(pdf):
    paragraph = first(pdf, "/P")
    above = paragraph.P
    above.K.append(paragraph.K[0])
    above.Pg = paragraph.Pg
    del paragraph.K[0]


def drop_link_text(pdf):
    link = first(pdf, "/Link")
    link.K = Array([kid for kid in link.K if isinstance(kid, Dictionary)])


def wrong_parent(pdf):
    first(pdf, "/P").P = first(pdf, "/Table")


def drop_cell(pdf):
    row = all_of(pdf, "/TR")[-1]
    del row.K[-1]


def no_header_cells(pdf):
    for cell in all_of(pdf, "/TH"):
        cell.S = Name.TD


def caption_inside(pdf):
    table = first(pdf, "/Table")
    table.K = Array([table.K[1], table.K[0], table.K[2]])


def box_outside(pdf):
    first(pdf, "/Figure").A.BBox = Array([500, 700, 700, 800])


def reverse_order(pdf):
    document = top(pdf)
    document.K = Array(list(document.K)[::-1])


def no_program(pdf):
    del win_ansi(pdf).FontDescriptor["/FontFile2"]


def empty_part(pdf):
    """Takes the outline from a part of the composite that draws U+00F3."""
    program = win_ansi(pdf).FontDescriptor.FontFile2
    font = TTFont(io.BytesIO(program.read_bytes()))
    glyphs = font["glyf"]
    composite = glyphs[font.getBestCmap()[0xF3]]
    part = composite.components[1].glyphName
    glyphs[part] = type(composite)()
    glyphs[part].numberOfContours = 0
    out = io.BytesIO()
    font.save(out)
    program.write(out.getvalue())


def wide_letter(pdf):
    font = win_ansi(pdf)
    at = ord("e") - int(font.FirstChar)
    font.Widths[at] = int(font.Widths[at]) + 50


def unnamed_glyph(pdf):
    for name in sorted(page(pdf).Resources.Font.keys()):
        font = page(pdf).Resources.Font[name]
        if isinstance(font.get("/Encoding"), Dictionary):
            rows = font.Encoding.Differences
            rows[1] = Name("/nosuchglyph")
            return


def foreign_kid(pdf):
    first(pdf, "/LI").S = Name.P


def lost_bookmark(pdf):
    del pdf.Root.Outlines.First["/Dest"]


# name of the condition, what is done, how; the last is given the open file
FAULTS = [
    ("filters", "a stream packed with LZW", add_lzw),
    ("no-actions", "a script that runs at opening", open_script),
    ("metadata-stream", "metadata of another type", setting(lambda p: p.Root.Metadata, "/Subtype", Name.Text)),
    ("metadata-stream", "no metadata", without(catalog, "/Metadata")),
    ("metadata-xml", "an ampersand that is not escaped", in_metadata(b"&amp;", b"&")),
    ("pdfa-identification", "PDF/A-2b claimed", in_metadata(b"conformance>A<", b"conformance>B<")),
    ("pdfa-identification", "PDF/A-1 claimed", in_metadata(b"<pdfaid:part>2", b"<pdfaid:part>1")),
    ("pdfua-identification", "no PDF/UA claim", in_metadata(b"<pdfuaid:part>1</pdfuaid:part>", b"")),
    ("extension-schema", "a schema under another prefix", in_metadata(b"prefix>pdfuaid<", b"prefix>ua<")),
    ("title", "an empty title", in_metadata(b"Care for Biscuit &amp; \xc5\x81ukasz &lt;1&gt;", b"")),
    ("metadata-agrees", "another author", setting(lambda p: p.trailer.Info, "/Author", String("Nobody"))),
    ("language", "no language", without(catalog, "/Lang")),
    ("language", "a language that is none", setting(catalog, "/Lang", String("English, mostly"))),
    ("display-title", "the file's name in the title bar", without(catalog, "/ViewerPreferences")),
    ("marked", "not marked as tagged", setting(lambda p: p.Root.MarkInfo, "/Marked", False)),
    ("output-intent", "a profile of four colours", setting(lambda p: p.Root.OutputIntents[0].DestOutputProfile, "/N", 4)),
    ("output-intent", "no output intent", without(catalog, "/OutputIntents")),
    ("page-labels", "no page labels", without(catalog, "/PageLabels")),
    ("outline", "a bookmark that leads nowhere", lost_bookmark),
    ("content-balance", "one EMC too many", around_page(b"", b"\nEMC\n")),
    ("everything-marked", "a line outside all marks", around_page(b"", b"\n99 99 m 120 99 l S\n")),
    ("not-both", "tagged content inside an artifact",
     around_page(b"/Artifact <</Type /Layout>> BDC\n", b"\nEMC\n")),
    ("artifact-types", "an artifact of no known type", in_page(b"/Type /Layout", b"/Type /Rule")),
    ("running-text", "the head as a layout artifact",
     in_page(b"<</Type /Pagination /Subtype /Header>>", b"<</Type /Layout>>")),
    ("ids-unique", "one MCID twice", in_page(b"/MCID 4>>", b"/MCID 3>>")),
    ("ids-owned", "an MCID that no element owns", in_page(b"/MCID 3>>", b"/MCID 99>>")),
    ("parent-tree", "two entries of the parent tree exchanged", swap_parents),
    ("struct-parents", "a page without StructParents", without(page, "/StructParents")),
    ("content-in-leaves", "a paragraph's text hung at the document", raise_content),
    ("tab-order", "tab order by rows", setting(page, "/Tabs", Name.R)),
    ("colours", "a colour in CMYK", around_page(b"0 0 0 1 k\n", b"")),
    ("images", "an image to be smoothed",
     lambda p: page(p).Resources.XObject[next(iter(page(p).Resources.XObject.keys()))].__setitem__("/Interpolate", True)),
    ("transparency", "a half-transparent state", transparent),
    ("links", "a link without StructParent", without(annotation, "/StructParent")),
    ("links", "two links' places in the parent tree exchanged", swap_links),
    ("links", "a link in a Span", rename("/Link", "/Span")),
    ("link-contents", "a link without description", without(annotation, "/Contents")),
    ("link-text", "a link with nothing to read", drop_link_text),
    ("link-targets", "a target with a space in it",
     lambda p: annotation(p).A.__setitem__("/URI", String("mailto:care @example.org"))),
    ("annotation-flags", "a link that does not print", setting(annotation, "/F", 0)),
    ("structure-root", "a root that is no Document", rename("/Document", "/Part")),
    ("standard-types", "a type of our own", rename("/P", "/Paragraph")),
    ("parent-links", "a paragraph that calls a table its parent", wrong_parent),
    ("headings", "the first heading is of level 2", rename("/H1", "/H2")),
    ("headings", "a level left out", rename("/H2", "/H3")),
    ("kids-allowed", "a paragraph straight in a list", foreign_kid),
    ("lists", "a numbered list that does not say so", without(lambda p: first(p, "/L"), "/A")),
    ("tables", "a row one cell short", drop_cell),
    ("header-scope", "a header cell without scope", without(lambda p: first(p, "/TH"), "/A")),
    ("header-cells", "a table without header cells", no_header_cells),
    ("captions", "a caption in the middle of a table", caption_inside),
    ("figure-alternative", "a figure without alternative", without(lambda p: first(p, "/Figure"), "/Alt")),
    ("figure-box", "a figure without BBox", without(lambda p: first(p, "/Figure"), "/A")),
    ("figure-box", "a BBox beyond the page", box_outside),
    ("span-language", "a span in no language", setting(lambda p: first(p, "/Span"), "/Lang", String("po polsku"))),
    ("reading-order", "the document read from its end", reverse_order),
    ("font-chosen", "text in a font that the page lacks", in_page(b"/F1 12 Tf", b"/F99 12 Tf")),
    ("font-embedded", "a font that is not embedded", no_program),
    ("font-subset-name", "a subset without its tag", setting(win_ansi, "/BaseFont", Name("/LiberationSans"))),
    ("font-descriptor", "no CapHeight", without(lambda p: win_ansi(p).FontDescriptor, "/CapHeight")),
    ("font-encoding", "StandardEncoding", setting(win_ansi, "/Encoding", Name.StandardEncoding)),
    ("font-encoding", "a glyph name that nobody knows", unnamed_glyph),
    ("font-cid-map", "no CIDToGIDMap",
     without(lambda p: font_of(p, "/Type0").DescendantFonts[0], "/CIDToGIDMap")),
    ("font-notdef", "a code without a character", in_page(b"(Keep", b"(\\201eep")),
    ("font-closure", "a composite without its accent", empty_part),
    ("font-widths", "a letter said to be wider than it is", wide_letter),
    ("font-unicode", "no ToUnicode", without(win_ansi, "/ToUnicode")),
    ("font-unicode", "cidrange in ToUnicode, as libharu writes it",
     lambda p: edit(win_ansi(p).ToUnicode, b"bfrange", b"cidrange", 99)),
    ("font-unicode", "letters read as others", in_unicode(b"<61>", b"<62>")),
    ("font-unicode", "a range that crosses its last byte", in_unicode(b"<20><20><0020>", b"<20><20><00FF>")),
]


def bad_start(raw):
    at = raw.index(b"startxref\n") + 10
    return raw[:at] + b"1\n%%EOF\n"


# the same for faults that no library would write
RAW_FAULTS = [
    ("header", "no line of binary bytes", lambda raw: raw.replace(b"\n%\xe2\xe3\xcf\xd3", b"\n%ABCD", 1)),
    ("header", "the header of PDF 2.0", lambda raw: raw.replace(b"%PDF-1.7", b"%PDF-2.0", 1)),
    ("end-of-file", "bytes after the end", lambda raw: raw + b"more\n"),
    ("trailer-id", "no ID", lambda raw: raw.replace(b"\n/ID [", b"\n/IX [", 1)),
    ("syntax", "a cross-reference table that is not where it should be", bad_start),
]
