"""Tests of the diagnosis."""
