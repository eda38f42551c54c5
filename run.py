#!/usr/bin/env python3
"""Set up once, then run.

    python3 run.py demo            a tour of real answers for a made-up garden
    python3 run.py test            every check this folder can run; one exit code
    python3 run.py test PATH ...   only these tests
    python3 run.py bench           the benchmarks (--write updates docs/performance.md)

Any other words go to the app itself: `python3 run.py odds frost --garden my-garden`.
Only the standard library is used here; the environments are built beside this file from the two lock files.
"""

from __future__ import annotations

import hashlib
import os
import subprocess
import sys
import time
import venv
from pathlib import Path

ROOT = Path(__file__).resolve().parent
UV = "0.13.9"
OLDEST = (3, 11)


def ready(group: str) -> Path:
    """Return the interpreter of an environment that matches the committed lock.

    An existing environment of the same Python is brought to the lock in place; any other is built anew.
    """
    if sys.version_info < OLDEST:
        sys.exit(f"Python 3.11 or newer is needed, this is {sys.version.split()[0]}. Try: python3.12 run.py")
    home, lock = ROOT / f".venv-{group}", ROOT / f"requirements-{group}.lock"
    python = home / ("Scripts/python.exe" if os.name == "nt" else "bin/python")
    pins = lock.read_bytes() + (ROOT / "pyproject.toml").read_bytes()
    state = hashlib.sha256(pins + sys.version.encode()).hexdigest()
    stamp = home / "ready"
    if stamp.exists() and stamp.read_text() == state:
        return python
    print(f"Setting up {home.name} (once) ...", file=sys.stderr, flush=True)
    started = time.monotonic()
    stamp.unlink(missing_ok=True)
    if not same_python(python):
        try:
            venv.create(home, with_pip=True, clear=True)
        except subprocess.CalledProcessError:
            sys.exit("Python's venv module is incomplete. On Debian or Ubuntu: apt install python3-venv")
    if not install(python, lock):
        sys.exit(f"Setting up {home.name} failed; the lines above say why. Mend that and run this again.")
    stamp.write_text(state)
    print(f"{home.name} is ready after {time.monotonic() - started:.0f} s.", file=sys.stderr, flush=True)
    return python


def install(python: Path, lock: Path) -> bool:
    """Install what the lock names and the project itself: by uv, or by pip where uv cannot."""
    pip = [str(python), "-m", "pip", "install", "-q", "--disable-pip-version-check"]
    uv = [str(python), "-m", "uv", "pip", "install", "-q", "--compile-bytecode", "--python", str(python)]
    wanted = (["--require-hashes", "-r", str(lock)], ["--no-deps", "-e", str(ROOT)])
    # Certificates come from the system, as they do for pip and the browser.
    trust = {"UV_SYSTEM_CERTS": "1", **os.environ}
    if subprocess.run([*pip, f"uv=={UV}"], capture_output=True, check=False).returncode == 0 and all(
        subprocess.run([*uv, *what], capture_output=True, env=trust, check=False).returncode == 0
        for what in wanted
    ):
        return True
    print("uv could not install the lock; pip tries.", file=sys.stderr, flush=True)
    return all(subprocess.run([*pip, *what], check=False).returncode == 0 for what in wanted)


def same_python(python: Path) -> bool:
    """Whether that interpreter exists and is the Python that runs this file."""
    if not python.exists():
        return False
    asked = subprocess.run(
        [str(python), "-c", "import sys; print(sys.version)"], capture_output=True, text=True, check=False
    )
    return asked.stdout.strip() == sys.version.strip()


def check_all(python: Path) -> int:
    """Run every gate, each named and timed, the tests last. 0 only if all passed."""
    home = python.parent
    gates = {
        "lint": [str(home / "ruff"), "check", "."],
        "format": [str(home / "ruff"), "format", "--check", "."],
        "types": [str(home / "mypy")],
        "rooms": [str(home / "lint-imports"), "--no-cache"],
        "dependencies": [str(home / "deptry"), "src"],
        "tests": [str(python), "-m", "pytest", "-n", "2", "--ignore", "tests/browser"],
        # apart: a browser driven from a process stops others' event loops in it
        "browser tests": [str(python), "-m", "pytest", "-n", "2", "tests/browser"],
    }
    failed = []
    for name, command in gates.items():
        print(f"== {name}", flush=True)
        started = time.monotonic()
        code = subprocess.run(command, cwd=ROOT, check=False).returncode
        outcome = "passed" if code == 0 else "FAILED"
        print(f"== {name}: {outcome} in {time.monotonic() - started:.1f} s", flush=True)
        if code != 0:
            failed.append(name)
    print(f"FAILED: {', '.join(failed)}" if failed else "All checks passed.", flush=True)
    return 1 if failed else 0


def main(words: list[str]) -> int:
    """Do what the words say and return the exit code."""
    if words[:1] == ["test"]:
        python = ready("dev")
        if not words[1:]:
            return check_all(python)
        command = [str(python), "-m", "pytest", *words[1:]]
        return subprocess.run(command, cwd=ROOT, check=False).returncode
    if words[:1] == ["bench"]:
        command = [str(ready("dev")), "-m", "bench", *words[1:]]
        return subprocess.run(command, cwd=ROOT, check=False).returncode
    command = [str(ready("run")), "-m", "spadework.faces.cli", *(words or ["--help"])]
    return subprocess.run(command, check=False).returncode


if __name__ == "__main__":
    try:
        sys.exit(main(sys.argv[1:]))
    except KeyboardInterrupt:
        sys.exit(130)
