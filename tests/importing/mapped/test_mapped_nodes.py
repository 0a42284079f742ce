"""Nodes: shared rules, what is left out, lookups, inheritance, names, and what was not read."""

from __future__ import annotations

from typing import Any

from mapping_texts import errors, mapped, of_registers, said

BLOCKS = {
    "at": "b",
    "name": "@n",
    "base": "@a",
    "inherit": {"from": "@like"},
    "registers": {
        "at": "r",
        "name": "@n",
        "offset": "@o",
        "title": "@t",
        "inherit": {"from": "@like"},
    },
}


def _tree(text: str, chip: dict[str, Any], reads: str = "xml", **more: Any) -> Any:
    draft = mapped(text, chip, reads, **more)
    assert draft.tree is not None, draft.remarks
    return draft.tree


def test_blocks_within_blocks_use_themselves() -> None:
    shared = {"block": {"b": {
        "at": "b", "name": "@n", "offset": {"path": "@o", "optional": True},
        "base": {"path": "@a", "optional": True}, "blocks": {"use": "b"},
        "registers": {"at": "r", "name": "@n", "offset": "@o"},
    }}}  # fmt: skip
    text = "<c><b n='X' a='0x10'><b n='Y' o='2'><b n='Z' o='1'><r n='R' o='0'/></b></b></b></c>"
    tree = _tree(text, {"blocks": {"use": "b"}}, shared=shared)
    inner = tree["blocks"][0]["blocks"][0]["blocks"][0]
    assert (inner["name"], inner["offset"]) == ("Z", "0x01")
    assert inner["registers"] == [{"name": "R", "offset": "0x00"}]
    assert "blocks" not in inner


def test_what_stands_beside_use_goes_before_it() -> None:
    shared = {"register": {"r": {"at": "reg", "name": "@n", "title": "@t"}}}
    chip = {"registers": {"use": "r", "title": {"value": "own"}, "address": {"value": 1}}}
    tree = _tree("<c><reg n='A' t='shared'/></c>", chip, shared=shared)
    assert tree["registers"][0]["title"] == "own"


def test_a_path_of_shared_rules_need_not_select_something_at_each_use() -> None:
    shared = {"register": {"r": {"name": "@n", "title": "@t"}}}
    place = {"use": "r", "address": {"value": 1}}
    chip = {"registers": [{**place, "at": "a"}, {**place, "at": "b"}]}
    assert mapped("<c><a n='A'/><b n='B' t='T'/></c>", chip, shared=shared).remarks == []
    draft = mapped("<c><a n='A'/><b n='B'/></c>", chip, shared=shared)
    assert [rule for rule, _ in said(draft)] == ["path-without-result"]


def test_what_is_changed_within_itself_is_refused() -> None:
    inner = {"use": "b", "skip": "@x"}
    shared = {"block": {"b": {"at": "b", "name": "@n", "blocks": inner}}}
    [(rule, message)] = errors(mapped("<c/>", {"blocks": {"use": "b"}}, shared=shared))
    assert (rule, "with use and at alone" in message) == ("mapping-not-valid", True)


def test_several_places_in_their_order() -> None:
    one = {"at": "a", "name": "@n", "address": {"value": 1}}
    other = {"at": "b", "name": "@n", "address": {"value": 2}}
    tree = _tree("<c><b n='B'/><a n='A'/></c>", {"registers": [one, other]})
    assert [item["name"] for item in tree["registers"]] == ["A", "B"]
    both = {"at": ["b", "a"], "name": "@n", "address": {"value": 1}}
    tree = _tree("<c><b n='B'/><a n='A'/></c>", {"registers": both})
    assert [item["name"] for item in tree["registers"]] == ["B", "A"]


def test_what_is_skipped_is_neither_there_nor_lost() -> None:
    text = "<c><reg n='A'/><reg n='-' x='1'><y/></reg></c>"
    draft = mapped(text, of_registers({"skip": "@n = '-'"}))
    assert draft.tree is not None
    assert [item["name"] for item in draft.tree["registers"]] == ["A"]
    assert draft.remarks == []


