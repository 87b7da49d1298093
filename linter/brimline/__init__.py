"""Brimline compares an edited home-preserving formula with the tested formula it departs from."""

__version__ = "0.1.0"
