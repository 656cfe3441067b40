"""Conditions on the fonts and on every character that is drawn with them."""

import io
import re

import pikepdf
from fontTools import agl
from fontTools.ttLib import TTFont

from sheet import resources

WIN_ANSI = {code: ord(bytes([code]).decode("cp1252")) for code in range(32, 256)
            if code not in (0x7F, 0x81, 0x8D, 0x8F, 0x90, 0x9D)}


def glyph_list(name):
    """The code point of a name of the Adobe Glyph List, or None."""
    code_point = agl.AGL2UV.get(name)
    legacy = agl.LEGACY_AGL2UV.get(name)
    return code_point if code_point is not None else (legacy[0] if legacy else None)


class Font:
    """One font resource: its dictionaries, its program and the codes that are drawn."""

    def __init__(self, item):
        self.item = item
        self.name = str(item.get("/BaseFont", "?"))
        self.two_byte = str(item.get("/Subtype")) == "/Type0"
        below = item.get("/DescendantFonts", [None])[0] if self.two_byte else item
        self.below = below if below is not None else pikepdf.Dictionary()
        self.descriptor = self.below.get("/FontDescriptor", pikepdf.Dictionary())
        self.used = set()
        self.program = None
        if "/FontFile2" in self.descriptor:
            try:
                data = self.descriptor["/FontFile2"].read_bytes()
                self.program = TTFont(io.BytesIO(data), lazy=True)
                self.program["glyf"], self.program["hmtx"]
                if not self.two_byte:  # a two-byte font is drawn by glyph numbers
                    self.program["cmap"]
            except Exception:  # whatever fontTools makes of broken bytes, the font is unusable
                self.program = None

    def add(self, string):
        if self.two_byte:
            self.used.update(int.from_bytes(string[i:i + 2], "big") for i in range(0, len(string), 2))
        else:
            self.used.update(string)

    def unicode_of(self, code):
        """Through the encoding, for single-byte fonts: code point or None."""
        encoding = self.item.get("/Encoding")
        if isinstance(encoding, pikepdf.Dictionary):
            at, named = 0, {}
            for part in encoding.get("/Differences", []):
                if isinstance(part, pikepdf.Name):
                    named[at] = str(part)[1:]
                    at += 1
                else:
                    at = int(part)
            if code in named:
                return glyph_list(named[code])
        return WIN_ANSI.get(code)

    def glyph_of(self, code):
        """The glyph index behind a code, 0 for .notdef."""
        if self.program is None:
            return 0
        if self.two_byte:
            table = self.below.get("/CIDToGIDMap")
            if isinstance(table, pikepdf.Stream):
                data = table.read_bytes()
                return int.from_bytes(data[2 * code:2 * code + 2], "big")
            return code if str(table) == "/Identity" else 0
        name = self.program["cmap"].getBestCmap().get(self.unicode_of(code))
        return 0 if name is None else self.program.getGlyphID(name)

    def width_of(self, code):
        """As the PDF says, in thousandths."""
        if not self.two_byte:
            at = code - int(self.item.get("/FirstChar", 0))
            widths = self.item.get("/Widths", [])
            return float(widths[at]) if 0 <= at < len(widths) else None
        rows, at = list(self.below.get("/W", [])), 0
        while at + 1 < len(rows):
            first = int(rows[at])
            if isinstance(rows[at + 1], pikepdf.Array):
                if first <= code < first + len(rows[at + 1]):
                    return float(rows[at + 1][code - first])
                at += 2
            else:
                if first <= code <= int(rows[at + 1]):
                    return float(rows[at + 2])
                at += 3
        return float(self.below.get("/DW", 1000))


def fonts(sheet):
    """{objgen: Font} of every font that a page can reach, with the codes drawn in it."""
    if not hasattr(sheet, "fonts"):
        sheet.fonts = {}
        for page in sheet.pdf.pages:
            for _, item in resources(page, "/Font"):
                sheet.fonts.setdefault(item.objgen, Font(item))
        for mark in sheet.marks:
            if mark.font is not None:
                for string in mark.text:
                    sheet.fonts[mark.font.objgen].add(string)
    return sheet.fonts.values()


def chosen(sheet):
    for mark in sheet.marks:
        if mark.text and mark.font is None:
            yield f"page {mark.page + 1}: text without a font"


def embedded(sheet):
    for font in fonts(sheet):
        if font.program is None:
            yield f"{font.name} is not embedded as a usable TrueType font"


def subset_names(sheet):
    for font in fonts(sheet):
        if not re.match(r"^/[A-Z]{6}\+[^,]+$", font.name):
            yield f"{font.name} does not begin with a subset's tag"
        if str(font.descriptor.get("/FontName")) != font.name:
            yield f"{font.name}: the descriptor has another name"
        if font.two_byte and str(font.below.get("/BaseFont")) != font.name:
            yield f"{font.name}: the descendant has another name"


def descriptors(sheet):
    needed = "/Flags /FontBBox /ItalicAngle /Ascent /Descent /CapHeight /StemV".split()
    for font in fonts(sheet):
        for key in needed:
            if key not in font.descriptor:
                yield f"{font.name}: the descriptor lacks {key}"
        if not font.two_byte and int(font.descriptor.get("/Flags", 0)) & (4 | 32) != 32:
            yield f"{font.name} is not marked as nonsymbolic"


