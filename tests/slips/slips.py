"""Single random slips of the fingers, put into right descriptions: what of them is found.

``python tests/slips/slips.py`` prints the table. Everything is drawn from one seed.
"""

from __future__ import annotations

import random
import re
import sys
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from functools import cache
from itertools import pairwise
from pathlib import Path

from contradictions import contradictions
from elements import Element, Property, elements

from regwright.model.chip import without_places
from regwright.pipeline import Checked, check
from regwright.read.source import Source, spelling_of

ROOT = Path(__file__).parent.parent.parent
DESCRIPTIONS = ("sorrel14.xml", "sorrel40.json", "uart16550.xml", "ethernet_phy.json")
SEED = 40
SLIPS = 500
#: Findings that are there without any slip, and change with it: no catch.
NO_CATCH = {"flag-cleared-by-or", "macros-alike-in-old-c"}


@dataclass(frozen=True)
class Slip:
    """A damaged description. ``lines`` are the damaged ones, ``what`` says what was done.

    Of a register that was left out, ``lines`` are those of its two neighbours.
    """

    kind: str
    description: str
    what: str
    text: str
    lines: frozenset[int]


@dataclass
class Sheet:
    """A right description, ready to be damaged."""

    name: str
    text: str
    chip: Element
    rng: random.Random

    def lines(self, start: int, end: int, text: str = "") -> set[int]:
        """Return the lines from one place of the text to another."""
        text = text or self.text
        return set(range(text.count("\n", 0, start) + 1, text.count("\n", 0, end) + 2))

    def put(self, *changes: tuple[tuple[int, int], str]) -> Slip:
        """Return the slip of writing something else at some places of the text."""
        text, lines, what = self.text, set(), []
        for at, new in sorted(changes, reverse=True):
            lines |= self.lines(*at)
            what.append(f"{text[slice(*at)]} -> {new}")
            text = text[: at[0]] + new + text[at[1] :]
        return Slip("", self.name, "; ".join(reversed(what)), text, frozenset(lines))

    def groups(self) -> list[list[Element]]:
        """Return the registers of the chip and of each block, in order."""
        owners = [self.chip, *self.chip.every("block")]
        return [owner.of("register") for owner in owners]


Maker = Callable[[Sheet], Iterator[Slip]]
KINDS: dict[str, tuple[Maker, str]] = {}


def kind(name: str, why_not: str = "") -> Callable[[Maker], Maker]:
    """Make the decorated function the one for a kind of slip, and say what cannot be found."""

    def register(maker: Maker) -> Maker:
        KINDS[name] = (maker, why_not)
        return maker

    return register


def _addresses(sheet: Sheet) -> list[Property]:
    """Return every address, offset and base."""
    found = []
    for name, key in (
        ("register", "address"),
        ("register", "offset"),
        ("low", "address"),
        ("high", "address"),
        ("instance", "base"),
    ):
        found += [item for element in sheet.chip.every(name) if (item := element.get(key))]
    return found


def _numbers(sheet: Sheet) -> Iterator[tuple[int, str]]:
    """Yield where each number of an address starts, and the number; its digits come last."""
    for item in _addresses(sheet):
        for found in re.finditer(r"\b(0x[0-9A-F]+|[0-9])\b", item.value):
            yield item.value_at[0] + found.start(), found[0]


def _digits(number: str) -> range:
    return range(2 if number.startswith("0x") else 0, len(number))


LONE = "the only address of the register; the new one is free, where registers are, and in order"


@kind("two digits of an address swapped", LONE)
def swapped(sheet: Sheet) -> Iterator[Slip]:
    for at, number in _numbers(sheet):
        for i, j in pairwise(_digits(number)):
            new = number[:i] + number[j] + number[i] + number[j + 1 :]
            if new != number:
                yield sheet.put(((at, at + len(number)), new))


@kind("a digit of an address doubled", LONE)
def doubled(sheet: Sheet) -> Iterator[Slip]:
    for at, number in _numbers(sheet):
        for i in _digits(number):
            new = number[: i + 1] + number[i:]
            yield sheet.put(((at, at + len(number)), new))


@kind("a digit of an address mistyped", LONE)
def mistyped(sheet: Sheet) -> Iterator[Slip]:
    for at, number in _numbers(sheet):
        for i in _digits(number):
            others = "0123456789ABCDEF" if number.startswith("0x") else "0123456789"
            digit = sheet.rng.choice(others.replace(number[i], ""))
            yield sheet.put(((at, at + len(number)), number[:i] + digit + number[i + 1 :]))


