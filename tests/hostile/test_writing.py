"""Outputs that cannot be written, and writing that is cut short."""

from __future__ import annotations

import os
import resource
import signal
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest
from hostile_chips import chip, files_below, run_here, write_chip

from conftest import Cli
from regwright.write import files
from regwright.write.files import CannotWrite, Pending, pending, write

OUTPUTS = {"c.h", "c_check.c", "c.report.md"}


def emitted(folder: Path, to: str | Path = "out", *more: str) -> tuple[int, str]:
    write_chip(folder)
    result = run_here(folder, "emit", "c.json", "--to", str(to), *more)
    return result.exit_code, result.output


CANNOT = {
    "a file": ("c.json", "c.json/c.h: cannot be written: c.json is a file, no folder"),
    "within a file": ("c.json/x", "c.json/x/c.h: cannot be written: Not a directory"),
    "within a device": ("/dev/null/x", "/dev/null/x/c.h: cannot be written: Not a directory"),
    "no real folder": ("/proc/x", "/proc/x/c.h: cannot be written: No such file or directory"),
    "read-only": ("/proc/self", "/proc/self/c.h: cannot be written: "),
    "a long name": ("x" * 300, f"{'x' * 300}/c.h: cannot be written: File name too long"),
    "a zero": ("a\0b", r"a\x00b/c.h: cannot be written: "),
}


@pytest.mark.parametrize("kind", CANNOT)
def test_folder_that_cannot_be_written(tmp_path: Path, kind: str) -> None:
    folder, says = CANNOT[kind]
    code, output = emitted(tmp_path, folder)
    assert code == 2
    assert output.startswith(f"regwright: {says}")
    assert output.endswith("; nothing was changed\n")
    assert files_below(tmp_path) == {"c.json"}


@pytest.mark.skipif(os.geteuid() == 0, reason="root may write everywhere; /proc above is for it")
def test_folder_without_permission(tmp_path: Path) -> None:
    (tmp_path / "out").mkdir(mode=0o500)
    code, output = emitted(tmp_path)
    assert code == 2
    assert "out/c.h: cannot be written: Permission denied; nothing was changed" in output


@pytest.mark.parametrize("name", sorted(OUTPUTS))
def test_folder_in_an_outputs_place(tmp_path: Path, name: str) -> None:
    (tmp_path / "out" / name).mkdir(parents=True)
    code, output = emitted(tmp_path)
    assert code == 2
    assert output == (
        f"regwright: out/{name}: cannot be written: Is a directory; nothing was changed\n"
    )
    assert files_below(tmp_path / "out") == {name}


def test_pipe_in_an_outputs_place_is_neither_read_nor_replaced(tmp_path: Path) -> None:
    (tmp_path / "out").mkdir()
    os.mkfifo(tmp_path / "out" / "c_check.c")
    says = "Is a device or a pipe, no file; nothing was changed"
    assert emitted(tmp_path) == (
        2,
        f"regwright: out/c_check.c: cannot be written: {says}\n",
    )
    assert files_below(tmp_path / "out") == {"c_check.c"}


def test_link_to_a_device_is_not_replaced(tmp_path: Path) -> None:
    (tmp_path / "deps.mk").symlink_to("/dev/null")
    code, output = emitted(tmp_path, "out", "--depfile", "deps.mk")
    assert code == 2
    assert "deps.mk: cannot be written: Is a device or a pipe, no file" in output
    assert (tmp_path / "deps.mk").is_symlink()
    assert files_below(tmp_path / "out") == set()


def test_link_to_a_file_is_replaced_and_the_file_left_alone(tmp_path: Path) -> None:
    (tmp_path / "elsewhere").write_text("keep")
    (tmp_path / "out").mkdir()
    (tmp_path / "out" / "c.h").symlink_to("../elsewhere")
    (tmp_path / "out" / "c_check.c").symlink_to("../nowhere")
    assert emitted(tmp_path)[0] == 0
    assert (tmp_path / "elsewhere").read_text() == "keep"
    assert not (tmp_path / "nowhere").exists()
    assert {path.name for path in (tmp_path / "out").iterdir()} == OUTPUTS
    assert not any(path.is_symlink() for path in (tmp_path / "out").iterdir())


def old_outputs(folder: Path) -> dict[str, str]:
    """Put an old file in the place of each output."""
    (folder / "out").mkdir()
    for name in OUTPUTS:
        (folder / "out" / name).write_text(f"old {name}")
    return contents(folder / "out")


def contents(folder: Path) -> dict[str, str]:
    return {path.name: path.read_text() for path in folder.iterdir()}


def test_file_too_large(tmp_path: Path) -> None:
    write_chip(tmp_path, **chip(title="x" * 200))
    old = old_outputs(tmp_path)
    done = subprocess.run(
        [sys.executable, "-B", "-m", "regwright", "emit", "c.json", "--to", "out"],
        cwd=tmp_path,
        capture_output=True,
        text=True,
        check=False,
        preexec_fn=lambda: resource.setrlimit(resource.RLIMIT_FSIZE, (700, 700)),
    )
    assert done.returncode == 2
    assert done.stderr == (
        "regwright: out/c.h: cannot be written: File too large; nothing was changed\n"
    )
    assert contents(tmp_path / "out") == old


