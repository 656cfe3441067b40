"""One PDF file opened for checking: its bytes, its objects, and what its pages draw."""

import io
from dataclasses import dataclass, field

import pikepdf

PAINTING = set("S s f F f* B B* b b* Tj TJ ' \" Do sh BI INLINE".split())
SHOWING = {"Tj", "TJ", "'", '"'}


@dataclass
class Mark:
    """What a painting operator stands in: its page, its marked content, its state."""

    page: int
    operator: str
    tags: list  # the open sequences, outermost first: (tag name, properties or None)
    font: object = None
    text: list = field(default_factory=list)  # byte strings shown
    y: float = 0.0  # from the page's bottom edge, for text


class Sheet:
    def __init__(self, path, password=""):
        with open(path, "rb") as file:
            self.raw = file.read()
        self.pdf = pikepdf.open(io.BytesIO(self.raw), password=password)
        self.root = self.pdf.Root
        self.faults = []  # (page, what) that reading the content has met
        self.marks = []
        self.sequences = []  # (page, tag, properties) of every BDC and BMC
        self.operators = []  # (page, operator, operands)
        self.elements = None  # see elements()
        for number, page in enumerate(self.pdf.pages):
            self._read_content(number, page)

    def _read_content(self, number, page):
        fonts = page.obj.get("/Resources", {}).get("/Font", {})
        stack, depth, in_text, opened_in_text = [], 0, False, []
        font, line_y = None, 0.0
        for operands, operator in pikepdf.parse_content_stream(page):
            name = str(operator)
            self.operators.append((number, name, operands))
            if name in ("BDC", "BMC"):
                properties = operands[1] if name == "BDC" else None
                stack.append((str(operands[0]), properties))
                opened_in_text.append(in_text)
                self.sequences.append((number, str(operands[0]), properties))
            elif name == "EMC":
                if not stack:
                    self.faults.append((number, "EMC without BDC"))
                    continue
                stack.pop()
                if opened_in_text.pop() != in_text:
                    self.faults.append((number, "marked content crosses a text object"))
            elif name == "q":
                depth += 1
                if depth > 28:
                    self.faults.append((number, "q nested deeper than 28"))
            elif name == "Q":
                depth -= 1
                if depth < 0:
                    self.faults.append((number, "Q without q"))
            elif name == "BT":
                in_text, line_y = True, 0.0
            elif name == "ET":
                in_text = False
            elif name == "Tf":
                font = fonts.get(str(operands[0]))
            elif name == "Td":
                line_y += float(operands[1])
            elif name == "Tm":
                line_y = float(operands[5])
            if name in PAINTING:
                mark = Mark(number, name, list(stack), font=font, y=line_y)
                if name in SHOWING:
                    parts = operands[-1] if name == "TJ" else [operands[-1]]
                    mark.text = [bytes(p) for p in parts if isinstance(p, pikepdf.String)]
                self.marks.append(mark)
        if stack or depth or in_text:
            self.faults.append((number, "something is still open at the page's end"))


def entries(dictionary):
    """[(key, value)] of a PDF dictionary, or of nothing."""
    return [(key, dictionary[key]) for key in sorted(dictionary.keys())]


def resources(page, kind):
    """[(name, object)] of one kind of a page's resources."""
    return entries(page.obj.get("/Resources", {}).get(kind, {}))


def objgen(item):
    return item.objgen if isinstance(item, pikepdf.Object) else (0, 0)


def kids_of(element):
    """The K entry as a list."""
    kids = element.get("/K")
    if kids is None:
        return []
    if isinstance(kids, pikepdf.Array):
        return list(kids)
    return [kids]


def is_element(kid):
    return isinstance(kid, pikepdf.Dictionary) and "/S" in kid


def walk(element, limit=20000):
    """Every structure element below and including `element`, in reading order."""
    todo, seen = [element], 0
    while todo:
        current = todo.pop()
        seen += 1
        if seen > limit:
            raise ValueError("the structure tree does not end")
        yield current
        todo.extend(kid for kid in reversed(kids_of(current)) if is_element(kid))


def elements(sheet):
    """All of them, walked through once for all rules."""
    if sheet.elements is None:
        tree = sheet.root.get("/StructTreeRoot")
        sheet.elements = [] if tree is None else [e for top in kids_of(tree) if is_element(top) for e in walk(top)]
    return sheet.elements


def element_kids(element):
    return [kid for kid in kids_of(element) if is_element(kid)]


def attribute(element, owner, key):
    """A value from the attribute dictionaries of one owner, or None."""
    given = element.get("/A")
    if given is None:
        return None
    for row in list(given) if isinstance(given, pikepdf.Array) else [given]:
        if isinstance(row, pikepdf.Dictionary) and str(row.get("/O")) == owner and key in row:
            return row[key]
    return None


def number_tree(node):
    """{number: object} of a number tree."""
    found = {}
    for kid in node.get("/Kids", []):
        found.update(number_tree(kid))
    numbers = list(node.get("/Nums", []))
    for at in range(0, len(numbers) - 1, 2):
        found[int(numbers[at])] = numbers[at + 1]
    return found
