"""``regwright emit``: check descriptions, then write headers, check files and reports."""

from __future__ import annotations

import re
import sys
from pathlib import Path
from typing import TYPE_CHECKING

import click

from regwright.cli.exits import CLEAN, COULD_NOT_RUN, FINDINGS
from regwright.cli.inputs import CannotRead, expand, load
from regwright.cli.terminal import complain, count, print_findings, progress

if TYPE_CHECKING:
    from regwright.pipeline import Checked
    from regwright.rules.settings import Settings
    from regwright.write.files import Pending


def _prefix(_ctx: click.Context, _parameter: click.Parameter, value: str) -> str:
    if not re.fullmatch(r"([A-Za-z_][A-Za-z0-9_]{0,47})?", value):
        raise click.BadParameter("letters, digits and underscores only, no digit first")
    return value


def _family(_ctx: click.Context, _parameter: click.Parameter, value: str | None) -> str | None:
    if value is not None:
        from regwright.render.family import refusal

        why = refusal(value)
        if why:
            raise click.BadParameter(why)
    return value


@click.command(
    "emit",
    short_help="Write headers, compiler checks and reports.",
    epilog="Example: regwright emit descriptions --to out",
)
@click.argument("descriptions", nargs=-1, required=True, metavar="DESC...")
@click.option(
    "--to", "folder", default="out", metavar="FOLDER", show_default=True, help="Where the files go."
)
@click.option(
    "--template",
    "templates",
    multiple=True,
    metavar="NAME-or-FILE",
    help="Use this template (header, check, report, make, cmake, linker, size, drawing, or a file "
    "of your own) instead of all that suit the chip; may be repeated.",
)
@click.option(
    "--prefix",
    default="",
    metavar="TEXT",
    callback=_prefix,
    help="Put TEXT before every macro name.",
)
@click.option(
    "--family",
    metavar="NAME",
    callback=_family,
    help="Write NAME.h, too, which includes the header of the chip that is built for.",
)
@click.option(
    "--check",
    "only_check",
    is_flag=True,
    help="Write nothing; print a diff and exit with 1 when the folder is not current.",
)
@click.option("--depfile", metavar="FILE", help="Write what depends on what, for make.")
def command(
    descriptions: tuple[str, ...],
    folder: str,
    templates: tuple[str, ...],
    prefix: str,
    family: str | None,
    only_check: bool,  # noqa: FBT001
    depfile: str | None,
) -> None:
    """Check descriptions, then write <chip>.h, <chip>_check.c and <chip>.report.md.

    A chip whose memories or names for tools are described also gets <chip>.mk, <chip>.cmake,
    <chip>_memory.ld and <chip>_size.sh, one with packages <chip>_<package>.svg.

    With --family, what is defined chooses the chip: the macro that its compiler defines
    (compilerMacro), or REGWRIGHT_FOR_<CHIP>. Devices are not chosen.

    Nothing is written when a description has an error. A file that would not change is left
    alone. Exits with 0 when all is written or current, 1 on findings or differences, 2 when
    something could not be read or written.
    """
    from regwright.cli.settings_file import BadConfig, settings
    from regwright.render.family import FamilyProblem
    from regwright.render.templates import SHIPPED, TemplateProblem, refuse_unsuited
    from regwright.write.files import CannotWrite

    try:
        checked = _check_all(descriptions, prefix, settings())
        if any(item.has_errors for item in checked):
            _refuse(checked)
        refuse_unsuited(list(templates), [item.resolved.chip for item in checked if item.resolved])
        names = list(templates) or list(SHIPPED)
        files = _render_all(checked, names, Path(folder), family)
        if only_check:
            _compare(files)
            return
        if depfile is not None:
            files.append(_depfile(depfile, files, [item.source.name for item in checked], names))
        _write(files)
    except BadConfig as problem:
        click.echo(str(problem), err=True)
        sys.exit(COULD_NOT_RUN)
    except (CannotRead, CannotWrite, FamilyProblem, TemplateProblem) as problem:
        complain(str(problem))
        sys.exit(COULD_NOT_RUN)


def _check_all(descriptions: tuple[str, ...], prefix: str, settings: Settings) -> list[Checked]:
    """Check every description. Raises :class:`CannotRead`, also when two describe one chip."""
    from regwright.pipeline import check

    paths = expand(descriptions)
    results = (check(load(path), prefix, settings) for path in paths)
    checked = list(progress(results, len(paths)))
    seen: dict[str, str] = {}
    for item in checked:
        if item.resolved is None:
            continue
        name = item.resolved.chip.name.lower()
        if name in seen:
            raise CannotRead(
                f"{item.source.name} and {seen[name]} both describe {name!r}; "
                "the files of one would replace those of the other; rename one"
            )
        seen[name] = item.source.name
    return checked


def _refuse(checked: list[Checked]) -> None:
    found = [finding for item in checked for finding in item.findings]
    print_findings(found, err=True)
    click.echo(f"{count(found, len(checked))}; nothing was written", err=True)
    sys.exit(FINDINGS)


def _render_all(
    checked: list[Checked], templates: list[str], folder: Path, family: str | None
) -> list[Pending]:
    """Return every file to write, having shown the findings that are more than notes.

    Raises ``CannotWrite``, ``FamilyProblem`` and ``TemplateProblem``.
    """
    from regwright.model.finding import NOTE
    from regwright.pipeline import emit, emit_family
    from regwright.write.files import pending

    files = []
    for item in checked:
        grave = [found for found in item.findings if found.finding.level != NOTE]
        print_findings(grave, err=True)
        files += [pending(folder, name, text) for name, text in emit(item, templates)]
    if family is not None:
        files.append(pending(folder, *emit_family(family, checked)))
    return files


def _compare(files: list[Pending]) -> None:
    """Print what is not current and exit."""
    from regwright.write.files import changed, difference

    stale = changed(files)
    for item in stale:
        click.echo("".join(difference(item)), nl=False)
    current = len(files) - len(stale)
    click.echo(f"{current} of {len(files)} files are current", err=True)
    sys.exit(FINDINGS if stale else CLEAN)


def _depfile(name: str, files: list[Pending], sources: list[str], templates: list[str]) -> Pending:
    from regwright.render.templates import SHIPPED
    from regwright.write.depfile import depfile
    from regwright.write.files import Pending

    inputs = [Path(source) for source in sources]
    inputs += [Path(template) for template in templates if template not in SHIPPED]
    text = depfile([item.path for item in files], inputs)
    return Pending(Path(name), text.encode("utf-8", "surrogateescape"))


def _write(files: list[Pending]) -> None:
    from regwright.write.files import write

    written = write(files)
    for path in written:
        click.echo(path.as_posix())
    click.echo(f"{len(written)} written, {len(files) - len(written)} already current", err=True)
