"""``check --fix`` and ``--diff``: what is certain is repaired, and no other character changes."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

from conftest import PACKAGES, Cli

HEAD_XML = '<chip format="1" name="one">\n<space name="data" size="0x100"/>\n'
HEAD_JSON = '{"format": 1, "name": "one", "spaces": [{"name": "data", "size": "0x100"}],\n'

#: What is written, and what it is repaired to; ``{}`` stands for the rest of the description.
XML = {
    "dollar": ('<register name="A" address="$1F"/>', '<register name="A" address="0x1F"/>'),
    "h behind": ("<register name='A' address='1Fh'/>", "<register name='A' address='0x1F'/>"),
    "upper case": ('<register name="A" reset="0X1F"/>', '<register name="A" reset="0x1F"/>'),
    "letter O": ('<register name="A" address="0x1O"/>', '<register name="A" address="0x10"/>'),
    "two addresses": (
        '<register name="A" address="data:$20"/>',
        '<register name="A" address="data:0x20"/>',
    ),
    "attribute": (
        '<register  name="A"\n\tadress = "0x1"/>',
        '<register  name="A"\n\taddress = "0x1"/>',
    ),
    "element and its end": (
        '<regster name="A"><!-- regster --></regster >',
        '<register name="A"><!-- regster --></register >',
    ),
    "empty element": ('<é/><registr name="A"/>', '<é/><register name="A"/>'),
    "word": ('<register name="A" access="readonly"/>', '<register name="A" access="read-only"/>'),
    "short word": ('<register name="A" access="RW"/>', '<register name="A" access="read-write"/>'),
    "bits": (
        '<register name="A"><field name="F" bits="[7:4]"/></register>',
        '<register name="A"><field name="F" bits="7:4"/></register>',
    ),
    "escapes": ('<register name="A" address="&#36;1F"/>', '<register name="A" address="0x1F"/>'),
    "whole number": ('<register name="A" width="08"/>', '<register name="A" width="8"/>'),
    "truth": ('<register name="A" singleBit="yes"/>', '<register name="A" singleBit="true"/>'),
}
JSON = {
    "dollar": ('{"name": "A", "address": "$1F"}', '{"name": "A", "address": "0x1F"}'),
    "escapes": ('{"name": "A", "address": "\\u00241F"}', '{"name": "A", "address": "0x1F"}'),
    "property": ('{"name": "A",\t"adress" :"0x1"}', '{"name": "A",\t"address" :"0x1"}'),
    "escaped name": ('{"name": "A", "adr\\u0065ss":"0x1"}', '{"name": "A", "address":"0x1"}'),
    "number for a text": ('{"name": "A", "title": 5}', '{"name": "A", "title": "5"}'),
    "text for a number": ('{"name": "A", "width": "8"}', '{"name": "A", "width": 8}'),
    "text for a truth": ('{"name": "A", "singleBit": "true"}', '{"name": "A", "singleBit": true}'),
    "number for a word": (
        '{"name": "A", "reserved": [{"bits": 1, "write": 0}]}',
        '{"name": "A", "reserved": [{"bits": 1, "write": "0"}]}',
    ),
    "bare number": ('{"name": "A", "address": 0X1f }', '{"name": "A", "address": "0x1f" }'),
    "comma before the end": ('{"name": "A", }', '{"name": "A" }'),
}
#: What may mean several things, and stays.
UNSURE = {
    "json": [
        '{"name": "A", "address": "18"}',
        '{"name": "A", "address": 18}',
        '{"name": "A", "address": "101b"}',
        '{"name": "A", "address": "#10"}',
        '{"name": "A", "adress": "0x1", "address": "0x1"}',
        '{"name": "A", "adress": "0x1", "addres": "0x1"}',
        '{"name": "A", "access": "sideways"}',
        '{"name": "A", "register": "0x1"}',
        '{"name": "A", "address": 018}',
    ],
    "xml": [
        '<register name="A" address="18"/>',
        '<register name="A" fields="0x1"/>',
        "<documnt/><document/>",
        "<noets>A</noets><ntoes>B</ntoes>",
        '<register name="A">7</register>',
    ],
}


def _spelled(spelling: str, text: str) -> str:
    if spelling == "xml":
        return f"{HEAD_XML}{text}</chip>\n"
    return f'{HEAD_JSON} "registers": [{text}]}}'


def _repairs() -> list[tuple[str, str, str]]:
    return [("xml", *pair) for pair in XML.values()] + [("json", *pair) for pair in JSON.values()]


def test_each_repair_alone_and_nothing_else(cli: Cli, tmp_path: Path) -> None:
    cases = _repairs()
    for number, (spelling, wrong, _) in enumerate(cases):
        (tmp_path / f"{number:02}.{spelling}").write_text(_spelled(spelling, wrong))
    done = cli("check", ".", "--fix")
    assert f"; {len(cases)} repaired\n" in done.stdout
    for number, (spelling, _, right) in enumerate(cases):
        assert (tmp_path / f"{number:02}.{spelling}").read_text() == _spelled(spelling, right)
    assert "[json-syntax]" not in done.stdout
    assert [line for line in done.stdout.splitlines() if "[schema]" in line] == [
        line for line in done.stdout.splitlines() if "<é> is unknown" in line
    ]


def test_what_is_unsure_stays(cli: Cli, tmp_path: Path) -> None:
    texts = {}
    for spelling, cases in UNSURE.items():
        for number, text in enumerate(cases):
            path = tmp_path / f"{number}.{spelling}"
            texts[path] = _spelled(spelling, text)
            path.write_text(texts[path])
    done = cli("check", ".", "--fix")
    assert done.returncode == 1
    assert "; 0 repaired\n" in done.stdout
    assert all(path.read_text() == text for path, text in texts.items())


SLIPS = """<?xml version="1.0"?>\r
<!-- io:0x18 data:0x18 stays in a remark -->\r
<chip format="1" name="one"><space name="data" size="0x100">\r
<region name="CPU" kind="cpu-registers" first="0x00" last="0x1F"/></space>\r
<space name="io" size="0x40" pointer="false"/>\r
<window from="io" first="0x00" last="0x3F" into="data" offset="0x20"/>\r
<register name="A" address='io:0x18   data:0x18'  /> <!-- é -->\r
<register name="B" title="data:0x19" address="io:0x19&#32;data:0x19"/>\r
</chip>"""


@pytest.mark.parametrize("mark", ["", "\ufeff"])
def test_a_word_is_replaced_and_all_else_survives(cli: Cli, tmp_path: Path, mark: str) -> None:
    before = (mark + SLIPS).replace("'io:0x18   data", "'io:0x18 data").encode()
    (tmp_path / "one.xml").write_bytes(before)
    done = cli("check", "one.xml", "--fix")
    assert (done.returncode, done.stderr) == (0, "")
    assert done.stdout == "1 description, no findings; 2 repaired\n"
    expected = before.replace(b"data:0x18'", b"data:0x38'").replace(
        b'data:0x19"/>', b'data:0x39"/>'
    )
    assert (tmp_path / "one.xml").read_bytes() == expected


def test_a_word_in_json(cli: Cli, tmp_path: Path) -> None:
    text = """{"format": 1, "name": "one", "spaces": [
{"name": "data", "size": "0x100", "regions": [
{"name": "CPU", "kind": "cpu-registers", "first": 0, "last": "0x1F"}]},
{"name": "io", "size": "0x40", "pointer": false}],
"windows": [{"from": "io", "first": 0, "last": "0x3F", "into": "data", "offset": "0x20"}],
"registers": [{"name": "A", "address": "data:0x18\\u0020io:0x18"},
   {"address":"io:0x19 data:0x19", "name": "B"}]}\n"""
    (tmp_path / "one.json").write_text(text)
    done = cli("check", "one.json", "--fix")
    assert (done.returncode, done.stdout) == (0, "1 description, no findings; 2 repaired\n")
    expected = text.replace("data:0x18\\u", "data:0x38\\u").replace("data:0x19", "data:0x39")
    assert (tmp_path / "one.json").read_text() == expected


@pytest.mark.parametrize(
    ("spelling", "address"),
    [
        ("xml", "io:0x18 data:0x&#x31;8"),
        ("xml", "io:0x18 data:0&#x78;18"),
        ("json", "io:0x18 data:0x\\u00318"),
        ("json", "io:0x18 data:\\u0030x18"),
    ],
)
def test_a_word_with_an_escape_in_it_is_left_alone(
    cli: Cli, tmp_path: Path, spelling: str, address: str
) -> None:
    text = f"""<chip format="1" name="one"><space name="data" size="0x100"/>
