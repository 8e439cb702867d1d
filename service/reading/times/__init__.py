"""When: days, hours, dates, wishes, offers, since when and how old."""