@kind("the letter O for the digit 0")
def letter(sheet: Sheet) -> Iterator[Slip]:
    for at, number in _numbers(sheet):
        for i, digit in enumerate(number):
            if digit == "0":
                yield sheet.put(((at + i, at + i + 1), "O"))


@kind("an address in decimal written as hexadecimal", LONE)
def decimal(sheet: Sheet) -> Iterator[Slip]:
    for at, number in _numbers(sheet):
        new = f"0x{int(number, 0):02d}"
        if int(new, 0) != int(number, 0):
            yield sheet.put(((at, at + len(number)), new))


def _pairs(sheet: Sheet) -> Iterator[tuple[Property, str, str]]:
    """Yield each address that is given in both spaces, and its two numbers."""
    for item in _addresses(sheet):
        found = re.fullmatch(r"io:(0x\w+) data:(0x\w+)", item.value)
        if found:
            yield item, found[1], found[2]


@kind("the offset missing")
def missing(sheet: Sheet) -> Iterator[Slip]:
    for item, inner, _ in _pairs(sheet):
        yield sheet.put((item.value_at, f"io:{inner} data:{inner}"))


@kind("the data address as I/O address")
def already(sheet: Sheet) -> Iterator[Slip]:
    for item, _, outer in _pairs(sheet):
        yield sheet.put((item.value_at, f"io:{outer} data:{outer}"))


@kind("the offset added twice")
def twice(sheet: Sheet) -> Iterator[Slip]:
    for item, inner, _ in _pairs(sheet):
        yield sheet.put((item.value_at, f"io:{inner} data:0x{int(inner, 16) + 0x40:02X}"))


@kind(
    "a row left out",
    "nothing is left of it: it stood alone or at the end of a run, or shares its address",
)
def left_out(sheet: Sheet) -> Iterator[Slip]:
    for group in sheet.groups():
        for index, row in enumerate(group):
            start, end = row.start, row.end
            after = re.compile(r"\s*,").match(sheet.text, end)
            if after and sheet.name.endswith("json"):
                end = after.end()
            elif sheet.name.endswith("json"):
                start = sheet.text.rindex(",", 0, start)
            text = sheet.text[:start] + sheet.text[end:]
            gone = end - start
            lines: set[int] = set()
            for near in group[max(index - 1, 0) : index]:
                lines |= sheet.lines(near.start, near.end, text)
            for near in group[index + 1 : index + 2]:
                lines |= sheet.lines(near.start - gone, near.end - gone, text)
            name = row.properties["name"].value
            yield Slip("", sheet.name, f"{name} left out", text, frozenset(lines))


@kind("the address of the next row", "the next row may share its address with this one")
def copied(sheet: Sheet) -> Iterator[Slip]:
    for group in sheet.groups():
        for row, following in pairwise(group):
            for key in ("address", "offset"):
                own, other = row.get(key), following.get(key)
                if own and other and own.value != other.value:
                    yield sheet.put((own.value_at, other.value))


@kind("the name of the row before")
def named(sheet: Sheet) -> Iterator[Slip]:
    for group in sheet.groups():
        for before, row in pairwise(group):
            name = row.properties["name"]
            yield sheet.put((name.value_at, before.properties["name"].value))


@kind("the name of the field before")
def field_named(sheet: Sheet) -> Iterator[Slip]:
    for register in sheet.chip.every("register"):
        for before, row in pairwise(register.of("field")):
            name = row.properties["name"]
            yield sheet.put((name.value_at, before.properties["name"].value))


@kind("a field's bits off by one")
def shifted(sheet: Sheet) -> Iterator[Slip]:
    for field in sheet.chip.every("field"):
        bits = field.properties["bits"]
        for by in (-1, 1):
            numbers = [int(found) + by for found in re.findall(r"\d+", bits.value)]
            if min(numbers) >= 0:
                new = iter(numbers)
                text = re.sub(r"\d+", lambda _, new=new: str(next(new)), bits.value)
                yield sheet.put((bits.value_at, text))


@kind("a range of bits the wrong way round")
def reversed_bits(sheet: Sheet) -> Iterator[Slip]:
    for element in [*sheet.chip.every("field"), *sheet.chip.every("reserved")]:
        bits = element.properties["bits"]
        for found in re.finditer(r"(\d+):(\d+)", bits.value):
            at = bits.value_at[0] + found.start(), bits.value_at[0] + found.end()
            yield sheet.put((at, f"{found[2]}:{found[1]}"))


