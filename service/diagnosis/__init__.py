"""Evidence to belief over causes, next question, owner check, visit plan. Pure."""
