-- +goose Up
-- Whose words an entry was read from, where they were not its maker's: the words
-- are not stored, and the entry goes when their author is forgotten.
CREATE TABLE quoted (
    entry    INTEGER PRIMARY KEY REFERENCES entries (id) ON DELETE CASCADE,
    platform TEXT NOT NULL,
    author   TEXT NOT NULL
) STRICT;
CREATE INDEX quoted_author ON quoted (platform, author);
