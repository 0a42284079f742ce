"""What names in sources mean on a chip.

The expectations are worked out by hand from the descriptions' own text. The names of the kernel
are those of ``linux/serial_reg.h`` and ``linux/mii.h``, and what they mean is what those say.
"""

from __future__ import annotations

import time

import pytest
from described import made, names_of, shipped_names

from regwright.audit.names import ALIKE, EXACT, TITLED, Match

#: What a match is in a test: register, field, value, what it says, space.
Plain = tuple[str, str, str, str, str]


def plain(match: Match) -> Plain:
    field = match.field.field.name if match.field else ""
    value = match.value.name if match.value else ""
    return match.placed.name, field, value, match.says, match.space


def register(name: str, says: str = "", space: str = "") -> list[Plain]:
    return [(name, "", "", says, space)]


def field(name: str, own: str, says: str = "", value: str = "") -> list[Plain]:
    return [(name, own, value, says, "")]


@pytest.mark.parametrize(
    ("name", "means"),
    [
        ("OUT_B", register("OUT_B")),
        ("ADC_RESULT_H", register("ADC_RESULT_H")),
        ("OUT_B_IO_ADDR", register("OUT_B", "address", "io")),
        ("ADC_RESULT_L_DATA_ADDR", register("ADC_RESULT_L", "address", "data")),
        ("OUT_B_RESET", register("OUT_B", "reset")),
        ("IN_B_RESET_DEFINED", register("IN_B", "other")),
        ("OUT_B_SINGLE_BIT", register("OUT_B", "other")),
        ("ADC_RESULT_READ_INTO", register("ADC_RESULT", "other")),
        ("OUT_B_LED", field("OUT_B", "LED")),
        ("OUT_B_LED_BITPOS", field("OUT_B", "LED", "position")),
        ("OUT_B_VENT_OPEN_MASK", field("OUT_B", "VENT_OPEN", "mask")),
        ("TMR_FLAGS_MATCH_TO_CLEAR", field("TMR_FLAGS", "MATCH", "other")),
        ("ADC_MUX_CHANNEL_EXTRACT", field("ADC_MUX", "CHANNEL", "other")),
        ("ADC_MUX_REFERENCE_PIN", field("ADC_MUX", "REFERENCE", value="PIN")),
    ],
)
def test_names_of_the_header_are_exact(name: str, means: list[Plain]) -> None:
    found = shipped_names("sorrel14").find(name)
    assert [plain(match) for match in found] == means
    assert [match.certainty for match in found] == [EXACT]


@pytest.mark.parametrize(
    ("name", "means"),
    [
        ("dir_b", register("DIR_B")),
        ("DIRB", register("DIR_B")),
        ("Dir_B", register("DIR_B")),
        ("REG_DIR_B", register("DIR_B")),
        ("R_DIR_B", register("DIR_B")),
        ("regDirB", register("DIR_B")),
        ("DIR_B_R", register("DIR_B")),
        ("__DIR__B_", register("DIR_B")),
        ("OUT_B_LED_BIT_", field("OUT_B", "LED", "position")),
        ("DIR_B_REG", register("DIR_B", "address")),
        ("DIR_B_ADDR", register("DIR_B", "address")),
        ("dirb_address", register("DIR_B", "address")),
        ("DIR_B_PTR", register("DIR_B", "address")),
        ("DIR_B_IO_ADDRESS", register("DIR_B", "address", "io")),
        ("DIR_B_ADDR_DATA", register("DIR_B", "address", "data")),
        ("out_b_reset", register("OUT_B", "reset")),
        ("OUT_B_LED_BIT", field("OUT_B", "LED", "position")),
        ("OUT_B_LED_POS", field("OUT_B", "LED", "position")),
        ("OUTB_LED_SHIFT", field("OUT_B", "LED", "position")),
        ("OUT_B_LED_BIT_NUM", field("OUT_B", "LED", "position")),
        ("outBVentOpenBit", field("OUT_B", "VENT_OPEN", "position")),
        ("OUT_B_LED_MSK", field("OUT_B", "LED", "mask")),
        ("REG_OUT_B_LED_MASK", field("OUT_B", "LED", "mask")),
        ("adc_mux_reference_pin", field("ADC_MUX", "REFERENCE", value="PIN")),
    ],
)
def test_names_that_differ_in_form_only_are_alike(name: str, means: list[Plain]) -> None:
    found = shipped_names("sorrel14").find(name)
    assert [plain(match) for match in found] == means
    assert [match.certainty for match in found] == [ALIKE]


