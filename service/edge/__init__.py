"""To the carrier and back: webhook, gateway profiles, exchange, outbox, wakes."""