@kind("a flag dropped from a row")
def dropped(sheet: Sheet) -> Iterator[Slip]:
    for register in sheet.chip.every("register"):
        flags = register.get("flags")
        entries = flags.value.split() if flags else []
        for index in range(len(entries)):
            new = " ".join(entries[:index] + entries[index + 1 :])
            if flags and (entries[index] != "-" or index == 0):
                yield sheet.put((flags.value_at, new))


@kind(
    "a named value repeated or off by one",
    "the field has codes without a name, and the new one is among them",
)
def value_off(sheet: Sheet) -> Iterator[Slip]:
    for field in sheet.chip.every("field"):
        values = [value.properties["value"] for value in field.of("value")]
        for before, item in pairwise(values):
            yield sheet.put((item.value_at, before.value))
        for item in values:
            for by in (-1, 1):
                number = int(item.value, 0) + by
                if number >= 0:
                    text = f"0b{number:02b}" if item.value.startswith("0b") else str(number)
                    yield sheet.put((item.value_at, text))


@kind("a digit of a reset value changed", "any level may be right for bits that mean something")
def reset_off(sheet: Sheet) -> Iterator[Slip]:
    for register in sheet.chip.every("register"):
        reset = register.get("reset")
        for found in re.finditer(r"[0-9A-Fx]", reset.value[2:] if reset else ""):
            if reset is None:
                continue
            digits = "01x" if reset.value.startswith("0b") else "0123456789ABCDEF"
            digit = sheet.rng.choice(digits.replace(found[0], ""))
            at = reset.value_at[0] + 2 + found.start()
            yield sheet.put(((at, at + 1), digit))


@kind("an access word that contradicts")
def access_off(sheet: Sheet) -> Iterator[Slip]:
    for register in sheet.chip.every("register"):
        access = register.get("access")
        if access and register.get("readAction"):
            yield sheet.put((access.value_at, "write-only"))
        elif access and access.value == "write-only" and not register.of("field"):
            yield sheet.put((access.value_at, "read-write"))
        quote, colon = ('"', ": ") if sheet.name.endswith("json") else ("", "=")
        comma = ", " if quote else " "
        for field in register.of("field"):
            effect = field.get("modifiedWriteValue")
            if effect:
                at = effect.name_at[0] - len(quote)
                word = f'{quote}access{quote}{colon}"read-only"{comma}'
                yield sheet.put(((at, at), word))
            name = field.properties["name"]
            if access and access.value in ("read-only", "write-only") and not field.get("access"):
                at = name.name_at[0] - len(quote)
                word = f'{quote}access{quote}{colon}"read-write"{comma}'
                yield sheet.put(((at, at), word))


@kind(
    "a register's width changed",
    "nothing stands behind the register, and it has no fields and no halves",
)
def width_off(sheet: Sheet) -> Iterator[Slip]:
    for register in sheet.chip.every("register"):
        width = register.get("width")
        for new in ("8", "32") if width else ():
            if width:
                yield sheet.put((width.value_at, new))


@kind("the halves swapped", "no other register passes through the same hidden one")
def half_swapped(sheet: Sheet) -> Iterator[Slip]:
    for halves in sheet.chip.every("halves"):
        low, high = (halves.of(side)[0].get("address") for side in ("low", "high"))
        if low and high:
            yield sheet.put((low.value_at, high.value), (high.value_at, low.value))
        for key in ("readFirst", "writeFirst"):
            order = halves.get(key)
            if order:
                yield sheet.put((order.value_at, "low" if order.value == "high" else "high"))


@kind("a property misspelt")
def misspelt(sheet: Sheet) -> Iterator[Slip]:
    for name in ("register", "field", "value", "reserved", "halves", "low", "instance"):
        for element in sheet.chip.every(name):
            for key, item in element.properties.items():
                i = sheet.rng.randrange(len(key) - 1)
                new = sheet.rng.choice(
                    [key[:i] + key[i + 1] + key[i] + key[i + 2 :], key[:i] + key[i:][1:]]
                )
                if new != key:
                    yield sheet.put((item.name_at, new))


@cache
def sources() -> dict[str, str]:
    folder = ROOT / "descriptions"
    return {name: (folder / name).read_text(encoding="utf-8") for name in DESCRIPTIONS}


def checked(name: str, text: str) -> Checked:
    data = text.encode()
    return check(Source(name, data, spelling_of(name, data)))


@cache
def clean(name: str) -> Checked:
    return checked(name, sources()[name])


