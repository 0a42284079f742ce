"""A change of a macro is reported if and only if the preprocessor sees it, whatever the chip.

Source: ``gcc -E -dM`` of both headers. ``tests/outside/test_breaking.py`` does the same with edits
of the shipped descriptions; here the descriptions are generated, and the newer one has some of its
properties from another.
"""

from __future__ import annotations

import copy
import re
import subprocess
from random import Random

from chips import STEADY, Tree, chips
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st
from spelled import as_json, objects_in, source

from regwright.compare.breaking import EFFECTS, macro_changes
from regwright.compare.releases import Version, changes_told
from regwright.pipeline import Checked, check, emit

#: What has a name that is no part of a macro, or an identifier anyway.
OWN_NAMES = {"chip", "space", "region", "instruction"}
#: What has a plain name, which makes a macro as it is.
OWN_NAMES |= {"hazard", "choice", "configurationWord", "clockSource", "clockDivider", "rate"}
#: What no description is without, and what most macros follow from.
REQUIRED = {"format", "name", "spaces"}
TELLING = {"width", "bits", "address", "base", "offset", "reset", "value", "access", "prefix"}
TELLING |= {"modifiedWriteValue", "fields", "halves", "unit"}
#: Longer rows make no more of a difference.
LONGEST_ROW = 3
_DEFINED = re.compile(r"^#define (\w+)(\([^)]*\))? ?(.*)$", re.MULTILINE)


def for_c(tree: Tree) -> Tree:
    """Return a copy in which every name makes a macro, and rows are short."""
    tree = copy.deepcopy(tree)
    for item, kind, _ in objects_in(tree):
        if kind not in OWN_NAMES and "name" in item:
            item["name"] = "N" + re.sub(r"[^A-Za-z0-9_]", "x", item["name"])
        if "flags" in item:
            entries = (
                entry.replace("-", "x") if entry != "-" else entry
                for entry in item["flags"].split()
            )
            item["flags"] = re.sub(r"[^AB1_x -]", "x", " ".join(entries))
        if "count" in item:
            item["count"] = min(item["count"], LONGEST_ROW)
    return tree


def newer(tree: Tree, other: Tree, random: Random) -> Tree:
    """Return a copy of ``tree`` with some properties of things of the same kind in ``other``."""
    tree = copy.deepcopy(tree)
    donors: dict[str | None, list[Tree]] = {}
    for item, kind, _ in objects_in(other):
        donors.setdefault(kind, []).append(item)
    choices = [
        (item, key, donor)
        for item, kind, _ in objects_in(tree)
        for donor in donors.get(kind, [])
        for key in {*item, *donor}
        if item.get(key) != donor.get(key) and (key in donor or key not in REQUIRED)
    ]
    choices.sort(key=lambda choice: choice[1])
    telling = [choice for choice in choices if choice[1] in TELLING]
    for found, most in ((choices, 2), (telling, 4)):
        for item, key, donor in random.sample(found, min(len(found), most)):
            if key in donor:
                item[key] = copy.deepcopy(donor[key])
            else:
                item.pop(key, None)
    return tree


def checked(tree: Tree) -> Checked:
    found = check(source(as_json(for_c(tree)), "json"))
    assume(found.subject is not None)
    assert found.subject
    # a row of blocks with an empty prefix makes names that start with a digit
    assume(all(re.match(r"[A-Za-z_]", name) for name in found.subject.macro_names))
    return found


def version(one: Checked) -> Version:
    assert one.subject
    return Version(one.subject.resolved, one.subject.macros)


def seen(one: Checked) -> dict[str, str]:
    """Return what the preprocessor knows after the header: what stands behind each name."""
    ((_, text),) = emit(one, ["header"])
    process = subprocess.run(
        ["gcc", "-E", "-dM", "-x", "c", "-std=c11", "-DREGWRIGHT_ANY_TARGET", "-w", "-"],
        input=text,
        capture_output=True,
        encoding="utf-8",
        check=True,
    )
    return {
        name: f"{parameters.replace(',', ', ')} {body}".strip()
        for name, parameters, body in _DEFINED.findall(process.stdout)
    }


def test_generated_descriptions() -> None:
    effects: dict[str, int] = {}

    @settings(STEADY, max_examples=200, suppress_health_check=list(HealthCheck))
    @given(chips(), chips(), st.randoms(use_true_random=False))
    def law(tree: Tree, other: Tree, random: Random) -> None:
        old, new = checked(tree), checked(newer(tree, other, random))
        assume(version(old).macros.registers)
        found = macro_changes(version(old).macros, version(new).macros)
        before, after = seen(old), seen(new)
        differing = {
            name: (before.get(name), after.get(name))
            for name in {**before, **after}
            if before.get(name) != after.get(name)
        }
        assert {change.name: (change.before, change.after) for change in found} == differing
        told = changes_told(version(old), version(new))
        macros = [item for item in told if item.kind.startswith("macro-")]
        assert sorted(item.name for item in macros) == sorted(change.name for change in found)
        for change in found:
            effects[change.effect] = effects.get(change.effect, 0) + 1

    law()
    assert min(effects.get(effect, 0) for effect in EFFECTS) > 5, effects
