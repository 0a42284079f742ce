"""Read the words for access and the values after reset that data sheets print."""

from __future__ import annotations

import re
from functools import lru_cache
from typing import NamedTuple

from regwright.importing.tables.notation import (
    is_dash,
    is_nothing,
    number,
    plain_dashes,
    strip_marks,
)

READ_WRITE, READ, WRITE = "read-write", "read-only", "write-only"


class Access(NamedTuple):
    """What is printed about reading and writing, in the words of IEEE 1685.

    ``reset`` is the digit that some documents print behind the access (``R/W-0``). ``doubt``
    says what else the printed word may mean.
    """

    word: str = ""
    write: str = ""
    read: str = ""
    reset: str = ""
    reserved: bool = False
    doubt: str = ""


_PLAIN = {
    READ_WRITE: "rw r/w w/r read/write read-write readwrite r,w r&w read,write read/writeable",
    READ: "r ro r/o read readonly read-only r/hs/hc r/-",
    WRITE: "w wo w/o write writeonly write-only -/w",
    "writeOnce": "wo1 w/once writeonce write-once",
    "read-writeOnce": "rwo r/wo rw/once r/wonce read-writeonce",
    "no-access": "none noaccess no-access",
}
_ACCESS = {word: Access(meaning) for meaning, words in _PLAIN.items() for word in words.split()}
_ON_WRITE = {
    "1c": "oneToClear",
    "1s": "oneToSet",
    "1t": "oneToToggle",
    "0c": "zeroToClear",
    "0s": "zeroToSet",
    "0t": "zeroToToggle",
}
_SPECIAL = re.compile(r"(r/?|read/)?w(?:rite)?[/_-]?([01][cst])")
_OTHER_WAY = re.compile(r"rc[/_-]?w([01])|r/?c[/_-]?w?([01])|r/?s[/_-]?w?(1)")
_READ_CLEARS = {"rc_r", "cor", "readtoclear", "rclr", "roc"}
_READ_CLEARS_TOO = {"rwrc", "rw/rc", "r/w/rc", "wrc"}
#: Words that IEEE 1800.2 gives one meaning, and data sheets another.
_UNSURE = {
    "rc": Access(READ, read="clear"),
    "rs": Access(READ, read="set"),
    "wc": Access(READ_WRITE, write="clear"),
    "ws": Access(READ_WRITE, write="set"),
}
_WITH_RESET = re.compile(r"(.+?)-\(?([01xuq])\)?")


@lru_cache(maxsize=1024)
def access(text: str) -> Access | None:
    """Return what ``text`` says of access; ``None`` when it is no word for that."""
    text = plain_dashes(strip_marks(text)[0]).lower().replace(" ", "")
    known = _known(text)
    if known is not None:
        return known
    found = _WITH_RESET.fullmatch(text)
    if found:
        reset = "x" if found[2] in "uqx" else found[2]
        if found[1] in ("u", "-"):
            return Access(READ, reset=reset, reserved=True)
        known = _known(found[1])
        if known is not None:
            return known._replace(reset=reset)
    return None


def _known(text: str) -> Access | None:
    if text in _ACCESS:
        return _ACCESS[text]
    if found := _SPECIAL.fullmatch(text):
        # IEEE 1800.2 too has W1C as one that can be read without effect; WOC is write-only
        return Access(READ_WRITE, write=_ON_WRITE[found[2]])
    if found := _OTHER_WAY.fullmatch(text):
        effect = _ON_WRITE["1s"] if found[3] else _ON_WRITE[f"{found[1] or found[2]}c"]
        return Access(READ_WRITE, write=effect)
    if text in _READ_CLEARS_TOO:
        return Access(READ_WRITE, read="clear")
    if text in _READ_CLEARS:
        return Access(READ, read="clear")
    return _unsure(text)


def _unsure(text: str) -> Access | None:
    """Return what IEEE 1800.2 says of a word that documents use in other ways too."""
    plain = text.replace("/", "")
    found = _UNSURE.get(plain) or _UNSURE.get(plain.removeprefix("r"))
    if found is None:
        return None
    verb = "clears" if plain.endswith("c") else "sets"
    what = "reading" if found.read else "any writing"
    doubt = f"{text.upper()!r} is read as: {what} {verb} it; look up what {verb} it"
    return found._replace(doubt=doubt)


class Reset(NamedTuple):
    """A value after reset: ``undefined`` has a 1 for each bit that the document leaves open."""

    value: int
    undefined: int = 0
    doubt: str = ""


_OPEN = re.compile(r"(x+|u+|\?+|undefined|unknown|indeterminate|unchanged|random|undef\.?)")
_BY_BIT = re.compile(r"[01xu?q-]+")
_HEX_OPEN = re.compile(r"(?:0x|\$)([0-9a-fxu_]+)|([0-9a-fx]+)h")


def reset(text: str, width: int) -> Reset | None:
    """Return the value after reset that ``text`` is for ``width`` bits.

    ``None`` where it says nothing (blank, a dash, N/A). A text that is no value at all gives a
    wholly undefined one with a doubt.
    """
    text = plain_dashes(strip_marks(text)[0]).lower()
    if not text or is_nothing(text) or is_dash(text):
        return None
    everything = (1 << width) - 1
    if _OPEN.fullmatch(text):
        return Reset(0, everything)
    digits = re.sub("[ _'.]", "", text.removeprefix("0b").removesuffix("b"))
    if len(digits) == width and _BY_BIT.fullmatch(digits) and not text.startswith("0x"):
        return _by_bit(digits)
    compact = re.sub("[ '.]", "", text)
    if (found := _HEX_OPEN.fullmatch(compact)) and set(found[1] or found[2]) & set("xu"):
        return _by_digit((found[1] or found[2]).replace("_", ""), everything)
    return _of_number(text, width)


def _of_number(text: str, width: int) -> Reset:
    everything = (1 << width) - 1
    read = number(text)
    if read is None:
        return Reset(0, everything, f"the reset value {text!r} could not be read")
    if read.value > everything:
        return Reset(0, everything, f"the reset value {text!r} does not fit into {width} bits")
    is_open = read.style == "bare" and read.value > 9 and not re.search("[a-f]", text)
    doubt = f"the reset value {text!r} is printed without a base, read as hexadecimal"
    return Reset(read.value, 0, read.doubt or (doubt if is_open else ""))


def _by_bit(digits: str) -> Reset:
    value = int("".join("1" if digit == "1" else "0" for digit in digits), 2)
    undefined = int("".join("0" if digit in "01" else "1" for digit in digits), 2)
    return Reset(value, undefined)


def _by_digit(digits: str, everything: int) -> Reset:
    value = int("".join("0" if digit in "xu" else digit for digit in digits), 16)
    undefined = int("".join("f" if digit in "xu" else "0" for digit in digits), 16)
    return Reset(value & everything, undefined & everything)
