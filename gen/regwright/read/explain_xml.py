"""Say what the XSD holds against an XML document, in words that tell what to write instead.

The XSD has decided that the document is refused. Here its text is walked once more: what only XML
can get wrong (an element out of order, stray text) becomes a finding on the spot, and what is
left is the tree that both spellings share, for ``explain`` to look at.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, NamedTuple
from xml.parsers import expat

from regwright.format.shape import Child, Shape, definition, shapes
from regwright.model.finding import ERROR, NAME, Finding
from regwright.model.words import nearest
from regwright.read.certain import only_near
from regwright.read.explain import MOST, RULE, explain
from regwright.read.source import Source
from regwright.read.xml_locate import attributes_at

_WHITE = " \t\r\n"
#: Digits of a whole number at most; what has more stays text, and the schema refuses it.
_LONGEST_INTEGER = 18


def explain_xml(source: Source, complaints: list[str]) -> list[Finding]:
    """Return one finding for each thing that is wrong, else the XSD's ``complaints``."""
    outline = _Outline(source)
    findings = outline.findings
    if outline.tree is not None:
        findings = findings + explain(outline.tree, source)
    return findings or [_in_its_own_words(complaint) for complaint in complaints]


def _in_its_own_words(complaint: str) -> Finding:
    line, _, message = complaint.partition(":")
    return Finding(RULE, ERROR, message.rstrip("."), None, at=(int(line), 1))


class _Frame(NamedTuple):
    """An element that is open."""

    tag: str
    shape: Shape | None  # None: its elements are not looked at
    tree: dict[str, Any]
    seen: list[Child]  # the latest, in the order of the format, of the elements within it
    text: list[str] | None  # what stands in an element that holds text
    strays: list[str]  # text that does not belong
    misspelt: dict[int, Child]  # the findings on elements within it, and what is meant


