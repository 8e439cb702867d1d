"""What a text is made of: folded, split, counted, spelled, in clauses; and phrases of the rules found in it."""
