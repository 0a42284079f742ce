"""The generated descriptions are what the other property tests build on."""

from __future__ import annotations

from chips import STEADY, Tree, chips
from hypothesis import given, settings
from spelled import objects_in

from regwright.format.shape import schema
from regwright.read.description import deciding_validator


@settings(STEADY, max_examples=100)
@given(chips())
def test_generated_chips_are_valid(tree: Tree) -> None:
    assert deciding_validator().is_valid(tree)


def test_every_property_of_the_schema_is_generated() -> None:
    wanted = {
        (name, key)
        for name, spec in schema()["$defs"].items()
        for key in spec.get("properties", ())
    }
    found: set[tuple[str, str]] = set()

    @settings(STEADY, max_examples=1000)
    @given(chips())
    def collect(tree: Tree) -> None:
        found.update((name, key) for item, name, _ in objects_in(tree) for key in item)

    collect()
    assert wanted - found == set()
    assert found - wanted == set()
