"""Run a user's template so that it reaches nothing but what it is given."""

from __future__ import annotations

import re
import sys
from collections.abc import Iterable, Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from types import FrameType
from typing import Any

import jinja2
from jinja2.sandbox import ImmutableSandboxedEnvironment

from regwright.render.templates import TEMPLATE_LIMIT, TemplateProblem

#: The longest text that one expression of a template may make, and its output.
LONGEST = 64 << 20
#: The most lines that a template may run, loops counted; our header takes 700 for a large register.
MOST_STEPS = 20_000_000
#: The memory that a template may take beyond what the process has already.
MOST_MEMORY = 512 << 20
#: The most characters and list entries that sums and repetitions may make altogether.
MOST_MADE = 1 << 30
_MOST_BITS = 4096
_WIDE = re.compile(r"%[^A-Za-z%]*(?:\d{5}|\*)")

#: Code that each step of a template runs; counting it too would slow every template down.
_WITHOUT_LOOPS = frozenset(
    [__file__, jinja2.sandbox.__file__, jinja2.environment.__file__, jinja2.runtime.__file__]
)

TooMuch = jinja2.exceptions.SecurityError


class _Sandbox(ImmutableSandboxedEnvironment):
    """The sandbox of jinja2, with arithmetic that could take all memory kept within bounds too."""

    intercepted_binops = frozenset(["*", "**", "+", "%"])
    made = 0

    def call_binop(
        self, context: jinja2.runtime.Context, operator: str, left: Any, right: Any
    ) -> Any:
        if operator == "*":
            _bound_product(left, right)
        elif operator == "**" and isinstance(left, int) and isinstance(right, int):
            if left.bit_length() * right > _MOST_BITS:
                raise TooMuch("a power is too large")
        elif operator == "+" and hasattr(left, "__len__") and hasattr(right, "__len__"):
            if len(left) + len(right) > LONGEST:
                raise TooMuch("a sum of texts or lists is too long")
        elif operator == "%" and isinstance(left, str) and _WIDE.search(left):
            raise TooMuch("a width in a format is too large")
        result = super().call_binop(context, operator, left, right)
        if hasattr(result, "__len__"):
            self.made += len(result)
            if self.made > MOST_MADE:
                raise TooMuch("the sums and repetitions of the template make too much text")
        return result


def _bound_product(left: Any, right: Any) -> None:
    for one, other in ((left, right), (right, left)):
        if isinstance(one, int) and hasattr(other, "__len__") and one * len(other) > LONGEST:
            raise TooMuch("a repetition is too long")
    both = isinstance(left, int) and isinstance(right, int)
    if both and left.bit_length() + right.bit_length() > _MOST_BITS:
        raise TooMuch("a product is too large")


class _Watch:
    """Counts the lines that run, and knows at which line of the template that was."""

    def __init__(self) -> None:
        self.steps = 0
        self.line = 0

    def trace(self, frame: FrameType, event: str, _argument: Any) -> Any:
        """Look at one event; what Python calls while a trace function is set."""
        if event == "line":
            self.steps += 1
            if self.steps > MOST_STEPS:
                raise TooMuch(f"the template runs on and on (over {MOST_STEPS:,} steps)")
        file = frame.f_code.co_filename
        if file == "<template>":
            self.line = frame.f_lineno
        return None if file in _WITHOUT_LOOPS else self.trace

    @contextmanager
    def watching(self) -> Iterator[None]:
        """Watch what runs within the ``with`` block."""
        before = sys.gettrace()
        sys.settrace(self.trace)
        try:
            yield
        finally:
            sys.settrace(before)


