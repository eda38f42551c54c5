"""Sheets of paper: the round, a bed's card, labels for rows; what still works when nothing else does."""
