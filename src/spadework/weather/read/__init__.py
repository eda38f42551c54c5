"""Readers: bytes in, a Series out, or all faults of the file at once."""
