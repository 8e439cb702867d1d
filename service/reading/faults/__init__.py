"""What is said to be wrong, and whether it is said, denied, over, or somebody else's."""