def test_full_disk(tmp_path: Path) -> None:
    disk = tmp_path / "out"
    disk.mkdir()
    mount = ["mount", "-t", "tmpfs", "-o", "size=4k", "tmpfs", str(disk)]
    if subprocess.run(mount, check=False, capture_output=True).returncode:
        pytest.skip("mounting a small disk needs root; test_file_too_large fails alike")
    try:
        code, output = emitted(tmp_path)
        assert code == 2
        assert output.startswith("regwright: out/c")
        assert output.endswith("cannot be written: No space left on device; nothing was changed\n")
        assert files_below(disk) == set()
    finally:
        subprocess.run(["umount", str(disk)], check=True)


class Interrupted:
    """Stands in for a function and lets the second call be interrupted, before or after it."""

    def __init__(self, function: Callable[..., object], *, before: bool) -> None:
        self.function, self.before, self.calls = function, before, 0

    def __call__(self, *arguments: object) -> object:
        self.calls += 1
        if self.calls == 2 and self.before:
            raise KeyboardInterrupt
        result = self.function(*arguments)
        if self.calls == 2:
            raise KeyboardInterrupt
        return result


@pytest.mark.parametrize("before", [True, False])
@pytest.mark.parametrize("where", ["write", "replace"])
def test_interrupted(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, where: str, before: bool
) -> None:
    old = old_outputs(tmp_path)
    new = {name: f"new {name}" for name in old}
    if where == "write":
        monkeypatch.setattr(files, "_write_new", Interrupted(files._write_new, before=before))
    else:
        interrupted = Interrupted(Path.replace, before=before)

        def replace(path: Path, target: Path) -> object:
            return interrupted(path, target)

        monkeypatch.setattr(Path, "replace", replace)
    with pytest.raises(KeyboardInterrupt):
        write([pending(tmp_path / "out", name, text) for name, text in new.items()])
    found = contents(tmp_path / "out")
    assert found.keys() == old.keys()
    assert all(found[name] in (old[name], new[name]) for name in old)
    changed = sum(found[name] == new[name] for name in old)
    assert changed == (0 if where == "write" else 2 - before)


def test_half_written_content(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    old = old_outputs(tmp_path)
    fdopen = os.fdopen

    def half(handle: int, mode: str) -> object:
        file = fdopen(handle, mode)
        file.write(b"half")
        file.flush()
        assert any(path.name.endswith(".part") for path in (tmp_path / "out").iterdir())
        file.close()
        raise KeyboardInterrupt

    monkeypatch.setattr(os, "fdopen", half)
    with pytest.raises(KeyboardInterrupt):
        write([pending(tmp_path / "out", "c.h", "new")])
    assert contents(tmp_path / "out") == old


STOPS_ITSELF = """
import os, sys
number = int(sys.argv.pop())
from regwright.cli import main
from regwright.write import files
def stop(*arguments, write_new=files._write_new):
    write_new(*arguments)
    os.kill(os.getpid(), number)
files._write_new = stop
main()
"""


@pytest.mark.parametrize(("number", "code"), [(signal.SIGTERM, 143), (signal.SIGINT, 130)])
def test_stopped_half_way(tmp_path: Path, number: int, code: int) -> None:
    write_chip(tmp_path)
    old = old_outputs(tmp_path)
    done = subprocess.run(
        [sys.executable, "-c", STOPS_ITSELF, "emit", "c.json", "--to", "out", str(int(number))],
        cwd=tmp_path,
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == code
    assert "Traceback" not in done.stderr
    assert contents(tmp_path / "out") == old


def test_left_over_part_does_not_matter(tmp_path: Path) -> None:
    (tmp_path / "out").mkdir()
    left = tmp_path / "out" / f".{os.getpid()}-0.part"
    left.write_text("from a process that was killed")
    assert emitted(tmp_path)[0] == 0
    assert {path.name for path in (tmp_path / "out").iterdir()} == OUTPUTS


@pytest.mark.parametrize(
    "name", ["../x", "a/b", "a\\b", "a\0", ".x", "..", "", "c:x", "con", "NUL.h"]
)
def test_names_that_are_none(tmp_path: Path, name: str) -> None:
    with pytest.raises(CannotWrite, match=r"is no name for a file .*; choose another"):
        pending(tmp_path, name, "x")


def test_two_outputs_of_one_name(tmp_path: Path) -> None:
    (tmp_path / "check.c.j2").write_text("x")
    code, output = emitted(tmp_path, "out", "--template", "check", "--template", "check.c.j2")
    assert code == 2
    assert output == (
        "regwright: out/c_check.c: two outputs would be this file; rename a chip or template, "
        "or write them into folders of their own\n"
    )
    assert not (tmp_path / "out").exists()
    with pytest.raises(CannotWrite, match="two outputs"):
        write([Pending(tmp_path / "a", b"1"), Pending(tmp_path / "A", b"2")])


@pytest.mark.parametrize("name", ["a%b", "a=b", "a;b", "a|b", "a\\b", "a\nb"])
def test_depfile_that_make_would_misread(tmp_path: Path, name: str) -> None:
    code, output = emitted(tmp_path, name, "--depfile", "deps.mk")
    assert code == 2
    assert "make has no way to write this path; leave out --depfile" in output
    assert files_below(tmp_path) == {"c.json"}


def test_names_that_are_no_utf_8(cli: Cli, tmp_path: Path) -> None:
    name = os.fsdecode(b"\xff.json")
    write_chip(tmp_path, name)
    folder = os.fsdecode(b"o\xfe")
    done = cli("emit", name, "--to", folder, "--depfile", "deps.mk")
    assert done.returncode == 0
    assert done.stdout.splitlines()[0] == r"o\udcfe/c.h"
    assert b"o\xfe/c.h" in (tmp_path / "deps.mk").read_bytes()
    assert {path.name for path in (tmp_path / folder).iterdir()} == OUTPUTS
