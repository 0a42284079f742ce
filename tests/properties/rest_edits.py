"""Edits to what a description has besides registers: memories, vectors, settings, clock, pins.

Each leaves the source and the dividers of the CPU's clock as they are, so that nothing follows
from it.
"""

from __future__ import annotations

from typing import Any

from edits import Edited, Thing, edit
from tree_facts import Tree, number


def _text(edited: Edited, node: Tree, name: str, keys: tuple[str, ...]) -> bool:
    """Give a title, page or notes of a node another value."""
    key = edited.rng.choice(keys)
    values = (1, 2, None) if key == "page" else ("some words", "other words", None)
    new = edited.rng.choice([value for value in values if value != node.get(key)])
    old = edited.set(node, key, new)
    edited.differs(key, Thing(name), old or "", new or "")
    return True


def _picked(edited: Edited, nodes: list[Tree]) -> Tree | None:
    node: Tree | None = edited.free(nodes)
    return node


# Memories.


def _held(edited: Edited, memory: Tree, units: int) -> str:
    unit = next(item for item in edited.tree["spaces"] if item["name"] == memory["space"])
    plural = "" if units == 1 else "s"
    return f"0x{units:x} unit{plural} ({units * unit.get('unit', 8) // 8} bytes)"


@edit
def change_memory_size(edited: Edited) -> bool:
    memory = _picked(edited, edited.tree.get("memories", []))
    if memory is None:
        return False
    key, kind = edited.rng.choice(
        [
            ("size", "memory-size"),
            ("pageSize", "memory-page-size"),
            ("eraseUnit", "memory-erase-unit"),
        ]
    )
    old = _held(edited, memory, number(memory[key])) if key in memory else ""
    units = number(memory.get(key, 1)) * 2
    memory[key] = f"0x{units:x}"
    edited.differs(kind, Thing(f"memory {memory['name']}"), old, _held(edited, memory, units))
    return True


@edit
def move_memory(edited: Edited) -> bool:
    memory = _picked(edited, edited.tree.get("memories", []))
    if memory is None:
        return False
    first = number(memory["first"])
    memory["first"] = f"0x{first + 0x100:x}"
    places = [f"{memory['space']} 0x{place:02X}" for place in (first, first + 0x100)]
    edited.differs("memory-place", Thing(f"memory {memory['name']}"), *places)
    return True


@edit
def remove_memory(edited: Edited) -> bool:
    memory = _picked(edited, edited.tree.get("memories", []))
    if memory is None:
        return False
    edited.tree["memories"] = [item for item in edited.tree["memories"] if item is not memory]
    place = f"{memory['space']} 0x{number(memory['first']):02X}"
    summary = f"{memory['kind']}, {place}, {_held(edited, memory, number(memory['size']))}"
    edited.differs("memory-only-in-a", Thing(f"memory {memory['name']}"), summary, "", only="a")
    return True


@edit
def describe_memory(edited: Edited) -> bool:
    memory = _picked(edited, edited.tree.get("memories", []))
    name = f"memory {memory['name']}" if memory else ""
    return memory is not None and _text(edited, memory, name, ("title", "page"))


# Vectors.


def _vectors(edited: Edited) -> list[Tree]:
    found: list[Tree] = edited.tree.get("vectorTable", {}).get("vectors", [])
    return found


def _vector_place(edited: Edited, vector_number: int) -> str:
    table = edited.tree["vectorTable"]
    place = number(table.get("base", 0)) + vector_number * number(table["size"])
    return f"{table['space']} 0x{place:02X}"


@edit
def renumber_vector(edited: Edited) -> bool:
    vector = _picked(edited, _vectors(edited))
    if vector is None:
        return False
    old, new = vector["number"], vector["number"] + 30
    vector["number"] = new
    vector.pop("address", None)
    thing = Thing(f"vector {vector['name']}")
    edited.differs("vector-number", thing, old, new)
    places = [_vector_place(edited, item) for item in (old, new)]
    edited.differs("vector-address", thing, *places)
    return True


