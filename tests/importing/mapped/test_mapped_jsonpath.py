"""The library for JSONPath, held against the examples that RFC 9535 itself prints.

Source: RFC 9535, "JSONPath: Query Expressions for JSON", February 2024; the section of each table
is named beside it.
"""

from __future__ import annotations

import json
from typing import Any

import pytest

from regwright.importing.mapped.document import BadPath
from regwright.importing.mapped.json_document import JsonDocument

#: Section 1.5, figure 1; texts that no query looks at are left out.
STORE = {
    "store": {
        "book": [
            {"author": "Rees", "price": 8.95},
            {"author": "Waugh", "price": 12.99},
            {"author": "Melville", "isbn": "0-553-21311-3", "price": 8.99},
            {"author": "Tolkien", "isbn": "0-395-19395-8", "price": 22.99},
        ],
        "bicycle": {"color": "red", "price": 399},
    }
}
BOOKS = STORE["store"]["book"]

#: Section 2.3.5.3, table 11.
FILTERED = {
    "a": [3, 5, 1, 2, 4, 6, {"b": "j"}, {"b": "k"}, {"b": {}}, {"b": "kilo"}],
    "o": {"p": 1, "q": 2, "r": 3, "s": 5, "t": {"u": 6}},
    "e": "f",
}
LETTERS = ["a", "b", "c", "d", "e", "f", "g"]
#: Section 2.5.2.3.
DESCENDED = {"o": {"j": 1, "k": 2}, "a": [5, 3, [{"j": 4}, {"k": 6}]]}
#: Section 2.6.1.
NULLS = {"a": None, "b": [None], "c": [{}], "null": 1}
#: Section 2.3.1.3.
NAMED = {"o": {"j j": {"k.k": 3}}, "'": {"@": 2}}


def _found(data: Any, path: str) -> list[Any]:
    document = JsonDocument(json.dumps(data).encode())
    return [node.value for node in document.nodes(document.compile(path), document.root)]


@pytest.mark.parametrize(
    ("data", "path", "expected"),
    [
        # 1.5, table 2
        (STORE, "$.store.book[*].author", ["Rees", "Waugh", "Melville", "Tolkien"]),
        (STORE, "$..author", ["Rees", "Waugh", "Melville", "Tolkien"]),
        (STORE, "$.store.*", [BOOKS, STORE["store"]["bicycle"]]),
        (STORE, "$..book[2]", [BOOKS[2]]),
        (STORE, "$..book[2].author", ["Melville"]),
        (STORE, "$..book[2].publisher", []),
        (STORE, "$..book[-1]", [BOOKS[3]]),
        (STORE, "$..book[0,1]", BOOKS[:2]),
        (STORE, "$..book[:2]", BOOKS[:2]),
        (STORE, "$..book[?@.isbn]", BOOKS[2:]),
        (STORE, "$..book[?@.price<10]", [BOOKS[0], BOOKS[2]]),
        # 2.3.1.3, table 5
        (NAMED, "$.o['j j']", [{"k.k": 3}]),
        (NAMED, "$.o['j j']['k.k']", [3]),
        (NAMED, '$.o["j j"]["k.k"]', [3]),
        (NAMED, '$["\'"]["@"]', [2]),
        # 2.3.3.3, table 7
        (["a", "b"], "$[1]", ["b"]),
        (["a", "b"], "$[-2]", ["a"]),
        # 2.3.4.3, table 9
        (LETTERS, "$[1:3]", ["b", "c"]),
        (LETTERS, "$[5:]", ["f", "g"]),
        (LETTERS, "$[1:5:2]", ["b", "d"]),
        (LETTERS, "$[5:1:-2]", ["f", "d"]),
        (LETTERS, "$[::-1]", LETTERS[::-1]),
        # 2.3.5.3, table 12
        (FILTERED, "$.a[?@.b == 'kilo']", [{"b": "kilo"}]),
        (FILTERED, "$.a[?(@.b == 'kilo')]", [{"b": "kilo"}]),
        (FILTERED, "$.a[?@>3.5]", [5, 4, 6]),
        (FILTERED, "$.a[?@.b]", FILTERED["a"][6:]),
        (FILTERED, "$[?@.*]", [FILTERED["a"], FILTERED["o"]]),
        (FILTERED, "$[?@[?@.b]]", [FILTERED["a"]]),
        (FILTERED, "$.o[?@<3, ?@<3]", [1, 2, 1, 2]),
        (FILTERED, '$.a[?@<2 || @.b == "k"]', [1, {"b": "k"}]),
        (FILTERED, '$.a[?match(@.b, "[jk]")]', [{"b": "j"}, {"b": "k"}]),
        (FILTERED, '$.a[?search(@.b, "[jk]")]', [{"b": "j"}, {"b": "k"}, {"b": "kilo"}]),
        (FILTERED, "$.o[?@>1 && @<4]", [2, 3]),
        (FILTERED, "$.o[?@.u || @.x]", [{"u": 6}]),
        (FILTERED, "$.a[?@.b == $.x]", [3, 5, 1, 2, 4, 6]),
        (FILTERED, "$.a[?@ == @]", FILTERED["a"]),
        # 2.5.1.3, table 15
        (LETTERS, "$[0, 3]", ["a", "d"]),
        (LETTERS, "$[0:2, 5]", ["a", "b", "f"]),
        (LETTERS, "$[0, 0]", ["a", "a"]),
        # 2.5.2.3, table 16
        (DESCENDED, "$..j", [1, 4]),
        (DESCENDED, "$..[0]", [5, {"j": 4}]),
        (DESCENDED, "$.a..[0, 1]", [5, 3, {"j": 4}, {"k": 6}]),
        # 2.6.1, table 17
        (NULLS, "$.a", [None]),
        (NULLS, "$.a[0]", []),
        (NULLS, "$.a.d", []),
        (NULLS, "$.b[0]", [None]),
        (NULLS, "$.b[*]", [None]),
        (NULLS, "$.b[?@]", [None]),
        (NULLS, "$.b[?@==null]", [None]),
        (NULLS, "$.c[?@.d==null]", []),
        (NULLS, "$.null", [1]),
    ],
)
def test_examples_of_the_standard(data: Any, path: str, expected: list[Any]) -> None:
    found = _found(data, path)
    # section 1.1 leaves the order of members open: what comes from an object may come in any
    assert sorted(map(json.dumps, found)) == sorted(map(json.dumps, expected))
    if isinstance(data, list):
        assert found == expected


