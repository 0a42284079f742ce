"""Which register and field of one chip is which of another: worked out by hand."""

from __future__ import annotations

from small_chips import chip, field, field_pairs, flags, pairs, register

from regwright.compare.pairs import CERTAIN, LIKELY, POSSIBLE, sureness
from regwright.compare.pins import Pins


def test_the_name_counts_wherever_the_register_is() -> None:
    a = chip(register("CTRL", 0x20), register("DATA", 0x21))
    b = chip(register("DATA", 0x80), register("CTRL", 0x90, width=16))
    assert pairs(a, b) == [("CTRL", "CTRL", "name"), ("DATA", "DATA", "name")]


def test_a_renamed_block_keeps_its_registers() -> None:
    """COUNT and COMPARE say that TMR_A is TMR0, though both also have a CTRL like any block."""
    names = "CTRL", "COUNT", "COMPARE"
    a = chip(*(register(f"TMR0_{name}", 0x40 + at) for at, name in enumerate(names)))
    b = chip(*(register(f"TMR_A_{name}", 0x60 + at) for at, name in enumerate(names)))
    assert pairs(a, b) == [(f"TMR0_{name}", f"TMR_A_{name}", "block") for name in names]


def test_a_renamed_register_of_a_renamed_block_by_its_place() -> None:
    """CNT stands where COUNT stood, between two that are pairs and moved as far as one another."""
    a = chip(
        register("TMR0_CTRL", 0x40), register("TMR0_CNT", 0x41), register("TMR0_COMPARE", 0x42)
    )
    b = chip(
        *(register("TMR_A_CTRL", 0x60), register("TMR_A_COUNT", 0x61)),
        register("TMR_A_COMPARE", 0x62),
    )
    assert pairs(a, b) == [
        ("TMR0_CTRL", "TMR_A_CTRL", "block"),
        ("TMR0_CNT", "TMR_A_COUNT", "place"),
        ("TMR0_COMPARE", "TMR_A_COMPARE", "block"),
    ]


def test_a_place_says_nothing_where_the_registers_of_the_block_moved_differently() -> None:
    a = chip(
        *(register("TMR0_CTRL", 0x40), register("TMR0_CNT", 0x41)),
        *(register("TMR0_COMPARE", 0x42), register("TMR0_LIMIT", 0x43)),
    )
    b = chip(
        *(register("TMR_A_CTRL", 0x60), register("TMR_A_COUNT", 0x61)),
        *(register("TMR_A_COMPARE", 0x63), register("TMR_A_LIMIT", 0x62)),
    )
    assert ("TMR0_CNT", "", "") in pairs(a, b)
    assert ("", "TMR_A_COUNT", "") in pairs(a, b)


def test_blocks_that_any_chip_has_are_not_one_for_it() -> None:
    """Memory and a bus that both have CTRL and DATA share nothing; a third name makes the block."""
    a = chip(register("NVM_CTRL", 0x40), register("NVM_DATA", 0x41), register("NVM_PAGE", 0x42))
    b = chip(register("BUS_CTRL", 0x60), register("BUS_DATA", 0x61))
    assert all(why == "" for _, _, why in pairs(a, b))
    c = chip(register("MEM_CTRL", 0x60), register("MEM_DATA", 0x61), register("MEM_PAGE", 0x62))
    assert all(why == "block" for _, _, why in pairs(a, c))


def test_two_blocks_that_might_both_be_it_stay_alone_until_one_is_pinned() -> None:
    names = "CTRL", "COMPARE"
    a = chip(*(register(f"TMR0_{name}", 0x40 + at) for at, name in enumerate(names)))
    b = chip(
        *(register(f"TMR_A_{name}", 0x60 + at) for at, name in enumerate(names)),
        *(register(f"TMR_B_{name}", 0x70 + at) for at, name in enumerate(names)),
    )
    assert all(why == "" for _, _, why in pairs(a, b))
    pins = Pins(pairs=frozenset({("TMR0_CTRL", "TMR_B_CTRL")}))
    assert pairs(a, b, pins)[:2] == [
        ("TMR0_CTRL", "TMR_B_CTRL", "pinned"),
        ("TMR0_COMPARE", "TMR_B_COMPARE", "block"),
    ]