class _Outline:
    """The tree of one text, and what is wrong with its elements."""

    def __init__(self, source: Source) -> None:
        """Walk ``source``, which is well formed."""
        self.tree: dict[str, Any] | None = None
        self.findings: list[Finding] = []
        self._source = source
        self._stack: list[_Frame] = []
        self._data = source.text.encode("utf-8")
        self._byte = self._character = 0
        self._parser = expat.ParserCreate("utf-8")
        self._parser.buffer_text = False
        self._parser.StartElementHandler = self._start
        self._parser.EndElementHandler = self._end
        self._parser.CharacterDataHandler = self._characters
        try:
            self._parser.Parse(self._data, True)  # noqa: FBT003
        except expat.ExpatError:
            # Names that only a later edition of XML allows: the format has none of them.
            self._complain("a name here has characters that no name of the format has")
            self.tree = None  # only half of it is there

    def _here(self) -> int:
        """Return the character at which the parser stands; it only ever moves on."""
        byte = max(self._parser.CurrentByteIndex, self._byte)
        self._character += len(self._data[self._byte : byte].decode("utf-8"))
        self._byte = byte
        return self._character

    def _complain(self, message: str, *, skipped: int = 0, attribute: str = "") -> None:
        if len(self.findings) >= MOST:
            return
        offset = self._here() + skipped
        if attribute:
            offset = attributes_at(self._source.text, offset)[attribute].start(1)
        at = self._source.line_and_column(offset)
        self.findings.append(Finding(RULE, ERROR, message, None, at=at))

    def _start(self, tag: str, attributes: dict[str, str]) -> None:
        if not self._stack:
            self._stack.append(self._root(tag, attributes))
            return
        around = self._stack[-1]
        if around.text is not None:
            self._complain(f"<{tag}> has no place in <{around.tag}>, which holds text only")
        child = around.shape.children.get(tag) if around.shape else None
        if around.shape and child is None:
            self._complain_of_element(tag, around, around.shape)
        self._stack.append(self._within(around, child, tag, attributes))

    def _root(self, tag: str, attributes: dict[str, str]) -> _Frame:
        shape = shapes()["chip"]
        if tag != "chip":
            self._complain(f"the outermost element is <{tag}>; it must be <chip>")
            return _frame(tag, None, {})
        self.tree = self._attributes(tag, attributes, shape)
        return _frame(tag, shape, self.tree)

    def _within(
        self, around: _Frame, child: Child | None, tag: str, attributes: dict[str, str]
    ) -> _Frame:
        if child is None or around.shape is None:
            return _frame(tag, None, {})
        self._check_order(around, around.shape, child)
        if not child.many and child.property in around.tree:
            self._complain(f"<{tag}> stands in <{around.tag}> twice; keep one of them")
            return _frame(tag, None, {})
        if child.shape is None:
            for name in attributes:
                self._complain(f"<{tag}> has no attributes; remove {name!r}", attribute=name)
            around.tree[child.property] = ""
            return _frame(tag, None, {}, [])
        shape = shapes()[child.shape]
        tree = self._attributes(tag, attributes, shape)
        if child.many:
            around.tree.setdefault(child.property, []).append(tree)
        else:
            around.tree[child.property] = tree
        return _frame(tag, shape, tree)

    def _check_order(self, around: _Frame, shape: Shape, child: Child) -> None:
        order = list(shape.children.values())
        if around.seen and order.index(child) < order.index(around.seen[-1]):
            before = around.seen[-1].element
            self._complain(
                f"<{child.element}> stands too late in <{around.tag}>; move it before <{before}>"
                f" (the order is {', '.join(shape.children)})"
            )
            return
        around.seen.append(child)

    def _attributes(self, tag: str, attributes: dict[str, str], shape: Shape) -> dict[str, Any]:
        """Return the attributes that the tree can hold; complain of the others."""
        tree: dict[str, Any] = {}
        for name, value in attributes.items():
            message = ""
            if name == "xmlns":
                message = "the elements of a description have no namespace; remove xmlns"
            elif name == "comment":
                message = "a comment stands before its element, as <!-- … -->"
            elif name in shape.by_property:
                child = shape.by_property[name]
                what = f"<{child.element}> elements" if child.many else f"a <{child.element}>"
                message = f"{name!r} is no attribute; write {what} within <{tag}>"
            elif name in shape.attributes or not name.startswith(("xmlns:", "xsi:")):
                tree[name] = _value(name, value, shape)
            if message:
                self._complain(message, attribute=name)
        return tree

    def _complain_of_element(self, tag: str, around: _Frame, shape: Shape) -> None:
        """Complain of an element that the format does not have there."""
        number = len(self.findings)
        meant = only_near(tag, shape.children)
        is_other_thing = tag in shape.attributes or tag in shape.by_property
        if meant and not is_other_thing and number < MOST:
            around.misspelt[number] = shape.children[meant]
        self._complain(_unknown_element(tag, around.tag, shape, meant))

    def _repair_elements(self, frame: _Frame) -> None:
        """Add what misspelt elements within ``frame`` are to be called, where that is free."""
        for number, child in frame.misspelt.items():
            is_taken = (
                child.property in frame.tree or list(frame.misspelt.values()).count(child) > 1
            )
            if child.many or not is_taken:
                finding = self.findings[number]
                self.findings[number] = finding._replace(repair=child.element, part=NAME)

    def _end(self, _tag: str) -> None:
        frame = self._stack.pop()
        self._repair_elements(frame)
        if frame.text is not None:
            around = self._stack[-1]
            if around.shape is not None:
                around.tree[around.shape.children[frame.tag].property] = "".join(frame.text)

    def _characters(self, text: str) -> None:
        if not self._stack:
            return
        frame = self._stack[-1]
        if frame.text is not None:
            frame.text.append(text)
            return
        stray = text.strip(_WHITE)
        if frame.shape is None or not stray:
            return
        frame.strays.append(stray)
        if len(frame.strays) > 1:
            return
        what = f"no text belongs in <{frame.tag}>; remove it"
        if "notes" in frame.shape.children:
            what += " or put it in <notes>"
        self._complain(what, skipped=len(text) - len(text.lstrip(_WHITE)))


def _frame(
    tag: str, shape: Shape | None, tree: dict[str, Any], text: list[str] | None = None
) -> _Frame:
    return _Frame(tag, shape, tree, [], text, [], {})


def _unknown_element(tag: str, around: str, shape: Shape, meant: str | None) -> str:
    if tag in shape.attributes:
        return f'{tag!r} is no element; write it as an attribute: <{around} {tag}="…">'
    if tag in shape.by_property:
        element = shape.by_property[tag].element
        return f"<{tag}> is unknown in <{around}>; write each as <{element}>"
    if not shape.children:
        return f"<{tag}> is unknown in <{around}>, which has attributes only"
    near = meant or nearest(tag, shape.children)
    known = ", ".join(f"<{name}>" for name in shape.children)
    hint = f"did you mean <{near}>?" if near else f"known are {known}"
    return f"<{tag}> is unknown in <{around}>; {hint}"


def _value(name: str, text: str, shape: Shape) -> Any:
    """Return an attribute's value as JSON has it, or the text when the XSD takes it for none."""
    if name in shape.booleans:
        known: Callable[[str, Any], Any] = {"true": True, "false": False}.get
        return known(text, text)
    if name not in shape.integers:
        return text
    # the XSD strips white space off integers, but words it takes as they stand: 1 of the format too
    is_word = "enum" in definition(shape.name)["properties"][name]
    digits = text if is_word else text.strip(_WHITE)
    is_plain = digits.isascii() and digits.isdigit() and str(int(digits[:19])) == digits
    return int(digits) if is_plain and len(digits) <= _LONGEST_INTEGER else text
