"""What the words of a text as a whole tell, learned from told texts; it never takes back what was said outright."""
