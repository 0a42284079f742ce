"""XML made to harm its reader: bombs, files from elsewhere, other encodings, depth."""

from __future__ import annotations

import json
import socket
from pathlib import Path

import pytest
from hostile_chips import XML_START, assert_clean, assert_refused

from conftest import Cli

DOCTYPE = "error: a document type (<!DOCTYPE …>) has no place in a description; remove it"
BODY = '<chip format="1" name="c"><space name="data" size="0x100"/></chip>'


def bomb() -> str:
    levels = "".join(f'<!ENTITY l{n} "{f"&l{n - 1};" * 10}">\n' for n in range(1, 10))
    title = '<chip format="1" name="c" title="&l9;"/>'
    return f'<?xml version="1.0"?>\n<!DOCTYPE l [<!ENTITY l0 "lol">\n{levels}]>\n{title}'


def quadratic() -> str:
    return f'<!DOCTYPE l [<!ENTITY a "{"a" * 50_000}">]>\n<chip title="{"&a;" * 50_000}"/>'


DOCUMENT_TYPES = {
    "bomb": (bomb(), "2:1"),
    "quadratic bomb": (quadratic(), "1:1"),
    "file": (
        '<?xml version="1.0"?><!-- x --><!DOCTYPE chip [<!ENTITY x SYSTEM "file:///etc/passwd">]>'
        '<chip format="1" name="c"><notes>&x;</notes></chip>',
        "1:32",
    ),
    "parameter entity": ('\n<!DOCTYPE c [<!ENTITY % x SYSTEM "/etc/passwd"> %x;]>\n<c/>', "2:1"),
    "after a byte-order mark": ("\ufeff<!DOCTYPE chip><chip/>", "1:1"),
    "after an instruction": ('<?x "<!DOCTYPE"?>\n <!DOCTYPE chip><chip/>', "2:2"),
}


@pytest.mark.parametrize("name", DOCUMENT_TYPES)
def test_document_type_is_refused_unread(tmp_path: Path, name: str) -> None:
    text, place = DOCUMENT_TYPES[name]
    assert_refused(tmp_path, "a.xml", text, f"{place}: {DOCTYPE} [xml-syntax]")


def test_nothing_is_fetched(tmp_path: Path) -> None:
    with socket.create_server(("127.0.0.1", 0)) as server:
        server.settimeout(0)
        url = f"http://127.0.0.1:{server.getsockname()[1]}/x"
        text = f'<!DOCTYPE chip SYSTEM "{url}.dtd">\n<chip format="1" name="c"/>'
        assert_refused(tmp_path, "a.xml", text, f"1:1: {DOCTYPE} [xml-syntax]")
        schema = 'xmlns:i="http://www.w3.org/2001/XMLSchema-instance" i:noNamespaceSchemaLocation'
        text = BODY.replace("<chip ", f'<?xml-model href="{url}.rng"?><chip {schema}="{url}.xsd" ')
        assert_clean(tmp_path, "b.xml", text)
        with pytest.raises(BlockingIOError):
            server.accept()


REFUSED = {
    "lower-case doctype": ("<!doctype chip>", "1:2: error: no XML: StartTag: invalid element"),
    "doctype within": ("<chip><!DOCTYPE chip></chip>", "1:8: error: no XML: "),
    "unknown entity": ("<chip>\n<notes>&x;</notes></chip>", "2:11: error: no XML: Entity 'x' not"),
    "in an attribute": ('<chip\n name="&x;"/>', "2:11: error: no XML: Entity 'x' not defined"),
    "character zero": ('<chip\n name="&#0;"/>', "2:12: error: no XML: xmlParseCharRef: invalid"),
    "attribute twice": ('<chip a="1"\n a="2"/>', "2:7: error: no XML: Attribute a redefined"),
    "not closed": (XML_START, "2:1: error: no XML: Premature end of data in tag chip"),
    "junk behind": ("<chip/>\njunk", "2:1: error: no XML: the description ends before this; remo"),
    "two roots": ("<chip/>\n<chip/>", "2:1: error: no XML: the description ends before this; re"),
    "empty": ("", "1:1: error: the file is empty; a description was expected [xml-syntax]"),
    "blank": (" \n\t", "1:1: error: the file is empty; a description was expected [xml-syntax]"),
    "binary": (bytes(range(256)), "2:118: error: byte 0x80 is no UTF-8; save the file as UTF-8"),
    "zero byte": ('<chip\n name="c\0"/>', "2:9: error: a zero byte stands here; this is no text"),
    "bad UTF-8": (b'<chip\n name="\xc3\xa9\xff"/>', "2:9: error: byte 0xFF is no UTF-8; save the"),
    "one long text": (
        XML_START + "<notes>" + "x" * 11_000_000,
        "2:1000",  # where exactly depends on the size of the parser's pieces
    ),
}


@pytest.mark.parametrize("name", REFUSED)
def test_ill_formed(tmp_path: Path, name: str) -> None:
    assert_refused(tmp_path, "a.xml", *REFUSED[name])


def test_columns_count_characters_without_the_mark(tmp_path: Path) -> None:
    text = '\ufeff<chip title="éé😀" x="1" <'
    assert_refused(tmp_path, "a.xml", text, "1:25: error: no XML: error parsing attribute")


ENCODINGS = {
    "utf-16": "1:1: error: byte 0xFF is no UTF-8; save the file as UTF-8",
    "utf-16-le": "1:2: error: a zero byte stands here; this is no text file",
    "utf-32": "1:1: error: byte 0xFF is no UTF-8; save the file as UTF-8",
    "latin-1": "1:31: error: the encoding 'latin-1' is not read; save the file as UTF-8 and decl",
    "cp037": "1:3: error: byte 0xA7 is no UTF-8; save the file as UTF-8",
    "utf-7": "1:31: error: the encoding 'utf-7' is not read; save the file as UTF-8 and declare",
}


