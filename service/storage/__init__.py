"""Tables, engine, migrations, and the queries of each topic."""