def encodings(sheet):
    for font in fonts(sheet):
        encoding = font.item.get("/Encoding")
        if font.two_byte:
            if str(encoding) != "/Identity-H":
                yield f"{font.name}: the encoding is not Identity-H"
            continue
        base = encoding.get("/BaseEncoding") if isinstance(encoding, pikepdf.Dictionary) else encoding
        if str(base) not in ("/WinAnsiEncoding", "/MacRomanEncoding"):
            yield f"{font.name}: the base encoding is neither WinAnsi nor MacRoman"
        if isinstance(encoding, pikepdf.Dictionary):
            for part in encoding.get("/Differences", []):
                if isinstance(part, pikepdf.Name) and glyph_list(str(part)[1:]) is None:
                    yield f"{font.name}: {part} is not in the Adobe Glyph List"
            tables = [] if font.program is None else font.program["cmap"].tables
            if not any((t.platformID, t.platEncID) == (3, 1) for t in tables):
                yield f"{font.name}: no Unicode cmap in the font"


def cid_maps(sheet):
    for font in fonts(sheet):
        if font.two_byte:
            table = font.below.get("/CIDToGIDMap")
            if not isinstance(table, pikepdf.Stream) and str(table) != "/Identity":
                yield f"{font.name}: no CIDToGIDMap"
            if str(font.below.get("/Subtype")) != "/CIDFontType2":
                yield f"{font.name}: the descendant is no CIDFontType2"


def glyphs(sheet):
    for font in fonts(sheet):
        for code in sorted(font.used):
            if font.glyph_of(code) == 0:
                yield f"{font.name}: code {code} draws .notdef"


def closure(sheet):
    """Every glyph that is drawn has its outline, and so have all parts of a composite."""
    for font in fonts(sheet):
        if font.program is None:
            continue
        outlines = font.program["glyf"]
        order = font.program.getGlyphOrder()
        for code in sorted(font.used):
            todo = [order[font.glyph_of(code)]] if font.glyph_of(code) < len(order) else []
            blank = font.program["hmtx"][todo[0]][0] if todo else 0
            while todo:
                glyph = outlines[todo.pop()]
                if glyph.isComposite():
                    todo += [part.glyphName for part in glyph.components]
                    # U+00A0 may be a composite of the empty space (Liberation 2.1.5 of Debian 13)
                    for part in glyph.components:
                        if outlines[part.glyphName].numberOfContours == 0 and not is_space(font, code):
                            yield f"{font.name}: a part of code {code} has no outline"
                elif glyph.numberOfContours == 0 and not is_space(font, code) and blank:
                    yield f"{font.name}: code {code} has no outline"


def is_space(font, code):
    mapped = to_unicode(font.item)[0].get(code, "")
    return mapped.isspace() or mapped == "\u00a0"


def widths(sheet):
    for font in fonts(sheet):
        if font.program is None:
            continue
        order, em = font.program.getGlyphOrder(), font.program["head"].unitsPerEm
        for code in sorted(font.used):
            glyph = font.glyph_of(code)
            said = font.width_of(code)
            if glyph >= len(order):
                continue
            real = font.program["hmtx"][order[glyph]][0] * 1000 / em
            if said is None or abs(said - real) > 1:
                yield f"{font.name}: code {code} is {real:.1f} wide, the PDF says {said}"


def to_unicode(item):
    """({code: text}, faults) of a font's ToUnicode CMap."""
    stream = item.get("/ToUnicode")
    if not isinstance(stream, pikepdf.Stream):
        return {}, ["no ToUnicode"]
    data = stream.read_bytes().decode("latin-1")
    found, faults = {}, []
    if "begincmap" not in data or "begincodespacerange" not in data:
        faults.append("ToUnicode is no CMap")
    if "cidrange" in data or "cidchar" in data:
        faults.append("ToUnicode maps to character identifiers")
    if len(re.findall(r"beginbf(range|char)", data)) != len(re.findall(r"endbf(range|char)", data)):
        faults.append("ToUnicode has an unclosed block")
    for count, block in re.findall(r"(\d+)\s+beginbfrange(.*?)endbfrange", data, re.S):
        rows = re.findall(r"<([0-9A-Fa-f]+)>\s*<([0-9A-Fa-f]+)>\s*<([0-9A-Fa-f]+)>", block)
        if len(rows) != int(count) or len(rows) > 100:
            faults.append("a bfrange block's count is wrong")
        for low, high, target in rows:
            first, last, text = int(low, 16), int(high, 16), bytes.fromhex(target)
            if first >> 8 != last >> 8 or text[-1] + last - first > 255:
                faults.append(f"the range {low} to {high} crosses its last byte")
            for code in range(first, last + 1):
                unit = text[:-1] + bytes([(text[-1] + code - first) % 256])
                found[code] = unit.decode("utf-16-be", "replace")
    for count, block in re.findall(r"(\d+)\s+beginbfchar(.*?)endbfchar", data, re.S):
        for code, target in re.findall(r"<([0-9A-Fa-f]+)>\s*<([0-9A-Fa-f]+)>", block):
            found[int(code, 16)] = bytes.fromhex(target).decode("utf-16-be", "replace")
    return found, faults


def mapped(sheet):
    for font in fonts(sheet):
        found, faults = to_unicode(font.item)
        for fault in faults:
            yield f"{font.name}: {fault}"
        for code in sorted(font.used):
            text = found.get(code, "")
            if not text or any(one in "\0\ufeff\ufffe\ufffd" for one in text):
                yield f"{font.name}: code {code} leads to no character"
            elif not font.two_byte and font.unicode_of(code) != ord(text[0]):
                yield f"{font.name}: code {code} is read as {text!r} but drawn as another"
