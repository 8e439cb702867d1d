"""Sign-in, roles, signed links, audit trail."""
