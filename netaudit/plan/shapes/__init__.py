"""The keys of every mapping in a plan, in one place for reading, writing, schema and manual."""
