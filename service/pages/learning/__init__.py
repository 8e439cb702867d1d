"""What outcomes would change in the weights, for the author to accept, hold fast or undo."""