@pytest.mark.parametrize(
    "name",
    [
        "",
        "_",
        "___",
        "x",
        "DIR",
        "DIR_",
        "REG_",
        "R",
        "OUT_BX",
        "OUT_B_LEDS",
        "OUT_B_LED_MASK_BIT",
        "OUT_C",
        "SORREL14_H",
        "Ø_OUT_B",
        "OUT_B" * 10_000,
        "OUT_B_" * 10_000,
        "OUT_B" + "_" * 1000,
    ],
)
def test_other_names_mean_nothing(name: str) -> None:
    assert shipped_names("sorrel14").find(name) == ()


def test_an_address_that_the_header_does_not_have_is_not_exact() -> None:
    # ADC_CTRL of the Sorrel 40 lies beyond what I/O space shows
    (match,) = shipped_names("sorrel40").find("ADC_CTRL_IO_ADDR")
    assert plain(match) == ("ADC_CTRL", "", "", "address", "io")
    assert match.certainty == ALIKE


def test_names_in_blocks_and_rows_carry_prefix_and_index() -> None:
    names = shipped_names("sorrel32")
    (match,) = names.find("COPY_LANE2_SETUP_SIZE_BITS16")
    assert plain(match) == ("COPY_LANE2_SETUP", "SIZE", "BITS16", "", "")
    (match,) = names.find("PROBE_SETTLE5_CYCLES_MASK")
    assert plain(match) == ("PROBE_SETTLE5", "CYCLES", "", "mask", "")
    assert names.find("COPY_LANE3_SETUP") == ()
    (match,) = names.find("sense_role_pin0_pos")
    assert plain(match) == ("SENSE_ROLE", "PIN0", "", "position", "")


def test_the_prefix_of_the_chip_is_part_of_its_names() -> None:
    names = names_of(made(prefix="P_", registers=[{"name": "A", "address": 0, "aliases": "OTHER"}]))
    assert [plain(match) for match in names.find("P_A")] == register("P_A")
    assert names.find("A") == ()
    # an alias is a whole name
    assert [plain(match) for match in names.find("OTHER")] == register("P_A")


@pytest.mark.parametrize(
    ("name", "means"),
    [
        # registers, bits and values as linux/serial_reg.h has them
        ("UART_LSR", register("LINE_STATUS")),
        ("UART_LSR_TEMT", field("LINE_STATUS", "TX_IDLE")),
        ("UART_LCR_WLEN8", field("LINE_CTRL", "LENGTH", value="BITS8")),
        ("UART_LSR_RESET", []),
        # the header's words behind an alias
        ("UART_LSR_TX_IDLE_MASK", field("LINE_STATUS", "TX_IDLE", "mask")),
        ("UART_LSR_TEMT_MASK", field("LINE_STATUS", "TX_IDLE", "mask")),
        ("UART_LCR_LENGTH_BITS8", field("LINE_CTRL", "LENGTH", value="BITS8")),
    ],
)
def test_aliases_are_exact(name: str, means: list[Plain]) -> None:
    found = shipped_names("uart16550").find(name)
    assert [plain(match) for match in found] == means
    assert all(match.certainty == EXACT for match in found)


def test_aliases_in_another_form_are_alike() -> None:
    (match,) = shipped_names("uart16550").find("uart_lsr_temt_bit")
    assert (plain(match), match.certainty) == (
        ("LINE_STATUS", "TX_IDLE", "", "position", ""),
        ALIKE,
    )


