-- +goose Up
-- Who is answering which event, until when. A row goes when the event is
-- recorded.
CREATE TABLE claims (
    platform TEXT NOT NULL,
    channel  TEXT NOT NULL,
    message  TEXT NOT NULL,
    owner    TEXT NOT NULL,
    until    INTEGER NOT NULL,
    PRIMARY KEY (platform, channel, message)
) STRICT, WITHOUT ROWID;
CREATE INDEX claims_until ON claims (until);

-- One row, written to find out whether the store takes writes.
CREATE TABLE health (
    id INTEGER PRIMARY KEY CHECK (id = 1),
    at INTEGER NOT NULL
) STRICT;