@contextmanager
def _bounded_memory() -> Iterator[None]:
    """Bound the memory of what runs within the ``with`` block, where the system can."""
    try:
        import resource

        with Path("/proc/self/statm").open(encoding="ascii") as file:
            now = int(file.read().split()[0]) * resource.getpagesize()
        soft, hard = resource.getrlimit(resource.RLIMIT_AS)
        limit = now + MOST_MEMORY
        bounds = [limit, *(item for item in (soft, hard) if item != resource.RLIM_INFINITY)]
        resource.setrlimit(resource.RLIMIT_AS, (min(bounds), hard))
    except (ImportError, OSError, ValueError):
        yield
        return
    try:
        yield
    finally:
        resource.setrlimit(resource.RLIMIT_AS, (soft, hard))


@jinja2.pass_context
def _as_it_is(_context: jinja2.runtime.Context, value: Any) -> Any:
    """Return ``value``: with this, nothing is worked out while compiling, without a line."""
    return value


def _no_other_template(name: str) -> str:
    raise TooMuch(f"a template may not read another file ({name}); put its text here")


def _read(path: Path) -> str:
    """Return the text of a template. Raises :class:`TemplateProblem`."""
    try:
        with path.open("rb") as file:
            source = file.read(TEMPLATE_LIMIT + 1)
    except OSError as problem:
        raise TemplateProblem(f"{path}: cannot be read: {problem.strerror}") from None
    if len(source) > TEMPLATE_LIMIT:
        raise TemplateProblem(f"{path}: the template is larger than {TEMPLATE_LIMIT:,} bytes")
    try:
        return source.decode("utf-8")
    except UnicodeDecodeError as problem:
        before = source[: problem.start].decode("utf-8")
        line, column = before.count("\n") + 1, len(before) - before.rfind("\n")
        message = f"byte 0x{source[problem.start]:02X} is no UTF-8; save the template as UTF-8"
        raise TemplateProblem(f"{path}:{line}:{column}: error: {message}") from None


def render_untrusted(path: Path, context: dict[str, Any]) -> str:
    """Return what the template in the file ``path`` makes of ``context``.

    Raises :class:`TemplateProblem` with the template's name and line.
    """
    text = _read(path)
    environment = _Sandbox(
        loader=jinja2.FunctionLoader(_no_other_template),
        undefined=jinja2.StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=True,
        optimized=False,
        finalize=_as_it_is,
    )
    watch = _Watch()
    template = None
    try:
        with _bounded_memory():
            template = environment.from_string(text)
        with _bounded_memory(), watch.watching():
            return _joined(template.generate(context))
    except jinja2.TemplateSyntaxError as problem:
        raise TemplateProblem(f"{path}:{problem.lineno}:1: error: {problem.message}") from None
    except Exception as problem:
        # a template is a program of the user's: whatever it raises is the template's mistake
        line = _template_line(problem)
        if line is None and template is not None and watch.line:
            line = template.get_corresponding_lineno(watch.line)
        raise TemplateProblem(f"{path}:{line or 1}:1: error: {_reason(problem)}") from None


def _reason(problem: Exception) -> str:
    """Return what is wrong, in words also where Python has none."""
    if isinstance(problem, MemoryError):
        return f"the template needs more than {MOST_MEMORY >> 20} MiB of memory"
    if isinstance(problem, RecursionError):
        return "the template calls itself without end, or is nested too deeply"
    if str(problem).startswith("Exceeds the limit"):
        return "a number has too many digits"
    return str(problem) or type(problem).__name__


def _joined(pieces: Iterable[str]) -> str:
    parts = []
    length = 0
    for piece in pieces:
        length += len(piece)
        if length > LONGEST:
            raise TooMuch(f"the output is longer than {LONGEST >> 20} MiB")
        with suppress(UnicodeEncodeError):
            piece.encode("utf-8")
            parts.append(piece)
            continue
        raise TooMuch("half of a surrogate pair is no text; write the character itself")
    return "".join(parts)


def _template_line(problem: BaseException) -> int | None:
    """Return the template's line on which ``problem`` was raised, if it was raised there."""
    line = None
    traceback = problem.__traceback__
    while traceback is not None:
        if traceback.tb_frame.f_code.co_filename == "<template>":
            line = traceback.tb_lineno
        traceback = traceback.tb_next
    return line
