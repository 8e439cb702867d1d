"""What an author may write: one model per kind of rule file. Loading and checking live beside this package."""
