"""The phone page: a simulated customer phone to try the line."""
