"""A book for tests of the garden: entries by hand, and a long one made by rule, all of it invented."""

from __future__ import annotations

from bench.long_book import SPRING, Pen, long_book

__all__ = ["SPRING", "Pen", "long_book"]
