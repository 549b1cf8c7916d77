"""The tables of a campaign's database, version by version."""

from __future__ import annotations

VERSION = 4
"""Store version written by this program."""

STEPS: dict[int, tuple[str, ...]] = {
    1: (
        "create table about (key varchar primary key, value varchar not null)",
        """create table run (
            run varchar primary key,
            file varchar not null,
            sha256 varchar not null,
            mapping varchar not null,
            raw varchar not null,
            rows bigint not null,
            seconds double not null,
            start_utc_s double,
            repeated bigint not null,
            cut_short boolean not null,
            preamble varchar not null
        )""",
        """create table channel (
            run varchar not null,
            channel varchar not null,
            file_column varchar not null,
            unit varchar not null,
            missing bigint not null,
            primary key (run, channel)
        )""",
        """create table flag (
            run varchar not null,
            channel varchar not null,
            first_row bigint not null,
            last_row bigint not null,
            reason varchar not null
        )""",
        """create table span (
            run varchar not null,
            span integer not null,
            begin_s double not null,
            end_s double not null,
            steady boolean not null,
            reason varchar not null,
            primary key (run, span)
        )""",
        """create table reading (
            run varchar not null,
            span integer not null,
            quantity varchar not null,
            value double not null,
            standard_uncertainty double,
            degrees_of_freedom double,
            unit varchar not null,
            primary key (run, span, quantity)
        )""",
        "create table reduction (run varchar primary key, recipe varchar not null)",
    ),
    2: (
        """create table cells (
            run varchar primary key,
            recipe varchar not null,
            file varchar not null,
            counts varchar not null
        )""",
        "delete from flag",
        "delete from reduction",
    ),
    3: (
        """create table zero (
            run varchar not null,
            channel varchar not null,
            time_s double not null,
            value_si double not null,
            standard_error_si double not null,
            raw double not null
        )""",
        "delete from reduction",
    ),
    4: (
        """create table windows (
            run varchar primary key,
            recipe varchar not null,
            file varchar not null
        )""",
    ),
}
"""Statements that take a store from the version before to each version; older stores are taken along."""
