"""A change of a macro is reported if and only if the preprocessor sees it.

Source: ``gcc -E -dM`` of both headers. What it says beyond our macros, those of the compiler and of
stdint, is the same on both sides. Whether two texts mean the same is asked of the compiler.
"""

from __future__ import annotations

import json
import re
import subprocess
from functools import cache, cached_property
from pathlib import Path
from random import Random
from typing import NamedTuple

import pytest
from outside_tools import SHIPPED, in_parallel
from tree_edits import Tree, edited
from trial_chip import trial_chip

from regwright.compare.breaking import (
    ADDED,
    GONE,
    RESPELLED,
    VALUE,
    MacroChange,
    header_changes,
    macro_changes,
)
from regwright.compare.releases import Version, changes_told
from regwright.pipeline import check, emit
from regwright.read.description import read_tree
from regwright.read.source import Source, spelling_of

LANGUAGES = {
    "c": ("-x", "c", "-std=c11"),
    "c++": ("-x", "c++", "-std=c++17"),
    "assembler": ("-x", "assembler-with-cpp"),
}
#: Random edits of each description.
EDITS = 60
_DEFINED = re.compile(r"^#define (\w+)(\([^)]*\))? ?(.*)$", re.MULTILINE)


def tree_of(path: Path) -> Tree:
    data = path.read_bytes()
    tree, findings = read_tree(Source(path.name, data, spelling_of(path.name, data)))
    assert findings == []
    return {"format": 1, **tree}


TREES = {path.stem: tree_of(path) for path in SHIPPED} | {"trial": {"format": 1, **trial_chip()}}


class One:
    """A description, checked, and its header as the preprocessor sees it."""

    def __init__(self, tree: Tree) -> None:
        self.checked = check(Source("chip.json", json.dumps(tree).encode(), "json"))

    @property
    def version(self) -> Version:
        subject = self.checked.subject
        assert subject
        return Version(subject.resolved, subject.macros)

    @cached_property
    def file(self) -> tuple[str, str]:
        """The name and the text of the header."""
        (file,) = emit(self.checked, ["header"])
        return file

    @cached_property
    def seen(self) -> dict[str, dict[str, str]]:
        """What the preprocessor knows after the header: what stands behind each name."""
        return {language: self._seen(flags) for language, flags in LANGUAGES.items()}

    def _seen(self, flags: tuple[str, ...]) -> dict[str, str]:
        process = subprocess.run(
            ["gcc", "-E", "-dM", *flags, "-DREGWRIGHT_ANY_TARGET", "-w", "-"],
            input=self.file[1],
            capture_output=True,
            text=True,
            check=True,
        )
        return {
            name: f"{parameters.replace(',', ', ')} {body}".strip()
            for name, parameters, body in _DEFINED.findall(process.stdout)
        }


def changes(old: One, new: One) -> list[MacroChange]:
    return macro_changes(old.version.macros, new.version.macros)


def differences(old: dict[str, str], new: dict[str, str]) -> dict[str, tuple[str | None, ...]]:
    """Return what the preprocessor sees differently: what stood there, and what does now."""
    return {
        name: (old.get(name), new.get(name))
        for name in {**old, **new}
        if old.get(name) != new.get(name)
    }


def assert_seen(old: One, new: One) -> None:
    """Hold what is reported of two descriptions against the preprocessor."""
    reported = changes(old, new)
    names = [change.name for change in reported]
    assert len(names) == len(set(names))
    mine = {change.name: (change.before, change.after) for change in reported}
    for language in LANGUAGES:
        before, after = old.seen[language], new.seen[language]
        wanted = mine
        if language == "assembler":
            wanted = {name: both for name, both in mine.items() if any(map(is_plain, both))}
        assert differences(before, after) == wanted, language
    for name, before, after, effect in reported:
        kind = GONE if after is None else ADDED if before is None else effect
        assert effect == kind, name
        assert kind in (GONE, ADDED, VALUE, RESPELLED)


def is_plain(text: str | None) -> bool:
    """Tell whether the assembler sees a macro: a number, or the guard, which has no value."""
    return text is not None and re.fullmatch(r"(0x[0-9A-F]+U|\d+U)?", text) is not None