<space name="io" size="0x40"/><window from="io" first="0" last="0x1F" into="data" offset="0x20"/>
<register name="A" address="{address}"/></chip>
"""
    if spelling == "json":
        text = f"""{{"format": 1, "name": "one",
"spaces": [{{"name": "data", "size": "0x100"}}, {{"name": "io", "size": "0x40"}}],
"windows": [{{"from": "io", "first": 0, "last": "0x1F", "into": "data", "offset": "0x20"}}],
"registers": [{{"name": "A", "address": "{address}"}}]}}
"""
    path = tmp_path / f"one.{spelling}"
    path.write_text(text)
    done = cli("check", path.name, "--fix")
    assert done.returncode == 1
    assert done.stdout.splitlines()[-1] == "1 description, 1 error; 0 repaired"
    assert path.read_text() == text


def test_what_remains_is_reported_where_it_stands_now(cli: Cli, tmp_path: Path) -> None:
    text = _spelled("xml", '<register name="A" adress="$20" reset="0x1FF"/>')
    (tmp_path / "one.xml").write_text(text)
    done = cli("check", "one.xml", "--fix")
    assert done.returncode == 1
    lines = done.stdout.splitlines()
    assert lines[0].startswith("one.xml:3:42: error: ")
    assert lines[0].endswith("[reset-does-not-fit]")
    assert lines[1] == "1 description, 1 error; 2 repaired"


def test_diff_is_a_patch_and_writes_nothing(tmp_path: Path) -> None:
    before: dict[str, bytes] = {}
    after: dict[str, bytes] = {}
    folder = tmp_path / "some chips"
    folder.mkdir()
    for number, (spelling, wrong, right) in enumerate(_repairs()):
        name = f"some chips/{number}.{spelling}"
        lines = "<!-- é\u2028\u0085 -->\r\n" * 9 if spelling == "xml" else " \r\n" * 9
        before[name] = (_spelled(spelling, wrong) + lines).encode()
        after[name] = (_spelled(spelling, right) + lines).encode()
    for name, data in before.items():
        (tmp_path / name).write_bytes(data)
    done = _raw(tmp_path, "check", "some chips", "--diff")
    assert done.returncode == 1
    assert f"; {len(before)} can be repaired\n".encode() in done.stderr
    assert all((tmp_path / name).read_bytes() == data for name, data in before.items())
    for command in (["patch", "-s", "-p0"], ["git", "apply", "-p0"]):
        for name, data in before.items():
            (tmp_path / name).write_bytes(data)
        subprocess.run(command, cwd=tmp_path, input=done.stdout, check=True, capture_output=True)
        assert {name: (tmp_path / name).read_bytes() for name in after} == after


def _raw(folder: Path, *arguments: str) -> subprocess.CompletedProcess[bytes]:
    """Run the command line and return bytes: text would lose how lines end."""
    return subprocess.run(
        [sys.executable, "-m", "regwright", *arguments],
        cwd=folder,
        env={**os.environ, "PYTHONPATH": PACKAGES},
        capture_output=True,
        check=False,
    )


def test_diff_of_what_is_clean_is_empty(cli: Cli, tmp_path: Path) -> None:
    (tmp_path / "one.xml").write_text(_spelled("xml", '<register name="A" address="0x1"/>'))
    done = cli("check", "one.xml", "--diff")
    assert (done.returncode, done.stdout) == (0, "")
    assert done.stderr == "1 description, no findings; 0 can be repaired\n"


def test_a_link_is_repaired_where_it_leads_to(cli: Cli, tmp_path: Path) -> None:
    (tmp_path / "real.xml").write_text(_spelled("xml", XML["dollar"][0]))
    (tmp_path / "real.xml").chmod(0o640)
    (tmp_path / "link.xml").symlink_to("real.xml")
    assert cli("check", "link.xml", "real.xml", "--fix").returncode == 0
    assert (tmp_path / "link.xml").is_symlink()
    assert (tmp_path / "real.xml").read_text() == _spelled("xml", XML["dollar"][1])
    assert (tmp_path / "real.xml").stat().st_mode & 0o777 == 0o640


def test_known_findings_are_not_repaired(cli: Cli, tmp_path: Path) -> None:
    text = _spelled("xml", XML["dollar"][0])
    (tmp_path / "one.xml").write_text(text)
    cli("check", "one.xml", "--write-known", "known.json")
    done = cli("check", "one.xml", "--known", "known.json", "--fix")
    assert (done.returncode, done.stdout) == (0, "1 description, no findings; 0 repaired\n")
    assert (tmp_path / "one.xml").read_text() == text


@pytest.mark.parametrize(
    ("options", "message"),
    [
        (["one.xml", "--fix", "--diff"], "--fix writes and --diff does not"),
        (["-", "--fix"], "--fix cannot write to standard input"),
        (["one.xml", "--diff", "--report", "json"], "--diff prints a patch and nothing else"),
        (["one.xml", "--diff", "--write-known", "k"], "--diff prints a patch and nothing else"),
    ],
)
def test_what_does_not_go_together(
    cli: Cli, tmp_path: Path, options: list[str], message: str
) -> None:
    (tmp_path / "one.xml").write_text(_spelled("xml", XML["dollar"][0]))
    done = cli("check", *options)
    assert done.returncode == 2
    assert message in done.stderr
    assert (tmp_path / "one.xml").read_text() == _spelled("xml", XML["dollar"][0])
