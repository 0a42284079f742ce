"""The templates: which there are, what each is given, and how its output is called."""

from __future__ import annotations

import sys
from collections.abc import Callable
from contextlib import suppress
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING, Any, NamedTuple

from regwright.format.resources import folder
from regwright.model.chip import Chip
from regwright.render.checks import all_checks
from regwright.render.report import report_view
from regwright.render.safe_text import comment, markdown
from regwright.render.views import Input, chip_view

if TYPE_CHECKING:
    import jinja2

#: A user's template larger than this is refused.
TEMPLATE_LIMIT = 1 << 20


class TemplateProblem(Exception):
    """A template cannot be read, parsed or rendered; the message says where and why."""


class Output(NamedTuple):
    """A rendered file: its name, without a folder, and its text."""

    name: str
    text: str


def _any(_chip: Chip) -> bool:
    return True


class Shipped(NamedTuple):
    """A template of our own: its file, the end of its output's name, and what it is given.

    It is for chips that it ``suits``: those that have ``needs``, in words.
    """

    file: str
    ending: str
    context: Callable[[Input], dict[str, Any]]
    suits: Callable[[Chip], bool] = _any
    needs: str = ""


def _header_context(data: Input) -> dict[str, Any]:
    return {"chip": chip_view(data)}


def _check_context(data: Input) -> dict[str, Any]:
    chip = data.resolved.chip
    return {"name": chip.name, "source": comment(data.source), "checks": all_checks(data)}


def _report_context(data: Input) -> dict[str, Any]:
    chip = chip_view(data._replace(macros=data.macros._replace(registers=[])))
    report = report_view(data)
    findings = [item._replace(place=markdown(item.place)) for item in report.findings]
    return {
        "chip": chip._replace(
            title=markdown(chip.title),
            source=chip.source.replace("`", "'"),  # it stands between two of these
            checked_against=markdown(chip.checked_against),
        ),
        "report": report._replace(findings=findings),
    }


def _fragment_context(data: Input) -> dict[str, Any]:
    from regwright.render.fragments import fragment_context

    return fragment_context(data)


def _is_built_for(chip: Chip) -> bool:
    return chip.kind == "chip" and bool(chip.memories or chip.build)


def _has_memories(chip: Chip) -> bool:
    return chip.kind == "chip" and bool(chip.memories)


def _holds_programs(chip: Chip) -> bool:
    kinds = {memory.kind for memory in chip.memories}
    return chip.kind == "chip" and bool(kinds & {"flash", "rom", "ram"})


def _has_packages(chip: Chip) -> bool:
    return bool(chip.packages)


#: The name of the template that is none: a drawing for each package.
DRAWING = "drawing"
_TOOLS = "a chip with memories or names for tools"

SHIPPED: dict[str, Shipped] = {
    "header": Shipped("header.h.j2", ".h", _header_context),
    "check": Shipped("check.c.j2", "_check.c", _check_context),
    "report": Shipped("report.md.j2", ".report.md", _report_context),
    "make": Shipped("make.mk.j2", ".mk", _fragment_context, _is_built_for, _TOOLS),
    "cmake": Shipped("cmake.cmake.j2", ".cmake", _fragment_context, _is_built_for, _TOOLS),
    "linker": Shipped(
        "memory.ld.j2", "_memory.ld", _fragment_context, _has_memories, "a chip with memories"
    ),
    "size": Shipped(
        *("size.sh.j2", "_size.sh", _fragment_context, _holds_programs),
        "a chip with a memory for programs or data",
    ),
    DRAWING: Shipped("", ".svg", _header_context, _has_packages, "packages with pins"),
}


def template_file(name: str) -> Path:
    """Return the file of a user's template.

    Raises :class:`TemplateProblem` when there is none.
    """
    path = Path(name)
    try:
        found = path.is_file()
    except OSError:  # the name is too long for a file, say
        found = False
    if not found:
        known = ", ".join(SHIPPED)
        raise TemplateProblem(f"{name[:200]}: no such template; give a file, or one of {known}")
    return path


@cache
def own_environment(*, autoescape: bool = False) -> jinja2.Environment:
    """Return the engine for our own templates, which are compiled once and kept.

    They are kept where jinja2 keeps such files: in a folder of the user's own among the temporary
    ones, which nobody else may write. Where that cannot be had, they are compiled each time.
    ``autoescape`` is for HTML; C and Markdown are escaped before.
    """
    import jinja2

    class Cache(jinja2.FileSystemBytecodeCache):
        def load_bytecode(self, bucket: jinja2.bccache.Bucket) -> None:
            try:
                super().load_bytecode(bucket)
            except Exception:  # whatever a damaged file leads to: it is made anew
                bucket.reset()

        def dump_bytecode(self, bucket: jinja2.bccache.Bucket) -> None:
            with suppress(OSError):
                super().dump_bytecode(bucket)

    try:
        cached = Cache(pattern=f"regwright-%s.{sys.implementation.cache_tag}")
    except (OSError, RuntimeError):
        cached = None
    return jinja2.Environment(
        loader=jinja2.FileSystemLoader(folder("templates")),
        undefined=jinja2.StrictUndefined,
        autoescape=autoescape,  # noqa: S701
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=True,
        auto_reload=False,
        bytecode_cache=cached,
    )


def refuse_unsuited(names: list[str], chips: list[Chip]) -> None:
    """Raise :class:`TemplateProblem` for a template that makes nothing of any of ``chips``."""
    for name in names:
        if name in SHIPPED and not any(map(SHIPPED[name].suits, chips)):
            raise TemplateProblem(f"{name} makes nothing here: it needs {SHIPPED[name].needs}")


def render(name: str, data: Input) -> list[Output]:
    """Render the shipped template ``name``, or the user's template in the file ``name``.

    There is no output of a shipped one that does not suit the chip. Raises
    :class:`TemplateProblem`.
    """
    if name not in SHIPPED:
        return [_render_users(template_file(name), data)]
    shipped, chip = SHIPPED[name], data.resolved.chip
    if not shipped.suits(chip):
        return []
    if name == DRAWING:
        from regwright.render.drawings import drawings

        return [Output(*drawing) for drawing in drawings(chip)]
    template = own_environment().get_template(shipped.file)
    return [Output(chip.name + shipped.ending, template.render(shipped.context(data)))]


def _render_users(path: Path, data: Input) -> Output:
    from regwright.render.sandbox import render_untrusted

    stem, _, ending = path.name.removesuffix(".j2").partition(".")
    context: dict[str, Any] = {}
    for given in (_check_context, _report_context, _fragment_context):
        context.update(given(data))
    context["chip"] = chip_view(data)
    text = render_untrusted(path, context)
    chip = data.resolved.chip.name
    return Output(f"{chip}_{stem}" + (f".{ending}" if ending else ""), text)
