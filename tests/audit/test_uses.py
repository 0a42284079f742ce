"""``audit --uses``: the registers and bits that sources use, with every place.

The lists are worked out by hand from the sources below and ``descriptions/sorrel14.xml``: OUT_B is
I/O 0x18 and data 0x38 with VENT_OPEN bit 0 and LED bit 2, DIR_B is data 0x37, OUT_A data 0x35,
IN_B data 0x39.
"""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from audit_runs import Sources, audited
from jsonschema import Draft202012Validator

from conftest import DESCRIPTIONS, ROOT, Cli
from regwright.audit.usage import registers_used, usages
from regwright.model.words import visible

SORREL14 = DESCRIPTIONS / "sorrel14.xml"
SCHEMA = json.loads((ROOT / "schemas" / "uses.schema.json").read_bytes())

#: ``REGISTER`` or ``REGISTER.FIELD``, and its places: file, line, column, how, name.
Listed = dict[str, list[str]]


def listed(sources: Sources, name: str = "sorrel14") -> Listed:
    """Return the uses of ``sources`` in short: ``main.c:3:5 write PORT``."""
    subject = audited(sources, name).subject
    found: Listed = {}
    for usage in usages(subject):
        name = usage.placed.name + (f".{usage.field.field.name}" if usage.field else "")
        found[name] = []
        for at, how, called in usage.places:
            text = subject.files[at.file]
            line, column = text.line_and_column(at.start)
            found[name].append(f"{text.name}:{line}:{column} {how} {called}".strip())
    return found


def in_main(code: str, name: str = "sorrel14", **more: bytes) -> Listed:
    """Return the uses in one function, without the name of its file."""
    sources = {f"{file}.h": data for file, data in more.items()}
    found = listed({"m.c": f"void run(void) {{\n{code}\n}}\n".encode(), **sources}, name)
    return {key: [place.removeprefix("m.c:") for place in places] for key, places in found.items()}


PINS = b"""\
#define LAMP OUT_B
#define LED 2
#define DIRB (*(volatile unsigned char *)0x37)
#define PORT_A ((struct port *)0x34)
struct port { volatile unsigned char dir, out, in; };
"""

USED = {
    "read": ("int a = IN_B;", {"IN_B": ["2:9 read IN_B"]}),
    "written": (
        "OUT_B = 0x05;",
        {
            "OUT_B": ["2:1 write OUT_B"],
            "OUT_B.VENT_OPEN": ["2:1 write"],
            "OUT_B.LED": ["2:1 write"],
        },
    ),
    "a bit set by its mask": (
        "OUT_B |= OUT_B_LED_MASK;",
        {
            "OUT_B": ["2:1 modify OUT_B", "2:10 named OUT_B_LED_MASK"],
            "OUT_B.LED": ["2:10 modify OUT_B_LED_MASK"],
        },
    ),
    "a bit cleared by its number": (
        "OUT_B &= ~(1 << OUT_B_LED_BITPOS);",
        {
            "OUT_B": ["2:1 modify OUT_B", "2:17 named OUT_B_LED_BITPOS"],
            "OUT_B.LED": ["2:17 modify OUT_B_LED_BITPOS"],
        },
    ),
    "by names of the source's own": (
        "LAMP ^= 1 << LED;",
        {"OUT_B": ["2:1 modify LAMP"], "OUT_B.LED": ["2:14 modify LED"]},
    ),
    "a bit tested": (
        "while (!(IN_B & IN_B_PINS_MASK)) {}",
        {
            "IN_B": ["2:10 read IN_B", "2:17 named IN_B_PINS_MASK"],
            "IN_B.PINS": ["2:17 read IN_B_PINS_MASK"],
        },
    ),
    "through a macro of the header": (
        "TMR_FLAGS_MATCH_CLEAR();",
        {
            "TMR_FLAGS": ["2:1 write TMR_FLAGS_MATCH_CLEAR"],
            "TMR_FLAGS.MATCH": ["2:1 write TMR_FLAGS_MATCH_CLEAR"],
        },
    ),
    "through a structure": (
        "PORT_A->out = 1;",
        {"OUT_A": ["2:1 write PORT_A->out"], "OUT_A.PINS": ["2:1 write"]},
    ),
    "through a bare cast": (
        "*(volatile unsigned char *)0x37 = 0;",
        {"DIR_B": ["2:1 write"]},
    ),
    "its address is taken": ("send(&OUT_B);", {"OUT_B": ["2:7 named OUT_B"]}),
    "an address without an access": (
        "send(OUT_B_DATA_ADDR);",
        {"OUT_B": ["2:6 named OUT_B_DATA_ADDR"]},
    ),
    "a value of a field": (
        "start(TMR0_CTRL_CLOCK_DIV4);",
        {
            "TMR0_CTRL": ["2:7 named TMR0_CTRL_CLOCK_DIV4"],
            "TMR0_CTRL.CLOCK": ["2:7 named TMR0_CTRL_CLOCK_DIV4"],
        },
    ),
    "inline assembly": (
        'asm volatile("bset 0x18, 2\\n\\tin r1, 0x19");',
        {
            "OUT_B": ["2:20 modify"],
            "OUT_B.LED": ["2:26 modify"],
            "IN_B": ["2:38 read"],
        },
    ),
    "an I/O address behind a pointer, by its name": (
        "*(volatile unsigned char *)0x18 = 4;",
        {"OUT_B": ["2:1 write"], "OUT_B.LED": ["2:1 write"]},
    ),
    "nothing": ("int a = 0x38, LEDS; call(a); LEDS = 2;", {}),
    "in a remark or a text": ('/* OUT_B = 1; */ puts("OUT_B = 1;");', {}),
}