NAMED = made(
    registers=[
        {
            "name": "ROW",
            "aliases": "LINE",
            "address": "0x10",
            "count": 3,
            "firstIndex": 5,
            "stride": 2,
            "width": 16,
            "halves": {"low": {"name": "ROW_L", "aliases": "LOW"}, "high": {"name": "ROW_H"}},
            "fields": [
                {
                    "name": "F",
                    "bits": "3:2",
                    "aliases": "G ROW_FLAG",
                    "values": [{"name": "ON", "value": 1, "aliases": "YES ROW_ON"}],
                }
            ],
        }
    ],
    blocks=[
        {
            "name": "GROUP",
            "aliases": "GRP",
            "size": "0x40",
            "instances": [{"name": "G0", "base": "0x100"}, {"name": "G1", "base": "0x140"}],
            "registers": [{"name": "CTRL", "aliases": "GROUP_CTRL", "offset": 0}],
            "blocks": [
                {
                    "name": "LANE",
                    "aliases": "CHAN",
                    "offset": "0x10",
                    "size": 4,
                    "count": 2,
                    "registers": [{"name": "LEFT", "offset": 0}],
                }
            ],
        }
    ],
)


@pytest.mark.parametrize(
    ("name", "registers"),
    [
        ("LINE", ["ROW5"]),
        ("LINE5", ["ROW5"]),
        ("LINE7", ["ROW7"]),
        ("LINE8", []),
        ("LOW6", ["ROW_L6"]),
        ("LOW", ["ROW_L5"]),
        ("LINE6_DATA_ADDR", ["ROW6"]),
        ("LINE6_G_MASK", ["ROW6"]),
        ("ROW6_G_YES", ["ROW6"]),
        ("ROW6_F_YES", ["ROW6"]),
        ("ROW6_G_ON", ["ROW6"]),
        ("ROW_FLAG", ["ROW5", "ROW6", "ROW7"]),
        ("ROW_FLAG_YES", ["ROW5", "ROW6", "ROW7"]),
        ("ROW_ON", ["ROW5", "ROW6", "ROW7"]),
        ("GROUP_CTRL", ["G0_CTRL", "G1_CTRL"]),
        ("GRP_CTRL", ["G0_CTRL", "G1_CTRL"]),
        ("GRP_LANE1_LEFT", ["G0_LANE1_LEFT", "G1_LANE1_LEFT"]),
        ("CHAN0_LEFT", ["G0_LANE0_LEFT", "G1_LANE0_LEFT"]),
        ("CHAN2_LEFT", []),
        ("GRP_RIGHT", []),
    ],
)
def test_aliases_stand_in_place_of_names(name: str, registers: list[str]) -> None:
    found = names_of(NAMED).find(name)
    assert [match.placed.name for match in found] == registers
    assert all(match.certainty == EXACT for match in found)


def test_an_alias_of_a_block_stands_for_all_that_its_registers_start_with() -> None:
    inner = {
        "name": "INNER",
        "aliases": "IN",
        "prefix": "I",
        "offset": 4,
        "size": 4,
        "count": 2,
        "registers": [{"name": "R", "offset": 0}],
    }
    outer = {"name": "OUTER", "aliases": "OUT", "prefix": "", "offset": 0, "blocks": [inner]}
    whole = {"name": "WHOLE", "base": "0x100", "blocks": [outer]}
    names = names_of(made(prefix="P_", blocks=[whole]))
    for name in ("P_WHOLE_I1_R", "OUT_I1_R", "IN1_R"):
        (match,) = names.find(name)
        assert (match.placed.name, match.certainty) == ("P_WHOLE_I1_R", EXACT)
    (match,) = names.find("in1_r")
    assert (match.placed.name, match.certainty) == ("P_WHOLE_I1_R", ALIKE)


