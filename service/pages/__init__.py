"""Server-rendered pages: the desk, the visit sheet, the simulated phone. They turn rows into values, and those into HTML."""
