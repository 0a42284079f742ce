"""Configuration bytes and words: what the hardware reads when it starts."""

from typing import NamedTuple

from regwright.model.chip import BitRange
from regwright.model.origin import Origin


class SettingIs(NamedTuple):
    """A setting, by its plain name, and the choice it must have."""

    setting: str
    choice: str


class Hazard(NamedTuple):
    """What can go wrong with a choice; ``kind`` is locks-out, needs-hardware or other.

    ``when`` are the settings that cause it together, when no single choice names it.
    """

    name: str
    kind: str
    title: str | None = None
    caution: str | None = None
    when: tuple[SettingIs, ...] = ()
    origin: Origin = None


class Choice(NamedTuple):
    """A value of a setting, counted from the field's own bit 0, and its name in plain words."""

    name: str
    value: int
    title: str | None = None
    hazards: tuple[str, ...] = ()
    origin: Origin = None


class ConfigurationField(NamedTuple):
    """A field of a word: one ``setting``. ``programmed`` is the value of a bit that counts so."""

    name: str
    setting: str
    bits: tuple[BitRange, ...]
    title: str | None = None
    programmed: int | None = None
    page: int | None = None
    notes: str | None = None
    choices: tuple[Choice, ...] = ()
    printed: str | None = None
    review: str | None = None
    origin: Origin = None


class UnusedBits(NamedTuple):
    """Bits without a meaning; ``value`` is what each of them must be, when that is said."""

    bits: tuple[BitRange, ...]
    value: int | None = None
    title: str | None = None
    origin: Origin = None


class ConfigurationWord(NamedTuple):
    """A byte or word of ``width`` bits at ``address`` of the configuration's space."""

    name: str
    address: int
    default: int
    title: str | None = None
    width: int = 8
    lock: bool = False
    page: int | None = None
    notes: str | None = None
    fields: tuple[ConfigurationField, ...] = ()
    unused: tuple[UnusedBits, ...] = ()
    printed: str | None = None
    review: str | None = None
    origin: Origin = None


class Configuration(NamedTuple):
    """All configuration words; ``programmed`` is the value of a bit that counts as programmed."""

    space: str
    words: tuple[ConfigurationWord, ...]
    hazards: tuple[Hazard, ...] = ()
    programmed: int = 0
    origin: Origin = None