def test_a_name_with_two_meanings_has_both() -> None:
    names = names_of(
        made(
            registers=[
                {"name": "A", "address": 0, "fields": [{"name": "B_C", "bits": 0}]},
                {"name": "A_B", "address": 1, "fields": [{"name": "C", "bits": 1}]},
                {"name": "A_B_C", "address": 2},
            ]
        )
    )
    found = {plain(match) for match in names.find("A_B_C")}
    assert found == {
        ("A_B_C", "", "", "", ""),
        ("A", "B_C", "", "", ""),
        ("A_B", "C", "", "", ""),
    }
    found = {plain(match) for match in names.find("A_B_C_MASK")}
    assert found == {("A", "B_C", "", "mask", ""), ("A_B", "C", "", "mask", "")}


def test_exact_names_come_before_names_that_are_alike() -> None:
    names = names_of(made(registers=[{"name": "AB", "address": 0}, {"name": "A_B", "address": 1}]))
    assert [match.placed.name for match in names.find("A_B")] == ["A_B"]
    assert [match.placed.name for match in names.find("a_b")] == ["AB", "A_B"]


@pytest.mark.parametrize(
    ("name", "certainty", "means"),
    [
        ("LED", EXACT, field("OUT_B", "LED")),
        ("LED_MASK", EXACT, field("OUT_B", "LED", "mask")),
        ("LED_BITPOS", EXACT, field("OUT_B", "LED", "position")),
        ("LED_BIT", ALIKE, field("OUT_B", "LED", "position")),
        ("led", ALIKE, field("OUT_B", "LED")),
        ("vent_open", ALIKE, field("OUT_B", "VENT_OPEN")),
        ("VentOpenMask", ALIKE, field("OUT_B", "VENT_OPEN", "mask")),
        ("DONE", EXACT, field("ADC_CTRL", "DONE")),
        ("ENABLE", EXACT, field("WATCHDOG", "ENABLE") + field("ADC_CTRL", "ENABLE")),
        ("REFERENCE_PIN", EXACT, []),
        ("OUT_B_LED", EXACT, []),
        ("LAMP", EXACT, []),
        ("", EXACT, []),
        ("_", EXACT, []),
    ],
)
def test_fields_without_their_register(name: str, certainty: int, means: list[Plain]) -> None:
    found = shipped_names("sorrel14").fields_named(name)
    assert [plain(match) for match in found] == means
    assert all(match.certainty == certainty for match in found)


def test_an_alias_of_a_field_needs_no_register() -> None:
    found = names_of(NAMED).fields_named("G_MASK")
    assert [plain(match) for match in found] == [
        (f"ROW{number}", "F", "", "mask", "") for number in (5, 6, 7)
    ]


@pytest.mark.parametrize(
    ("name", "register", "says"),
    [
        ("PORT_B_DIR", "DIR_B", ""),  # Port B direction
        ("port_bDirection", "DIR_B", ""),
        ("PORT_B_DIR_REG", "DIR_B", "address"),
        ("port_b_dir_addr", "DIR_B", "address"),
        ("PORT_A_OUT", "OUT_A", ""),  # Port A output latch
        ("PORT_B_INPUT_PINS", "IN_B", ""),
        ("TIMER0_CONTROL", "TMR0_CTRL", ""),
        ("TIMER_FLAGS", "TMR_FLAGS", ""),
        ("EEPROM_DATA", "NVM_DATA", ""),
        ("CONVERTER_RESULT", "ADC_RESULT", ""),
        ("STACK_POINTER", "STACK", ""),  # Stack pointer, counted from the start of SRAM
    ],
)
def test_the_words_of_a_title_mean_its_register(name: str, register: str, says: str) -> None:
    (match,) = shipped_names("sorrel14").find_titled(name)
    assert (match.placed.name, match.says, match.certainty) == (register, says, TITLED)


