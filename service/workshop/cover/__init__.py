"""What the rules say nothing of, say twice, or say in vain: a list of what is left to mend, file and line with each."""

from service.workshop.cover.all import cover, findings

__all__ = ["cover", "findings"]
