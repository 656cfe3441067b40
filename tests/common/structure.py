"""A tagged PDF as its structure says it: an item each for a paragraph, an entry of a list and a row of a table, with the heading that it stands
under. `pdfinfo -struct-text` gives the same and takes seconds a sheet."""
import io
import re

import pikepdf

ITEMS, CELLS = ("/H1", "/H2", "/P", "/LI", "/TR"), ("/TH", "/TD", "/Lbl", "/LBody")


def codes_of(font):
    """What each code of a font reads as (PDF 32000-1, 9.10.3)."""
    table, cmap = {}, font["/ToUnicode"].read_bytes().decode("latin-1")

    def text(digits):
        return bytes.fromhex(digits).decode("utf-16-be")

    for block in re.findall(r"beginbfchar(.*?)endbfchar", cmap, re.S):
        table.update({int(code, 16): text(to) for code, to in re.findall(r"<(\w+)>\s*<(\w+)>", block)})
    for block in re.findall(r"beginbfrange(.*?)endbfrange", cmap, re.S):
        for first, last, to in re.findall(r"<(\w+)>\s*<(\w+)>\s*<(\w+)>", block):
            table.update({code: chr(ord(text(to)) + code - int(first, 16)) for code in range(int(first, 16), int(last, 16) + 1)})
    return table


def marked_texts(page):
    """The text of each marked piece of a page."""
    fonts = {name: codes_of(font) for name, font in page.Resources.get("/Font", {}).items()}
    said, font, marks = {}, {}, []
    for words, operator in pikepdf.parse_content_stream(page):
        name = str(operator)
        if name in ("BDC", "BMC"):
            about = words[1] if len(words) > 1 and isinstance(words[1], pikepdf.Dictionary) else {}
            marks.append(about.get("/MCID"))
        elif name == "EMC":
            marks.pop()
        elif name == "Tf":
            font = fonts[str(words[0])]
        elif name in ("Tj", "TJ") and marks and marks[-1] is not None:
            strings = words[0] if name == "TJ" else [words[0]]
            text = "".join(font.get(code, "\ufffd") for one in strings if isinstance(one, pikepdf.String) for code in bytes(one))
            said[int(marks[-1])] = said.get(int(marks[-1]), "") + text + " "
    return said


def read_structure(pdf):
    """(heading, item) in reading order; an item is the list of its cells, or of its one text."""
    found, heading = [], ""
    with pikepdf.open(io.BytesIO(pdf)) as file:
        pages = {page.objgen: marked_texts(page) for page in file.pages}

        def walk(element, page, item):
            nonlocal heading
            page, kind = element.get("/Pg", page), str(element.get("/S", ""))
            is_item = item is None and kind in ITEMS
            if is_item:
                item = [""]
            elif item is not None and kind in CELLS:
                item.append("")
            kids = element.get("/K", pikepdf.Array([]))
            for kid in kids if isinstance(kids, pikepdf.Array) else [kids]:
                if isinstance(kid, pikepdf.Dictionary) and "/S" in kid:
                    walk(kid, page, item)
                elif not isinstance(kid, pikepdf.Dictionary) or "/MCID" in kid:
                    of, mark = (kid.get("/Pg", page), kid["/MCID"]) if isinstance(kid, pikepdf.Dictionary) else (page, kid)
                    if item is not None:
                        item[-1] += pages[of.objgen].get(int(mark), "")
            if is_item and kind == "/H2":
                heading = item[0]
            elif is_item:
                found.append((heading, item if len(item) == 1 else item[1:]))

        root = file.Root.StructTreeRoot.K
        walk(root[0] if isinstance(root, pikepdf.Array) else root, file.pages[0].obj, None)
    return found
