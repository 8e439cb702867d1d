"""Sentences in two languages, their segments and reading grade. Pure."""
