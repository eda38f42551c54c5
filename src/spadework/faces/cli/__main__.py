"""`python -m spadework.faces.cli`."""

from spadework.faces.cli.main import run

run()