@pytest.mark.parametrize("case", USED.values(), ids=USED.keys())
def test_uses_of_one_statement(case: tuple[str, Listed]) -> None:
    code, expected = case
    assert in_main(code, pins=PINS) == expected


def test_definitions_alone_are_no_uses() -> None:
    assert listed({"pins.h": PINS}) == {}


def test_assembler_files() -> None:
    text = b"""\
#include "sorrel14.h"
        bset OUT_B_IO_ADDR, OUT_B_LED_BITPOS
lamp:   bclr 0x18, 0 ; bset 0x15, 1
        load r1, ADC_RESULT_L_DATA_ADDR
        in r2, 0x3F
        in r2, 0x39
"""
    assert listed({"fast.S": text}) == {
        "OUT_B": ["fast.S:2:14 modify OUT_B_IO_ADDR", "fast.S:3:14 modify"],
        "OUT_B.VENT_OPEN": ["fast.S:3:20 modify"],
        "OUT_B.LED": ["fast.S:2:29 modify OUT_B_LED_BITPOS"],
        "ADC_RESULT_L": ["fast.S:4:18 read ADC_RESULT_L_DATA_ADDR"],
    }


def test_calls_that_stand_for_instructions() -> None:
    """The names are those of linux/serial_reg.h, UAPI; ``outb`` takes the value first."""
    code = "outb(UART_LCR_DLAB, base + UART_LCR);\ny = inb(UART_LSR) & UART_LSR_THRE;\nputb(1, 3);"
    assert in_main(code, "uart16550") == {
        "LINE_CTRL": ["2:6 named UART_LCR_DLAB", "2:21 write UART_LCR"],
        "LINE_CTRL.DLAB": ["2:6 named UART_LCR_DLAB"],
        "LINE_STATUS": ["3:9 read UART_LSR", "3:21 named UART_LSR_THRE"],
        "LINE_STATUS.TX_EMPTY": ["3:21 named UART_LSR_THRE"],
    }


def test_a_call_with_too_few_operands_is_passed_over() -> None:
    assert in_main("outb(UART_LCR);\ninb();", "uart16550") == {"LINE_CTRL": ["2:6 named UART_LCR"]}


def test_the_order_is_that_of_the_chip_then_of_the_sources() -> None:
    sources = {
        "b.c": b"void b(void) { OUT_B = IN_B; STACK = 0; OUT_B = 0; }\n",
        "a.c": b"void a(void) { OUT_B = 0; }\n",
    }
    assert listed(sources) == {
        "STACK": ["b.c:1:30 write STACK"],
        "OUT_B": ["b.c:1:16 write OUT_B", "b.c:1:41 write OUT_B", "a.c:1:16 write OUT_B"],
        "IN_B": ["b.c:1:24 read IN_B"],
    }


def test_registers_are_counted_for_each_file() -> None:
    sources = {
        "a.c": b"void a(void) { OUT_B |= OUT_B_LED_MASK; DIR_B = 1; }\n",
        "b.c": b"int b;\n",
        "c.c": b"void c(void) { OUT_B = 0; }\n",
    }
    assert registers_used(usages(audited(sources).subject)) == {0: 2, 2: 1}


def test_places_count_characters() -> None:
    text = "void f(void) { /* Lüftung 𝄞 */ OUT_B = 0; }\n".encode()
    assert listed({"m.c": b"\xef\xbb\xbf" + text}) == {"OUT_B": ["m.c:1:32 write OUT_B"]}


# As a user sees it.

