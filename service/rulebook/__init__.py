"""What an author may write; loading, checking, compiling into one immutable Rulebook. Pure but for reading files."""
