"""The desk: what the office reads and does."""
