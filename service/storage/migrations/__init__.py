"""The way from an empty database to these tables, one step a version; run by ``service.storage.migrate``."""
