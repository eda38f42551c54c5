"""Choosing jobs for the minutes there are, and the walk past their beds."""
