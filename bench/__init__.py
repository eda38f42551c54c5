"""Benchmarks of the answers a person waits for, beside two season models on the same weather."""
