"""The steps of the schema, for Alembic. A step that was released is never edited: another one comes after it."""
