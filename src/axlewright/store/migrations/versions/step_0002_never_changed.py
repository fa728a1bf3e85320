"""The database itself refuses to change or delete what was kept; how a thing stood before is found by its id."""

from __future__ import annotations

from alembic import op

revision = "0002"
down_revision = "0001"

TABLES = ("change", "record", "beside")
SAYS = "what is kept in a yard is never changed"


def upgrade() -> None:
    op.create_index("record_of_thing", "record", ["what", "id"])
    if op.get_bind().dialect.name == "sqlite":
        for table in TABLES:
            for deed in ("update", "delete"):
                op.execute(
                    f"create trigger {table}_no_{deed} before {deed} on {table} begin select raise(abort, '{SAYS}'); end"
                )
        return
    op.execute(
        f"create function axlewright_kept() returns trigger language plpgsql as $$ begin raise exception '{SAYS}'; end $$"
    )
    for table in TABLES:
        op.execute(
            f'create trigger {table}_kept before update or delete on "{table}"'
            " for each row execute function axlewright_kept()"
        )
