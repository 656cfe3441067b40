"""The functions of a C file, found without a compiler: name, parameters, place and length.

Comments, strings and directives are blanked out first. A function is then `name(parameters)` before a brace at the outermost level;
where a macro makes a function of the braces behind it, its arguments are counted."""
import re
from dataclasses import dataclass

TOKENS = re.compile(r'/\*.*?\*/|//[^\n]*|"(?:\\.|[^"\\\n])*"|\'(?:\\.|[^\'\\\n])*\'|^[ \t]*#(?:\\\n|[^\n])*', re.S | re.M)
HEAD = re.compile(r"([A-Za-z_]\w*)\s*\Z")


@dataclass
class Function:
    name: str
    parameters: int
    is_static: bool
    line: int  # where it begins, counted from 1
    lines: int  # from its first line to its closing brace


def blank(text):
    """The same text with spaces for all that is no code; line ends stay."""
    return TOKENS.sub(lambda found: re.sub(r"[^\n]", " ", found.group()), text)


def close_of(code, at, opening, closing):
    """Behind the bracket that closes the one at `at`."""
    depth = 0
    for i in range(at, len(code)):
        depth += (code[i] == opening) - (code[i] == closing)
        if depth == 0:
            return i + 1
    raise ValueError(f"'{opening}' without '{closing}'")


def open_of(head):
    """Where the bracket opens that the last letter closes; -1 when the last letter closes none."""
    depth = 0
    for i in range(len(head) - 1, -1, -1):
        depth += (head[i] == ")") - (head[i] == "(")
        if depth == 0:
            return i if head[i] == "(" else -1
    return -1


def count_parameters(inside):
    if inside.strip() in ("", "void"):
        return 0
    depth = count = 0
    for letter in inside:
        depth += (letter in "([{") - (letter in ")]}")
        count += letter == "," and depth == 0
    return count + 1 - inside.rstrip().endswith("...")


def functions(text):
    code = blank(text)
    found, at, begin = [], 0, 0
    while at < len(code):
        letter = code[at]
        if letter == ";":
            begin = at + 1
        elif letter == "{":
            end = close_of(code, at, "{", "}")
            head = code[begin:at]
            opening = open_of(head.rstrip())
            name = HEAD.search(head[:opening]) if opening >= 0 and "=" not in head[:opening] else None
            if name:
                inside = head.rstrip()[opening + 1 : -1]
                first = begin + len(head) - len(head.lstrip())
                line = code.count("\n", 0, first) + 1
                found.append(Function(name.group(1), count_parameters(inside), "static" in head.split(), line, code.count("\n", first, end) + 1))
            at, begin = end - 1, end
        at += 1
    return found


def called(text):
    """The names that stand before an opening bracket, but for those of its own static functions."""
    own = {f.name for f in functions(text) if f.is_static}
    return set(re.findall(r"(?<!struct )\b([a-z]\w*)\s*\(", blank(text))) - own