def test_blocks_with_instances_and_rows() -> None:
    """UART0 and UART1 are themselves by name, the channels CH by the alias of what was LANE."""
    block = {"name": "UART", "registers": [register("DATA", offset=0), register("BAUD", offset=1)]}
    row = {"name": "LANE", "base": "data:0x100", "count": 2, "stride": 4}
    lane = [register("FROM", offset=0), register("TO", offset=2)]
    a = chip(
        blocks=[
            {
                **block,
                "instances": [
                    {"name": "UART0", "base": "data:0x60"},
                    {"name": "UART1", "base": "data:0x68"},
                ],
            },
            {**row, "registers": lane},
        ]
    )
    b = chip(
        blocks=[
            {
                **block,
                "name": "SERIAL",
                "instances": [
                    {"name": "UART1", "base": "data:0x80"},
                    {"name": "UART0", "base": "data:0x88"},
                ],
            },
            {**row, "name": "CH", "registers": lane},
        ]
    )
    assert pairs(a, b)[:4] == [
        ("UART0_DATA", "UART0_DATA", "name"),
        ("UART0_BAUD", "UART0_BAUD", "name"),
        ("UART1_DATA", "UART1_DATA", "name"),
        ("UART1_BAUD", "UART1_BAUD", "name"),
    ]
    # LANE0 may be CH0 and CH1: nothing tells, so neither is taken
    assert pairs(a, b)[4] == ("LANE0_FROM", "", "")
    one = chip(blocks=[{**row, "count": 1, "registers": lane}])
    other = chip(blocks=[{**row, "name": "CH", "count": 1, "registers": lane}])
    assert pairs(one, other) == [
        ("LANE0_FROM", "CH0_FROM", "block"),
        ("LANE0_TO", "CH0_TO", "block"),
    ]


def test_an_instance_that_is_renamed_by_its_title() -> None:
    registers = [register("LEVEL", offset=0), register("DRIVE", offset=1)]

    def pins(*names: tuple[str, str, str]) -> list[dict[str, object]]:
        instances = [{"name": n, "title": t, "base": f"data:{at}"} for n, t, at in names]
        return [{"name": "PINS", "instances": instances, "registers": registers}]

    a = chip(blocks=pins(("P0", "the relay board", "0x60"), ("P1", "the sensor board", "0x70")))
    b = chip(
        blocks=pins(("SENSE", "the sensor board", "0x60"), ("RELAY", "The relay board", "0x70"))
    )
    assert pairs(a, b) == [
        ("P0_LEVEL", "RELAY_LEVEL", "block"),
        ("P0_DRIVE", "RELAY_DRIVE", "block"),
        ("P1_LEVEL", "SENSE_LEVEL", "block"),
        ("P1_DRIVE", "SENSE_DRIVE", "block"),
    ]


def test_rows_of_registers_by_their_numbers() -> None:
    a = chip(register("BUF", 0x40, count=3))
    b = chip(register("BUF", 0x80, count=2, firstIndex=1))
    assert pairs(a, b) == [("BUF0", "", ""), ("BUF1", "BUF1", "name"), ("BUF2", "BUF2", "name")]


def test_an_alias_is_a_name_too() -> None:
    a = chip(register("LCR", 0x23, aliases="UART_LCR"), register("MCR", 0x24))
    b = chip(register("UART_LCR", 0x33), register("MODEM", 0x34, aliases="MCR"))
    assert pairs(a, b) == [("LCR", "UART_LCR", "alias"), ("MCR", "MODEM", "alias")]


def test_an_alias_of_two_says_nothing() -> None:
    a = chip(register("LCR", 0x23, aliases="LINE"), register("MCR", 0x24, aliases="LINE"))
    b = chip(register("LINE", 0x33))
    assert all(why == "" for _, _, why in pairs(a, b))


def test_names_that_differ_in_case_and_underscores_are_alike() -> None:
    a = chip(register("LINE_CTRL", 0x23))
    b = chip(register("LineCtrl", 0x33))
    assert pairs(a, b) == [("LINE_CTRL", "LineCtrl", "alike")]


def test_what_all_names_of_a_chip_start_with_does_not_count() -> None:
    a = chip(register("LINE", 0x23), register("STATUS", 0x24), prefix="SORREL_")
    b = chip(register("LINE", 0x33), register("STATUS", 0x34))
    assert pairs(a, b) == [
        ("SORREL_LINE", "LINE", "alike"),
        ("SORREL_STATUS", "STATUS", "alike"),
    ]