@edit
def rename_vector(edited: Edited) -> bool:
    """Its title, which no other has, tells which it is."""
    vector = _picked(edited, [item for item in _vectors(edited) if "title" in item])
    if vector is None:
        return False
    old, new = vector["name"], edited.fresh()
    vector["name"] = new
    there = Thing(f"vector {new}")
    edited.differs("vector-renamed", Thing(f"vector {old}"), old, new, there=there)
    return True


@edit
def remove_vector(edited: Edited) -> bool:
    vector = _picked(edited, _vectors(edited)[1:])
    if vector is None:
        return False
    table = edited.tree["vectorTable"]
    table["vectors"] = [item for item in table["vectors"] if item is not vector]
    summary = f"number {vector['number']}, {_vector_place(edited, vector['number'])}"
    edited.differs("vector-only-in-a", Thing(f"vector {vector['name']}"), summary, "", only="a")
    return True


# The configuration.


def _words(edited: Edited) -> list[Tree]:
    found: list[Tree] = edited.tree.get("configuration", {}).get("words", [])
    return found


def _other_settings(edited: Edited) -> list[tuple[Tree, Tree]]:
    """Return the settings that do not decide about the clock, each with its word."""
    return [
        (word, field)
        for word in _words(edited)
        for field in word["fields"]
        if not field["setting"].startswith("clock-")
    ]


@edit
def rename_word(edited: Edited) -> bool:
    """The address tells which it is; its settings are where they were."""
    word = _picked(edited, _words(edited))
    if word is None:
        return False
    old, new = word["name"], edited.fresh().lower()
    word["name"] = new
    there = Thing(f"word {new}")
    edited.differs("word-renamed", Thing(f"word {old}"), old, new, there=there)
    return True


@edit
def lock_word(edited: Edited) -> bool:
    word = _picked(edited, _words(edited))
    if word is None:
        return False
    old = bool(word.get("lock"))
    word["lock"] = not old
    texts = [{True: "yes", False: "no"}[item] for item in (old, not old)]
    edited.differs("word-lock", Thing(f"word {word['name']}"), *texts)
    return True


@edit
def rename_choice(edited: Edited) -> bool:
    """One that a setting is not delivered with; a choice of another name is another choice."""
    found = [
        (field, choice)
        for word, field in _other_settings(edited)
        for choice in field.get("choices", ())[:1]
        if edited.is_free(word, field) and not _is_default(word, field, choice)
    ]
    if not found:
        return False
    field, choice = edited.rng.choice(found)
    edited.touch(field)
    shown = f"0b{number(choice['value']):0{_width(field)}b}"
    old, new = (f"setting {field['setting']} = {name}" for name in (choice["name"], "renamed"))
    choice["name"] = "renamed"
    edited.differs("choice-only-in-a", Thing(old), shown, "", only="a")
    edited.differs("choice-only-in-b", Thing(new), "", shown, only="b")
    return True


def _width(field: Tree) -> int:
    high, _, low = str(field["bits"]).partition(":")
    return int(high) - int(low or high) + 1


def _is_default(word: Tree, field: Tree, choice: Tree) -> bool:
    low = int(str(field["bits"]).rpartition(":")[2])
    value: int = number(word["default"]) >> low & (1 << _width(field)) - 1
    return bool(value == number(choice["value"]))


@edit
def rename_setting_bits(edited: Edited) -> bool:
    field = _picked(edited, [item for _, item in _other_settings(edited)])
    if field is None:
        return False
    old, new = field["name"], edited.fresh()
    field["name"] = new
    edited.differs("setting-name", Thing(f"setting {field['setting']}"), old, new)
    return True


@edit
def describe_setting(edited: Edited) -> bool:
    field = _picked(edited, [item for _, item in _other_settings(edited)])
    name = f"setting {field['setting']}" if field else ""
    return field is not None and _text(edited, field, name, ("title", "page", "notes"))


@edit
def change_hazard(edited: Edited) -> bool:
    hazards = edited.tree.get("configuration", {}).get("hazards", [])
    hazard = _picked(edited, hazards)
    if hazard is None:
        return False
    thing = Thing(f"hazard {hazard['name']}")
    if edited.rng.random() < 0.5:
        old, hazard["kind"] = hazard["kind"], "other"
        edited.differs("hazard-kind", thing, old, "other")
    else:
        old = edited.set(hazard, "caution", "be careful")
        edited.differs("hazard-caution", thing, old or "", "be careful")
    return True


