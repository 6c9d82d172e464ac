-- Times are microseconds since 1970 UTC. JSON is kept as text so that an
-- answer can be sent again exactly as it was recorded.

-- +goose Up
-- A channel of a guild. Every query of a person is bound to one.
CREATE TABLE rooms (
    id       INTEGER PRIMARY KEY AUTOINCREMENT,
    platform TEXT NOT NULL,
    guild    TEXT NOT NULL,
    channel  TEXT NOT NULL,
    UNIQUE (platform, channel, guild)
) STRICT;

CREATE TABLE entries (
    id           INTEGER PRIMARY KEY AUTOINCREMENT, -- never used twice: buttons in rooms carry it
    room         INTEGER NOT NULL REFERENCES rooms (id),
    at           INTEGER NOT NULL,
    delivered_at INTEGER,
    expired_at   INTEGER,
    held_until   INTEGER NOT NULL DEFAULT 0, -- whoever sends the answer now
    held_by      TEXT NOT NULL DEFAULT '',
    platform     TEXT NOT NULL,
    guild        TEXT NOT NULL,
    channel      TEXT NOT NULL,
    message      TEXT NOT NULL,
    maker        TEXT NOT NULL,
    request      TEXT NOT NULL,
    outline      TEXT NOT NULL,
    status       TEXT NOT NULL CHECK (status IN ('answered', 'refused', 'failed')),
    version      TEXT NOT NULL,
    delivered    TEXT NOT NULL DEFAULT '',
    typed        TEXT NOT NULL,
    line         TEXT NOT NULL,
    headline     TEXT NOT NULL,
    problem      TEXT NOT NULL,
    try          TEXT NOT NULL,
    words        TEXT NOT NULL, -- what the words table holds of this entry
    args         TEXT NOT NULL,
    route        TEXT NOT NULL,
    figures      TEXT NOT NULL,
    answer       TEXT NOT NULL
) STRICT;

-- An event is answered once; entries without an event are always new.
CREATE UNIQUE INDEX entries_event ON entries (platform, channel, message) WHERE message <> '';
-- A page is read by it, and a summary from it alone.
CREATE INDEX entries_room ON entries (room, id, at, request, outline, status);
CREATE INDEX entries_maker ON entries (platform, maker);
CREATE INDEX entries_guild ON entries (platform, guild, at);
CREATE INDEX entries_pending ON entries (platform, id) WHERE delivered_at IS NULL AND expired_at IS NULL;

-- Search within a room: the words of the text, and facets like outline=oval.
CREATE TABLE words (
    room  INTEGER NOT NULL,
    word  TEXT NOT NULL,
    entry INTEGER NOT NULL,
    PRIMARY KEY (room, word, entry)
) STRICT, WITHOUT ROWID;

CREATE TABLE settings (
    kind     TEXT NOT NULL CHECK (kind IN ('maker', 'channel', 'guild')),
    platform TEXT NOT NULL,
    scope    TEXT NOT NULL,
    name     TEXT NOT NULL,
    value    TEXT NOT NULL,
    set_by   TEXT NOT NULL,
    set_at   INTEGER NOT NULL,
    PRIMARY KEY (kind, platform, scope, name)
) STRICT, WITHOUT ROWID;

CREATE TABLE corrections (
    id             INTEGER PRIMARY KEY AUTOINCREMENT,
    platform       TEXT NOT NULL,
    maker          TEXT NOT NULL,
    alloy          TEXT NOT NULL,
    thickness_mm   REAL NOT NULL,
    neutral_factor REAL NOT NULL,
    kerf_mm        REAL NOT NULL,
    trials         TEXT NOT NULL,
    at             INTEGER NOT NULL,
    UNIQUE (platform, maker, alloy, thickness_mm)
) STRICT;
