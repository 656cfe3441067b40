"""Conditions on what the pages draw, and on how it is tied to the structure."""

import pikepdf

from sheet import element_kids, elements, kids_of, number_tree, objgen, resources

ARTIFACTS = {"/Pagination", "/Layout", "/Page", "/Background"}
CMYK_OR_GRAY = {"k", "K", "cs", "CS", "sc", "SC", "scn", "SCN", "g", "G", "sh"}
RUNNING_SHARE = 1 / 8  # of the page's height: where heads and feet stand


def balance(sheet):
    for page, what in sheet.faults:
        yield f"page {page + 1}: {what}"


def everything_marked(sheet):
    for mark in sheet.marks:
        tagged = any(p is not None and "/MCID" in p for _, p in mark.tags)
        artifact = any(tag == "/Artifact" for tag, _ in mark.tags)
        if not tagged and not artifact:
            yield f"page {mark.page + 1}: {mark.operator} is neither tagged nor an artifact"


def not_both(sheet):
    for mark in sheet.marks:
        tagged = any(p is not None and "/MCID" in p for _, p in mark.tags)
        if tagged and any(tag == "/Artifact" for tag, _ in mark.tags):
            yield f"page {mark.page + 1}: {mark.operator} is tagged and an artifact"


def artifact_types(sheet):
    for page, tag, properties in sheet.sequences:
        kind = None if properties is None else properties.get("/Type")
        if tag == "/Artifact" and str(kind) not in ARTIFACTS:
            yield f"page {page + 1}: an artifact of no known type"


def running_text(sheet):
    for mark in sheet.marks:
        artifact = [p for tag, p in mark.tags if tag == "/Artifact"]
        if not artifact or not mark.text:
            continue
        height = float(sheet.pdf.pages[mark.page].obj.MediaBox[3])
        outside = not height * RUNNING_SHARE < mark.y < height * (1 - RUNNING_SHARE)
        if outside and str((artifact[0] or {}).get("/Type")) != "/Pagination":
            yield f"page {mark.page + 1}: running text is no pagination artifact"


def content_ids(sheet):
    """{(page, MCID)} in the content."""
    found = []
    for page, _, properties in sheet.sequences:
        if properties is not None and "/MCID" in properties:
            found.append((page, int(properties["/MCID"])))
    return found


def owners(sheet):
    """[(page, MCID, element)] from the structure tree."""
    numbers = {page.obj.objgen: i for i, page in enumerate(sheet.pdf.pages)}
    found = []
    for element in elements(sheet):
        home = objgen(element.get("/Pg"))
        for kid in kids_of(element):
            if isinstance(kid, pikepdf.Dictionary):
                if "/MCID" in kid:
                    page = objgen(kid.get("/Pg")) if "/Pg" in kid else home
                    found.append((numbers.get(page), int(kid["/MCID"]), element))
            else:
                found.append((numbers.get(home), int(kid), element))
    return found


def ids_unique(sheet):
    ids = content_ids(sheet)
    for page, mcid in {one for one in ids if ids.count(one) > 1}:
        yield f"page {page + 1}: MCID {mcid} twice"


def ids_owned(sheet):
    drawn = set(content_ids(sheet))
    claimed = [(page, mcid) for page, mcid, _ in owners(sheet)]
    for page, mcid in sorted(drawn - set(claimed)):
        yield f"page {page + 1}: MCID {mcid} belongs to no element"
    for page, mcid in set(claimed) - drawn:
        yield f"an element claims MCID {mcid} that page {page} does not draw"
    for page, mcid in {one for one in claimed if claimed.count(one) > 1}:
        yield f"page {page}: MCID {mcid} belongs to two elements"


def parent_tree(sheet):
    tree = sheet.root.get("/StructTreeRoot", {}).get("/ParentTree")
    if tree is None:
        yield "no parent tree"
        return
    numbers = number_tree(tree)
    keys = {}
    for page in sheet.pdf.pages:
        if "/StructParents" in page.obj:
            keys[len(keys)] = int(page.obj["/StructParents"])
    for page, mcid, element in owners(sheet):
        row = numbers.get(keys.get(page))
        held = None
        if isinstance(row, pikepdf.Array) and mcid < len(row):
            held = row[mcid]
        if held is None or objgen(held) != objgen(element):
            yield f"page {page}: MCID {mcid} leads to another element than its owner"
    following = int(sheet.root.StructTreeRoot.get("/ParentTreeNextKey", -1))
    if following <= max(numbers, default=-1):
        yield "ParentTreeNextKey is in use"