def draw(count: int = SLIPS) -> list[Slip]:
    """Return ``count`` slips, as many of each kind as there can be."""
    waiting: dict[str, list[list[Slip]]] = {}
    for name, (maker, _) in KINDS.items():
        waiting[name] = []
        for description, text in sources().items():
            rng = random.Random(f"{SEED} {name} {description}")
            sheet = Sheet(description, text, elements(text, description.rpartition(".")[2]), rng)
            found = list({slip.text: slip for slip in maker(sheet)}.values())
            rng.shuffle(found)
            waiting[name].append(found)
    slips: list[Slip] = []
    texts: set[str] = set()
    while len(slips) < count and any(any(lists) for lists in waiting.values()):
        for name, lists in waiting.items():
            fullest = [some for some in lists if some]
            if fullest and len(slips) < count:
                # the descriptions take turns
                lists.append(lists.pop(lists.index(fullest[0])))
                slip = fullest[0].pop()
                # one slip may be of two kinds
                if slip.text not in texts:
                    texts.add(slip.text)
                    slips.append(replace(slip, kind=name))
    return slips


@dataclass(frozen=True)
class Outcome:
    """What became of a slip.

    ``on_line``: a finding stands on a damaged line; ``elsewhere``: one stands on another line
    only; ``contradicts``: what the slip contradicts, by ``contradictions``.
    """

    slip: Slip
    on_line: bool
    elsewhere: bool
    contradicts: tuple[str, ...]
    rules: tuple[str, ...]


def judge(slip: Slip) -> Outcome | None:
    """Check a damaged description; ``None`` when it still means the same."""
    before, after = clean(slip.description), checked(slip.description, slip.text)
    if before.resolved and after.resolved:
        if without_places(after.resolved.chip) == without_places(before.resolved.chip):
            return None
        contradicts = tuple(sorted(set(contradictions(after.resolved))))
    else:
        contradicts = ("the format",)
    known = {(item.finding.rule, item.finding.message) for item in before.findings}
    found = [
        item
        for item in after.findings
        if item.finding.rule not in NO_CATCH
        and (item.finding.rule, item.finding.message) not in known
    ]
    on_line = any(item.place.line in slip.lines for item in found)
    rules = tuple(sorted({item.finding.rule for item in found}))
    return Outcome(slip, on_line, bool(found) and not on_line, contradicts, rules)


@cache
def outcomes() -> tuple[Outcome, ...]:
    """Return what became of the first ``SLIPS`` slips that change what a description says."""
    judged = (judge(slip) for slip in draw(SLIPS + SLIPS // 5))
    return tuple(outcome for outcome in judged if outcome is not None)[:SLIPS]


def table() -> str:
    """Return the table: for each kind how many were made, found on the line, elsewhere, not."""
    head = f"{'kind of slip':45}{'made':>6}{'on line':>9}{'elsewhere':>11}{'not':>5}"
    rows = [head, "-" * len(head)]
    reasons = []
    for name, (_, why_not) in KINDS.items():
        own = [item for item in outcomes() if item.slip.kind == name]
        rows.append(_row(name, own))
        if any(not (item.on_line or item.elsewhere) for item in own):
            reasons.append(f"{name}: {why_not}")
    rows += ["-" * len(head), _row("all", list(outcomes()))]
    must = [item for item in outcomes() if item.contradicts]
    found = sum(item.on_line or item.elsewhere for item in must)
    rows += ["", f"{len(must)} contradict something else in the description: {found} found"]
    rows += ["", "Why the others cannot be found (nothing in the description contradicts them):"]
    return "\n".join([*rows, *(f"- {reason}" for reason in reasons)])


def _row(name: str, own: list[Outcome]) -> str:
    on_line = sum(item.on_line for item in own)
    elsewhere = sum(item.elsewhere for item in own)
    share = f"{100 * on_line / max(len(own), 1):.0f} %"
    missed = len(own) - on_line - elsewhere
    return f"{name:45}{len(own):6}{share:>9}{elsewhere:11}{missed:5}"


if __name__ == "__main__":
    print(table())
    if "--all" in sys.argv:
        for item in outcomes():
            if not item.on_line:
                says = ", ".join(item.contradicts) or "nothing"
                where = "elsewhere " + ", ".join(item.rules) if item.elsewhere else "not found"
                print(
                    f"{item.slip.kind} | {item.slip.description} | {item.slip.what[:90]} |"
                    f" contradicts {says} | {where}"
                )