def test_titles_that_tell() -> None:
    a = chip(register("DIR_A", 0x23, title="Port A direction"))
    b = chip(
        register("PADIR", 0x33, title="port A: direction"), register("PBDIR", 0x34, title="Port B")
    )
    assert pairs(a, b)[0] == ("DIR_A", "PADIR", "title")


def test_titles_that_any_block_has_do_not_tell() -> None:
    a = chip(register("UCR", 0x23, title="Control register"), register("X", 0x24, title="Counter"))
    b = chip(
        register("ADCSR", 0x33, title="Control register"), register("Y", 0x34, title="Counter")
    )
    assert all(why == "" for _, _, why in pairs(a, b))


def test_such_a_title_tells_within_a_block_and_with_its_blocks_title() -> None:
    def uart(name: str, title: str, *registers: tuple[str, str]) -> list[dict[str, object]]:
        listed = [register(n, offset=at, title=t) for at, (n, t) in enumerate(registers)]
        return [{"name": name, "title": title, "base": "data:0x60", "registers": listed}]

    a = chip(blocks=uart("UART", "Serial port", ("UCR", "Control"), ("UDR", "Data")))
    b = chip(blocks=uart("UART", "Serial port", ("DATA", "Data"), ("CONTROL", "Control")))
    assert pairs(a, b) == [
        ("UART_UCR", "UART_CONTROL", "title"),
        ("UART_UDR", "UART_DATA", "title"),
    ]
    c = chip(register("SPCTL", 0x33, title="Serial port control"))
    assert pairs(a, c) == [("UART_UCR", "SPCTL", "title"), ("UART_UDR", "", "")]


def test_the_same_title_twice_is_a_tie() -> None:
    a = chip(register("A1", 0x23, title="Pull-up resistors"))
    b = chip(
        register("B1", 0x33, title="Pull-up resistors"),
        register("B2", 0x34, title="Pull-up resistors"),
    )
    assert all(why == "" for _, _, why in pairs(a, b))


def test_what_is_only_read_is_not_what_is_only_written() -> None:
    a = chip(register("RXB", 0x23, title="Serial data byte", access="read-only"))
    b = chip(register("TXB", 0x33, title="Serial data byte", access="write-only"))
    assert all(why == "" for _, _, why in pairs(a, b))


def test_the_same_fields() -> None:
    a = chip(register("CAUSE", 0x23, fields=flags("POWER_ON", "EXTERNAL", "BROWN_OUT")))
    b = chip(register("RESET_CAUSE", 0x33, fields=flags("BROWNOUT", "POWER_ON", "EXTERNAL")))
    assert pairs(a, b) == [("CAUSE", "RESET_CAUSE", "fields")]
    # of another width it is another field
    wide = field("POWER_ON", "1:0"), field("EXTERNAL", 2), field("BROWN_OUT", 3)
    c = chip(register("RESET_CAUSE", 0x33, fields=list(wide)))
    assert all(why == "" for _, _, why in pairs(a, c))


def test_the_same_fields_do_not_join_what_titles_and_numbers_part() -> None:
    fields = flags("POWER_ON", "EXTERNAL", "BROWN_OUT")
    a = chip(register("CAUSE", 0x23, title="Reasons of a reset", fields=fields))
    b = chip(register("RSTEN", 0x33, title="Interrupt mask", fields=fields))
    assert all(why == "" for _, _, why in pairs(a, b))
    a = chip(register("MASK0", 0x23, fields=fields))
    b = chip(register("MASK1", 0x33, fields=fields))
    assert all(why == "" for _, _, why in pairs(a, b))


def test_a_register_renamed_in_place_in_a_newer_description() -> None:
    """Three of four registers with the same name have the same addresses: it is the same chip."""
    same = [register("CTRL", 0x20), register("DATA", 0x21), register("LINE", 0x22)]
    a = chip(*same, register("MOVED", 0x23), register("FLAGS_OLD", 0x30))
    b = chip(*same, register("MOVED", 0x24), register("STATUS", 0x30))
    assert pairs(a, b)[-1] == ("FLAGS_OLD", "STATUS", "place")
    c = chip(*same[:2], register("LINE", 0x27), register("MOVED", 0x24), register("STATUS", 0x30))
    assert ("FLAGS_OLD", "", "") in pairs(a, c)


