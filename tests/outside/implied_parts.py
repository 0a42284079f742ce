"""Which macros memories, vectors, settings, the clock, ports and pins imply.

Worked out from the file alone, as in ``implied_macros``: nothing of the program is used.
"""

from __future__ import annotations

import re
from collections import Counter
from fractions import Fraction
from typing import Any

Node = dict[str, Any]
Numbers = dict[str, int]

HERTZ = {"Hz": 1, "kHz": 10**3, "MHz": 10**6, "GHz": 10**9}


def _number(text: str | int) -> int:
    return int(str(text).removeprefix("0d").replace("_", ""), 0)


def _mask(text: str | int) -> int:
    found = 0
    for part in str(text).split(","):
        ends = [int(end) for end in part.split(":")]
        found |= sum(1 << bit for bit in range(min(ends), max(ends) + 1))
    return found


def _word(name: str) -> str:
    return re.sub(r"[^A-Za-z0-9]+", "_", name).strip("_")


def _plain(name: str) -> str:
    return name.upper().replace("-", "_")


def besides_registers(chip: Node, prefix: str) -> tuple[Numbers, set[str]]:
    """Return the numbers with their values, and the names of what only C can use."""
    stem = prefix + chip.get("prefix", "")
    if not stem and chip.get("kind") == "device":
        stem = chip["name"].upper() + "_"
    numbers: Numbers = {}
    for found in (_memories, _vectors, _identity, _settings, _clock, _functions, _pins):
        numbers |= found(chip)
    texts = {"target": "TARGET", "instructionSet": "INSTRUCTION_SET"}
    texts["programmerPart"] = "PROGRAMMER_PART"
    code = {f"BUILD_{texts[key]}" for key in texts if key in chip.get("build", {})}
    code |= _moved_by(chip)
    balls = {name for name, text in _numbers_of_pins(chip).items() if not text.isdigit()}
    return {stem + name: value for name, value in numbers.items()}, {
        stem + name for name in code | balls
    }


def _moved_by(chip: Node) -> set[str]:
    """Return the macros that move a setting of several bits that has no choices."""
    words = chip.get("configuration", {"words": []})["words"]
    numbers = [
        f"SETTING_{_plain(field['setting'])}"
        for word in words
        for field in word.get("fields", [])
        if not field.get("choices") and _mask(field["bits"]).bit_count() > 1
    ]
    return {f"{own}_{what}" for own in numbers for what in ("EXTRACT", "INSERT")}


def _memories(chip: Node) -> Numbers:
    units = {space["name"]: int(space.get("unit", 8)) for space in chip["spaces"]}
    found = {}
    for memory in chip.get("memories", []):
        own, size = f"MEMORY_{_word(memory['name'])}", _number(memory["size"])
        found[f"{own}_{memory['space'].upper()}_ADDR"] = _number(memory["first"])
        found[f"{own}_UNITS"] = size
        if size * units[memory["space"]] % 8 == 0:
            found[f"{own}_BYTES"] = size * units[memory["space"]] // 8
        for key, word in (("pageSize", "PAGE_UNITS"), ("eraseUnit", "ERASE_UNITS")):
            if key in memory:
                found[f"{own}_{word}"] = _number(memory[key])
    return found


def _vectors(chip: Node) -> Numbers:
    table = chip.get("vectorTable")
    if table is None:
        return {}
    size, base = _number(table["size"]), _number(table.get("base", 0))
    vectors = {item["name"]: int(item["number"]) for item in table["vectors"]}
    found = {"VECTORS_COUNT": max(vectors.values()) + 1, "VECTORS_STEP": size}
    for name, number in vectors.items():
        found[f"VECTOR_{_word(name)}_NUMBER"] = number
        found[f"VECTOR_{_word(name)}_{table['space'].upper()}_ADDR"] = base + number * size
    return found


def _identity(chip: Node) -> Numbers:
    identity = chip.get("identity")
    if identity is None:
        return {}
    signature = [int(byte, 16) for byte in identity["signature"].split()]
    found = {f"IDENTITY_BYTE{index}": byte for index, byte in enumerate(signature)}
    if "address" in identity:
        found[f"IDENTITY_{identity['space'].upper()}_ADDR"] = _number(identity["address"])
    return found | {"IDENTITY_BYTES": len(signature)}


