"""The visit sheet: what the technician opens, and the outcome form."""
