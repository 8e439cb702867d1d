"""Which machine is spoken of, whose, what kind, and whose make."""
