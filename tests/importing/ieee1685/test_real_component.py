"""A real component file, held against two outside sources.

The one is the file itself, read again by a few lines of XPath that share nothing with the
importer. The other are numbers of registers as published in "The RISC-V Instruction Set Manual,
Volume II: Privileged Architecture", table "Currently allocated RISC-V machine-level CSR addresses"
and its neighbours: written here from memory, not copied from the document.
"""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from lxml import etree
from outlines import checked, held

from conftest import ROOT, Compile
from regwright.importing.draft import Draft
from regwright.importing.ieee1685.reading import Wishes, import_ieee1685
from regwright.model.finding import ERROR
from regwright.pipeline import Checked, emit
from regwright.resolve.chip import Placed
from regwright.resolve.facts import FieldFacts

FILE = ROOT.parent / "shared" / "real" / "ieee1685" / "riscv-csr-2014.xml"
pytestmark = pytest.mark.skipif(not FILE.is_file(), reason="../shared/real has no such file here")
NAMES = {"i": "http://www.accellera.org/XMLSchema/IPXACT/1685-2014"}

#: Numbers of control and status registers, from memory of the manual named above.
PUBLISHED = {
    "fflags": 0x001,
    "frm": 0x002,
    "fcsr": 0x003,
    "sstatus": 0x100,
    "sie": 0x104,
    "stvec": 0x105,
    "scounteren": 0x106,
    "sscratch": 0x140,
    "sepc": 0x141,
    "scause": 0x142,
    "stval": 0x143,
    "sip": 0x144,
    "satp": 0x180,
    "mstatus": 0x300,
    "misa": 0x301,
    "medeleg": 0x302,
    "mideleg": 0x303,
    "mie": 0x304,
    "mtvec": 0x305,
    "mcounteren": 0x306,
    "mcountinhibit": 0x320,
    "mscratch": 0x340,
    "mepc": 0x341,
    "mcause": 0x342,
    "mtval": 0x343,
    "mip": 0x344,
    "pmpcfg0": 0x3A0,
    "pmpaddr0": 0x3B0,
    "tselect": 0x7A0,
    "tdata1": 0x7A1,
    "dcsr": 0x7B0,
    "dpc": 0x7B1,
    "mcycle": 0xB00,
    "minstret": 0xB02,
    "mcycleh": 0xB80,
    "minstreth": 0xB82,
    "cycle": 0xC00,
    "instret": 0xC02,
    "mvendorid": 0xF11,
    "marchid": 0xF12,
    "mimpid": 0xF13,
    "mhartid": 0xF14,
}
#: The same for fields of ``mstatus`` on a machine of 32 bits: the lowest bit of each.
MSTATUS = {"SIE": 1, "MIE": 3, "SPIE": 5, "MPIE": 7, "SPP": 8, "MPP": 11, "FS": 13, "XS": 15}
MSTATUS |= {"MPRV": 17, "SUM": 18, "MXR": 19, "TVM": 20, "TW": 21, "TSR": 22, "SD": 31}


@pytest.fixture(scope="module")
def draft() -> Draft:
    return held(import_ieee1685(FILE.name, FILE.read_bytes(), Wishes()))


@pytest.fixture(scope="module")
def run(draft: Draft) -> Checked:
    return checked(draft)


def placed(run: Checked) -> dict[str, Placed]:
    assert run.resolved is not None
    return {item.name.removeprefix("address_block_"): item for item in run.resolved.registers}


def test_it_is_imported_and_checked_without_an_error(draft: Draft, run: Checked) -> None:
    assert [str(item) for item in run.findings if item.finding.level == ERROR] == []
    assert [item.rule for item in draft.remarks if item.level == ERROR] == []


def _number(text: str | None) -> int:
    words = (text or "").strip().lower()
    return int(words.removeprefix("'h").removeprefix("0x"), 16 if words[:2] in ("'h", "0x") else 10)


def test_it_says_what_another_reading_says(run: Checked) -> None:
    """Every register's number, width and access, every field's place, access and reset."""
    found = placed(run)
    root = etree.parse(FILE).getroot()
    expected = 0
    for element in root.xpath("//i:register", namespaces=NAMES):
        text = {etree.QName(child).localname: child.text for child in element}
        sizes = element.xpath("i:dim/text()", namespaces=NAMES)
        for index in range(int(sizes[0]) if sizes else 1):
            register = found[text["name"] + (str(index) if sizes else "")]
            assert register.addresses[0].value == _number(text["addressOffset"]) + index
            assert register.facts.width == int(text["size"])
            assert register.facts.access == text["access"]
            expected += 1
            fields = {item.field.name: item for item in register.facts.fields}
            elements = element.xpath("i:field", namespaces=NAMES)
            assert len(fields) == len(elements)
            for inner in elements:
                _compare(inner, fields[inner.findtext("i:name", namespaces=NAMES)])
    assert len(found) == expected == 85 - 4 + 6 + 16 + 2 + 6


def _compare(element: etree._Element, facts: FieldFacts) -> None:
    low = int(element.findtext("i:bitOffset", namespaces=NAMES))
    width = int(element.findtext("i:bitWidth", namespaces=NAMES))
    reset = element.xpath("string(i:resets/i:reset/i:value)", namespaces=NAMES)
    values = element.xpath("i:enumeratedValues/i:enumeratedValue", namespaces=NAMES)
    assert facts.layout.position == low
    assert facts.layout.mask == ((1 << width) - 1) << low
    assert facts.access == element.findtext("i:access", namespaces=NAMES)
    assert facts.reset is not None
    assert facts.reset.value == _number(reset)
    assert [item.value for item in facts.field.values] == [
        _number(item.findtext("i:value", namespaces=NAMES)) for item in values
    ]


def test_published_numbers(run: Checked) -> None:
    found = placed(run)
    both = PUBLISHED.keys() & found.keys()
    assert len(both) >= 30
    assert {name: found[name].addresses[0].value for name in both} == {
        name: PUBLISHED[name] for name in both
    }


def test_published_fields(run: Checked) -> None:
    fields = {item.field.name: item.layout.position for item in placed(run)["mstatus"].facts.fields}
    assert {name: fields.get(name) for name in MSTATUS} == MSTATUS


def test_places(draft: Draft) -> None:
    """Outside source: the file's own text; a register's element starts on its line."""
    lines = FILE.read_text(encoding="utf-8").splitlines()
    registers = [
        place for origin, place in draft.places.items() if origin and origin[1] == "registers"
    ]
    assert len(registers) == 85
    assert all("<ipxact:register>" in lines[line - 1] for line, _ in registers)


def test_its_header_compiles(run: Checked, compile_c: Compile, tmp_path: Path) -> None:
    """Outside source: gcc, as C99, C11 and C++; numbers again as the preprocessor sees them."""
    name, text = emit(run, ["header"])[0]
    (tmp_path / name).write_text(text, encoding="utf-8")
    numbers = {
        key: value
        for key, value in PUBLISHED.items()
        if re.search(rf"address_block_{key}_OTHER_ADDR\b", text)
    }
    assert len(numbers) >= 30
    asserts = "\n".join(
        f"typedef char is_{key}[address_block_{key}_OTHER_ADDR == {value} ? 1 : -1];"
        for key, value in sorted(numbers.items())
    )
    source = f'#include "{name}"\n{asserts}\n'
    for std in ("c99", "c11", "c++17"):
        built = compile_c(source, std=std)
        assert built.returncode == 0, built.stderr