def struct_parents(sheet):
    keys = [page.obj.get("/StructParents") for page in sheet.pdf.pages]
    if None in keys or len(set(keys)) != len(keys):
        yield "a page has no StructParents of its own"


def tab_order(sheet):
    for number, page in enumerate(sheet.pdf.pages):
        if str(page.obj.get("/Tabs")) != "/S":
            yield f"page {number + 1}: the tab order does not follow the structure"


def colours(sheet):
    for page, operator, _ in sheet.operators:
        if operator in CMYK_OR_GRAY:
            yield f"page {page + 1}: {operator} sets a colour that is not RGB"


def images(sheet):
    for number, page in enumerate(sheet.pdf.pages):
        for name, item in resources(page, "/XObject"):
            if str(item.get("/Subtype")) != "/Image":
                yield f"page {number + 1}: {name} is no image"
            elif item.get("/Interpolate") is True or "/Alternates" in item or "/OPI" in item:
                yield f"page {number + 1}: {name} has a forbidden key"
            elif str(item.get("/ColorSpace")) != "/DeviceRGB":
                yield f"page {number + 1}: {name} is not RGB"


def transparency(sheet):
    for number, page in enumerate(sheet.pdf.pages):
        for name, state in resources(page, "/ExtGState"):
            if float(state.get("/ca", 1)) != 1 or float(state.get("/CA", 1)) != 1:
                yield f"page {number + 1}: {name} is transparent"
            if "/TR" in state or "/HTP" in state:
                yield f"page {number + 1}: {name} has a transfer function"


def links(sheet):
    """Every annotation is a link inside a Link element that the parent tree knows."""
    tree = sheet.root.get("/StructTreeRoot", {}).get("/ParentTree", {})
    numbers = number_tree(tree)
    held = {}
    for element in elements(sheet):
        for kid in kids_of(element):
            if isinstance(kid, pikepdf.Dictionary) and str(kid.get("/Type")) == "/OBJR":
                held[objgen(kid.get("/Obj"))] = element
    for number, page in enumerate(sheet.pdf.pages):
        for annotation in page.obj.get("/Annots", []):
            where = f"page {number + 1}"
            element = held.get(objgen(annotation))
            if str(annotation.get("/Subtype")) != "/Link":
                yield f"{where}: an annotation that is no link"
            if element is None or str(element.get("/S")) != "/Link":
                yield f"{where}: a link stands in no Link element"
                continue
            row = numbers.get(int(annotation.get("/StructParent", -1)))
            if row is None or objgen(row) != objgen(element):
                yield f"{where}: a link's StructParent leads elsewhere"


def link_contents(sheet):
    for number, page in enumerate(sheet.pdf.pages):
        for annotation in page.obj.get("/Annots", []):
            if not str(annotation.get("/Contents", "")).strip():
                yield f"page {number + 1}: a link without a description"


def annotation_flags(sheet):
    for number, page in enumerate(sheet.pdf.pages):
        for annotation in page.obj.get("/Annots", []):
            flags = int(annotation.get("/F", 0))
            if flags & 4 == 0 or flags & (1 | 2 | 32 | 256):
                yield f"page {number + 1}: an annotation that does not print"


def link_targets(sheet):
    for number, page in enumerate(sheet.pdf.pages):
        for annotation in page.obj.get("/Annots", []):
            action = annotation.get("/A", {})
            uri = bytes(action.get("/URI", pikepdf.String("")))
            if str(action.get("/S")) != "/URI" or not uri or any(
                byte <= 0x20 or byte >= 0x7F for byte in uri):
                yield f"page {number + 1}: a link's target is no URI"


def claims_children(sheet):
    """Marks of a container that may hold none: grouping elements own no content."""
    grouping = {"/Document", "/Sect", "/L", "/LI", "/Table", "/THead", "/TBody", "/TR"}
    for page, mcid, element in owners(sheet):
        if str(element.get("/S")) in grouping:
            yield f"page {page}: MCID {mcid} hangs at a {element.get('/S')}"


def links_have_text(sheet):
    for element in elements(sheet):
        if str(element.get("/S")) == "/Link":
            own = [kid for kid in kids_of(element) if not isinstance(kid, pikepdf.Dictionary)
                   or "/MCID" in kid]
            if not own and not element_kids(element):
                yield "a Link element holds nothing to read"