@cache
def versions(name: str) -> list[tuple[One, One]]:
    """Return pairs of descriptions that random edits lead from the first to the second."""
    random = Random(f"releases of {name}")  # the same on each run
    start = One(TREES[name])
    edits = (One(edited(TREES[name], random, random.randint(1, 3))) for _ in range(EDITS))
    return [(start, new) for new in edits if new.checked.subject is not None]


def every_pair() -> list[tuple[One, One]]:
    return [pair for name in TREES for pair in versions(name)]


@pytest.mark.parametrize("name", list(TREES))
def test_random_edits(name):
    pairs = versions(name)
    assert len(pairs) > EDITS // 2
    in_parallel(lambda pair: assert_seen(*pair), pairs)
    in_parallel(lambda pair: assert_seen(*reversed(pair)), pairs[:20])


def test_the_edits_reach_every_effect():
    found = [change for pair in every_pair() for change in changes(*pair)]
    counts = dict.fromkeys((GONE, VALUE, ADDED, RESPELLED), 0)
    for change in found:
        counts[change.effect] += 1
    assert min(counts.values()) > 100, counts
    quiet = sum(not changes(*pair) for pair in every_pair())
    assert quiet > 20


@pytest.mark.parametrize("name", list(TREES))
def test_a_description_changes_nothing_for_itself(name):
    old = One(TREES[name])
    assert changes(old, One(TREES[name])) == []
    assert_seen(old, old)


@pytest.mark.parametrize(("old", "new"), [("sorrel14", "sorrel40"), ("uart16550", "trial")])
def test_two_chips_differ_in_what_the_preprocessor_sees(old, new):
    assert_seen(One(TREES[old]), One(TREES[new]))


class Meant(NamedTuple):
    """A macro in both headers, and what is said of it."""

    name: str
    before: str
    after: str
    effect: str


def meant() -> list[Meant]:
    """Return the macros whose values the compiler can work out, each text once."""
    found: dict[tuple[str, str], Meant] = {}
    for pair in every_pair():
        for name, before, after, effect in changes(*pair):
            if before is None or after is None:
                continue
            is_number = is_plain(before) and is_plain(after)
            if is_number or name.endswith(("_EXTRACT", "_INSERT", "_TO_CLEAR")):
                found[before, after] = Meant(name, before, after, effect)
    return list(found.values())


#: Values that each bit of an argument is tried with; more than a field holds are cut by the macro.
ARGUMENTS = [0, (1 << 64) - 1, *(1 << bit for bit in range(64))]


def test_what_means_the_same_is_what_the_compiler_takes_for_the_same(compile_c):
    lines = ["#include <stdint.h>", "extern const char not_empty;"]
    items = meant()
    assert sum(item.effect == RESPELLED for item in items) > 20
    assert sum(item.effect == VALUE for item in items) > 200
    functions = 0
    for index, item in enumerate(items):
        one, other = f"ONE{index}", f"OTHER{index}"
        has_function = not (is_plain(item.before) and is_plain(item.after))
        for name, text in ((one, item.before), (other, item.after)):
            # before parameters there must be no space, before a body that is in brackets one
            lines.append(f"#define {name}{'' if has_function else ' '}{text}")
        calls = [(one, other)]
        if has_function:
            functions += 1
            more = ", 0U" if "field)" in item.before else ""
            calls = [(f"{one}({n}U{more})", f"{other}({n}U{more})") for n in ARGUMENTS]
            if more:
                calls += [(f"{one}(0U, {n}U)", f"{other}(0U, {n}U)") for n in ARGUMENTS]
        same = " && ".join(f"{a} == {b} && sizeof({a}) == sizeof({b})" for a, b in calls)
        sign = "" if item.effect == RESPELLED else "!"
        lines.append(f'_Static_assert({sign}({same}), "{item.name}");')
    assert functions > 20
    process = compile_c("\n".join(lines), "-fsyntax-only", strict=False)
    assert (process.returncode, process.stderr) == (0, "")


