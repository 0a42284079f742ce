"""The order of halves. Which expressions C orders is by ISO C11 6.5 and annex C, by hand.

In sorrel40 ADC_RESULT and TMR1_CAPTURE are read low first; TMR1_COMPARE and TMR1_COUNT are read low
first and written high first; DIVISOR of a serial port has no halves.
"""

from __future__ import annotations

import pytest
from audit_sources import subject_of, told
from described import made

ORDER, TOGETHER, WIDE = "halves-out-of-order", "halves-in-one-expression", "wide-access-to-halves"


def found(source: str, *rules: str, name: str = "f.c") -> list[str]:
    """Return the texts that these rules find something about."""
    subject = subject_of(source, chip="sorrel40", name=name)
    return [item.text for item in told(subject, *(rules or (ORDER, TOGETHER)))]


def in_function(code: str) -> str:
    return f"void f(void)\n{{\n    {code}\n}}\n"


@pytest.mark.parametrize(
    ("code", "texts"),
    [
        ("h = ADC_RESULT_H; l = ADC_RESULT_L;", ["ADC_RESULT_H"]),
        ("l = ADC_RESULT_L; h = ADC_RESULT_H;", []),
        ("uint8_t h = ADC_RESULT_H, l = ADC_RESULT_L;", ["ADC_RESULT_H"]),
        ("uint8_t l = ADC_RESULT_L, h = ADC_RESULT_H;", []),
        ("h = ADC_RESULT_H, l = ADC_RESULT_L;", ["ADC_RESULT_H"]),
        ("h = ADC_RESULT_H; return (h << 8) | ADC_RESULT_L;", ["ADC_RESULT_H"]),
        ("if (ADC_RESULT_H) l = ADC_RESULT_L;", ["(ADC_RESULT_H)"]),
        ("h = ADC_RESULT_H; other(); l = ADC_RESULT_L;", ["ADC_RESULT_H"]),
        ("h = ADC_RESULT_H; /* { if } */ l = ADC_RESULT_L;", ["ADC_RESULT_H"]),
        ("h = ADC_RESULT_H;", []),
        # two samples, both wrong
        (
            "h = ADC_RESULT_H; l = ADC_RESULT_L; h = ADC_RESULT_H; l = ADC_RESULT_L;",
            ["ADC_RESULT_H", "ADC_RESULT_H"],
        ),
        # what could belong together in another way
        ("h = ADC_RESULT_H; l = ADC_RESULT_L; h = ADC_RESULT_H;", []),
        ("l = ADC_RESULT_L; if (l) { h = ADC_RESULT_H; l = ADC_RESULT_L; }", []),
        # other registers stand between, and have an order of their own
        (
            "h = ADC_RESULT_H; l = TMR1_CAPTURE_L; h = TMR1_CAPTURE_H; l = ADC_RESULT_L;",
            ["ADC_RESULT_H"],
        ),
        ("h = ADC_RESULT_H; l = TMR1_CAPTURE_L;", []),
        # one or the other
        ("if (wide) return ADC_RESULT_H; return ADC_RESULT_L;", []),
        ("if (wide) v = ADC_RESULT_H; else v = ADC_RESULT_L;", []),
        ("switch (v) { case 1: v = ADC_RESULT_H; break; case 0: v = ADC_RESULT_L; }", []),
        ("v = wide ? ADC_RESULT_H : ADC_RESULT_L;", []),
        ("while (ADC_RESULT_H) { } l = ADC_RESULT_L;", []),
        # written high first, read low first
        ("TMR1_COUNT_L = 1; TMR1_COUNT_H = 2;", ["TMR1_COUNT_L"]),
        ("TMR1_COUNT_H = 2; TMR1_COUNT_L = 1;", []),
        ("TMR1_COUNT_H = 2, TMR1_COUNT_L = 1;", []),
        ("l = TMR1_COUNT_L; h = TMR1_COUNT_H;", []),
        ("TMR1_COUNT_L = 1; h = TMR1_COUNT_H;", []),  # one is read, one written
        # the header's own way
        ("uint16_t v; ADC_RESULT_READ_INTO(v); TMR1_COUNT_WRITE(v);", []),
        ("uint16_t v; TMR1_COUNT_READ_INTO(v); ADC_RESULT_READ_INTO(v);", []),
    ],
)
def test_one_before_the_other(code: str, texts: list[str]) -> None:
    assert found(in_function(code), ORDER) == texts


