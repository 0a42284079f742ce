"""Sources that are no sources, or that are made to take forever: each ends with an answer in time.

Where anything of the file can be read, a mistake in its first lines must still be found.
"""

from __future__ import annotations

import random
import struct
import sys
import time
import zlib
from pathlib import Path

import pytest

from conftest import DESCRIPTIONS, Cli

SORREL14 = DESCRIPTIONS / "sorrel14.xml"
#: A line with a mistake, at the start of each source.
WRONG = "#define OUT_B (*(volatile unsigned char *)0x18)\n"
FOUND = "[io-address-behind-pointer]"
#: In seconds, of a whole command on a busy machine; what is not bounded takes minutes.
LONGEST = 60
MANY = 100_000


def doubling(times: int) -> str:
    lines = ["#define D0 OUT_B"]
    lines += [f"#define D{n} D{n - 1} + D{n - 1}" for n in range(1, times + 1)]
    return "\n".join(lines) + f"\nint x = D{times};\n"


def doubling_calls(times: int) -> str:
    lines = ["#define E0(x) x | x"]
    lines += [f"#define E{n}(x) E{n - 1}(x) | E{n - 1}(x)" for n in range(1, times + 1)]
    return "\n".join(lines) + f"\nvoid f(void) {{ OUT_B = E{times}(OUT_B); }}\n"


def circle(length: int) -> str:
    lines = [f"#define C{n} C{(n + 1) % length}" for n in range(length)]
    return "\n".join(lines) + "\nvoid f(void) { *(volatile unsigned char *)C0 = C1; OUT_B = C2; }\n"


def nested_ifs(number: int, *, close: bool = True) -> str:
    opened = "".join(f"#if A{n}\n#define V{n} {n}\n" for n in range(number))
    return opened + "int x;\n" + ("#endif\n" * number if close else "")


def arms(groups: int) -> str:
    """Return a sum of names, each of which a conditional of its own defines in two ways."""
    text = "".join(
        f"#ifdef X{n}\n#define Y{n} {n}\n#else\n#define Y{n} 1\n#endif\n" for n in range(groups)
    )
    total = " + ".join(f"Y{n}" for n in range(groups))
    return f"{text}#define ALL ({total})\nvoid f(void) {{ *(volatile char *)ALL = 1; }}\n"