def test_swapped_names_are_swapped_registers() -> None:
    """The name goes before all else: a program that is only built anew uses the name."""
    a = chip(register("ONE", 0x20, title="Left motor"), register("TWO", 0x21, title="Right motor"))
    b = chip(register("ONE", 0x20, title="Right motor"), register("TWO", 0x21, title="Left motor"))
    assert pairs(a, b) == [("ONE", "ONE", "name"), ("TWO", "TWO", "name")]


def test_pins_go_before_names_and_make_up_for_what_is_not_found() -> None:
    a = chip(register("ONE", 0x20), register("TWO", 0x21), register("OLD", 0x22))
    b = chip(register("ONE", 0x20), register("TWO", 0x21), register("NEW", 0x22))
    pins = Pins(pairs=frozenset({("ONE", "TWO"), ("TWO", "ONE"), ("OLD", "NEW")}))
    assert pairs(a, b, pins) == [
        ("ONE", "TWO", "pinned"),
        ("TWO", "ONE", "pinned"),
        ("OLD", "NEW", "pinned"),
    ]


def test_a_forbidden_pair_is_not_made_and_the_next_best_may_be() -> None:
    a = chip(register("ONE", 0x20))
    b = chip(register("ONE", 0x20), register("UNO", 0x21, aliases="ONE"))
    assert pairs(a, b)[0] == ("ONE", "ONE", "name")
    pins = Pins(forbidden=frozenset({("ONE", "ONE")}))
    assert pairs(a, b, pins) == [("ONE", "", ""), ("", "ONE", ""), ("", "UNO", "")]
    pins = Pins(forbidden=pins.forbidden, alone_in_b=frozenset({"ONE"}))
    assert pairs(a, b, pins)[0] == ("ONE", "", "")


def test_a_name_that_is_said_to_be_alone_is() -> None:
    a = chip(register("ONE", 0x20, fields=flags("RUN", "GO")))
    b = chip(register("ONE", 0x20, fields=flags("RUN", "GO")))
    pins = Pins(alone_in_a=frozenset({"ONE"}))
    assert pairs(a, b, pins) == [("ONE", "", ""), ("", "ONE", "")]
    assert all(why == "" for _, _, why in field_pairs(a, b, pins))
    pins = Pins(alone_in_b=frozenset({"ONE.GO"}))
    assert field_pairs(a, b, pins) == [
        ("ONE.RUN", "ONE.RUN", "name"),
        ("ONE.GO", "", ""),
        ("", "ONE.GO", ""),
    ]


def test_halves_go_with_their_registers() -> None:
    halves = {"low": {"name": "CNTL"}, "high": {"name": "CNTH"}}
    new = {"low": {"name": "COUNT_LOW"}, "high": {"name": "COUNT_HIGH"}}
    a = chip(register("CNT", 0x40, width=16, halves=halves, aliases="COUNT"))
    b = chip(register("COUNT", 0x60, width=16, halves=new))
    assert pairs(a, b) == [
        ("CNT", "COUNT", "alias"),
        ("CNTL", "COUNT_LOW", "half"),
        ("CNTH", "COUNT_HIGH", "half"),
    ]


def test_halves_and_separate_registers_of_their_names() -> None:
    halves = {"low": {"name": "CNTL"}, "high": {"name": "CNTH"}}
    a = chip(register("CNT", 0x40, width=16, halves=halves))
    b = chip(register("CNTL", 0x60), register("CNTH", 0x61))
    assert pairs(a, b) == [("CNT", "", ""), ("CNTL", "CNTL", "name"), ("CNTH", "CNTH", "name")]


def test_two_registers_of_one_name_are_paired_in_turn() -> None:
    a = chip(register("X", 0x20), register("X", 0x21))
    b = chip(register("X", 0x30), register("X", 0x31), register("X", 0x32))
    assert pairs(a, b) == [("X", "X", "name"), ("X", "X", "name"), ("", "X", "")]


