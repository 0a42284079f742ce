"""Names count where they are known, and what has them in its text is found there alone."""

from __future__ import annotations

from regwright.code.reach import Following, Reach, Span

FIRST, SECOND, OTHER = Span(0, 10, 20), Span(0, 30, 40), Span(1, 10, 20)


def test_a_name_counts_in_its_blocks() -> None:
    reach = Reach([b"everywhere"])
    assert reach.add(b"local", FIRST)
    assert not reach.add(b"local", FIRST)
    assert not reach.add(b"everywhere", SECOND)
    assert reach.names() == {b"everywhere", b"local"}
    assert reach.counts(b"everywhere", OTHER)
    assert reach.counts(b"local", Span(0, 19, 25))
    assert not reach.counts(b"local", Span(0, 20, 30))
    assert not reach.counts(b"local", OTHER)
    assert reach.has_one_of([b"nobody", b"local"], FIRST)
    assert not reach.has_one_of([b"nobody"], FIRST)


def test_a_name_of_many_blocks_counts_anywhere() -> None:
    reach = Reach()
    for number in range(1000):
        reach.add(b"value", Span(0, number * 10, number * 10 + 5))
    assert reach.counts(b"value", OTHER)


def found(*added: tuple[bytes, Span | None]) -> set[str]:
    """Return what the names ``added`` lead to, of three texts that stand in different places."""
    following: Following[str] = Following(Reach())
    following.user("first", [b"value", b"other"], FIRST)
    following.user("second", [b"value"], SECOND)
    following.user("macro", [b"value"], None)
    for name, where in added:
        following.add(name, where)
    return {item for _, items in following.follow() for item in items}


def test_names_lead_to_what_is_in_their_blocks_and_to_macros() -> None:
    assert found((b"value", None)) == {"first", "second", "macro"}
    assert found((b"value", FIRST)) == {"first", "macro"}
    assert found((b"value", FIRST), (b"value", SECOND)) == {"first", "second", "macro"}
    assert found((b"value", OTHER)) == {"macro"}
    assert found((b"other", SECOND)) == set()


def test_what_is_added_on_the_way_is_followed() -> None:
    following: Following[bytes] = Following(Reach())
    following.user(b"second", [b"first"], FIRST)
    following.user(b"third", [b"second"], FIRST)
    following.add(b"first", None)
    order = []
    for name, items in following.follow():
        order.append(name)
        for item in items:
            following.add(item, FIRST)
    assert order == [b"first", b"second", b"third"]
