"""The tables of a yard in a database. Rows are added and never changed: what stands is the fold over them."""

from __future__ import annotations

from sqlalchemy import Column, ForeignKey, Index, Integer, LargeBinary, MetaData, Table, Text

NEWEST = "0002"
"""The newest step of the schema in migrations/versions; a test holds the two together."""
OLDER = ("0001",)
"""The steps before it, the oldest first."""

tables = MetaData()

change = Table(
    "change",
    tables,
    Column("number", Integer, primary_key=True, autoincrement=False),
    Column("who", Text, nullable=False),
    Column("at", Text),  # ISO 8601 in UTC; none where nobody said
    Column("note", Text, nullable=False),
)
"""A change that somebody made. The number of the last one is the mark of the yard."""

record = Table(
    "record",
    tables,
    Column("change", Integer, ForeignKey("change.number"), primary_key=True),
    Column("position", Integer, primary_key=True),
    Column("what", Text, nullable=False),
    Column("id", Text, nullable=False),
    Column("body", Text, nullable=False),  # JSON, what is as usual left out
    Index("record_of_thing", "what", "id"),
)
"""A record as it was given. Of a thing the last one of its id stands; of what history keeps, all."""

beside = Table(
    "beside",
    tables,
    Column("name", Text, primary_key=True),
    Column("data", LargeBinary, nullable=False),
    Column("change", Integer, ForeignKey("change.number"), nullable=False),
)
"""Frozen packs and photos; and of a yard that came from a folder its files as they came, with what people wrote in them."""

ARRIVED = "arrived"
"""The note of a change that brought a whole yard in."""
