"""Repair a description's text: change the characters concerned and leave every other as it is."""

from __future__ import annotations

import json
import re
from bisect import bisect_left
from collections.abc import Iterable, Iterator
from typing import NamedTuple

from regwright.model.finding import LITERAL, NAME, Finding
from regwright.read.source import Source

#: What JSON writes without quotes.
_BARE = re.compile(r"-?(0|[1-9][0-9]*)|true|false|null")
_XML_ESCAPES = str.maketrans(
    {
        "&": "&amp;",
        "<": "&lt;",
        '"': "&quot;",
        "'": "&apos;",
        "\t": "&#9;",
        "\n": "&#10;",
        "\r": "&#13;",
    }
)
#: A space that is written as an escape, in either spelling.
_ESCAPED_SPACE = r"\\u0020|&#0*32;|&#x0*20;"
#: Lines of context around a change, as patches have them.
_CONTEXT = 3


class Edit(NamedTuple):
    """What takes the place of the characters from ``start`` to before ``end``."""

    start: int
    end: int
    text: str


def edits(source: Source, finding: Finding) -> list[Edit]:
    """Return what repairs ``finding``, as ``source`` spells it; nothing when that is not certain.

    The name of an element takes two edits, one in each of its tags.
    """
    if finding.repair is None:
        return []
    found = []
    for start, end in source.spans(finding):
        if finding.word and _has_escapes(source.text, start, end):
            return []  # the word is not spelled as it reads
        text = _spelled(source, finding, start, end)
        if text != source.text[start:end]:
            found.append(Edit(start, end, text))
    return found


def _has_escapes(text: str, start: int, end: int) -> bool:
    """Tell whether an escape of either spelling stands in the word, or carries it on."""
    if any(character in "&\\" for character in text[start:end]):
        return True
    ends = re.match(_ESCAPED_SPACE, text[end : end + 12]) is not None
    return text[end : end + 1] in ("&", "\\") and not ends


def _spelled(source: Source, finding: Finding, start: int, end: int) -> str:
    repair = finding.repair or ""
    if finding.part == LITERAL:
        return repair
    if source.spelling == "xml":
        return repair if finding.part == NAME else repair.translate(_XML_ESCAPES)
    quoted = json.dumps(repair, ensure_ascii=False)
    is_bare = _BARE.fullmatch(source.text, start, end) and source.text[start - 1 : start] != '"'
    if is_bare and not finding.word:
        return repair if _BARE.fullmatch(repair) else quoted
    return quoted[1:-1]


class Repaired(NamedTuple):
    """A repaired text, and which of the findings are no longer in it."""

    source: Source
    done: list[Finding]


def repaired(source: Source, findings: Iterable[Finding]) -> Repaired:
    """Return ``source`` with the repairs of ``findings``; of those that overlap the first wins."""
    if source.text.encode("utf-8") != source.data:
        return Repaired(source, [])
    chosen: list[Edit] = []
    done = []
    for finding in findings:
        wanted = edits(source, finding)
        fits = all(_fits(item, chosen) for item in wanted)
        if wanted and fits:
            for item in wanted:
                place = bisect_left(chosen, item)
                if chosen[place : place + 1] != [item]:
                    chosen.insert(place, item)
            done.append(finding)
    pieces = []
    position = 0
    for start, end, text in chosen:
        pieces += [source.text[position:start], text]
        position = end
    pieces.append(source.text[position:])
    data = "".join(pieces).encode("utf-8")
    return Repaired(Source(source.name, data, source.spelling), done)


def _fits(item: Edit, chosen: list[Edit]) -> bool:
    """Tell whether ``item`` is one of ``chosen`` already, or touches none of them."""
    place = bisect_left(chosen, item)
    before, after = chosen[max(place - 1, 0) : place], chosen[place : place + 1]
    if after == [item]:
        return True
    touched = [o for o in before if o.end > item.start or o.start == item.start]
    touched += [o for o in after if o.start < item.end or o.start == item.start]
    return not touched


def patch(name: str, before: bytes, after: bytes) -> bytes:
    """Return the unified patch from ``before`` to ``after``, as ``patch -p0`` takes it.

    A line ends with a line feed and with nothing else, whatever else Python ends lines with.
    """
    now, wanted = _lines(before), _lines(after)
    head = _header_name(name)
    if len(now) == len(wanted):
        hunks = list(_hunks(now, wanted))
        lines = [f"--- {head}\n", f"+++ {head}\n", *hunks] if hunks else []
    else:  # a value that stood on several lines is on one now
        import difflib

        lines = list(difflib.unified_diff(now, wanted, head, head, n=_CONTEXT))
    return b"".join(
        (line if line.endswith("\n") else f"{line}\n\\ No newline at end of file\n").encode(
            "latin-1"
        )
        for line in lines
    )


def _hunks(now: list[str], wanted: list[str]) -> Iterator[str]:
    """Yield the lines of the hunks between two texts of as many lines, compared one by one."""
    changed = [n for n, (one, other) in enumerate(zip(now, wanted, strict=True)) if one != other]
    position = 0
    while position < len(changed):
        last = position
        while last + 1 < len(changed) and changed[last + 1] - changed[last] <= 2 * _CONTEXT + 1:
            last += 1
        start = max(changed[position] - _CONTEXT, 0)
        end = min(changed[last] + _CONTEXT + 1, len(now))
        span = f"{start + 1},{end - start}" if end - start != 1 else str(start + 1)
        yield f"@@ -{span} +{span} @@\n"
        yield from _hunk(now[start:end], wanted[start:end])
        position = last + 1


def _hunk(now: list[str], wanted: list[str]) -> Iterator[str]:
    removed: list[str] = []
    added: list[str] = []
    for one, other in zip(now, wanted, strict=True):
        if one == other:
            yield from removed + added
            removed, added = [], []
            yield f" {one}"
        else:
            removed.append(f"-{one}")
            added.append(f"+{other}")
    yield from removed + added


def _lines(data: bytes) -> list[str]:
    """Return the lines of ``data``, each byte a character."""
    return re.findall(r"[^\n]*\n|[^\n]+", data.decode("latin-1"))


def _header_name(name: str) -> str:
    """Return a file's name as the head of a patch has it: quoted, or ended by a tab, if it must."""
    data = name.encode("utf-8", "surrogateescape")
    if re.search(rb'[\x00-\x1f\x7f"\\]', data):
        return '"' + re.sub(rb'[\x00-\x1f\x7f-\xff"\\]', _octal, data).decode("ascii") + '"'
    return data.decode("latin-1") + ("\t" if b" " in data else "")


def _octal(match: re.Match[bytes]) -> bytes:
    return b"\\%03o" % match[0][0]