MAIN = """\
#include "pins.h"
void run(void)
{
    LAMP |= 1 << LED;
    DIRB = 0;
}
"""
TEXT = """\
DIR_B: 1 place
  main.c:5:5: write as DIRB
OUT_B: 1 place
  main.c:4:5: modify as LAMP
OUT_B.LED: 1 place
  main.c:4:18: modify as LED
2 registers of sorrel14 used in 2 sources
"""


@pytest.fixture
def program(tmp_path: Path) -> Path:
    (tmp_path / "pins.h").write_bytes(PINS)
    (tmp_path / "main.c").write_text(MAIN)
    return tmp_path


@pytest.mark.usefixtures("program")
def test_the_list(cli: Cli) -> None:
    done = cli("audit", SORREL14, "main.c", "pins.h", "--uses")
    assert (done.returncode, done.stdout, done.stderr) == (0, TEXT, "")
    same = cli("audit", SORREL14, "main.c", "pins.h", "--uses", "--report", "text")
    assert same.stdout == TEXT


def test_a_source_that_uses_nothing(cli: Cli, tmp_path: Path) -> None:
    (tmp_path / "a.c").write_text("int x;\n")
    done = cli("audit", SORREL14, "a.c", "--uses")
    assert done.stdout == "0 registers of sorrel14 used in 1 source\n"


def test_findings_are_not_told_and_do_not_fail(cli: Cli, tmp_path: Path) -> None:
    (tmp_path / "a.c").write_text("#define OUT_B (*(unsigned char *)0x18)\nint x = OUT_B;\n")
    done = cli("audit", SORREL14, "a.c", "--uses")
    assert (done.returncode, done.stderr) == (0, "")
    assert done.stdout.splitlines()[:2] == ["OUT_B: 1 place", "  a.c:2:9: read"]


@pytest.mark.usefixtures("program")
def test_what_cannot_be_read_is_told(cli: Cli) -> None:
    done = cli("audit", SORREL14, "main.c", "gone.c", "pins.h", "--uses")
    assert done.returncode == 2
    assert done.stdout == TEXT
    assert done.stderr == "regwright: 'gone.c': cannot be read: No such file or directory\n"


def test_the_schema_is_valid_closed_and_described() -> None:
    Draft202012Validator.check_schema(SCHEMA)
    for name, part in SCHEMA["$defs"].items():
        assert part["additionalProperties"] is False, name
        assert part["required"] == list(part["properties"]), name
        assert all(len(item["description"]) > 5 for item in part["properties"].values()), name


@pytest.mark.usefixtures("program")
def test_json_is_as_its_schema_says(cli: Cli) -> None:
    done = cli("audit", SORREL14, "main.c", "pins.h", "--uses", "--report", "json")
    assert (done.returncode, done.stderr) == (0, "")
    data = json.loads(done.stdout)
    Draft202012Validator(SCHEMA).validate(data)
    assert (data["chip"], data["sources"]) == ("sorrel14", ["main.c", "pins.h"])
    assert [(item["register"], item["field"]) for item in data["uses"]] == [
        ("DIR_B", None),
        ("OUT_B", None),
        ("OUT_B", "LED"),
    ]
    assert data["uses"][2]["places"] == [
        {"file": "main.c", "line": 4, "column": 18, "how": "modify", "name": "LED"}
    ]


@pytest.mark.parametrize("name", ["a\x1b[2J.c", "a\udcff.c", "a\n.c", "é.c"])
def test_names_of_files_are_shown_and_written_safely(cli: Cli, tmp_path: Path, name: str) -> None:
    (tmp_path / name).write_text("int x = IN_B;\n")
    done = cli("audit", SORREL14, ".", "--uses")
    assert done.stdout.splitlines()[1] == f"  {visible(name)}:1:9: read"
    made = json.loads(cli("audit", SORREL14, ".", "--uses", "--report", "json").stdout)
    Draft202012Validator(SCHEMA).validate(made)


@pytest.mark.parametrize(
    ("options", "message"),
    [
        (["--fix"], "--uses lists what is used and nothing else"),
        (["--diff"], "--uses lists what is used and nothing else"),
        (["--known", "k.json"], "--uses lists what is used and nothing else"),
        (["--write-known", "k.json"], "--uses lists what is used and nothing else"),
        (["--report", "json", "--output", "u.json"], "--uses lists what is used and nothing else"),
        (["--report", "sarif"], "--uses is there as text and as JSON"),
    ],
)
def test_what_does_not_go_together(
    cli: Cli, program: Path, options: list[str], message: str
) -> None:
    done = cli("audit", SORREL14, "main.c", "--uses", *options)
    assert done.returncode == 2
    assert message in done.stderr
    assert sorted(path.name for path in program.iterdir()) == ["main.c", "pins.h"]