def test_rows_of_a_flat_table_find_what_they_belong_to() -> None:
    text = """{
      "regs": [{"id": 1, "n": "A"}, {"id": 2, "n": "B"}, {"id": 3, "n": "C"}],
      "fields": [{"of": 1, "n": "X", "bit": 0}, {"of": 2, "n": "Y", "bit": 1},
                 {"of": 1, "n": "Z", "bit": 2}]
    }"""
    fields = {
        "lookup": {"in": "$.fields[*]", "by": "$.of", "key": "$.id", "optional": True},
        "name": "$.n",
        "bits": "$.bit",
    }
    chip = {"registers": {"at": "$.regs[*]", "name": "$.n", "address": "$.id", "fields": fields}}
    tree = _tree(text, chip, "json")
    names = [[field["name"] for field in item.get("fields", [])] for item in tree["registers"]]
    assert names == [["X", "Z"], ["Y"], []]


def test_a_lookup_of_what_is_not_there() -> None:
    values = {"lookup": {"in": "set", "by": "@id", "key": "@v"}, "at": "i", "name": "@n"}
    fields = {"at": "f", "name": "@n", "bits": {"value": 0}, "values": values}
    text = "<c><set id='one'/><reg n='A'><f n='F' v='two'/></reg></c>"
    found = errors(mapped(text, of_registers({"fields": fields})))
    assert found == [("lookup-without-result", "'two' is the name of nothing that set selects")]


def test_a_block_that_takes_after_another() -> None:
    text = """<c>
      <b n='B1' a='0x20' like='B0'><r n='R' o='9'/><r n='S' o='8'/></b>
      <b n='B0' a='0x10'><r n='R' o='0' t='first'/><r n='Q' o='1'/></b>
    </c>"""
    first = _tree(text, {"blocks": BLOCKS})["blocks"][0]
    assert (first["name"], first["base"]) == ("B1", "0x20")
    assert [(item["name"], item["offset"]) for item in first["registers"]] == [
        ("R", "0x09"),
        ("Q", "0x01"),
        ("S", "0x08"),
    ]


def test_a_chain_of_heirs_and_names_with_the_block() -> None:
    text = """<c>
      <b n='B0' a='0x10'><r n='R' o='0' t='first'/><r n='S' o='1' like='R'/></b>
      <b n='B1' a='0x20'><r n='R' o='2' t='other'/><r n='T' o='3' like='B0.S'/></b>
    </c>"""
    tree = _tree(text, {"blocks": BLOCKS})
    titles = [[item["title"] for item in block["registers"]] for block in tree["blocks"]]
    assert titles == [["first", "first"], ["other", "first"]]


def test_heirs_that_go_round_in_a_circle() -> None:
    text = "<c><b n='A' like='B'/><b n='B' like='C'/>\n<b n='C' like='A'/></c>"
    [(rule, message)] = errors(mapped(text, {"blocks": BLOCKS}))
    assert rule == "derived-in-a-circle"
    assert message.startswith("A from B from C from A: this goes round in a circle")


def test_heirs_of_nothing_and_of_several() -> None:
    text = "<c><b n='A' like='X'/></c>"
    assert errors(mapped(text, {"blocks": BLOCKS})) == [
        ("derived-from-nothing", "there is no block 'X' to derive from")
    ]
    text = """<c><b n='A'><r n='R' o='0'/></b><b n='B'><r n='R' o='0'/></b>
      <b n='C'><r n='S' o='0' like='R'/></b></c>"""
    assert errors(mapped(text, {"blocks": BLOCKS})) == [
        ("derived-from-nothing", "there are 2 registers 'R' to derive from; say which")
    ]


def test_names_that_are_no_identifiers_or_taken() -> None:
    text = "<c><reg n='A-B'/><reg n='A_B'/><reg n='9'/><reg n='Größe'/></c>"
    draft = mapped(text, of_registers({}))
    assert draft.tree is not None
    found = [(item["name"], item.get("title")) for item in draft.tree["registers"]]
    assert found == [("A_B", "A-B"), ("A_B_2", "A_B"), ("N9", "9"), ("Groe", "Größe")]
    assert [rule for rule, _ in said(draft)] == ["name-mapped"] * 4


