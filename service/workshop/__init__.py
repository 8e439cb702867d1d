"""For rule authors: check the rules, run their examples, try them."""
