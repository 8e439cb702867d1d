"""Past turns taken again on edited rules: what would be answered otherwise. Nothing is sent and nothing is kept."""
