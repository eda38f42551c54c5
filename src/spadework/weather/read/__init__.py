"""Readers: bytes in, a daily series out, or the whole file refused with every fault in it."""