TEXTS = {
    "many macros": "".join(f"#define M{n} {n:#x}\n" for n in range(MANY)),
    "a long chain": "#define N0 0x18\n"
    + "".join(f"#define N{n} (N{n - 1})\n" for n in range(1, MANY))
    + f"void f(void) {{ *(volatile unsigned char *)N{MANY - 1} = 1; }}\n",
    "a circle of two": circle(2) + "#define C2 C2\n",
    "a circle of many": circle(MANY),
    "calls in a circle": (
        "#define F(x) G(x)\n#define G(x) F(x)\nvoid f(void) { OUT_B = F(F(1)); }\n"
    ),
    "doubling": doubling(60),
    "doubling calls": doubling_calls(60),
    "parentheses": f"int x = {'(' * MANY}1{')' * MANY};\n",
    "parentheses of a macro": f"#define P {'(' * MANY}1{')' * MANY}\nint x = P;\n",
    "parentheses in an access": (
        f"void f(void) {{ *(volatile char *){'(' * MANY}0x38{')' * MANY} = 1; }}\n"
    ),
    "parentheses that stay open": f"void f(void) {{ OUT_B = {'(' * MANY};\n",
    "braces": "{" * MANY + "}" * MANY,
    "brackets": f"int x = a{'[0' * MANY}{']' * MANY};\n",
    "minus signs": f"void f(void) {{ OUT_B = {'- ' * MANY}1; }}\n",
    "stars": f"void f(void) {{ OUT_B = {'*' * MANY}p; }}\n",
    "casts": f"void f(void) {{ OUT_B = {'(char)' * MANY}1; }}\n",
    "a long sum": f"#define S ({'1 + ' * MANY}1)\nvoid f(void) {{ OUT_B = {'1 + ' * MANY}1; }}\n",
    "choices": f"void f(void) {{ OUT_B = {'1 ? 2 : ' * MANY}3; }}\n",
    "commas": f"void f(void) {{ {'OUT_B = 1, ' * 20_000}OUT_B = 2; }}\n",
    "many accesses": f"void f(void) {{ {'OUT_B |= 4; ' * 20_000}}}\n",
    "structures": "struct s { " * 5_000 + "int x; " + "} m; " * 5_000 + "\n",
    "a long row": f"static const int t[] = {{ {'0x18, ' * MANY}0 }};\n",
    "ifs": nested_ifs(10_000),
    "ifs without an end": nested_ifs(10_000, close=False),
    "ends without an if": "#endif\n" * MANY + "#else\n" * MANY,
    "elses": "#if A\n" + "#else\n" * MANY + "#endif\n",
    "many arms": "#if A0\n"
    + "".join(f"#elif A{n}\n#define IN_ARM {n}\n" for n in range(2_000))
    + "#endif\nvoid f(void) { OUT_B = IN_ARM; }\n",
    "many conditionals": arms(400),
    "a comment without an end": "/* " + "text " * MANY,
    "a string without an end": '"' + "text " * MANY,
    "comments without an end": "/*" * MANY,
    "quotes": "'" * MANY + '"' * MANY,
    "backslashes": "\\\n" * MANY,
    "backslashes in a macro": "#define B " + "\\\n" * MANY + "1\n",
    "one long line": "int x; " * 700_000 + "\n",
    "one long name": "x" * 5_000_000 + "\n",
    "one long number": f"#define L 0x{'1' * 1_000_000}\nvoid f(void) {{ OUT_B = L; }}\n",
    "blanks": " " * 5_000_000,
    "hashes": "#" * MANY + "\n" + "#\n" * MANY,
    "pastes": f"#define Q(a, b) a{'##b' * 20_000}\nvoid f(void) {{ OUT_B = Q(1, 2); }}\n",
    "many arguments": (
        f"#define V({', '.join(f'a{n}' for n in range(5_000))}) a1\n"
        f"void f(void) {{ OUT_B = V({', '.join('1' * 5_000)}); }}\n"
    ),
    "constants in a circle": "".join(f"const int K{n} = K{(n + 1) % MANY};\n" for n in range(MANY))
    + "void f(void) { OUT_B = K0; }\n",
    "constants backwards": "".join(f"const int K{n} = K{n + 1};\n" for n in range(MANY))
    + f"const int K{MANY} = 4;\nvoid f(void) {{ OUT_B = K0; }}\n",
    "enumerators": "enum { E0 = 1, "
    + "".join(f"E{n} = E{n - 1},\n" for n in range(1, MANY))
    + f"}};\nvoid f(void) {{ OUT_B = E{MANY - 1}; }}\n",
    "types in a circle": "".join(f"typedef t{(n + 1) % MANY} t{n};\n" for n in range(MANY))
    + "#define T (*(t0 *)0x38)\n",
    "structures in structures": "struct s0 { volatile char c; };\n"
    + "".join(f"struct s{n} {{ struct s{n - 1} m; }};\n" for n in range(1, 20_000))
    + "#define T (*(struct s19999 *)0x200)\n",
    "doubling structures": "struct s0 { volatile char c; };\n"
    + "".join(f"struct s{n} {{ struct s{n - 1} a, b; }};\n" for n in range(1, 60))
    + "#define T (*(struct s59 *)0x200)\n",
    "many pointers": "".join(
        f"static volatile char *p{n} = (volatile char *)0x38;\n" for n in range(20_000)
    ),
    "many functions": "".join(
        f"void f{n}(void) {{ OUT_B |= OUT_B_LED_MASK; x = ADC_RESULT_L; y = ADC_RESULT_H; }}\n"
        for n in range(10_000)
    ),
    "one name, many macros": "#define AGAIN 4\n" * 50_000 + "void f(void) { OUT_B = AGAIN; }\n",
    "one name, many arms": "".join(f"#ifdef Z{n}\n#define AGAIN 4\n#endif\n" for n in range(5_000))
    + "void f(void) { OUT_B = AGAIN; }\n" * 500,
    "remarks": "/* regwright: silence not-volatile x */\n" * 20_000,
    "an HTML page": "<!DOCTYPE html>\n<html><body>"
    + "<p class='a'>Don't &amp; won't</p>\n" * 5_000
    + "</body></html>\n",
}


def audit(cli: Cli, path: Path, data: bytes, *options: str) -> tuple[int, str]:
    path.write_bytes(data)
    start = time.monotonic()
    done = cli("audit", SORREL14, path.name, *options, cwd=path.parent, timeout=2 * LONGEST)
    assert time.monotonic() - start < LONGEST
    return done.returncode, done.stdout + done.stderr


@pytest.mark.parametrize("name", TEXTS)
def test_text_ends_with_an_answer(cli: Cli, tmp_path: Path, name: str) -> None:
    code, output = audit(cli, tmp_path / "source.c", (WRONG + TEXTS[name]).encode())
    assert code == 1, output[:1000]
    assert "source.c:1:9: error: OUT_B" in output
    assert FOUND in output


@pytest.mark.parametrize("name", ["parentheses", "doubling calls", "ifs", "an HTML page"])
def test_other_languages_and_outputs(cli: Cli, tmp_path: Path, name: str) -> None:
    data = (WRONG + TEXTS[name]).encode()
    assert FOUND in audit(cli, tmp_path / "source.cpp", data)[1]
    assert audit(cli, tmp_path / "source.S", data)[0] in (0, 1)
    assert (
        "+#define OUT_B (*(volatile unsigned char *)0x38)"
        in (audit(cli, tmp_path / "again.c", data, "--diff")[1])
    )


