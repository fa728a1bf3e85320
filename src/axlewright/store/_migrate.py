"""Bring a database to a step of its schema. Imports Alembic: only when there is a step to make."""

from __future__ import annotations

from pathlib import Path

from alembic import command
from alembic.config import Config
from alembic.script import ScriptDirectory
from sqlalchemy import Connection

STEPS = Path(__file__).parent / "migrations"


def _config() -> Config:
    config = Config()
    config.set_main_option("script_location", str(STEPS).replace("%", "%%"))
    return config


def script() -> ScriptDirectory:
    """The steps that this program knows."""
    return ScriptDirectory.from_config(_config())


def upgrade(connection: Connection, to: str = "head") -> None:
    """Make all steps up to one, inside the transaction that is open: all of them or none."""
    config = _config()
    config.attributes["connection"] = connection
    command.upgrade(config, to)
