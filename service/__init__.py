"""Plainfault: plain words in, structured fault out. A repair shop's text line."""

__version__ = "0.2.0"
