"""What the sender wants: a visit, a price, a person, an end."""
