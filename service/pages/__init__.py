"""Server-rendered pages: each folder one kind of page with its templates."""
