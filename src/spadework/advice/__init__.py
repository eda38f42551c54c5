"""Opinions: courses, beds and state in, odds, options and reasons out. Pure."""
