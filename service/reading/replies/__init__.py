"""What a short text answers to the question asked last."""