def test_counts_of_the_standard() -> None:
    assert len(_found(STORE, "$.store..price")) == 5  # 1.5, table 2
    assert len(_found({"a": [5, 3, [{"j": 4}, {"k": 6}]]}, "$..*")) == 8  # 2.5.2.3


@pytest.mark.parametrize(
    "path",
    [
        "",  # 2.2: a query starts with the root identifier
        "store",
        " $.a",  # 2.1: no blank space before or after
        "$.a ",
        "$[-0]",  # 2.3.3.1
        "$[007]",
        "$.1",  # 2.5.1.1: a shorthand is a name
        "$['a]",
        "$[?@.a == 'x' and @.b]",
        "$[?length(@.*) > 1]",  # 2.4.3, table 13: not well-typed
        "$[?count(1) == 1]",
        "$[?match(@.a, 'x') == true]",
        "$[?value(@..c)]",
        "$[9007199254740992]",  # 2.1: beyond what I-JSON has
    ],
)
def test_what_the_standard_refuses(path: str) -> None:
    document = JsonDocument(b"{}")
    with pytest.raises(BadPath, match=r"no JSONPath of RFC 9535"):
        document.compile(path)


@pytest.mark.parametrize("path", ["$['a']", "$..a", "$[0]", "$[?@.a]", "$.*"])
def test_nothing_is_in_a_text_even_if_it_looks_like_json(path: str) -> None:
    for data in ('{"a": [1]}', "[1]", "no JSON", "", 7, True, None):
        assert _found(data, path) == []


def test_plain_paths_are_followed_alike_by_the_library_and_the_short_way() -> None:
    data = {"a": {"b": {"c": 1}, "d": [{"c": 2}]}, "e": None}
    document = JsonDocument(json.dumps(data).encode())
    for path in ("$", "$.a", "$.a.b", "$.a.b.c", "$.a.d", "$.a.d.c", "$.e", "$.e.f", "$.x.y"):
        short = document.compile(path)
        steps = "".join(f"['{name}']" for name in path.split(".")[1:])
        long = document.compile(f"${steps}")
        assert document.nodes(short, document.root) == document.nodes(long, document.root)