@pytest.mark.parametrize("encoding", ENCODINGS)
def test_other_encodings(tmp_path: Path, encoding: str) -> None:
    text = f'<?xml version="1.0" encoding="{encoding}"?>\n{BODY}'
    assert_refused(tmp_path, "a.xml", text.encode(encoding), ENCODINGS[encoding])


def test_bytes_of_another_encoding(tmp_path: Path) -> None:
    text = '<?xml version="1.0"?>\n<chip title="é"/>'.encode("latin-1")
    assert_refused(tmp_path, "a.xml", text, "2:14: error: byte 0xE9 is no UTF-8; save")


@pytest.mark.parametrize("encoding", ["UTF-16", "no-such", "ISO-2022-JP"])
def test_declared_encoding_that_is_not_true(tmp_path: Path, encoding: str) -> None:
    text = f"<?xml version='1.0' encoding='{encoding}'?>\n{BODY}"
    place = f"1:31: error: the encoding {encoding!r} is not read; save the file as UTF-8 and decl"
    assert_refused(tmp_path, "a.xml", text, place)


def test_document_type_cannot_hide_in_an_encoding(tmp_path: Path) -> None:
    hidden = '<?xml version="1.0" encoding="UTF-7"?>\n+ADwAIQ-DOCTYPE chip+AD4-' + BODY
    assert_refused(tmp_path, "a.xml", hidden, "1:31: error: the encoding 'UTF-7' is not read")


@pytest.mark.parametrize("declared", ["UTF-8", "us-ascii", "ASCII"])
def test_encodings_that_are_read(tmp_path: Path, declared: str) -> None:
    text = f'\ufeff<?xml version="1.0" encoding="{declared}"?>\n{BODY}'
    assert_clean(tmp_path, "a.xml", text)


@pytest.mark.parametrize("count", [300, 5_000, 300_000])
def test_deep_elements(tmp_path: Path, count: int) -> None:
    text = XML_START + '<block name="B">' * count + "</block>" * count + "</chip>"
    place = "2:4096: error: no XML: elements are nested more than 255 deep; no description is, flat"
    assert_refused(tmp_path, "a.xml", text, place)


def test_deep_blocks_that_parse(tmp_path: Path) -> None:
    text = XML_START + '<block name="B">' * 200 + "</block>" * 200 + "</chip>"
    place = "2:129: error: blocks are nested more than 8 deep; flatten the description [nesting]"
    assert_refused(tmp_path, "a.xml", text, place)


def test_deep_blocks_with_a_mistake(cli: Cli, tmp_path: Path) -> None:
    text = XML_START + '<block name="B">' * 240 + "<block/>" + "</block>" * 240 + "</chip>"
    (tmp_path / "a.xml").write_text(text)
    done = cli("check", "a.xml")
    assert done.returncode == 1
    assert "a.xml:" in done.stdout
    assert ": error: " in done.stdout


def test_instructions_are_passed_over(tmp_path: Path) -> None:
    text = '<?php system("x") ?>' + BODY.replace("</chip>", "<?x?></chip>") + "<?end?>"
    assert_clean(tmp_path, "a.xml", text)


def test_instruction_and_comment_within_a_text_lose_none_of_it(cli: Cli, tmp_path: Path) -> None:
    notes = "<notes>be<?x?>fo<!-- c -->re\nnow</notes>"
    text = BODY.replace("<space", f"{notes}<space")
    assert_clean(tmp_path, "a.xml", text)
    done = cli("convert", "a.xml", "a.json")
    assert done.returncode == 0
    assert done.stderr == "a.xml:1:1: note: this comment stands before no element; it is left out\n"
    assert json.loads((tmp_path / "a.json").read_text())["notes"] == "before\nnow"


def test_includes_stay_text(cli: Cli, tmp_path: Path) -> None:
    include = '<i:include xmlns:i="http://www.w3.org/2001/XInclude" href="/etc/passwd"/>'
    (tmp_path / "a.xml").write_text(BODY.replace("</chip>", f"\n{include}</chip>"))
    done = cli("check", "a.xml")
    assert done.returncode == 1
    assert done.stdout.startswith("a.xml:2:1: error: ")
    assert "root:" not in done.stdout


def test_many_attributes(cli: Cli, tmp_path: Path) -> None:
    attributes = " ".join(f'a{n}="1"' for n in range(50_000))
    (tmp_path / "a.xml").write_text(f"<chip {attributes}/>")
    done = cli("check", "a.xml", timeout=10)
    assert done.returncode == 1
    assert "a.xml:1:7: error: 'a0' is unknown here" in done.stdout


def test_long_numbers(tmp_path: Path) -> None:
    ones = "1" * 10_000
    numbers = f'<register name="A" address="0x{ones}" width="{ones}" reset="0d{ones}"/></chip>'
    assert_refused(
        tmp_path,
        "a.xml",
        XML_START + numbers,
        "2:29: error: address is a text of 10002 characters; it must be ",
        "2:10040: error: width is a text of 10000 characters; it must be a width in bits, 1 to 64",
        "2:20049: error: reset is a text of 10002 characters; it must be ",
    )


def test_negative_numbers(tmp_path: Path) -> None:
    text = XML_START + '<register name="A" width="-0" address="-1"/></chip>'
    address = "2:40: error: address is '-1'; it must be one number that says its base"
    width = "2:27: error: width is '-0'; it must be a width in bits, 1 to 64"
    assert_refused(tmp_path, "a.xml", text, width, address)
