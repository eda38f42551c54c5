"""Spadework: a season engine for a kitchen garden kept in beds."""

__version__ = "0.1.0"
