"""The places of a source file where a mutant can stand, and the file with marks at some of them."""

import bisect
import re
from dataclasses import dataclass

HERE = "::foretone_mutation::"

SIGNS = {"+": "Plus", "-": "Minus", "*": "Times", "/": "Over", "<": "Less", "<=": "Most", ">": "More", ">=": "Least",
         "==": "Same", "!=": "Other"}
CALLS = {"std::max(": "larger", "std::min(": "smaller", "std::clamp(": "within", "std::abs(": "size"}

# Lines in which nothing runs, or nothing that is not decided when the program is built.
SKIPPED = re.compile(r"\bconstexpr\b|\bstatic_assert\b|\btemplate\b|^\s*#|\benum\b|^\s*case\b|\brequires\b|"
                     r"\boperator\b")
FIGURE = re.compile(r"^([ \t]*)constexpr (double|int) (\w+) = ([^;{}]*);", re.M)
SIGN = re.compile(r"(?<=[\w)\]\"'] )(\+|-|\*|/|<=|>=|==|!=|<|>)(?=[ \n])")
LITERAL = re.compile(r"(?<![\w.<\[])(\d+\.\d*(?:[eE][-+]?\d+)?|\d+[eE][-+]?\d+|\d+)(?![\w.>\]'])")
JOINT = re.compile(r" (&&|\|\|)(?=[ \n])")
CONDITION = re.compile(r"\bif \(")
STATEMENT = re.compile(r"^([ \t]+)((?:\*?[A-Za-z_][\w.\[\]]*(?:->[\w.\[\]]+)* (?:[-+*/]?=) [^;{}]*|"
                       r"[A-Za-z_][\w.\[\]]*\.(?:push_back|emplace_back|insert|resize|add)\([^;{}]*\));)$", re.M)


@dataclass(frozen=True)
class Place:
    file: str
    line: int
    start: int
    end: int
    kind: str
    text: str  # as it stands
    mark: str  # what takes its place, with N for the mutant's number

    def words(self):
        return f"{self.file}:{self.line}: {self.kind} {self.text.strip()[:60]}"


def code_only(text):
    """The text with comments and quoted characters blanked out, as long as before."""
    def blank(match):
        return re.sub(r"[^\n]", " ", match.group())
    return re.sub(r'//[^\n]*|/\*.*?\*/|"(?:\\.|[^"\\\n])*"|(?<!\w)\'(?:\\.|[^\'\\\n])+\'', blank, text, flags=re.S)


def closing(code, opening):
    depth = 0
    for at in range(opening, len(code)):
        depth += {"(": 1, ")": -1}.get(code[at], 0)
        if depth == 0:
            return at
    return -1


def changed_number(text):
    if re.fullmatch(r"\d+", text):
        return str(int(text) + 1)
    value = float(text)
    return repr(value * (100 if 0 < value < 1e-5 else 1.25) if value else 0.1)


def places_of(file, text):
    code = code_only(text)
    starts = [0] + [m.end() for m in re.finditer("\n", text)]
    lines = code.split("\n")
    line_of = lambda at: bisect.bisect_right(starts, at)
    found = []

    def add(kind, start, end, mark):
        found.append(Place(file, line_of(start), start, end, kind, text[start:end], mark))

    def runs(at):
        return not SKIPPED.search(lines[line_of(at) - 1])

    for m in FIGURE.finditer(code):
        given = text[m.start(4):m.end(4)]
        other = f"1.25 * ({given})" if m.group(2) == "double" else f"({given}) + 1"
        add("figure", m.start(), m.end(), f"{m.group(1)}static const {m.group(2)} {m.group(3)} = "
            f"{HERE}on(N) ? {other} : ({given});")
    for m in SIGN.finditer(code):
        if not runs(m.start()):
            continue
        loop = m.group() == "<" and re.match(r"\s*for \(", lines[line_of(m.start()) - 1])
        mark = "Short" if loop else SIGNS[m.group()]
        add("sign", m.start(), m.end(), f"{m.group()} {HERE}{mark}<N>() {m.group()}")
    for m in LITERAL.finditer(code):
        if runs(m.start()):
            add("number", m.start(), m.end(), f"({HERE}on(N) ? {changed_number(m.group())} : {m.group()})")
    for m in JOINT.finditer(code):
        if runs(m.start()):
            add("joint", m.start(), m.end(), " && !HERE &&" if m.group(1) == "&&" else " || HERE ||")
            found[-1] = Place(*[*found[-1].__dict__.values()][:-1], found[-1].mark.replace("HERE", f"{HERE}on(N)"))
    for m in CONDITION.finditer(code):
        last = closing(code, m.end() - 1)
        inner = code[m.end():last]
        if last < 0 or not runs(m.start()) or ";" in inner or re.match(r"\s*(const )?auto\b", inner):
            continue
        add("condition", m.start(), last + 1,
            f"if ({HERE}on(N) != static_cast<bool>({text[m.end():last]}))")
    for m in STATEMENT.finditer(code):
        if runs(m.start(2)):
            add("left out", m.start(2), m.end(2), f"if ({HERE}on(N)) {{}} else {text[m.start(2):m.end(2)]}")
    for call, name in CALLS.items():
        for m in re.finditer(re.escape(call) + r"(?!\{)", code):
            if runs(m.start()):
                add("call", m.start(), m.end(), f"{HERE}{name}<N>(")
    return found


def with_marks(text, numbered):
    """The text with marks at its places, the include of the marks' header as a first line; no two may overlap."""
    for number, place in sorted(numbered, key=lambda pair: -pair[1].start):
        text = text[:place.start] + re.sub(r"\bN\b", str(number), place.mark) + text[place.end:]
    return '#include "foretone/mutation_marks.hpp"\n' + text


def apart(place, others):
    return all(place.end <= other.start or place.start >= other.end for other in others)