def test_what_is_not_read_in_xml_is_listed_with_counts() -> None:
    text = """<c made='today'>
      <reg n='A' x='1'/><reg n='B' x='2'>loose</reg>
      <reg n='C'><extra><deep/></extra><extra/></reg>
      <p:other xmlns:p='urn:p' p:a='1'/>
    </c>"""
    draft = mapped(text, of_registers({}))
    lost = [(item.message.partition(" stands")[0], item.line) for item in draft.remarks]
    assert lost == [
        ("c/@made", 1),
        ("reg/@x", 2),
        ("text of reg", 2),
        ("extra", 3),
        ("p:other", 4),
    ]
    assert "reg/@x stands there 2 times, the first time here" in draft.remarks[1].message
    names = ["@made", "reg/@x", "reg/text()", "extra", "p:other"]
    assert mapped(text, of_registers({}), ignore=names).remarks == []


def test_what_is_not_read_in_json_is_listed_with_counts() -> None:
    text = '{"r": [{"n": "A", "x": 1},\n {"n": "B", "x": {"y": 2}}], "made": null}'
    chip = {"registers": {"at": "$.r[*]", "name": "$.n", "address": {"value": 1}}}
    draft = mapped(text, chip, "json")
    lost = [(item.message.partition(",")[0], item.line, item.column) for item in draft.remarks]
    made = text.splitlines()[1].index("null") + 1
    assert lost == [("x stands there 2 times", 1, 24), ("made stands there 1 time", 2, made)]
    assert mapped(text, chip, "json", ignore=["x", "made"]).remarks == []


def test_what_conditions_and_functions_look_at_counts_as_read() -> None:
    text = "<c><reg n='A' kind='x' a='1' b='2'/></c>"
    rule = {"at": "reg[@kind='x']", "title": "concat(@a, @b)"}
    assert mapped(text, of_registers(rule)).remarks == []
    json_text = '{"r": [{"n": "A", "kind": "x"}, {"n": "B", "kind": "y"}]}'
    chip = {"registers": {"at": "$.r[?@.kind == 'x']", "name": "$.n", "address": {"value": 1}}}
    draft = mapped(json_text, chip, "json")
    assert [item.message.partition(",")[0] for item in draft.remarks] == ["r stands there 1 time"]


def test_namespaces_are_declared_in_the_mapping() -> None:
    text = "<c xmlns='urn:v'><reg n='A'/></c>"
    rule = {"at": "v:reg"}
    tree = _tree(text, of_registers(rule), namespaces={"v": "urn:v"})
    assert tree["registers"][0]["name"] == "A"


def test_a_chip_that_is_not_the_outermost_element() -> None:
    text = "<list><c n='one'><reg n='A'/></c><c n='two'/></list>"
    draft = mapped(text, of_registers({}, at="c", name="@n"))
    assert draft.tree is not None
    assert draft.tree["name"] == "one"
    assert ("path-of-several", "c selects 2 chips; only the first is taken") in said(draft)


def test_all_kinds_of_nodes_can_be_mapped() -> None:
    text = """<c><sheet>Manual</sheet><mem n='M' k='ram' at='0x10' size='0x20'/>
      <irq no='3' n='TIMER'/><reg n='A'/></c>"""
    chip = of_registers(
        {},
        document={"at": "sheet", "title": "text()"},
        memories={"at": "mem", "name": "@n", "kind": "@k", "space": {"value": "data"},
                  "first": "@at", "size": "@size"},
        vectorTable={"fixed": {"size": "0x02", "space": "data"},
                     "vectors": {"at": "irq", "number": "@no", "name": "@n"}},
    )  # fmt: skip
    tree = _tree(text, chip)
    assert tree["document"] == {"title": "Manual"}
    assert tree["memories"] == [
        {"name": "M", "kind": "ram", "space": "data", "first": "0x10", "size": "0x20"}
    ]
    assert tree["vectorTable"]["vectors"] == [{"number": 3, "name": "TIMER"}]
