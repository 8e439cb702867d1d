"""Names, addresses, makers' plates, payers, what was tried: the facts beside the fault."""