# The clock.


def _clock(edited: Edited, key: str) -> list[Tree]:
    found: list[Tree] = edited.tree.get("clock", {}).get(key, [])
    return found


@edit
def change_tolerance(edited: Edited) -> bool:
    source = _picked(edited, [item for item in _clock(edited, "sources") if "tolerance" in item])
    if source is None:
        return False
    old, source["tolerance"] = source["tolerance"], "7 %"
    edited.differs("clock-source-tolerance", Thing(f"clock source {source['name']}"), old, "7 %")
    return True


@edit
def remove_rate(edited: Edited) -> bool:
    rate = _picked(edited, [item for item in _clock(edited, "rates") if item["kind"] == "serial"])
    if rate is None:
        return False
    clock = edited.tree["clock"]
    clock["rates"] = [item for item in clock["rates"] if item is not rate]
    scale = f" / {rate['scale']}" if "scale" in rate else ""
    plus = f" + {rate['plus']}" if "plus" in rate else ""
    registers = rate["divisor"].replace(" ", ":")
    divisor = f"({registers}{plus})" if plus else registers
    shown = f"serial: {rate.get('clock', 'CPU clock')}{scale} / {divisor}"
    edited.differs("rate-only-in-a", Thing(f"rate {rate['name']}"), shown, "", only="a")
    return True


@edit
def change_supply(edited: Edited) -> bool:
    clock = edited.tree.get("clock")
    if clock is None or "highestSupply" not in clock or not edited.is_free(clock):
        return False
    edited.touch(clock)
    low, old = clock["lowestSupply"], clock["highestSupply"]
    clock["highestSupply"] = "6.5 V"
    edited.differs("supply", Thing("clock"), f"{low} to {old}", f"{low} to 6.5 V")
    return True


# Pins.


def _pins(edited: Edited) -> list[tuple[Tree, Tree]]:
    packages = edited.tree.get("packages", [])
    return [(package, pin) for package in packages for pin in package["pins"]]


@edit
def renumber_pin(edited: Edited) -> bool:
    pins = {id(pin): package for package, pin in _pins(edited) if "port" in pin}
    pin = _picked(edited, [item for _, item in _pins(edited) if "port" in item])
    if pin is None:
        return False
    old, new = pin["number"], f"9{pin['number']}"
    pin["number"] = new
    edited.differs("pin-number", Thing(f"pin {pins[id(pin)]['name']} {pin['port']}"), old, new)
    return True


@edit
def add_function(edited: Edited) -> bool:
    pin = _picked(edited, [item for _, item in _pins(edited) if "port" in item])
    if pin is None:
        return False
    name = edited.fresh()
    pin["functions"] = f"{pin.get('functions', '')} {name}".strip()
    thing = Thing(f"function {name}")
    edited.differs("pin-function-only-in-b", thing, "", pin["port"], only="b")
    return True


@edit
def swap_functions(edited: Edited) -> bool:
    """Two pins change places in what they can be; each function is at one pin only."""
    pins = [item for _, item in _pins(edited) if "port" in item and "functions" in item]
    free = [item for item in pins if edited.is_free(item) and " " not in item["functions"]]
    if len(free) < 2:
        return False
    one, other = edited.rng.sample(free, 2)
    edited.touch(one, other)
    for pin, twin in ((one, other), (other, one)):
        thing = Thing(f"function {pin['functions']}")
        edited.differs("pin-function-moved", thing, pin["port"], twin["port"])
    one["functions"], other["functions"] = other["functions"], one["functions"]
    return True


# What tools know the chip by.


@edit
def change_signature(edited: Edited) -> bool:
    identity: Any = edited.tree.get("identity")
    if identity is None or not edited.is_free(identity):
        return False
    edited.touch(identity)
    old, identity["signature"] = identity["signature"], "0x12 0x34"
    edited.differs("signature", Thing("identity"), old, "0x12 0x34")
    return True


@edit
def change_build(edited: Edited) -> bool:
    build: Any = edited.tree.get("build")
    if build is None or not edited.is_free(build):
        return False
    edited.touch(build)
    old, build["target"] = build.get("target", ""), "another"
    edited.differs("build-target", Thing("build"), old, "another")
    return True