def test_fields_of_a_register() -> None:
    a = chip(
        register(
            *("CTRL", 0x20),
            fields=[
                field("EN", 7),
                field("TXIE", 6, aliases="TX_IRQ"),
                field("RX_IE", 5),
                field("SPD", 4, title="double the speed"),
                field("WAKE", 3),
                field("P1", 1),
            ],
        )
    )
    b = chip(
        register(
            *("CTRL", 0x20),
            fields=[
                field("EN", 0),
                field("TX_IRQ", 1),
                field("RXIE", 2),
                field("DOUBLE", 5, title="Double the speed"),
                field("WAKE_UP", 3),
                field("P2", 1),
            ],
        )
    )
    assert field_pairs(a, b) == [
        ("CTRL.EN", "CTRL.EN", "name"),
        ("CTRL.TXIE", "CTRL.TX_IRQ", "alias"),
        ("CTRL.RX_IE", "CTRL.RXIE", "alike"),
        ("CTRL.SPD", "CTRL.DOUBLE", "title"),
        ("CTRL.WAKE", "CTRL.WAKE_UP", "place"),
        ("CTRL.P1", "", ""),
        ("", "CTRL.P2", ""),
    ]


def test_what_stands_at_the_bits_of_a_field_is_not_it_when_it_acts_otherwise() -> None:
    def only(**more: object) -> list[tuple[str, str, str]]:
        a = chip(register("CTRL", 0x20, fields=[field("WAKE", 3, title="wakes the chip")]))
        b = chip(register("CTRL", 0x20, fields=[field("OTHER", 3, **more)]))
        return field_pairs(a, b)

    assert only() == [("CTRL.WAKE", "CTRL.OTHER", "place")]
    alone = [("CTRL.WAKE", "", ""), ("", "CTRL.OTHER", "")]
    assert only(access="read-only") == alone
    assert only(modifiedWriteValue="oneToClear") == alone
    assert only(title="speed of the serial line") == alone


def test_a_field_that_moved_to_a_register_near_its_own() -> None:
    a = chip(register("TMR_CTRL", 0x20, fields=flags("RUN", "IRQ")), register("TMR_X", 0x21))
    b = chip(
        register("TMR_CTRL", 0x20, fields=flags("RUN")),
        register("TMR_MASK", 0x22, fields=flags("IRQ")),
        register("TMR_X", 0x21),
    )
    assert ("TMR_CTRL.IRQ", "TMR_MASK.IRQ", "moved") in field_pairs(a, b)


def test_a_field_that_moved_far_needs_a_name_that_only_it_has() -> None:
    a = chip(register("CPU", 0x20, fields=flags("SLEEP", "ENABLE")))
    b = chip(register("POWER", 0x30, fields=flags("ENABLE", "SLEEP", "DEEP")))
    assert field_pairs(a, b) == [
        ("CPU.SLEEP", "POWER.SLEEP", "elsewhere"),
        ("CPU.ENABLE", "", ""),
        ("", "POWER.ENABLE", ""),
        ("", "POWER.DEEP", ""),
    ]
    # two of that name: which of them is not known
    c = chip(
        register("POWER", 0x30, fields=flags("SLEEP")),
        register("OTHER", 0x31, fields=flags("SLEEP")),
    )
    assert all(why == "" for _, _, why in field_pairs(a, c))
    # another width: it is another thing
    d = chip(register("POWER", 0x30, fields=[field("SLEEP", "1:0")]))
    assert all(why == "" for _, _, why in field_pairs(a, d))


def test_fields_may_be_pinned_across_registers() -> None:
    a = chip(register("CPU", 0x20, fields=flags("SE", "RUN")))
    b = chip(
        register("CPU", 0x20, fields=flags("SE", "RUN")),
        register("POWER", 0x30, fields=flags("IDLE")),
    )
    pins = Pins(pairs=frozenset({("CPU.SE", "POWER.IDLE")}))
    assert field_pairs(a, b, pins) == [
        ("CPU.SE", "POWER.IDLE", "pinned"),
        ("CPU.RUN", "CPU.RUN", "name"),
        ("", "CPU.SE", ""),
    ]


def test_the_weaker_the_reason_the_less_sure() -> None:
    certain = "pinned", "name", "alias", "half"
    likely = "alike", "title", "block", "moved"
    possible = "fields", "place", "elsewhere"
    for words, sure in ((certain, CERTAIN), (likely, LIKELY), (possible, POSSIBLE)):
        assert [sureness(word) for word in words] == [sure] * len(words)
