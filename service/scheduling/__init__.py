"""Hours, windows, travel, offers, calendar files. Pure."""
