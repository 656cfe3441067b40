"""Conditions on the structure tree."""

import pikepdf

from document_rules import LANGUAGE
from sheet import attribute, element_kids, elements, kids_of, objgen

# ISO 32000-1, 14.8.4, without the ones for ruby and warichu text
STANDARD = {"/" + name for name in """Document Part Art Sect Div BlockQuote Caption TOC TOCI Index
    NonStruct Private P H H1 H2 H3 H4 H5 H6 L LI Lbl LBody Table TR TH TD THead TBody TFoot Span
    Quote Note Reference BibEntry Code Link Annot Figure Formula Form""".split()}
# ISO 32000-1, table 347
NUMBERINGS = {"/" + name for name in
              "None Disc Circle Square Decimal UpperRoman LowerRoman UpperAlpha LowerAlpha".split()}
ALLOWED_KIDS = {
    "/L": {"/LI", "/Caption", "/L"},
    "/LI": {"/Lbl", "/LBody"},
    "/Table": {"/TR", "/THead", "/TBody", "/TFoot", "/Caption"},
    "/THead": {"/TR"},
    "/TBody": {"/TR"},
    "/TR": {"/TH", "/TD"},
}
ALLOWED_PARENTS = {
    "/LI": {"/L"},
    "/Lbl": {"/LI"},
    "/LBody": {"/LI"},
    "/TR": {"/Table", "/THead", "/TBody", "/TFoot"},
    "/THead": {"/Table"},
    "/TBody": {"/Table"},
    "/TH": {"/TR"},
    "/TD": {"/TR"},
    "/Caption": {"/Table", "/Figure", "/L", "/Sect", "/Div"},
}


def kind(element):
    return str(element.get("/S"))


def root(sheet):
    tree = sheet.root.get("/StructTreeRoot")
    if tree is None or str(tree.get("/Type")) != "/StructTreeRoot":
        yield "no structure tree"
        return
    tops = [kid for kid in kids_of(tree)]
    if len(tops) != 1 or kind(tops[0]) != "/Document":
        yield "the tree's root is not one Document"


def standard_types(sheet):
    roles = sheet.root.get("/StructTreeRoot", {}).get("/RoleMap", {})
    for element in elements(sheet):
        name = kind(element)
        if name not in STANDARD and str(roles.get(name)) not in STANDARD:
            yield f"{name} is no standard structure type"
    for name in roles.keys():
        if name in STANDARD:
            yield f"the standard type {name} is remapped"


def parent_links(sheet):
    tree = sheet.root.get("/StructTreeRoot")
    for above in ([tree] if tree is not None else []) + elements(sheet):
        for below in element_kids(above):
            if objgen(below.get("/P")) != objgen(above):
                yield f"a {kind(below)} does not lead back to its parent"


def headings(sheet):
    last = 0
    for element in elements(sheet):
        name = kind(element)
        if len(name) == 3 and name.startswith("/H") and name[2].isdigit():
            level = int(name[2])
            if last == 0 and level != 1:
                yield f"the first heading is {name[1:]}"
            elif level > last + 1:
                yield f"{name[1:]} follows H{last}"
            last = level
        elif name == "/H":
            yield "H beside numbered headings"
    if last == 0:
        yield "no headings"


def kids_allowed(sheet):
    for element in elements(sheet):
        allowed = ALLOWED_KIDS.get(kind(element))
        for kid in element_kids(element):
            if allowed is not None and kind(kid) not in allowed:
                yield f"{kind(kid)} stands in {kind(element)}"
            parents = ALLOWED_PARENTS.get(kind(kid))
            if parents is not None and kind(element) not in parents:
                yield f"{kind(kid)} stands in {kind(element)}"


