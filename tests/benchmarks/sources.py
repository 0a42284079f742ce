"""C of any size that looks like firmware: modules of which some touch the chip and most do not."""

from __future__ import annotations

import random
from pathlib import Path

_NOUNS = (
    *("sensor", "valve", "pump", "motor", "filter", "queue", "frame", "packet", "timer"),
    *("buffer", "state", "level", "rate", "zone"),
)
_VERBS = (
    *("read", "write", "update", "check", "start", "stop", "reset", "scale", "limit", "send"),
    *("parse", "store", "load", "poll"),
)
_TYPES = ("uint8_t", "uint16_t", "int16_t", "uint32_t", "int", "unsigned char")
_PROSE = (
    "The value is scaled before it is compared, so that the limits can stay integers.",
    "Called from the main loop; must not wait for anything.",
    "See the notes on calibration: the first reading after power-up is thrown away.",
    "Order matters here, the peripheral samples on the second edge.",
)
#: What a driver for the Sorrel 14 does with it, all of it right.
_ACCESSES = (
    "OUT_B |= OUT_B_LED_MASK;",
    "OUT_B &= (uint8_t)~OUT_B_VENT_OPEN_MASK;",
    "OUT_A = (uint8_t)(OUT_A ^ (1u << {n}));",
    "ADC_MUX = ADC_MUX_CHANNEL_INSERT(ADC_MUX_REFERENCE_INTERNAL, {n});",
    "ADC_CTRL = ADC_CTRL_CLOCK_DIV64 | ADC_CTRL_ENABLE_MASK | ADC_CTRL_START_MASK;",
    "while (!(ADC_CTRL & ADC_CTRL_DONE_MASK))\n        ;",
    "ADC_RESULT_READ_INTO(value);",
    "TMR_FLAGS = TMR_FLAGS_MATCH_MASK;",
    "if (IN_B & (1u << {n}))\n        value++;",
    "TMR0_COMPARE = (uint8_t)(value + {n});",
    "STATUS_LAMP_{m} |= 1u << LAMP_PIN_{m};",
)
_STATEMENTS = (
    "value = (value * {a} + {b}) / {c};",
    "if (value > {a} && index < {b}) {{\n        value -= {c};\n        index++;\n    }}",
    "for (index = 0; index < {c}; index++)\n        total += table_{m}[index & 7] << 2;",
    "total ^= (uint16_t)((total >> 3) + {b});",
    "switch (value & 3) {{\n    case 0:\n        total += {a};\n        break;\n    case 1:\n"
    "        total -= {b};\n        break;\n    default:\n        break;\n    }}",
    "while (index > {c}) {{\n        total += state_{m}.count;\n        index -= {c};\n    }}",
    "state_{m}.last = (uint8_t)value;",
    "/* {prose} */\n    total = limit_{m}(total, {a});",
    "{{\n        const uint8_t *next = table_{m} + (index & 3);\n        total += next[1];\n    }}",
    "for (struct {word}_{m} *at = &state_{m}; at; at = at->next)\n        total += at->count;",
    'log_text("{word}: %u of %u\\n", value, total);',
)
_HEAD = """\
/* Module {m}: {word} handling of the greenhouse controller.
 *
 * {prose}
 * {other}
 */
#include "module_{m}.h"

#include <stdint.h>
#include <string.h>

#define LIMIT_{m} {a}u
#define SCALE_{m}(x) (((x) * {b}u) >> 4)
#define FLAG_READY_{m} (1u << {n})
#define TIMEOUT_{m} (LIMIT_{m} * {c} + 7)

enum {{ IDLE_{m}, RUNS_{m}, WAITS_{m} = 0x10, FAILED_{m} }};

struct {word}_{m} {{
    uint16_t count;
    uint8_t last, flags;
    struct {word}_{m} *next;
}};

static const uint8_t table_{m}[8] = {{ 0x18, 0x24, {b}, 0x38, {c}, 0x01, 0x55, {a} & 0xFF }};
static struct {word}_{m} state_{m};

static uint16_t limit_{m}(uint16_t value, uint16_t most)
{{
    return value > most ? most : value;
}}
"""
_REGISTERS = """\

#ifdef BOARD_{m}
#define STATUS_LAMP_{m} (*(volatile uint8_t *)(0x18 + 0x20))
#else
#define STATUS_LAMP_{m} OUT_B
#endif
#define LAMP_PIN_{m} OUT_B_LED_BITPOS
"""


def source(size: int, seed: int = 1) -> str:
    """Return about ``size`` bytes of C, never fewer; a longer text starts like a shorter one."""
    rng = random.Random(seed)
    made: list[str] = []
    length = module = 0
    while length < size:
        text = _module(rng, module)
        made.append(text)
        length += len(text)
        module += 1
    return "".join(made)


def _module(rng: random.Random, number: int) -> str:
    word = rng.choice(_NOUNS)

    def filled(text: str) -> str:
        return text.format(
            m=number,
            n=rng.randrange(6),
            a=rng.randint(10, 900),
            b=rng.randint(2, 200),
            c=rng.randint(1, 60),
            word=word,
            prose=rng.choice(_PROSE),
            other=rng.choice(_PROSE),
        )

    is_driver = number % 5 == 0
    parts = [filled(_HEAD), filled(_REGISTERS) if is_driver else ""]
    for function in range(rng.randint(4, 9)):
        name = f"{rng.choice(_NOUNS)}_{rng.choice(_VERBS)}_{number}_{function}"
        kind = rng.choice(_TYPES)
        lines = [f"\n/* {rng.choice(_PROSE)} */"] if rng.random() < 0.5 else [""]
        lines += [
            f"{kind} {name}(uint16_t value, uint8_t index)",
            "{",
            "    uint16_t total = 0;",
            "",
        ]
        for _ in range(rng.randint(4, 16)):
            touches = is_driver and rng.random() < 0.4
            lines.append("    " + filled(rng.choice(_ACCESSES if touches else _STATEMENTS)))
        lines += [f"    return ({kind})(total + SCALE_{number}(value));", "}", ""]
        parts.append("\n".join(lines))
    return "".join(parts)


def write(folder: Path, size: int) -> Path:
    """Write about ``size`` bytes of C into ``folder`` and return the file."""
    path = folder / f"firmware{size}.c"
    path.write_text(source(size), encoding="utf-8")
    return path
