"""Text to Reading: language, intents, appliances, symptoms, hazards, facts, wishes. Pure."""
