"""Runs of the audit for the tests of reports: sources with findings, clean ones, hostile ones."""

from __future__ import annotations

from functools import cache

from report_runs import ROOT, SCRIPT

from regwright.cli.auditing import Wish, aside, outcomes
from regwright.cli.checking import Job
from regwright.code.text import C, CodeText, language_of
from regwright.model.words import SOURCE
from regwright.pipeline import check
from regwright.read.source import Source
from regwright.reports import Run, unread
from regwright.rules.catalogue import Subject
from regwright.rules.settings import DEFAULT, Settings

#: The I/O address of OUT_B behind a pointer: the classic mistake.
OFFSET = b"#define OUT_B (*(volatile unsigned char *)0x18)\n"
#: The name of a macro in a message, and hostile text around it.
MIXED = (
    b"\xef\xbb\xbf/* lamp */ int first;\n"
    + OFFSET
    + b"\t #define DIR_B *(unsigned char *)0x37 /* " + SCRIPT.encode() + b" | `x` ]]> */\n"
    + b"#ifdef A\n#define STACK (*(volatile unsigned short *)0x23)\n#endif\n"
    + b"void f(void) { DIR_B = 1; }"
)  # fmt: skip
TEXTS: dict[str, bytes] = {
    "src/mixed.c": MIXED,
    "src/clean.c": b'#include "sorrel14.h"\nvoid f(void) { OUT_B |= OUT_B_LED_MASK; }\n',
    "src/a b&<i>%#\u00e9.h": "/* 𝄞 */ ".encode()
    + b"int a;\r\n"
    + OFFSET.rstrip()
    + b" /* \xc3\xa9 */\r\n",
    "src/latin.c": b"/* L\xfcfter */\n" + OFFSET.rstrip() + b" /* \xe4 */\n",
    "src/empty.S": b"",
    "src/\x1b[2J\n\udcff.cpp": OFFSET,
}
GONE = unread("src/gone.c", "'src/gone.c': cannot be read: No such file or directory")


@cache
def sorrel14() -> Subject:
    data = (ROOT / "descriptions" / "sorrel14.xml").read_bytes()
    subject = check(Source("sorrel14.xml", data, "xml")).subject
    assert subject is not None
    return subject


def audit_of(
    texts: dict[str, bytes], settings: Settings = DEFAULT, wish: Wish | None = None
) -> Run:
    """Return a run over ``texts``, each audited as a program of its own."""
    results = []
    words = ""
    for name, data in texts.items():
        text = CodeText(name, data, language_of(name) or C)
        job = Job(settings, wants_result=True, what=SOURCE)
        made, audited = outcomes(sorrel14(), [text], job, wish or Wish())
        assert made[0].result is not None
        results.append(made[0].result)
        words = words or aside(audited, settings)
    return Run(results, settings, [], SOURCE, words)


def run_of(*names: str, settings: Settings = DEFAULT) -> Run:
    """Return a run over the named texts, over all of them and an unreadable file without names."""
    run = audit_of({name: TEXTS[name] for name in names or TEXTS}, settings)
    return run if names else run._replace(unreadable=[GONE])
