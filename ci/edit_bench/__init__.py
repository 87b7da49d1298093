"""Edits of tested formulas whose meaning is known beforehand, and the count of how many of them are found."""