def test_how_a_register_is_reached_is_compared_without_the_chips_name():
    old = {**TREES["sorrel14"]}
    new = One({**old, "name": "sorrel15"})
    effects = {change.name: change.effect for change in changes(One(old), new)}
    assert effects["OUT_B"] == RESPELLED  # the same address, the same type: only the name differs
    frame = {name for name, effect in effects.items() if effect == GONE}
    assert frame == {
        "SORREL14_H",
        "REGWRIGHT_CHIP_SORREL14",
        "SORREL14_REG8",
        "SORREL14_READ8",
        "SORREL14_READ16",
    }


def with_register(tree: Tree, name: str, **more: object) -> Tree:
    """Return a copy of ``tree`` with other properties of the register ``name``."""
    registers = [item | (more if item["name"] == name else {}) for item in tree["registers"]]
    assert registers != tree["registers"]
    return {**tree, "registers": registers}


def test_a_register_that_becomes_const_is_changed(compile_c, tmp_path):
    old = One(TREES["sorrel14"])
    new = One(with_register(TREES["sorrel14"], "DIR_A", access="read-only"))
    found = {change.name: change for change in changes(old, new)}
    assert found["DIR_A"].effect == VALUE
    program = '#include "chip.h"\nvoid f(void);\nvoid f(void) { DIR_A = 1U; }\n'
    codes = []
    for one in (old, new):
        (tmp_path / "chip.h").write_text(one.file[1])
        codes.append(compile_c(program, "-fsyntax-only").returncode)
    assert codes == [0, 1]


CHANGES_OF_THE_HEADER = [
    ({}, {}, []),
    ({}, {"name": "other"}, ["renamed"]),
    ({}, {"name": "SORREL14"}, ["renamed"]),  # another file name where case counts
    ({}, {"compilerMacro": "NEW_TARGET"}, ["target"]),
    ({"compilerMacro": "OLD_TARGET"}, {"compilerMacro": "NEW_TARGET"}, ["target"]),
    ({"compilerMacro": "OLD_TARGET"}, {"compilerMacro": "OLD_TARGET"}, []),
    ({"compilerMacro": "OLD_TARGET"}, {}, []),  # what another compiler may use breaks nobody
    ({"kind": "device"}, {"kind": "chip"}, ["alone"]),
    ({"kind": "chip"}, {"kind": "device"}, []),
    ({"kind": "device"}, {"name": "other", "compilerMacro": "X"}, ["renamed", "target", "alone"]),
]


@pytest.mark.parametrize(("before", "after", "kinds"), CHANGES_OF_THE_HEADER)
def test_what_breaks_users_without_a_macro(before, after, kinds, tmp_path):
    """Hold what is reported against a program that builds with the old header."""
    tree = TREES["sorrel14"]
    old, new = One({**tree, **before}), One({**tree, **after})
    found = header_changes(old.version.chip.chip, new.version.chip.chip)
    assert [change.kind for change in found] == kinds
    program = f'#include "{old.file[0]}"\n'
    results = []
    for one in (old, new):
        for path in tmp_path.glob("*.h"):
            path.unlink()
        file, text = one.file
        (tmp_path / file).write_text(text)
        flags = ["-DOLD_TARGET"]
        # only a device's header may stand beside another chip's
        flags += ["-DREGWRIGHT_CHIP=1U"] if before.get("kind") == "device" else []
        results.append(
            subprocess.run(
                ["gcc", "-E", *flags, "-"],
                cwd=tmp_path,
                input=program,
                capture_output=True,
                text=True,
                check=False,
            ).returncode
        )
    assert results == [0, int(bool(kinds))]


@pytest.mark.parametrize("name", list(TREES))
def test_every_change_is_told_once_and_of_what_breaks_first(name):
    for old, new in versions(name):
        told = changes_told(old.version, new.version)
        macros = [item for item in told if item.kind.startswith("macro-")]
        found = [(item.name, item.before, item.after, item.effect) for item in macros]
        assert sorted(found, key=str) == sorted(map(tuple, changes(old, new)), key=str)
        assert [item.breaks for item in told] == sorted((i.breaks for i in told), reverse=True)
        for item in told:
            assert item.message.startswith(item.name)
            assert "\n" not in item.message
            if item.instead.endswith(".h"):
                continue
            names = new.checked.subject.macro_names
            assert not item.instead or item.instead in names
