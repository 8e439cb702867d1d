"""How good the shop's diagnoses were, in figures and pictures, each with the table behind it."""