def lists(sheet):
    for element in elements(sheet):
        if kind(element) != "/L":
            continue
        numbering = attribute(element, "/List", "/ListNumbering")
        labelled = any(kind(part) == "/Lbl" for item in element_kids(element)
                       for part in element_kids(item))
        if numbering is None and labelled:
            yield "a list with labels does not say how it is numbered"
        elif numbering is not None and str(numbering) not in NUMBERINGS:
            yield f"{numbering} is no ListNumbering"
        for item in element_kids(element):
            if kind(item) == "/LI" and not any(kind(p) == "/LBody" for p in element_kids(item)):
                yield "a list item without a body"


def rows_of(table):
    for kid in element_kids(table):
        if kind(kid) == "/TR":
            yield kid
        elif kind(kid) in ("/THead", "/TBody", "/TFoot"):
            yield from (row for row in element_kids(kid) if kind(row) == "/TR")


def width(row):
    return sum(int(attribute(cell, "/Table", "/ColSpan") or 1) for cell in element_kids(row))


def tables(sheet):
    for element in elements(sheet):
        if kind(element) == "/Table":
            widths = {width(row) for row in rows_of(element)}
            if len(widths) != 1:
                yield f"a table's rows are {sorted(widths)} cells wide"


def header_scope(sheet):
    for element in elements(sheet):
        if kind(element) == "/TH" and str(attribute(element, "/Table", "/Scope")) not in (
            "/Row", "/Column", "/Both"):
            yield "a TH without Scope"


def header_cells(sheet):
    for element in elements(sheet):
        if kind(element) == "/Table":
            cells = [cell for row in rows_of(element) for cell in element_kids(row)]
            if not any(kind(cell) == "/TH" for cell in cells):
                yield "a table without header cells"


def captions(sheet):
    for element in elements(sheet):
        names = [kind(kid) for kid in element_kids(element)]
        if "/Caption" in names[1:-1] or names.count("/Caption") > 1:
            yield f"a Caption is not the first or last part of its {kind(element)}"


def figure_alternative(sheet):
    for element in elements(sheet):
        if kind(element) in ("/Figure", "/Formula"):
            texts = [str(element.get(key, "")).strip() for key in ("/Alt", "/ActualText")]
            if not any(texts):
                yield "a Figure without an alternative"


def figure_box(sheet):
    numbers = {page.obj.objgen: page for page in sheet.pdf.pages}
    for element in elements(sheet):
        if kind(element) != "/Figure" or not kids_of(element):
            continue
        box = attribute(element, "/Layout", "/BBox")
        if box is None or len(box) != 4:
            yield "a Figure without BBox"
            continue
        left, bottom, right, top = (float(value) for value in box)
        page = numbers.get(objgen(element.get("/Pg")))
        limits = [0, 0, 0, 0] if page is None else [float(v) for v in page.obj.MediaBox]
        if not (limits[0] <= left < right <= limits[2] and limits[1] <= bottom < top <= limits[3]):
            yield "a Figure's BBox lies outside its page"


def span_language(sheet):
    for element in elements(sheet):
        if "/Lang" in element and not LANGUAGE.match(str(element["/Lang"])):
            yield f"{element['/Lang']!s} names no language"


def reading_order(sheet):
    """On each page the MCIDs rise in the order of the tree: what is read is what is drawn. A column that goes on over the page
    is read to its end before the one beside it."""
    numbers = {page.obj.objgen: i for i, page in enumerate(sheet.pdf.pages)}
    last = {}

    def visit(element):
        home = numbers.get(objgen(element.get("/Pg")), -1)
        for kid in kids_of(element):
            if isinstance(kid, pikepdf.Dictionary) and "/S" in kid:
                yield from visit(kid)
                continue
            if isinstance(kid, pikepdf.Dictionary):
                if "/MCID" not in kid:
                    continue
                place = (numbers.get(objgen(kid.get("/Pg")), home), int(kid["/MCID"]))
            else:
                place = (home, int(kid))
            page, mcid = place
            if mcid <= last.get(page, -1):
                yield f"MCID {mcid} of page {page + 1} is read after MCID {last[page]}"
            last[page] = mcid

    tree = sheet.root.get("/StructTreeRoot")
    for top in element_kids(tree) if tree is not None else []:
        yield from visit(top)