@pytest.mark.parametrize(
    ("code", "is_found"),
    [
        ("v = (ADC_RESULT_H << 8) | ADC_RESULT_L;", True),
        ("v = ADC_RESULT_L | (ADC_RESULT_H << 8);", True),  # the right order is no promise
        ("v = ADC_RESULT_L + 256U * ADC_RESULT_H;", True),
        ("both(ADC_RESULT_L, ADC_RESULT_H);", True),  # 6.5.2.2
        ("v = both(one(ADC_RESULT_L), ADC_RESULT_H);", True),
        ("TMR1_COUNT_H = TMR1_COUNT_L = 0;", True),  # 6.5.16
        ("v = (l = ADC_RESULT_L, ADC_RESULT_H);", False),  # 6.5.17
        ("v = ADC_RESULT_L && ADC_RESULT_H;", False),  # 6.5.13
        ("v = ADC_RESULT_L || ADC_RESULT_H;", False),  # 6.5.14
        ("v = ADC_RESULT_L ? ADC_RESULT_H : 0;", False),  # 6.5.15
        ("v = wide ? ADC_RESULT_H : ADC_RESULT_L;", False),  # one of them only
        ("v = ({ uint8_t low = ADC_RESULT_L; (ADC_RESULT_H << 8) | low; });", False),
        ("v = ADC_RESULT_L + ADC_RESULT_L;", False),
        ("v = ADC_RESULT_L | (TMR1_CAPTURE_H << 8);", False),
        ("ADC_RESULT_READ_INTO(v);", False),
        ("v = sizeof(ADC_RESULT_L) + ADC_RESULT_H;", False),
    ],
)
def test_both_in_one_expression(code: str, is_found: bool) -> None:
    assert len(found(in_function(code), TOGETHER)) == is_found
    assert not (is_found and found(in_function(code), ORDER))


def test_macros_of_the_source_are_seen_through() -> None:
    macros = """#define LOW (*(volatile uint8_t *)0x9D)
#define HIGH (*(volatile uint8_t *)0x9E)
#define RESULT ((HIGH << 8) | LOW)
#define BOTH(r) (r##_L | (r##_H << 8))
"""
    code = "v = RESULT;\n    v = BOTH(TMR1_CAPTURE);\n    h = HIGH; l = LOW;"
    assert found(macros + in_function(code)) == ["RESULT", "BOTH(TMR1_CAPTURE)", "HIGH"]


def test_functions_have_nothing_to_do_with_each_other() -> None:
    source = """uint8_t high(void) { return ADC_RESULT_H; }
uint8_t low(void) { return ADC_RESULT_L; }
"""
    assert found(source) == []


@pytest.mark.parametrize(
    ("code", "number"),
    [
        ("#ifdef A\n h = ADC_RESULT_H;\n#else\n l = ADC_RESULT_L;\n#endif", 0),
        ("#ifdef A\n h = ADC_RESULT_H; l = ADC_RESULT_L;\n#endif", 1),
        (
            "#ifdef A\n l = ADC_RESULT_L;\n#endif\n h = ADC_RESULT_H;\n"
            "#ifndef A\n l = ADC_RESULT_L;\n#endif",
            1,
        ),
    ],
)
def test_branches_are_taken_one_by_one(code: str, number: int) -> None:
    assert len(found(in_function(code))) == number


def test_the_branch_is_told() -> None:
    code = "#ifdef A\n h = ADC_RESULT_H; l = ADC_RESULT_L;\n#endif"
    (item,) = told(subject_of(in_function(code), chip="sorrel40", name="f.c"), ORDER)
    assert item.message == (
        "ADC_RESULT_H is read before ADC_RESULT_L; read the low half first, as "
        "ADC_RESULT_READ_INTO(variable) does (under #if defined(A))"
    )


def test_where_no_order_is_asked_there_is_none() -> None:
    halves = {"low": {"name": "R_L"}, "high": {"name": "R_H"}}
    registers = [
        {"name": "R", "address": "0x10", "width": 16, "halves": halves},
        {
            "name": "W",
            "address": "0x20",
            "width": 16,
            "halves": {"writeFirst": "high", "low": {"name": "W_L"}, "high": {"name": "W_H"}},
        },
    ]
    chip = made(registers=registers)
    code = "v = R_H | R_L; h = R_H; l = R_L; v = W_L | W_H; v = W; v = R;"
    assert told(subject_of(in_function(code), chip=chip, name="f.c"), ORDER, TOGETHER, WIDE) == []
    code = "W_L = 1; W_H = 2; W = 3;"
    rules = [
        item.rule
        for item in told(subject_of(in_function(code), chip=chip, name="f.c"), ORDER, WIDE)
    ]
    assert rules == [ORDER, WIDE]


@pytest.mark.parametrize(
    ("code", "message"),
    [
        (
            "v = ADC_RESULT;",
            "ADC_RESULT is read as a whole, and the compiler chooses which half "
            "goes first; read the low half first, as ADC_RESULT_READ_INTO(variable) does",
        ),
        (
            "TMR1_COUNT = 0;",
            "TMR1_COUNT is written as a whole, and the compiler chooses which half "
            "goes first; write the high half first, as TMR1_COUNT_WRITE(value) does",
        ),
        (
            "v = *(volatile uint16_t *)0xA2;",
            "TMR1_COMPARE is read as a whole, and the compiler "
            "chooses which half goes first; read the low half first, as "
            "TMR1_COMPARE_READ_INTO(variable) does",
        ),
        ("v = *(volatile uint8_t *)0xA2;", ""),
        ("v = UART0_DIVISOR;", ""),
        ("v = STACK;", ""),
        ("p = &ADC_RESULT;", ""),
    ],
)
def test_both_halves_at_once(code: str, message: str) -> None:
    found_here = told(subject_of(in_function(code), chip="sorrel40", name="f.c"), WIDE)
    assert [item.message for item in found_here] == ([message] if message else [])
