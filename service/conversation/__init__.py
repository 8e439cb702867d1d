"""The turn: thread state and events in, new state, replies, ticket changes and reasons out. Pure."""
