"""The promised speed of an import, as ratios of process times.

The yardstick is lxml: how long it takes to parse the same bytes and let go of them again. The file
is made like those that are found in the wild: 4 MB, 1,000 registers, two or three fields in each,
a text for everything, as large as theirs.
"""

from __future__ import annotations

import os
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

from conftest import PACKAGES

#: Of a process on a busy machine only the best of many says what it takes.
ATTEMPTS = 12
_TEXT = (
    "The flap opens when the air in the house is warmer than the limit that was set before, and "
    "shuts again as soon as it has cooled down by the hysteresis. While the flap moves, the motor "
    "is watched: when it takes too long, the drive is switched off and the fault is kept here "
    "until it is cleared. Rain shuts the flap whatever the air is like, unless it was told to "
    "stay where it is, which is also what it does while somebody works on the roof. "
)
_HEAD = """<?xml version="1.0" encoding="UTF-8"?>
<ipxact:component xmlns:ipxact="http://www.accellera.org/XMLSchema/IPXACT/1685-2014">
	<ipxact:vendor>sorrel.example</ipxact:vendor>
	<ipxact:library>greenhouse</ipxact:library>
	<ipxact:name>large</ipxact:name>
	<ipxact:version>1.0</ipxact:version>
	<ipxact:memoryMaps>
		<ipxact:memoryMap>
			<ipxact:name>control</ipxact:name>
			<ipxact:addressBlock>
				<ipxact:name>house</ipxact:name>
				<ipxact:baseAddress>'h0</ipxact:baseAddress>
				<ipxact:range>'h40000</ipxact:range>
				<ipxact:width>32</ipxact:width>
"""
_TAIL = """			</ipxact:addressBlock>
			<ipxact:addressUnitBits>8</ipxact:addressUnitBits>
		</ipxact:memoryMap>
	</ipxact:memoryMaps>
</ipxact:component>
"""
_REGISTER = """				<ipxact:register>
					<ipxact:name>FLAP{number}</ipxact:name>
					<ipxact:displayName>Flap number {number}</ipxact:displayName>
					<ipxact:description>{text}{text}{text}</ipxact:description>
					<ipxact:addressOffset>'h{offset:X}</ipxact:addressOffset>
					<ipxact:size>32</ipxact:size>
					<ipxact:access>read-write</ipxact:access>
{fields}				</ipxact:register>
"""
_FIELD = """					<ipxact:field>
						<ipxact:name>{name}</ipxact:name>
						<ipxact:description>{text}</ipxact:description>
						<ipxact:bitOffset>{low}</ipxact:bitOffset>
						<ipxact:resets>
							<ipxact:reset>
								<ipxact:value>'h{reset:X}</ipxact:value>
								<ipxact:mask>'hFF</ipxact:mask>
							</ipxact:reset>
						</ipxact:resets>
						<ipxact:bitWidth>8</ipxact:bitWidth>
						<ipxact:access>{access}</ipxact:access>
{values}					</ipxact:field>
"""
_VALUES = """						<ipxact:enumeratedValues>
							<ipxact:enumeratedValue>
								<ipxact:name>SHUT</ipxact:name>
								<ipxact:value>0</ipxact:value>
							</ipxact:enumeratedValue>
							<ipxact:enumeratedValue>
								<ipxact:name>OPEN</ipxact:name>
								<ipxact:value>1</ipxact:value>
							</ipxact:enumeratedValue>
						</ipxact:enumeratedValues>
"""


def _fields(number: int) -> Iterator[str]:
    """Yield two fields, and in every other register a third one."""
    for index in range(2 + number % 2):
        yield _FIELD.format(
            name=("WHAT", "LIMIT", "FAULT")[index],
            text=_TEXT,
            low=8 * index,
            reset=(number + index) % 256,
            access="read-only" if index else "read-write",
            values="" if index else _VALUES,
        )


def component(registers: int) -> bytes:
    """Return a component with so many registers, 4 kB for each."""
    parts = [
        _REGISTER.format(number=n, offset=4 * n, text=_TEXT, fields="".join(_fields(n)))
        for n in range(registers)
    ]
    return (_HEAD + "".join(parts) + _TAIL).encode()


#: Each measurement is a process of its own, so that none finds the memory that another has left.
#: What comes before the clock is started is the same in all; the document is let go of within.
_MEASURE = """
import gc, sys, time
from pathlib import Path
from lxml import etree
from regwright.importing.ieee1685.reading import Wishes, import_ieee1685
gc.disable()  # as the command line does
def parse(data):
    etree.fromstring(data)
def bring_in(data):
    draft = import_ieee1685("large.xml", data, Wishes())
    assert draft.tree is not None and not draft.remarks
work = {"parse": parse, "import": bring_in}[sys.argv[1]]
bring_in(Path(sys.argv[2]).read_bytes())
data = Path(sys.argv[3]).read_bytes()
start = time.process_time()
work(data)
print(time.process_time() - start)
"""


def _seconds(work: str, folder: Path, data: bytes, times: int) -> float:
    """Return the least process time that ``work`` on ``data`` took."""
    small, large = folder / "small.xml", folder / "large.xml"
    small.write_bytes(component(2))
    large.write_bytes(data)
    command = [sys.executable, "-c", _MEASURE, work, str(small), str(large)]
    env = {**os.environ, "PYTHONPATH": PACKAGES}
    return min(
        float(subprocess.run(command, env=env, check=True, capture_output=True, text=True).stdout)
        for _ in range(times)
    )


def test_import_of_1000_registers(tmp_path: Path) -> None:
    """4 MB with 1,000 registers take at most 5 times as long as lxml needs to parse them."""
    data = component(1000)
    assert 3.9e6 < len(data) < 4.3e6
    parsing = importing = float("inf")
    for _ in range(ATTEMPTS):
        parsing = min(parsing, _seconds("parse", tmp_path, data, 3))
        importing = min(importing, _seconds("import", tmp_path, data, 3))
        if importing <= 5 * parsing:
            return
    pytest.fail(f"{importing:.3f} s for the import, {parsing:.3f} s to parse")


def test_cost_of_a_register_does_not_grow(tmp_path: Path) -> None:
    """4,000 registers cost at most 1.3 times as much each as 500 do."""
    few, many = component(500), component(4000)
    ratios = []
    for _ in range(ATTEMPTS):
        of_many = _seconds("import", tmp_path, many, 2) / 8
        ratios.append(of_many / _seconds("import", tmp_path, few, 3))
        if ratios[-1] <= 1.3:
            return
    pytest.fail(f"more than 1.3 x each time: {', '.join(f'{ratio:.2f}' for ratio in ratios)}")
