"""How Alembic runs the steps: on the connection that the store gives it, inside the transaction that is open there."""

from __future__ import annotations

from alembic import context

from axlewright.store._schema import tables

context.configure(connection=context.config.attributes["connection"], target_metadata=tables, transactional_ddl=True)
context.run_migrations()
