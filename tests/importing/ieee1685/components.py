"""Components of the 2014 edition made of a few words, for tests that need but a little one."""

from __future__ import annotations

NAMESPACE = "http://www.accellera.org/XMLSchema/IPXACT/1685-2014"
LATER = "http://www.accellera.org/XMLSchema/IPXACT/1685-2022"


def component(
    maps: str,
    before: str = "",
    after: str = "",
    namespace: str = NAMESPACE,
    root: str = "component",
) -> bytes:
    """Return a component; ``i:`` stands for the namespace."""
    return (
        f'<?xml version="1.0" encoding="UTF-8"?>\n<i:{root} xmlns:i="{namespace}">\n'
        "<i:vendor>sorrel.example</i:vendor><i:library>greenhouse</i:library>"
        f"<i:name>little</i:name><i:version>1</i:version>\n{before}"
        f"<i:memoryMaps>{maps}</i:memoryMaps>\n{after}</i:{root}>\n"
    ).encode()


def memory_map(content: str, name: str = "control", tail: str = "") -> str:
    return f"<i:memoryMap><i:name>{name}</i:name>{content}{tail}</i:memoryMap>"


def block(content: str, size: str = "64", base: str = "0", head: str = "") -> str:
    return (
        f"<i:addressBlock><i:name>b</i:name>{head}<i:baseAddress>{base}</i:baseAddress>"
        f"<i:range>{size}</i:range><i:width>32</i:width>{content}</i:addressBlock>"
    )


def register(
    name: str = "R", offset: str = "0", size: str = "32", content: str = "", head: str = ""
) -> str:
    return (
        f"<i:register><i:name>{name}</i:name>{head}<i:addressOffset>{offset}</i:addressOffset>"
        f"<i:size>{size}</i:size>{content}</i:register>"
    )


def field(name: str = "F", low: str = "0", width: str = "1", content: str = "") -> str:
    return (
        f"<i:field><i:name>{name}</i:name><i:bitOffset>{low}</i:bitOffset>"
        f"<i:bitWidth>{width}</i:bitWidth>{content}</i:field>"
    )


def parameters(**values: str) -> str:
    items = "".join(
        f'<i:parameter parameterId="{name}"><i:name>{name}</i:name><i:value>{value}</i:value>'
        "</i:parameter>"
        for name, value in values.items()
    )
    return f"<i:parameters>{items}</i:parameters>"


def little(registers: str, **values: str) -> bytes:
    """Return a component with one block of ``registers``, and parameters."""
    return component(memory_map(block(registers)), after=parameters(**values) if values else "")
