"""The checks: a folder per room, and whole journeys."""