def _settings(chip: Node) -> Numbers:
    configuration = chip.get("configuration", {"words": []})
    found = {}
    for word in configuration["words"]:
        own = f"SETTINGS_{_plain(word['name'])}"
        found[f"{own}_{configuration['space'].upper()}_ADDR"] = _number(word["address"])
        found[f"{own}_DEFAULT"] = _number(word["default"])
        known = [_mask(item["bits"]) for item in word.get("unused", []) if "value" in item]
        fields = word.get("fields", [])
        found[f"{own}_VERIFY_MASK"] = sum(known) + sum(_mask(item["bits"]) for item in fields)
        for field in fields:
            own_field = f"SETTING_{_plain(field['setting'])}"
            mask = _mask(field["bits"])
            places = [bit for bit in range(64) if mask >> bit & 1]
            assert "," not in str(field["bits"])  # else the order of the bits would matter
            found[f"{own_field}_BITPOS"] = places[0]
            found[f"{own_field}_MASK"] = mask
            for name, value in _choices(configuration, field).items():
                found[f"{own_field}_{_plain(name)}"] = value << places[0]
    return found


def _choices(configuration: Node, field: Node) -> dict[str, int]:
    choices = {item["name"]: _number(item["value"]) for item in field.get("choices", [])}
    if choices or _mask(field["bits"]).bit_count() > 1:
        return choices
    programmed = int(field.get("programmed", configuration.get("programmed", 0)))
    return {"programmed": programmed, "unprogrammed": 1 - programmed}


def _delivered(chip: Node) -> dict[str, str]:
    """Return the choice of each setting as the chip is delivered."""
    found = {}
    configuration = chip.get("configuration", {"words": []})
    for word in configuration["words"]:
        for field in word.get("fields", []):
            mask = _mask(field["bits"])
            value = (_number(word["default"]) & mask) // (mask & -mask)
            names = {number: name for name, number in _choices(configuration, field).items()}
            found[field["setting"]] = names.get(value, "")
    return found


def _clock(chip: Node) -> Numbers:
    """Return the default frequency, for a clock that settings or fields after reset decide."""
    clock, delivered = chip.get("clock"), _delivered(chip)
    if clock is None or chip.get("kind", "chip") != "chip":
        return {}
    source = next(item for item in clock["sources"] if _holds(item.get("when", ""), delivered))
    if "frequency" not in source:
        return {}
    amount, unit = source["frequency"].split()
    frequency = Fraction(amount) * HERTZ[unit]
    for divider in clock.get("dividers", []):
        if not _holds(divider.get("when", ""), delivered):
            continue
        options = divider["options"]
        if "setting" in divider:
            choice = delivered[divider["setting"]]
            option = next(item for item in options if item.get("choice") == choice)
        else:
            after = _after_reset(chip, divider["field"])
            option = next(item for item in options if _number(item["value"]) == after)
        frequency *= Fraction(int(option.get("multiply", 1)), int(option.get("divide", 1)))
    return {"CPU_DEFAULT_HZ": int(frequency)} if frequency.denominator == 1 else {}


def _holds(when: str, delivered: dict[str, str]) -> bool:
    conditions = [part.split("=") for part in when.split(" and ") if part]
    return all(delivered[name.strip()] == choice.strip() for name, choice in conditions)


def _after_reset(chip: Node, field: str) -> int:
    """Return a field of a register after reset; a block's name may be before the register's."""
    register, _, name = field.rpartition(".")
    candidates = {item["name"]: item for item in chip.get("registers", [])}
    for block in chip.get("blocks", []):
        candidates |= {f"{block['name']}_{item['name']}": item for item in block["registers"]}
    node = candidates[register]
    mask = next(_mask(item["bits"]) for item in node["fields"] if item["name"] == name)
    return (_number(node["reset"]) & mask) // (mask & -mask)


def _functions(chip: Node) -> Numbers:
    found = {f"PORT_{_word(port['name'])}_MASK": _mask(port["bits"]) for port in _ports(chip)}
    bits: dict[str, set[str | None]] = {}
    for package in chip.get("packages", []):
        for pin in package.get("pins", []):
            for name in pin.get("functions", "").split():
                bits.setdefault(_word(name), set()).add(pin.get("port"))
    known = {port["name"] for port in _ports(chip)}
    for name, places in bits.items():
        (place, *others) = places
        if place is not None and not others and place.rpartition(".")[0] in known:
            bit = int(place.rpartition(".")[2])
            found |= {f"FUNCTION_{name}_BITPOS": bit, f"FUNCTION_{name}_MASK": 1 << bit}
    return found


def _ports(chip: Node) -> list[Node]:
    ports: list[Node] = chip.get("ports", [])
    return ports


def _numbers_of_pins(chip: Node) -> dict[str, str]:
    pins = [
        (f"PIN_{_word(package['name'])}_{_word(pin['name'])}", str(pin["number"]))
        for package in chip.get("packages", [])
        for pin in package.get("pins", [])
    ]
    counts = Counter(name for name, _ in pins)
    return {name: number for name, number in pins if counts[name] == 1}


def _pins(chip: Node) -> Numbers:
    return {name: int(text) for name, text in _numbers_of_pins(chip).items() if text.isdigit()}
