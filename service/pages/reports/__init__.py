"""Reports: how good the line is."""