@pytest.mark.parametrize(
    "name",
    [
        "PORT_B",  # which of three
        "port_b",
        "PORT_DIR",  # of which port
        "PORT_C_DIR",  # there is none
        "PORT_B_DI",  # cut too short
        "PORT_B_PIN0",
        "TIMER_CONTROL",  # of which timer, should there be more
        "TIMER1_CONTROL",
        "TIMER0_CONTROL_VALUE",  # a word that the title does not have
        "DIRECTION",
        "DATA_ADDRESS",
        "STATUS",
        "SRAM_START",  # the title only mentions it
        "_",
        "",
        "PÖRT_B_DIR",
        "PORT_B_DIR_" * 1000,
    ],
)
def test_what_a_title_does_not_say_for_sure_means_nothing(name: str) -> None:
    assert shipped_names("sorrel14").find_titled(name) == ()


def test_a_letter_behind_a_word_may_be_a_word() -> None:
    titles = ["Valve A opening", "Valve B opening", "Valve B closing"]
    registers = [
        {"name": f"X{number}", "title": title, "address": number}
        for number, title in enumerate(titles)
    ]
    names = names_of(made(registers=registers))
    for name in ("VALVEB_OPEN", "valveBOpening", "valveb_opening", "VALVEB_OPEN_REG"):
        assert [match.placed.name for match in names.find_titled(name)] == ["X1"]
    for name in ("VALVE_OPEN", "VALVEB", "VALVEC_OPEN", "VALVEBX_OPEN"):
        assert names.find_titled(name) == ()


def test_ordinary_words_alone_mean_no_register() -> None:
    names = shipped_names("uart16550")
    assert names.find_titled("INTERRUPT_ENABLE") == ()  # "Interrupt enable" is the whole title
    (match,) = names.find_titled("MODEM_CONTROL")
    assert match.placed.name == "MODEM_CTRL"
    # "A byte for the program's own use"
    assert names.find_titled("PROGRAM_USE") == ()


def test_a_title_of_several_registers_means_none() -> None:
    # UART0_CTRL and UART1_CTRL are both called "Serial port control"
    assert shipped_names("sorrel40").find_titled("SERIAL_PORT_CONTROL") == ()
    assert shipped_names("sorrel32").find_titled("LANE_SETUP") == ()


def test_a_title_that_is_met_wholly_comes_before_longer_ones() -> None:
    titles = ["Pump rate", "Pump rate limit", "Pump alarm limit"]
    registers = [
        {"name": f"X{number}", "title": title, "address": number}
        for number, title in enumerate(titles)
    ]
    names = names_of(made(registers=registers))
    assert [match.placed.name for match in names.find_titled("PUMP_RATE")] == ["X0"]
    assert [match.placed.name for match in names.find_titled("PUMP_RATE_LIM")] == ["X1"]
    assert names.find_titled("PUMP_LIMIT") == ()


def test_a_title_that_is_met_as_well_as_another_means_none() -> None:
    titles = ["Pump rate", "Rate of the pump", "Valve rates", "Valve rate"]
    registers = [
        {"name": f"X{number}", "title": title, "address": number}
        for number, title in enumerate(titles)
    ]
    names = names_of(made(registers=registers))
    assert names.find_titled("PUMP_RATE") == ()
    # a whole word is met better than one that goes on
    assert [match.placed.name for match in names.find_titled("VALVE_RATE")] == ["X3"]


def test_a_large_chip_is_indexed_once() -> None:
    # 5,000 registers of 8 fields; each lookup is a few dictionaries', whatever the size
    registers = [
        {
            "name": f"REG{number}",
            "title": f"Register of pump {number}",
            "address": f"data:{number:#x}",
            "fields": [{"name": f"F{bit}", "bits": bit} for bit in range(8)],
        }
        for number in range(5000)
    ]
    names = names_of(made(spaces=[{"name": "data", "size": "0x10000"}], registers=registers))
    start = time.process_time()
    for number in range(0, 5000, 5):
        (match,) = names.find(f"reg{number}_f3_bit")
        assert plain(match) == (f"REG{number}", "F3", "", "position", "")
        (match,) = names.find_titled(f"PUMP{number}_REGISTER")
        assert match.placed.name == f"REG{number}"
        assert names.find(f"local_{number}") == ()
    assert len(names.fields_named("f3")) == 5000
    # an index that is built anew, or a search through all, takes minutes
    assert time.process_time() - start < 10
