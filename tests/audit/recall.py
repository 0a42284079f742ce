"""Print how much of what must be found in the cases is found, and what is found beside it.

Run ``python tests/audit/recall.py``; with ``-v`` it names each difference.
"""

from __future__ import annotations

import sys
from collections import Counter
from typing import NamedTuple

from corpus import Case, Mark, found, paths, read


class Difference(NamedTuple):
    """Something that a case must find and does not, or the reverse."""

    case: Case
    mark: Mark
    message: str


class Summary(NamedTuple):
    """Everything over all cases: how often each rule must find, finds so, and finds wrongly."""

    cases: int
    wanted: Counter[str]
    hit: Counter[str]
    false: Counter[str]
    missed: list[Difference]
    wrong: list[Difference]


def summary() -> Summary:
    """Run all cases and count."""
    made = Summary(len(paths()), Counter(), Counter(), Counter(), [], [])
    for path in paths():
        case = read(path)
        messages = found(case)
        made.wanted.update(rule for _, rule in case.expected)
        made.hit.update(rule for _, rule in case.expected & messages.keys())
        made.false.update(rule for _, rule in messages.keys() - case.expected)
        made.missed.extend(
            Difference(case, mark, "") for mark in sorted(case.expected - messages.keys())
        )
        made.wrong.extend(
            Difference(case, mark, messages[mark])
            for mark in sorted(messages.keys() - case.expected)
        )
    return made


def main() -> None:
    """Print the table."""
    made = summary()
    print(f"{'rule':32} must  found  false")
    for rule in sorted({*made.wanted, *made.false}):
        print(f"{rule:32} {made.wanted[rule]:4} {made.hit[rule]:6} {made.false[rule]:6}")
    wanted, hit = made.wanted.total(), made.hit.total()
    print(f"{made.cases} files: recall {hit}/{wanted} = {hit / wanted:.1%}, ", end="")
    print(f"{made.false.total()} false alarms")
    if "-v" in sys.argv[1:]:
        for item in made.missed:
            print(f"missed  {item.case.name}:{item.mark[0]}: {item.mark[1]}")
        for item in made.wrong:
            print(f"false   {item.case.name}:{item.mark[0]}: {item.message} [{item.mark[1]}]")


if __name__ == "__main__":
    main()
