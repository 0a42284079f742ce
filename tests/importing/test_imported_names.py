"""Names of any kind become C identifiers that are free."""

from __future__ import annotations

import re

from chips import STEADY
from hypothesis import given, settings
from hypothesis import strategies as st

from regwright.importing.names import identifier, line, prose


@settings(STEADY, max_examples=200)
@given(st.lists(st.text(max_size=90), max_size=20))
def test_every_name_is_an_identifier_of_its_own(texts: list[str]) -> None:
    taken: set[str] = set()
    names = [identifier(text, taken) for text in texts]
    assert len(set(names)) == len(names)
    assert taken == set(names)
    assert all(re.fullmatch(r"[A-Za-z_][A-Za-z0-9_]{0,79}", name) for name in names)


def test_a_free_identifier_stays() -> None:
    assert identifier("IRQ_Vector", set()) == "IRQ_Vector"
    assert identifier("IRQ Vector", set()) == "IRQ_Vector"
    assert identifier("0_out", set()) == "N0_out"
    assert identifier("Zähler", set()) == "Zahler"
    assert identifier("\u2013", set()) == "UNNAMED"


def test_a_name_that_is_taken_gets_the_next_number() -> None:
    taken: set[str] = set()
    assert [identifier("A", taken) for _ in range(5)] == ["A", "A_2", "A_3", "A_4", "A_5"]
    many: set[str] = set()
    names = [identifier("B" * 80, many) for _ in range(20_000)]
    assert max(map(len, names)) == 80
    assert len(many) == 20_000


@settings(STEADY, max_examples=100)
@given(st.text(max_size=300))
def test_texts_fit(text: str) -> None:
    assert re.fullmatch("[^\x00-\x1f\x7f\ufffe\uffff]{0,200}", line(text))
    assert re.fullmatch("[^\x00-\x09\x0b-\x1f\x7f\ufffe\uffff]{0,4000}", prose(text))