ASSEMBLER = {
    "labels": "a: " * MANY + "\n",
    "operands": "out " + "0x18, " * MANY + "1\n",
    "parentheses": f"out {'(' * MANY}0x18{')' * MANY}, r1\n",
    "equates in a circle": "".join(f".equ A{n}, A{(n + 1) % MANY}\n" for n in range(MANY)),
    "equates backwards": "".join(f".equ A{n}, A{n + 1}\n" for n in range(MANY))
    + f".equ A{MANY}, 4\nbset 0x18, A0\n",
    "a comment without an end": "/*" * MANY,
    "a string without an end": '.ascii "' + "x" * MANY,
    "one long line": "nop ; " * 500_000,
    "statements": "bset 0x18, 2\n" * 20_000,
}


@pytest.mark.parametrize("name", ASSEMBLER)
def test_assembler_ends_with_an_answer(cli: Cli, tmp_path: Path, name: str) -> None:
    data = ("bset OUT_B_DATA_ADDR, 2\n" + ASSEMBLER[name]).encode()
    code, output = audit(cli, tmp_path / "source.S", data)
    assert code == 1, output[:1000]
    assert "source.S:1:" in output
    assert "[data-address-in-instruction]" in output


def inline(text: str) -> bytes:
    return (WRONG + f"void f(void) {{ asm volatile({text}); }}\n").encode()


@pytest.mark.parametrize(
    "text",
    [
        '"nop\\n" ' * 20_000,
        '"' + "out 0x18, r1\\n" * 20_000 + '"',
        '"' + "\\" * MANY + '"',
        '"out %0, r1" : : ' + ", ".join(['"I"(1)'] * 5_000),
        '"' + "%" * MANY + '"',
        "(" * MANY,
    ],
    ids=["strings", "statements", "backslashes", "operands", "percents", "parentheses"],
)
def test_inline_assembly_ends_with_an_answer(cli: Cli, tmp_path: Path, text: str) -> None:
    code, output = audit(cli, tmp_path / "source.c", inline(text))
    assert code == 1, output[:1000]
    assert FOUND in output


def png() -> bytes:
    def chunk(kind: bytes, data: bytes) -> bytes:
        check = zlib.crc32(kind + data)
        return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", check)

    head = chunk(b"IHDR", struct.pack(">IIBBBBB", 64, 64, 8, 0, 0, 0, 0))
    pixels = zlib.compress(random.Random(1).randbytes(64 * 65))
    return b"\x89PNG\r\n\x1a\n" + head + chunk(b"IDAT", pixels) + chunk(b"IEND", b"")


BINARIES = {
    "a picture": png(),
    "a program": Path(sys.executable).resolve().read_bytes()[:500_000],
    "random bytes": random.Random(2).randbytes(200_000),
    "zero bytes": WRONG.encode() + b"\0" * 1000,
    "UTF-16": (WRONG * 100).encode("utf-16"),
}


@pytest.mark.parametrize("name", BINARIES)
def test_binary_is_refused(cli: Cli, tmp_path: Path, name: str) -> None:
    code, output = audit(cli, tmp_path / "source.c", BINARIES[name])
    assert code == 2
    assert output.splitlines()[-1].startswith("regwright: source.c: holds zero bytes")
    assert output.count("\n") == 2


@pytest.mark.parametrize(
    "data",
    [
        random.Random(3).randbytes(200_000).replace(b"\0", b""),
        bytes(range(1, 256)) * 500,
        b"\xff\xfe" * 1000,
        "\N{ZERO WIDTH SPACE}\N{RIGHT-TO-LEFT OVERRIDE}x ".encode() * 5_000,
        b"\x1b[31m" * 5_000,
        b"\r" * 100_000,
        b"\xc3" * 100_000,
    ],
    ids=["random", "every byte", "no UTF-8", "invisible", "escapes", "returns", "cut off"],
)
def test_what_is_not_quite_text_is_read(cli: Cli, tmp_path: Path, data: bytes) -> None:
    code, output = audit(cli, tmp_path / "source.c", WRONG.encode() + data)
    assert code == 1, output[:1000]
    assert FOUND in output
    assert "\x1b[31m" not in output


@pytest.mark.parametrize("name", ["empty.c", "empty.h", "empty.cpp", "empty.S", "empty.s"])
def test_empty_file(cli: Cli, tmp_path: Path, name: str) -> None:
    assert audit(cli, tmp_path / name, b"")[0] == 0


def test_many_files(cli: Cli, tmp_path: Path) -> None:
    folder = tmp_path / "sources"
    folder.mkdir()
    for number in range(2_000):
        (folder / f"f{number}.c").write_text(f"#define X{number} {number}\nint f{number};\n")
    (folder / "wrong.h").write_text(WRONG)
    done = cli("audit", SORREL14, folder, timeout=LONGEST)
    assert done.returncode == 1
    assert done.stdout.count(FOUND) == 1


@pytest.mark.parametrize("folder", ["self", "dangling"])
def test_links_that_lead_nowhere(cli: Cli, tmp_path: Path, folder: str) -> None:
    root = tmp_path / "sources"
    root.mkdir()
    (root / "wrong.c").write_text(WRONG)
    (root / "link.c").symlink_to("link.c" if folder == "self" else "missing.c")
    done = cli("audit", SORREL14, root, timeout=LONGEST)
    assert done.returncode in (1, 2)
    assert FOUND in done.stdout
