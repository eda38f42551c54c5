"""Runs plantings through the years. Arrays [..., year, day]. Pure."""
