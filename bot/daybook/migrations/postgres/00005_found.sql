-- +goose Up
-- Lets one index hold numbers and words. The owner of a database may create it.
CREATE EXTENSION IF NOT EXISTS btree_gin;

-- What an entry can be found by: its words and the word of its room.
ALTER TABLE entries ADD COLUMN found TSVECTOR NOT NULL GENERATED ALWAYS AS (
    array_to_tsvector(array_remove(string_to_array('room=' || room::text || E'\n' || words, E'\n'), ''))
) STORED;

-- The search index. A search reads it in chunks of 2^14 ids, the latest first.
CREATE INDEX entries_found ON entries USING gin ((id >> 14), found) WITH (fastupdate = off);
-- Finds a room's first and last entry of a day, in microseconds.
CREATE INDEX entries_day ON entries (room, (at / 86400000000), id);

DROP INDEX entries_guild;
DROP TABLE words;
DROP TABLE blocks;
DROP TABLE common;
DROP TABLE next_block;
