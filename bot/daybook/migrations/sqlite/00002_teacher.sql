-- +goose Up
CREATE TABLE amendments (
    id       INTEGER PRIMARY KEY AUTOINCREMENT,
    entry    INTEGER NOT NULL REFERENCES entries (id) ON DELETE CASCADE,
    at       INTEGER NOT NULL,
    by_maker TEXT NOT NULL,
    text     TEXT NOT NULL
) STRICT;
CREATE INDEX amendments_entry ON amendments (entry);
CREATE INDEX amendments_by ON amendments (by_maker);

CREATE TABLE rules (
    id       INTEGER PRIMARY KEY AUTOINCREMENT,
    kind     TEXT NOT NULL CHECK (kind IN ('maker', 'channel', 'guild')),
    platform TEXT NOT NULL,
    scope    TEXT NOT NULL,
    text     TEXT NOT NULL,
    by_maker TEXT NOT NULL,
    at       INTEGER NOT NULL
) STRICT;
CREATE INDEX rules_scope ON rules (kind, platform, scope);

CREATE TABLE retention (
    platform     TEXT NOT NULL,
    guild        TEXT NOT NULL,
    keep_seconds INTEGER NOT NULL CHECK (keep_seconds > 0),
    set_by       TEXT NOT NULL,
    set_at       INTEGER NOT NULL,
    PRIMARY KEY (platform, guild)
) STRICT, WITHOUT ROWID;
