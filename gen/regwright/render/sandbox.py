"""Run a user's template so that it reaches nothing but what it is given."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import jinja2
from jinja2.sandbox import ImmutableSandboxedEnvironment

from regwright.render.templates import TEMPLATE_LIMIT, TemplateProblem

#: The longest text that one expression of a template may make by repetition, and its output.
LONGEST = 64 << 20


class _Sandbox(ImmutableSandboxedEnvironment):
    """The sandbox of jinja2, with repetition and powers kept within bounds too."""

    intercepted_binops = frozenset(["*", "**"])

    def call_binop(
        self, context: jinja2.runtime.Context, operator: str, left: Any, right: Any
    ) -> Any:
        if operator == "**" and (abs(left) > 1 << 64 or abs(right) > 64):
            raise jinja2.exceptions.SecurityError("a power is too large")
        for one, other in ((left, right), (right, left)):
            if isinstance(one, int) and hasattr(other, "__len__") and one * len(other) > LONGEST:
                raise jinja2.exceptions.SecurityError("a repetition is too long")
        return super().call_binop(context, operator, left, right)


def _no_other_template(name: str) -> str:
    raise jinja2.exceptions.SecurityError(f"a template may not read another file ({name})")


def render_untrusted(path: Path, context: dict[str, Any]) -> str:
    """Return what the template in the file ``path`` makes of ``context``.

    Raises :class:`TemplateProblem` with the template's name and line.
    """
    try:
        source = path.read_bytes()
        if len(source) > TEMPLATE_LIMIT:
            raise TemplateProblem(f"{path}: the template is larger than {TEMPLATE_LIMIT} bytes")
        text = source.decode("utf-8")
    except (OSError, UnicodeDecodeError) as problem:
        raise TemplateProblem(f"{path}: cannot be read: {problem}") from None
    environment = _Sandbox(
        loader=jinja2.FunctionLoader(_no_other_template),
        undefined=jinja2.StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=True,
    )
    try:
        template = environment.from_string(text)
        return _joined(template.generate(context))
    except jinja2.TemplateSyntaxError as problem:
        raise TemplateProblem(f"{path}:{problem.lineno}:1: error: {problem.message}") from None
    except Exception as problem:
        # a template is a program of the user's: whatever it raises is the template's mistake
        line = _template_line(problem)
        raise TemplateProblem(f"{path}:{line}:1: error: {problem}") from None


def _joined(pieces: Any) -> str:
    parts = []
    length = 0
    for piece in pieces:
        length += len(piece)
        if length > LONGEST:
            raise jinja2.exceptions.SecurityError("the output is too long")
        parts.append(piece)
    return "".join(parts)


def _template_line(problem: BaseException) -> int:
    """Return the template's line on which ``problem`` was raised."""
    line = 1
    traceback = problem.__traceback__
    while traceback is not None:
        if traceback.tb_frame.f_code.co_filename == "<template>":
            line = traceback.tb_lineno
        traceback = traceback.tb_next
    return line
