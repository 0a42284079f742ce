"""The editions of the standard: how to tell them, and in what they differ."""

from typing import NamedTuple

_SPIRIT = "http://www.spiritconsortium.org/XMLSchema/SPIRIT/"
_IPXACT = "http://www.accellera.org/XMLSchema/IPXACT/"


class Edition(NamedTuple):
    """An edition; ``label`` names it in messages, ``folder`` is that of its schemas or empty.

    ``plain_numbers`` tells whether numbers are plain ones with a scale (2009 and before) and not
    expressions; ``qualified`` whether attributes are in the namespace.
    """

    label: str
    namespace: str
    folder: str = ""
    plain_numbers: bool = False
    qualified: bool = False


EDITIONS = (
    Edition("SPIRIT 1.4", f"{_SPIRIT}1.4", plain_numbers=True, qualified=True),
    Edition("SPIRIT 1.5", f"{_SPIRIT}1.5", plain_numbers=True, qualified=True),
    Edition("1685-2009", f"{_SPIRIT}1685-2009", "2009", plain_numbers=True, qualified=True),
    Edition("1685-2014", f"{_IPXACT}1685-2014", "2014"),
    Edition("1685-2022", f"{_IPXACT}1685-2022", "2022"),
)
_BY_NAMESPACE = {edition.namespace: edition for edition in EDITIONS}
READ = "SPIRIT 1.4 and 1.5, 1685-2009, 1685-2014 and 1685-2022 are read"


class NoEdition(Exception):
    """The root element belongs to no edition that is read; says which it is."""


def edition_of(tag: str) -> Edition:
    """Return the edition of a root element called ``tag``, as ``{namespace}name``.

    Raises :class:`NoEdition`.
    """
    namespace = tag[1:].partition("}")[0] if tag.startswith("{") else ""
    if namespace in _BY_NAMESPACE:
        return _BY_NAMESPACE[namespace]
    if not namespace:
        raise NoEdition(f"this XML is in no namespace, so it is no document of IEEE 1685; {READ}")
    if namespace.startswith((_SPIRIT, _IPXACT)) or "spiritconsortium" in namespace.lower():
        which = namespace.rpartition("/")[2]
        raise NoEdition(
            f"the edition {which[:40]!r} is too far from the others to be read; {READ}: convert "
            "the file with the tool that made it"
        )
    raise NoEdition(f"the namespace {namespace[:80]!r} is not that of IEEE 1685; {READ}")


class _Names(dict[str, str]):
    """The short name of each tag of one namespace; what is foreign keeps its namespace."""

    def __init__(self, namespace: str) -> None:
        super().__init__()
        self._start = f"{{{namespace}}}"

    def __missing__(self, tag: str) -> str:
        short = tag.removeprefix(self._start)
        self[tag] = short
        return short


def short_names(edition: Edition) -> dict[str, str]:
    """Return a mapping from ``{namespace}name`` to ``name``, for any tag, made as it is asked."""
    return _Names(edition.namespace)
